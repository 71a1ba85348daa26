package bot

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// symptoms are words of what the tests' riders told of their health, and of
// what the planner makes of it.
var symptoms = []string{"fever", "cough", "throat", "head cold", "ill:", "unwell", "two days free", "illness", "knee"}

func noSymptoms(t *testing.T, what, text string) {
	t.Helper()
	for _, word := range symptoms {
		if strings.Contains(strings.ToLower(text), word) {
			t.Errorf("%s tells %q:\n%s", what, word, text)
		}
	}
}

func TestCoachesReadNoNotes(t *testing.T) {
	k := wheelers(t, 8)
	for _, line := range []string{"/coach digest", "/coach roster", "/coach athlete Farid", "/coach athlete Hugo"} {
		reply := k.ok(line)
		if !reply.Private {
			t.Errorf("%s is public", line)
		}
		noSymptoms(t, line, whole(reply))
	}
}

// Of an illness coaches see that the rider does not train, and no more.
func TestCoachesSeeNoSymptoms(t *testing.T) {
	week, err := typed.Week(inesWeek)
	if err != nil {
		t.Fatal(err)
	}
	today := planner.NewDate(2026, 6, 2)
	for _, told := range [][]string{{"fever"}, {"cold"}, {"chest pain"}, {"sore knee"}} {
		for from := range 8 {
			for _, to := range []planner.Date{0, today.AddDays(1), today.AddDays(-3)} {
				ill := planner.Illness{From: today.AddDays(-from), To: to, Symptoms: told}
				if to != 0 && to < ill.From {
					continue
				}
				f := &planner.Facts{Weeks: []planner.DatedWeek{{From: today.AddDays(-90), Week: week}}, Ill: []planner.Illness{ill},
					Races: []planner.Race{{Name: "Hill Loop", Date: today.AddDays(5), Days: 1, Hours: 3, Registered: today.AddDays(-60)}}}
				s := &standing{name: "Ines", today: today, facts: ledger{f, f}, next: &f.Races[0]}
				s.planDays()
				var p page
				p.add(plainLines(slices.Concat([]string{s.line()}, s.lookAt(), s.choices)...)...)
				s.addRaces(&p)
				s.addDays(&p)
				s.addRidden(&p)
				club := &storage.Club{Name: "Marrow Vale Wheelers"}
				text := textOf(p.done()) + string(riderList(club, []standing{*s}).Data)
				noSymptoms(t, fmt.Sprint(told, ill.From, ill.To), text)
				if to == 0 || to >= today {
					if !s.health || !strings.Contains(text, "\nTue 2 Jun  "+notTraining+"\n") || !slices.Contains(s.needs, notTraining) {
						t.Errorf("%v from %s to %v: want that the rider does not train:\n%s", told, ill.From, ill.To, text)
					}
				}
			}
		}
	}
}

// crowd stores 40 riders with long and odd names, each with four A races too near
// each other, two races on a day, and results.
func crowd(t *testing.T) *talk {
	k := wheelers(t, 8)
	week, err := typed.Week(inesWeek)
	if err != nil {
		t.Fatal(err)
	}
	club := k.club()
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for i := range 40 {
		name := fmt.Sprintf("%s_%02d*", strings.Repeat([]string{"Ana_Lú*", "𝕏*", "W"}[i%3], 9), i%36)
		a, err := k.db.EnsureAthlete(t.Context(), club.ID, storage.PlatformKey("discord", fmt.Sprint(i)), name)
		check(err)
		if i%5 > 0 {
			check(k.db.SetWeek(t.Context(), a.ID, planner.NewDate(2026, 5, 1), planner.DatedWeek{From: planner.NewDate(2026, 5, 1), Week: week}))
		}
		for j := range 6 {
			race := planner.Race{Name: strings.Repeat("*Hill_Loop* ", 15) + fmt.Sprint(i, j), Date: planner.NewDate(2026, 5, 30).AddDays(5 * j), Days: 1 + j%3, Hours: 3}
			added, _, err := k.db.AddRace(t.Context(), a.ID, planner.NewDate(2026, 4, 1), race)
			check(err)
			if j == 0 {
				check(k.db.SetResult(t.Context(), a.ID, storage.Result{Race: added.ID, Feeling: 7, Place: strings.Repeat("4_th ", 30), Note: "fever"}))
			}
		}
	}
	return k
}

// Whatever a club holds, digest and roster fit one message, name what they leave
// out, and each button is for coaches alone.
func TestDigestFitsOneMessage(t *testing.T) {
	k := crowd(t)
	for _, line := range []string{"/coach digest", "/coach roster"} {
		reply := k.ok(line)
		if n := units(reply.Text()); n > mostDigest || n < 1000 {
			t.Errorf("%s takes %d units", line, n)
		}
		if lines := strings.Count(reply.Text(), "\n") + 1; line == "/coach roster" && lines > 45 {
			t.Errorf("%s has %d lines", line, lines)
		}
		wants(t, reply, "Marrow Vale Wheelers: 48 riders, ", "  and ", " more", ridersFile)
		noSymptoms(t, line, whole(reply))
		if len(reply.Buttons) == 0 || len(reply.Buttons) > mostButtons || len(reply.Files) != 1 || reply.Files[0].Name != ridersFile {
			t.Fatalf("%s: %d buttons, files %v", line, len(reply.Buttons), reply.Files)
		}
		labels := map[string]bool{}
		for _, b := range reply.Buttons {
			if labels[b.Label] || units(b.Label) > 2*80 || utf8.RuneCountInString(b.Label) > 80 {
				t.Errorf("%s: button %q is there twice or long", line, b.Label)
			}
			labels[b.Label] = true
			k.who.Coach = true
			if r := k.ask(b.Command, b.Options, ""); r.Err != nil || !strings.HasPrefix(r.Text(), b.Options["athlete"]) || !r.Private {
				t.Errorf("%s: button %q answers %s", line, b.Label, r.Text())
			}
			k.who.Coach = false
			if r := k.ask(b.Command, b.Options, ""); r.Err == nil || r.Err.Field != "command" {
				t.Errorf("%s: button %q is not for coaches alone: %s", line, b.Label, r.Text())
			}
			k.who.Coach = true
		}
		list := string(reply.Files[0].Data)
		athletes, err := k.db.Athletes(t.Context(), k.club().ID)
		if err != nil {
			t.Fatal(err)
		}
		names := tellApart(athletes)
		for _, name := range names {
			if strings.Count(list, "\n"+name+": ") != 1 {
				t.Errorf("%s: %s is not in %s once", line, name, ridersFile)
			}
		}
	}
}

func TestDigestKeepsToItsClub(t *testing.T) {
	k := wheelers(t, 8)
	k.who.Club = "Tallow Brook Riders"
	k.as("Zora")
	k.ok("/week share week:"+Quote(inesWeek), `/race add name:"Secret Cup" date:2026-06-06 priority:A hours:2`, `/race add name:"Secret Ring" date:2026-06-06 priority:B`)
	for _, club := range []struct{ name, own, other string }{{"Marrow Vale Wheelers", "Hill Loop", "Secret"}, {"Tallow Brook Riders", "Secret Cup", "Hill Loop"}} {
		k.who.Club = club.name
		for _, line := range []string{"/coach digest", "/coach roster"} {
			reply := whole(k.ok(line))
			if !strings.Contains(reply, club.own) || strings.Contains(reply, club.other) || strings.Contains(reply, "Zora") != (club.own == "Secret Cup") {
				t.Errorf("%s of %s:\n%s", line, club.name, reply)
			}
		}
	}
	wants(t, k.refused("/coach athlete Ines", "athlete"), "no rider of the club is called \"Ines\". Riders: Zora")
	for _, o := range k.bot.Offer(t.Context(), k.who, "coach athlete", "athlete", "") {
		if o.Value != "Zora" {
			t.Errorf("offers %q", o.Value)
		}
	}
}

func TestQuietDigest(t *testing.T) {
	k := newTalk(t)
	k.who.Coach = true
	wants(t, k.ok("/coach roster"), "Marrow Vale Wheelers has no rider yet.")
	wants(t, k.ok("/coach digest"), "Marrow Vale Wheelers: 0 riders, nobody tapers")
	wants(t, k.refused("/coach athlete Ines", "athlete"), "the club has no rider yet")
	k.ok("/week share week:" + Quote(inesWeek))
	club := k.club()
	reply, err := k.bot.Digest(t.Context(), club, k.who.Now)
	if want := "Marrow Vale Wheelers: 1 rider, nobody tapers, starts within a week or needs attention."; err != nil || reply.Text() != want || !reply.Private || len(reply.Files)+len(reply.Buttons) > 0 {
		t.Errorf("got %+v, %v", reply, err)
	}
}

func TestCoachSideIsForCoaches(t *testing.T) {
	k := wheelers(t, 8)
	k.who.Coach, k.who.Admin = false, true
	for _, line := range []string{"/coach digest", "/coach roster", "/coach athlete Ines"} {
		wants(t, k.refused(line, "command"), "is for the club's coaches")
	}
	if offers := k.bot.Offer(t.Context(), k.who, "coach athlete", "athlete", ""); len(offers) != 0 {
		t.Errorf("offers %v to somebody who is no coach", offers)
	}
	k.who.Coach = true
	if offers := k.bot.Offer(t.Context(), k.who, "coach athlete", "athlete", "edi"); !slices.Equal(offers, []Offer{{"Édith", "Édith"}}) {
		t.Errorf("offers %v", offers)
	}
	wants(t, k.ok("/help topic:coach"), "/coach roster", "/coach athlete", "/coach digest")
}

func TestFindAthlete(t *testing.T) {
	k := newTalk(t)
	k.onPlatform("9", "100")
	k.as("Zora")
	k.ok("/me set taper:10")
	club := k.club()
	ids := map[string]storage.AthleteID{}
	for i, name := range []string{"Inês Duarte", "Ana Marsh", "Ana Weir", "Tomasz", "Tomás", "Sam", "Sam", "sam #3", strings.Repeat("Long ", 15) + "Tail"} {
		a, err := k.db.EnsureAthlete(t.Context(), club.ID, storage.PlatformKey("discord", fmt.Sprint(i)), name)
		if err != nil {
			t.Fatal(err)
		}
		ids[fmt.Sprint(name, i)] = a.ID
	}
	athletes, err := k.db.Athletes(t.Context(), club.ID)
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"Inês Duarte": "Inês Duarte0", "ines": "Inês Duarte0", "duarte": "Inês Duarte0", "INES D": "Inês Duarte0", "Inse Duarte": "Inês Duarte0", "ines duatre": "Inês Duarte0", "Durate": "Inês Duarte0",
		"ana m": "Ana Marsh1", "marsh": "Ana Marsh1", "Mrash": "Ana Marsh1", "ana wier": "Ana Weir2", "Tomasz": "Tomasz3", "Tomás": "Tomás4", "TOMAS": "Tomás4", "long": strings.Repeat("Long ", 15) + "Tail8",
		"ana": "?", "sam": "?", "Toma": "?", "zzyzx": "", "!": "", "x": "",
	} {
		found := findAthlete(athletes, typed)
		switch {
		case want == "?" && len(found) > 1, want == "" && len(found) == 0, len(found) == 1 && found[0].ID == ids[want]:
		default:
			t.Errorf("%q finds %v, want %q", typed, found, want)
		}
	}
	names := tellApart(athletes)
	if got := slices.Sorted(maps.Values(names)); len(slices.Compact(got)) != len(athletes) {
		t.Errorf("names of their own: %q", got)
	}
	for _, a := range athletes {
		if found := findAthlete(athletes, names[a.ID]); len(found) != 1 || found[0].ID != a.ID {
			t.Errorf("%q finds %v", names[a.ID], found)
		}
	}
}

// Riders of one name are told apart by their next race or the day they came.
func TestNamesakes(t *testing.T) {
	k := newTalk(t)
	k.db.Now = func() time.Time { return at("2026-05-03T08:00:00Z") }
	k.who.Coach = true
	k.as("Sam")
	for id, line := range map[string]string{"1": "/me set taper:10", "2": `/race add name:"Hill Loop" date:2026-06-13 priority:A`} {
		k.onPlatform("9", id)
		k.ok(line)
	}
	reply := k.refused("/coach athlete sam", "athlete")
	wants(t, reply, `"sam" can be Sam #`, "(races Hill Loop on Sat 13 Jun)", "(no race, here since Sun 3 May)", `. For example athlete:"Sam #`)
	offers := k.bot.Offer(t.Context(), k.who, "coach athlete", "athlete", "sa")
	if len(offers) != 2 {
		t.Fatalf("offers %v", offers)
	}
	races := 0
	for _, o := range offers {
		if utf8.RuneCountInString(o.Label) > maxOfferText {
			t.Errorf("label %q", o.Label)
		}
		text := k.ok("/coach athlete " + Quote(o.Value)).Text()
		if strings.Contains(text, "Hill Loop") != strings.Contains(o.Label, "Hill Loop") {
			t.Errorf("%+v answers\n%s", o, text)
		}
		races += one(strings.Contains(text, "Hill Loop"))
	}
	if races != 1 {
		t.Errorf("%d namesakes race", races)
	}
}

func TestSeasonNeeds(t *testing.T) {
	today := planner.NewDate(2026, 6, 1)
	race := func(name string, in int, p planner.Priority) planner.Race {
		return planner.Race{Name: name, Date: today.AddDays(in), Days: 1, Priority: p}
	}
	a, b := planner.PriorityA, planner.PriorityB
	for _, tc := range []struct {
		races []planner.Race
		want  string
	}{
		{[]planner.Race{race("One", 10, a), race("Two", 38, a)}, ""},
		{[]planner.Race{race("One", 10, a), race("Two", 37, a)}, "A races 27 days apart"},
		{[]planner.Race{race("One", 10, a), race("Two", 20, b)}, ""},
		{[]planner.Race{race("One", -20, a), race("Two", 5, a)}, "A races 25 days apart"},
		{[]planner.Race{race("One", -30, a), race("Two", -10, a)}, ""},
		{[]planner.Race{race("One", 0, a), race("Two", 40, a), race("Three", 80, a), race("Four", 181, a)}, "4 A races in 26 weeks"},
		{[]planner.Race{race("One", 0, a), race("Two", 40, a), race("Three", 80, a), race("Four", 182, a)}, ""},
		{[]planner.Race{race("One", -1, a), race("Two", 40, a), race("Three", 80, a), race("Four", 120, a)}, ""},
		{[]planner.Race{race("One", 10, a), race("Two", 20, a), race("Three", 30, a)}, "2 times A races under 28 days apart"},
		{[]planner.Race{race("One", 10, b), race("Two", 10, b)}, "two races on Thu 11 Jun"},
		{[]planner.Race{race("One", -1, b), race("Two", -1, b)}, ""},
	} {
		s := &standing{today: today, facts: ledger{now: &planner.Facts{Races: tc.races}}}
		s.seasonNeeds()
		if got := strings.Join(s.clashes, "; "); got != tc.want || (len(s.choices) > 0) != (tc.want != "") {
			t.Errorf("%v: got %q, %q, want %q", tc.races, got, s.choices, tc.want)
		}
	}
}

// The taper day is that of the rider's own zone.
func TestDigestByTheRidersDay(t *testing.T) {
	k := wheelers(t, 8)
	k.who.Coach = false
	k.as("Bruno")
	k.ok("/me set zone:Pacific/Kiritimati")
	k.as("Coach")
	k.who.Coach, k.who.Now = true, at("2026-06-01T11:00:00Z")
	wants(t, k.ok("/coach digest"), "Bruno: Hill Loop (A, Sat 6 Jun) in 4 days, taper day 11 of 14", "Ines: Hill Loop (A, Sat 13 Jun) in 12 days, taper day 3 of 14")
}

// A reminder that arrives after one that failed ends the alarm; a digest that
// failed is told to the club's coaches.
func TestDigestTellsWhatDidNotArrive(t *testing.T) {
	k := wheelers(t, 2)
	club := k.club()
	post := func(kind storage.PostKind, key string, athlete storage.AthleteID, day int, state storage.PostState, reason string) {
		t.Helper()
		posts := []storage.Post{{Kind: kind, Key: storage.NameKey(key), Athlete: athlete, Club: club.ID, Day: planner.NewDate(2026, 5, day), Due: k.who.Now, State: state, Reason: reason}}
		if claimed, err := k.db.Claim(t.Context(), posts); err != nil || len(claimed) != 1 {
			t.Fatal(claimed, err)
		}
	}
	athletes, err := k.db.Athletes(t.Context(), club.ID)
	if err != nil {
		t.Fatal(err)
	}
	wants(t, k.ok("/coach digest"), "Bruno: reminders fail: direct messages are closed")
	post(storage.PostReminder, "later", athletes[0].ID, 30, storage.PostSent, "")
	post(storage.PostDigest, "club", 0, 25, storage.PostFailed, "the bot may not write there")
	reply := k.ok("/coach digest")
	wants(t, reply, "The last digest could not be sent: the bot may not write there")
	if strings.Contains(reply.Text(), "reminders fail") {
		t.Errorf("reminders arrive again, and the digest says:\n%s", reply.Text())
	}
	k.who.Now = at("2026-06-09T06:00:00Z")
	if reply := k.ok("/coach digest"); strings.Contains(reply.Text(), "last digest") {
		t.Errorf("told after more than a week:\n%s", reply.Text())
	}
}
