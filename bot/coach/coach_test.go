package coach_test

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/coach"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
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
	k := bottest.Wheelers(t, 8)
	for _, line := range []string{"/coach digest", "/coach roster", "/coach athlete Farid", "/coach athlete Hugo", "/coach athlete athlete:Farid show:all", "/coach athlete athlete:Hugo show:all"} {
		reply := k.OK(line)
		if !reply.Private {
			t.Errorf("%s is public", line)
		}
		noSymptoms(t, line, whole(reply))
	}
}

// Of an illness coaches see that the rider does not train, and no more.
func TestCoachesSeeNoSymptoms(t *testing.T) {
	week, err := typed.Week(bottest.InesWeek)
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
				s := &coach.Standing{Name: "Ines", Today: today, Facts: desk.Ledger{Now: f, All: f}, Next: &f.Races[0]}
				s.PlanDays()
				var p say.Page
				p.Add(say.PlainLines(slices.Concat([]string{s.Line()}, s.Needs, s.Clashes, s.Choices)...)...)
				s.AddRaces(&p, 5)
				s.AddDays(&p, show.Schedule)
				s.AddRidden(&p)
				club := &storage.Club{Name: "Marrow Vale Wheelers"}
				text := say.TextOf(p.Done()) + string(coach.RiderList(club, []coach.Standing{*s}).Data)
				noSymptoms(t, fmt.Sprint(told, ill.From, ill.To), text)
				if to == 0 || to >= today {
					if !s.Health || !strings.Contains(text, "\nTue 2 Jun  "+show.NotTraining+"\n") || !slices.Contains(s.Needs, show.NotTraining) {
						t.Errorf("%v from %s to %v: want that the rider does not train:\n%s", told, ill.From, ill.To, text)
					}
				}
			}
		}
	}
}

// crowd stores 40 riders with long and odd names, each with four A races too near
// each other, two races on a day, and results.
func crowd(t *testing.T) *bottest.Talk {
	k := bottest.Wheelers(t, 8)
	week, err := typed.Week(bottest.InesWeek)
	if err != nil {
		t.Fatal(err)
	}
	club := k.Club()
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for i := range 40 {
		name := fmt.Sprintf("%s_%02d*", strings.Repeat([]string{"Ana_Lú*", "𝕏*", "W"}[i%3], 9), i%36)
		a, err := k.DB.EnsureAthlete(t.Context(), club.ID, storage.PlatformKey("discord", fmt.Sprint(i)), name)
		check(err)
		if i%5 > 0 {
			check(k.DB.SetWeek(t.Context(), a.ID, planner.NewDate(2026, 5, 1), planner.DatedWeek{From: planner.NewDate(2026, 5, 1), Week: week}))
		}
		races := 6
		if rounds.Left(i) {
			races = 2 // a season takes long to check under the race detector
		}
		for j := range races {
			race := planner.Race{Name: strings.Repeat("*Hill_Loop* ", 15) + fmt.Sprint(i, j), Date: planner.NewDate(2026, 5, 30).AddDays(5 * j), Days: 1 + j%3, Hours: 3}
			added, _, err := k.DB.AddRace(t.Context(), a.ID, planner.NewDate(2026, 4, 1), race)
			check(err)
			if j == 0 {
				check(k.DB.SetResult(t.Context(), a.ID, storage.Result{Race: added.ID, Feeling: 7, Place: strings.Repeat("4_th ", 30), Note: "fever"}))
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
		reply := k.OK(line)
		if n := coach.Units(reply.Text()); n > coach.MostDigest || n < 1000 {
			t.Errorf("%s takes %d units", line, n)
		}
		if lines := strings.Count(reply.Text(), "\n") + 1; line == "/coach roster" && lines > 45 {
			t.Errorf("%s has %d lines", line, lines)
		}
		bottest.Wants(t, reply, "Marrow Vale Wheelers: 48 riders, ", "  and ", " more", coach.RidersFile)
		noSymptoms(t, line, whole(reply))
		if len(reply.Buttons) == 0 || len(reply.Buttons) > coach.MostButtons || len(reply.Files) == 0 || reply.Files[0].Name != coach.RidersFile {
			t.Fatalf("%s: %d buttons, files %v", line, len(reply.Buttons), reply.Files)
		}
		labels := map[string]bool{}
		for _, b := range reply.Buttons {
			if labels[b.Label] || coach.Units(b.Label) > 2*80 || utf8.RuneCountInString(b.Label) > 80 {
				t.Errorf("%s: button %q is there twice or long", line, b.Label)
			}
			labels[b.Label] = true
			k.Who.Coach = true
			if r := k.Ask(b.Command, b.Options, ""); r.Err != nil || !strings.HasPrefix(r.Text(), b.Options["athlete"]) || !r.Private {
				t.Errorf("%s: button %q answers %s", line, b.Label, r.Text())
			}
			k.Who.Coach = false
			if r := k.Ask(b.Command, b.Options, ""); r.Err == nil || r.Err.Field != "command" {
				t.Errorf("%s: button %q is not for coaches alone: %s", line, b.Label, r.Text())
			}
			k.Who.Coach = true
		}
		list := string(reply.Files[0].Data)
		athletes, err := k.DB.Athletes(t.Context(), k.Club().ID)
		if err != nil {
			t.Fatal(err)
		}
		names := coach.TellApart(athletes)
		for _, name := range names {
			if strings.Count(list, "\n"+name+": ") != 1 {
				t.Errorf("%s: %s is not in %s once", line, name, coach.RidersFile)
			}
		}
	}
}

func TestDigestKeepsToItsClub(t *testing.T) {
	k := bottest.Wheelers(t, 8)
	k.Who.Club = "Tallow Brook Riders"
	k.As("Zora")
	k.OK("/week share week:"+say.Quote(bottest.InesWeek), `/race add name:"Secret Cup" date:2026-06-06 priority:A hours:2`, `/race add name:"Secret Ring" date:2026-06-06 priority:B`)
	for _, club := range []struct{ name, own, other string }{{"Marrow Vale Wheelers", "Hill Loop", "Secret"}, {"Tallow Brook Riders", "Secret Cup", "Hill Loop"}} {
		k.Who.Club = club.name
		for _, line := range []string{"/coach digest", "/coach roster"} {
			reply := whole(k.OK(line))
			if !strings.Contains(reply, club.own) || strings.Contains(reply, club.other) || strings.Contains(reply, "Zora") != (club.own == "Secret Cup") {
				t.Errorf("%s of %s:\n%s", line, club.name, reply)
			}
		}
	}
	bottest.Wants(t, k.Refused("/coach athlete Ines", "athlete"), "no rider of the club is called \"Ines\". Who is new")
	for _, o := range k.Bot.Offer(t.Context(), k.Who, "coach athlete", "athlete", "") {
		if o.Value != "Zora" {
			t.Errorf("offers %q", o.Value)
		}
	}
}

func TestQuietDigest(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Coach = true
	bottest.Wants(t, k.OK("/coach roster"), "Marrow Vale Wheelers has no rider yet.")
	bottest.Wants(t, k.OK("/coach digest"), "Marrow Vale Wheelers: 0 riders, nobody tapers")
	bottest.Wants(t, k.Refused("/coach athlete Ines", "athlete"), "the club has no rider yet")
	k.OK("/week share week:" + say.Quote(bottest.InesWeek))
	club := k.Club()
	reply, err := k.Bot.Digest(t.Context(), club, k.Who.Now)
	if want := "Marrow Vale Wheelers: 1 rider, nobody tapers, nobody races within a week, nobody needs attention."; err != nil || reply.Text() != want || !reply.Private || len(reply.Files)+len(reply.Buttons) > 0 {
		t.Errorf("got %+v, %v", reply, err)
	}
}

func TestCoachSideIsForCoaches(t *testing.T) {
	k := bottest.Wheelers(t, 8)
	k.Who.Coach, k.Who.Admin = false, true
	for _, line := range []string{"/coach digest", "/coach roster", "/coach athlete Ines"} {
		bottest.Wants(t, k.Refused(line, "command"), "is for the club's coaches")
	}
	if offers := k.Bot.Offer(t.Context(), k.Who, "coach athlete", "athlete", ""); len(offers) != 0 {
		t.Errorf("offers %v to somebody who is no coach", offers)
	}
	k.Who.Coach = true
	if offers := k.Bot.Offer(t.Context(), k.Who, "coach athlete", "athlete", "edi"); !slices.Equal(offers, []command.Offer{{Label: "Édith", Value: "Édith"}}) {
		t.Errorf("offers %v", offers)
	}
	bottest.Wants(t, k.OK("/help topic:coach"), "/coach roster", "/coach athlete", "/coach digest")
}

func TestFindAthlete(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OnPlatform("9", "100")
	k.As("Zora")
	k.OK("/me set taper:10")
	club := k.Club()
	ids := map[string]storage.AthleteID{}
	for i, name := range []string{"Inês Duarte", "Ana Marsh", "Ana Weir", "Tomasz", "Tomás", "Sam", "Sam", "sam #3", strings.Repeat("Long ", 15) + "Tail"} {
		a, err := k.DB.EnsureAthlete(t.Context(), club.ID, storage.PlatformKey("discord", fmt.Sprint(i)), name)
		if err != nil {
			t.Fatal(err)
		}
		ids[fmt.Sprint(name, i)] = a.ID
	}
	athletes, err := k.DB.Athletes(t.Context(), club.ID)
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"Inês Duarte": "Inês Duarte0", "ines": "Inês Duarte0", "duarte": "Inês Duarte0", "INES D": "Inês Duarte0", "Inse Duarte": "Inês Duarte0", "ines duatre": "Inês Duarte0", "Durate": "Inês Duarte0",
		"ana m": "Ana Marsh1", "marsh": "Ana Marsh1", "Mrash": "Ana Marsh1", "ana wier": "Ana Weir2", "Tomasz": "Tomasz3", "Tomás": "Tomás4", "TOMAS": "Tomás4", "long": strings.Repeat("Long ", 15) + "Tail8",
		"ana": "?", "sam": "?", "Toma": "?", "zzyzx": "", "!": "", "x": "",
	} {
		found := coach.FindAthlete(athletes, typed)
		switch {
		case want == "?" && len(found) > 1, want == "" && len(found) == 0, len(found) == 1 && found[0].ID == ids[want]:
		default:
			t.Errorf("%q finds %v, want %q", typed, found, want)
		}
	}
	names := coach.TellApart(athletes)
	if got := slices.Sorted(maps.Values(names)); len(slices.Compact(got)) != len(athletes) {
		t.Errorf("names of their own: %q", got)
	}
	for _, a := range athletes {
		if found := coach.FindAthlete(athletes, names[a.ID]); len(found) != 1 || found[0].ID != a.ID {
			t.Errorf("%q finds %v", names[a.ID], found)
		}
	}
}

// Riders of one name are told apart by their next race or the day they came.
func TestNamesakes(t *testing.T) {
	k := bottest.NewTalk(t)
	k.DB.Now = func() time.Time { return bottest.At("2026-05-03T08:00:00Z") }
	k.Who.Coach = true
	k.As("Sam")
	for id, line := range map[string]string{"1": "/me set taper:10", "2": `/race add name:"Hill Loop" date:2026-06-13 priority:A`} {
		k.OnPlatform("9", id)
		k.OK(line)
	}
	reply := k.Refused("/coach athlete sam", "athlete")
	bottest.Wants(t, reply, `"sam" can be Sam #`, "(races Hill Loop on Sat 13 Jun)", "(no race, here since Sun 3 May)", `. For example athlete:"Sam #`)
	offers := k.Bot.Offer(t.Context(), k.Who, "coach athlete", "athlete", "sa")
	if len(offers) != 2 {
		t.Fatalf("offers %v", offers)
	}
	races := 0
	for _, o := range offers {
		if utf8.RuneCountInString(o.Label) > desk.MaxOfferText {
			t.Errorf("label %q", o.Label)
		}
		text := k.OK("/coach athlete " + say.Quote(o.Value)).Text()
		if strings.Contains(text, "Hill Loop") != strings.Contains(o.Label, "Hill Loop") {
			t.Errorf("%+v answers\n%s", o, text)
		}
		races += coach.One(strings.Contains(text, "Hill Loop"))
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
		s := &coach.Standing{Today: today, Facts: desk.Ledger{Now: &planner.Facts{Races: tc.races}}}
		s.SeasonNeeds()
		if got := strings.Join(s.Clashes, "; "); got != tc.want || (len(s.Choices) > 0) != (tc.want != "") {
			t.Errorf("%v: got %q, %q, want %q", tc.races, got, s.Choices, tc.want)
		}
	}
}

// The taper day is that of the rider's own zone.
func TestDigestByTheRidersDay(t *testing.T) {
	k := bottest.Wheelers(t, 8)
	k.Who.Coach = false
	k.As("Bruno")
	k.OK("/me set zone:Pacific/Kiritimati")
	k.As("Coach")
	k.Who.Coach, k.Who.Now = true, bottest.At("2026-06-01T11:00:00Z")
	bottest.Wants(t, k.OK("/coach digest"), "Bruno: Hill Loop (A, Sat 6 Jun) in 4 days, taper day 11 of 14", "Ines: Hill Loop (A, Sat 13 Jun) in 12 days, taper day 3 of 14")
}

// A reminder that arrives after one that failed ends the alarm; a digest that
// failed is told to the club's coaches.
func TestDigestTellsWhatDidNotArrive(t *testing.T) {
	k := bottest.Wheelers(t, 2)
	club := k.Club()
	post := func(kind storage.PostKind, key string, athlete storage.AthleteID, day int, state storage.PostState, reason string) {
		t.Helper()
		posts := []storage.Post{{Kind: kind, Key: storage.NameKey(key), Athlete: athlete, Club: club.ID, Day: planner.NewDate(2026, 5, day), Due: k.Who.Now, State: state, Reason: reason}}
		if claimed, err := k.DB.Claim(t.Context(), posts); err != nil || len(claimed) != 1 {
			t.Fatal(claimed, err)
		}
	}
	athletes, err := k.DB.Athletes(t.Context(), club.ID)
	if err != nil {
		t.Fatal(err)
	}
	bottest.Wants(t, k.OK("/coach digest"), "Bruno: reminders fail: direct messages are closed")
	post(storage.PostReminder, "later", athletes[0].ID, 30, storage.PostSent, "")
	post(storage.PostDigest, "club", 0, 25, storage.PostFailed, "the bot may not write there")
	reply := k.OK("/coach digest")
	bottest.Wants(t, reply, "The last digest could not be sent: the bot may not write there")
	if strings.Contains(reply.Text(), "reminders fail") {
		t.Errorf("reminders arrive again, and the digest says:\n%s", reply.Text())
	}
	k.Who.Now = bottest.At("2026-06-09T06:00:00Z")
	if reply := k.OK("/coach digest"); strings.Contains(reply.Text(), "last digest") {
		t.Errorf("told after more than a week:\n%s", reply.Text())
	}
}

// The digest's picture has the riders with a plan in the digest's order, and of health no more than a gap.
func TestDigestHasThePictureOfTheClub(t *testing.T) {
	k := bottest.Wheelers(t, 8)
	k.Drawn()
	k.As("Bruno")
	k.OK("/tell sick symptoms:fever")
	k.As("Coach")
	reply := k.OK("/coach digest")
	at := slices.IndexFunc(reply.Files, func(f say.File) bool { return f.Name == "club.png" })
	if at < 0 {
		t.Fatalf("files %v", reply.Files)
	}
	alt := reply.Files[at].Alt
	if !strings.HasPrefix(alt, "Who tapers when: Marrow Vale Wheelers, from Monday ") || !strings.Contains(alt, "not training: health") || strings.Contains(strings.ToLower(alt), "fever") {
		t.Errorf("alt %q", alt)
	}
	if _, bruno, _ := strings.Cut(alt, "Bruno: "); !strings.Contains(strings.SplitN(bruno, ". ", 2)[0], "not training: health 1 Jun to 23 Aug") { // Sunday of the twelfth week
		t.Errorf("an illness that goes on ends in the picture: %q", alt)
	}
	k.As("Bruno")
	k.OK("/tell sick symptoms:none since:2026-06-01")
	k.As("Coach")
	reply = k.OK("/coach digest")
	alt = reply.Files[at].Alt
	if strings.Contains(alt, "not training") {
		t.Errorf("an illness that is over goes on: %q", alt)
	}
	// The taper's first day is the one from which the digest counts.
	bottest.Wants(t, reply, "Ines: Hill Loop (A, Sat 13 Jun) in 12 days, taper day 3 of 14")
	if !strings.Contains(alt, "taper 30 May to 12 Jun") {
		t.Errorf("alt %q", alt)
	}
	if !bytes.HasPrefix(reply.Files[at].Data, []byte("\x89PNG")) {
		t.Error("no picture")
	}
}
