package life_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

// rides is what was entered about the rider's days, notes too.
func rides(k *bottest.Talk) []storage.Ride {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	rides, err := k.DB.Rides(k.T.Context(), who.Athlete.ID, planner.NewDate(planner.MinYear, 1, 1))
	if err != nil {
		k.T.Fatal(err)
	}
	return rides
}

func logged(date string, minutes int, rpe float64, note string) storage.Ride {
	d, err := planner.ParseISODate(date)
	if err != nil {
		panic(err)
	}
	return storage.Ride{Ride: planner.Ride{Date: d, Minutes: minutes, RPE: rpe}, Note: note}
}

// withWeek is Ines on Tuesday evening, her intervals behind her.
func withWeek(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	k.Who.Now = bottest.At("2026-06-02T20:00:00Z")
	return k
}

func TestDone(t *testing.T) {
	for _, tc := range []struct {
		line, first string
		want        storage.Ride
	}{
		{"/done", "Noted: 1h30 on Tue 2 Jun, as planned.", logged("2026-06-02", 90, 0, "")},
		{"/done 1h30 rpe:8", "Noted: 1h30 on Tue 2 Jun, as planned, RPE 8.", logged("2026-06-02", 90, 8, "")},
		{"/done rpe:7,5", "Noted: 1h30 on Tue 2 Jun, as planned, RPE 7.5.", logged("2026-06-02", 90, 7.5, "")},
		{`/done minutes:55 rpe:10/10 note:"flat: twice"`, "Noted: 55min on Tue 2 Jun (planned 1h30), RPE 10.", logged("2026-06-02", 55, 10, "flat: twice")},
		{"/done day:yesterday", "Noted: 40min on Mon 1 Jun, as planned.", logged("2026-06-01", 40, 0, "")},
		{"/done day:sunday", "Noted: 2h on Sun 31 May, as planned.", logged("2026-05-31", 120, 0, "")},
		{"/done day:tuesday", "Noted: 1h30 on Tue 2 Jun, as planned.", logged("2026-06-02", 90, 0, "")},
		{"/done 45 day:thu", "Noted: 45min on Thu 28 May (rest was planned).", logged("2026-05-28", 45, 0, "")},
		{"/done day:\"20 May\"", "Noted: 1h45 on Wed 20 May, as planned.", logged("2026-05-20", 105, 0, "")},
		{"/done day:2025-12-31 minutes:60", "Noted: 1h on Wed 31 Dec 2025 (planned 1h45).", logged("2025-12-31", 60, 0, "")},
		{"/done day:2025-06-01 minutes:1440", "Noted: 24h on Sun 1 Jun 2025 (planned 2h).", logged("2025-06-01", 1440, 0, "")},
	} {
		k := withWeek(t)
		reply := k.OK(tc.line)
		tc.want.On = planner.NewDate(2026, 6, 2)
		if got := rides(k); bottest.FirstLine(reply) != tc.first || !reflect.DeepEqual(got, []storage.Ride{tc.want}) || reply.Date != tc.want.Date || !reply.Private {
			t.Errorf("%s: %+v of %s (private %v):\n%s", tc.line, got, reply.Date, reply.Private, reply.Text())
		}
	}
}

func TestDoneIsRefused(t *testing.T) {
	k := withWeek(t)
	for line, field := range map[string]string{
		"/done day:tomorrow": "day", "/done day:2026-06-03": "day", "/done day:\"next monday\"": "day", "/done day:\"in 3 days\"": "day", "/done day:\"10 June\"": "day",
		"/done day:2025-05-31": "day", "/done day:thu": "minutes", "/done minutes:0": "minutes", "/done minutes:0 day:tomorrow": "minutes day", "/done rpe:0": "rpe",
		"/done rpe:8.2": "rpe", "/done rpe:11": "rpe", "/done rpe:+Inf": "rpe", "/done minutes:none": "minutes", "/done minutes:NONE day:sunday": "minutes", "/done minutes:none day:tomorrow": "day",
		"/tell missed day:tomorrow": "day", "/tell missed day:2020-01-01": "day",
	} {
		k.Refused(line, strings.Fields(field)...)
	}
	bottest.Wants(t, k.Refused("/done day:2026-06-03", "day"), "Wednesday 3 June 2026 is to come (today is Tuesday 2 June 2026)", "for example 2026-06-01")
	bottest.Wants(t, k.Refused("/done day:thu", "minutes"), "no ride is planned on Thursday 28 May 2026")
	stranger := bottest.NewTalk(t)
	bottest.Wants(t, stranger.Refused("/done", "minutes"), "I do not know your typical week")
	stranger.Refused("/done minutes:none", "minutes")
	if _, err := stranger.DB.FindClub(t.Context(), storage.NameKey(stranger.Who.Club)); err == nil {
		t.Error("a refusal made a club")
	}
	bottest.Wants(t, stranger.OK("/done 50"), "Noted: 50min on Mon 1 Jun.\nUndo: /done day:2026-06-01 entry:1 minutes:none")
}

// Much harder than planned brings one sentence.
func TestHarderThanPlanned(t *testing.T) {
	const caution = "! That was harder than planned ("
	for line, band := range map[string]string{
		"/done day:mon rpe:4.5": "", "/done day:mon rpe:5": "RPE 2-3", "/done day:wed rpe:5.5": "", "/done day:wed rpe:6": "RPE 2-3", "/done day:tue rpe:10": "",
		"/done 60 day:thu rpe:4.5": "", "/done 60 day:thu rpe:5": "rest", "/done day:wed": "", `/done note:"legs came good"`: "",
	} {
		reply := withWeek(t).OK(line)
		if got := strings.Contains(reply.Text(), caution); got != (band != "") || got && !strings.Contains(reply.Text(), caution+band+")") {
			t.Errorf("%s: want a caution for %q:\n%s", line, band, reply.Text())
		}
		if strings.Contains(reply.Text(), "doctor") {
			t.Errorf("%s: the note is interpreted:\n%s", line, reply.Text())
		}
	}
	k := bottest.NewTalk(t)
	if reply := k.OK("/done 60 rpe:10"); strings.Contains(reply.Text(), caution) {
		t.Errorf("harder than a plan that there is not:\n%s", reply.Text())
	}
}

// Undo brings back what was entered before, to the note, and undoing the undo works too.
func TestUndoOfRides(t *testing.T) {
	k := withWeek(t)
	lines := []string{"/done 55 rpe:8 note:\"say \\\"ah\\\"; day:x\"", "/done 1h", "/tell missed", "/tell missed note:\"late train\"", "/done minutes:none", "/done rpe:7.5 day:yesterday"}
	for _, told := range append([]string{""}, lines...) {
		for _, again := range lines {
			if again == "/done minutes:none" && (told == "" || told == again || strings.HasSuffix(told, "yesterday")) {
				continue
			}
			if told == "/done minutes:none" {
				continue
			}
			for _, r := range rides(k) {
				k.OK("/done minutes:none day:" + r.Date.String())
			}
			if told != "" {
				k.OK(told)
			}
			before, facts := rides(k), k.Facts()
			reply := k.OK(again)
			after := rides(k)
			if reflect.DeepEqual(before, after) {
				if told != again || reply.Buttons[len(reply.Buttons)-1].Label != say.TakeBack {
					t.Errorf("%s, %s: nothing changed, buttons %+v", told, again, reply.Buttons)
				}
				continue
			}
			_, line, _ := strings.Cut(reply.Text(), "\nUndo: ")
			back := k.OK(line)
			if got := rides(k); !reflect.DeepEqual(got, before) || !bottest.SameFacts(k.Facts(), facts) {
				t.Errorf("%s, %s, undone: %+v\nwant %+v", told, again, got, before)
			}
			k.Press(back, "Undo")
			if got := rides(k); !reflect.DeepEqual(got, after) {
				t.Errorf("%s, %s, undone twice: %+v\nwant %+v", told, again, got, after)
			}
			k.Press(reply, "Undo")
			if got := rides(k); !reflect.DeepEqual(got, before) {
				t.Errorf("%s, %s, undone by the button: %+v\nwant %+v", told, again, got, before)
			}
		}
	}
}

func TestTellMissed(t *testing.T) {
	k := withWeek(t)
	reply := k.OK("/tell missed")
	bottest.Wants(t, reply, "Noted: you did not ride on Tue 2 Jun. Your plan had intervals 1h30, 5x3min hard.", "Do not add it to another ride", "Ride it on Wed 3 Jun: /plan move from:2026-06-02 to:2026-06-03")
	bottest.Wants(t, k.Press(reply, "Ride it on Wed 3 Jun"), "Swapped:", "Wed 3 Jun  intervals 1h30 5x3min (until now endurance 1h45)")
	bottest.Wants(t, k.OK("/ride wed"), "intervals 1h30")

	k = withWeek(t)
	for line, texts := range map[string][]string{
		"/tell missed day:mon":                    {"you did not ride on Mon 1 Jun. Your plan had recovery 40min.", "You do not make it up: no ride gets longer or harder for it."},
		"/tell missed day:sun note:\"rain: all\"": {"you did not ride on Sun 31 May. Your plan had intervals 2h, 4x8min hard.", "Your note: rain: all", "You do not make it up"},
		"/tell missed day:thu":                    {"Noted: you did not ride on Thu 28 May. Rest was planned."},
	} {
		reply := k.OK(line)
		bottest.Wants(t, reply, texts...)
		if strings.Contains(reply.Text(), "/plan move") {
			t.Errorf("%s offers a swap of a day that is over:\n%s", line, reply.Text())
		}
	}
	bottest.Wants(t, bottest.NewTalk(t).OK("/tell missed"), "Noted: you did not ride on Mon 1 Jun.\nUndo: /done day:2026-06-01 entry:1 minutes:none")
}

// Inside a taper nothing is offered; a race is not missed like a ride.
func TestMissedInATaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3h30`)
	for day := planner.NewDate(2026, 6, 6); day < planner.NewDate(2026, 6, 14); day++ {
		k.Who.Now = bottest.At(day.String() + "T20:00:00Z")
		reply := k.OK("/tell missed")
		if strings.Contains(reply.Text(), "/plan move") || !strings.Contains(reply.Text(), "Rest was planned") && !strings.Contains(reply.Text(), "what you miss in a taper stays missed") {
			t.Errorf("%s:\n%s", day, reply.Text())
		}
	}
	k.Who.Now = bottest.At("2026-06-14T20:00:00Z")
	bottest.Wants(t, k.OK("/tell missed"), "the day of Hill Loop", `/race remove race:"Hill Loop 2026-06-14"`)
	bottest.Wants(t, k.OK("/done 3h20 rpe:10"), "It replaces what you logged before: missed.", `/race result race:"Hill Loop 2026-06-14" feeling:7`)
}

// Each swap that is offered for a missed ride keeps to the rules, wherever today is.
func TestOfferedSwapsAreAllowed(t *testing.T) {
	offered := 0
	k := bottest.WithRaces(t)
	for i := range 42 {
		k.Who.Now = bottest.At(planner.NewDate(2026, 6, 1).AddDays(i).String() + "T20:00:00Z")
		facts := k.Facts()
		reply := k.OK("/tell missed")
		for _, b := range reply.Buttons {
			if b.Command != "plan move" {
				continue
			}
			offered++
			moved := k.Ask(b.Command, b.Options, "")
			if warned, _, _ := strings.Cut(moved.Text(), "What changes"); moved.Err != nil || strings.Contains(warned, "! ") {
				t.Errorf("%s: %s", reply.Text(), moved.Text())
			}
			to, _ := planner.ParseISODate(b.Options["to"])
			today := reply.Date
			was, _ := engine.DeriveUntil(today, to, &facts).Day(today)
			before, _ := engine.DeriveUntil(today, to, &facts).Day(to)
			after := k.Facts()
			is, _ := engine.DeriveUntil(today, to, &after).Day(to)
			if !reflect.DeepEqual(is.Sessions, was.Sessions) || before.Phase == planner.Tapering || is.Phase == planner.Tapering {
				t.Errorf("%s: %s has %v, want %v alone", today, to, is.Sessions, was.Sessions)
			}
			k.Press(moved, "Undo")
		}
		k.Press(reply, "Undo")
		if !bottest.SameFacts(k.Facts(), facts) {
			t.Fatalf("%s: undone, the facts are not as they were", reply.Date)
		}
	}
	if offered < 4 {
		t.Errorf("%d swaps offered in six weeks", offered)
	}
}

// What was ridden changes no day to come, not even where the log shows overload; undo
// brings the facts back exactly.
func TestLoggingChangesNoDayToCome(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	today := planner.NewDate(2026, 6, 1)
	same, offered := 0, 0
	ahead := func(f planner.Facts) (days []string) {
		for _, d := range engine.Derive(today, &f).Days[1:] {
			days = append(days, fmt.Sprint(d.Date, d.Phase, d.Sessions))
		}
		return days
	}
	for round := range 8 {
		k := bottest.NewTalk(t)
		k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-20 priority:A hours:3`, `/race add name:"Quarry Crit" date:2026-06-07 priority:C hours:1`)
		for range 20 {
			much := round % 2 // of the rounds are of hard weeks
			line := fmt.Sprintf("/done %d day:%s", 20+60*much+random.IntN(60+140*much), today.AddDays(-random.IntN(14)))
			if random.IntN(2) == 0 {
				line += fmt.Sprint(" rpe:", 1+float64(random.IntN(9)+6*much)/2)
			}
			if random.IntN(6) == 0 {
				line = fmt.Sprintf("/tell missed day:%s", today.AddDays(-random.IntN(14)))
			}
			was, ridden := k.Facts(), rides(k)
			reply := k.Say(line)
			if reply.Err != nil { // missed, with several rides
				continue
			}
			if is := k.Facts(); !slices.Equal(ahead(was), ahead(is)) {
				t.Errorf("%s changes days to come:\n%s", line, reply.Text())
			}
			same++
			if strings.Contains(reply.Text(), "Was that a training block?") {
				offered++
			}
			if label := reply.Buttons[len(reply.Buttons)-1].Label; label == "Undo" {
				k.Press(reply, label)
				if !bottest.SameFacts(k.Facts(), was) || !reflect.DeepEqual(rides(k), ridden) {
					t.Errorf("%s, undone: %+v, was %+v", line, rides(k), ridden)
				}
				k.OK(line)
			}
		}
	}
	if same < 60 || offered < 2 {
		t.Errorf("%d rides, a block offered for %d of them: too few to tell", same, offered)
	}
}

// A day whose ride is logged stays as it was entered, whatever is entered after the ride.
func TestLoggedDayStays(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon easy 1h; tue intervals 1h 5x3min; wed easy 1h; thu off; fri easy 1h; sat long 3h; sun easy 1h"`)
	k.OK("/tell limit day:today minutes:45", "/done minutes:60 day:today")
	before := k.OK("/ride today")
	k.Refused("/tell limit day:today minutes:20", "day")
	bottest.Wants(t, k.Refused("/tell limit day:today minutes:none", "day"), "you have logged today's ride")
	k.Refused("/tell away from:today", "from")
	bottest.Wants(t, k.OK("/tell away from:today to:wednesday"), "from tomorrow")
	was := k.Facts()
	away := k.OK("/tell away from:2026-05-25 to:2026-06-07 kind:travel") // from a day that is over
	bottest.Wants(t, away, "from tomorrow")
	if k.Undo(away); !bottest.SameFacts(k.Facts(), was) {
		t.Errorf("undone: %+v, was %+v", k.Facts(), was)
	}
	today := func(r say.Reply) string {
		told, _, _ := strings.Cut(r.Text(), "Tomorrow")
		return told
	}
	if after := k.OK("/ride today"); today(after) != today(before) {
		t.Errorf("today was %s, and is %s", today(before), today(after))
	}
	bottest.Wants(t, k.OK("/tell limit day:friday minutes:20"), "at most 20min")
}

// An absence that is taken back ends tomorrow where today's ride is logged.
func TestLoggedDayStaysAway(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon easy 1h; tue intervals 1h 5x3min; wed easy 1h; thu off; fri easy 1h; sat long 3h; sun easy 1h"`)
	k.OK("/tell away from:today to:wednesday", "/done minutes:60 day:today")
	bottest.Wants(t, k.OK("/ride today"), "Planned: rest")
	bottest.Wants(t, k.OK("/tell away from:today to:wednesday kind:none"), "Not away after all", "Tue 2 Jun  intervals 1h")
	bottest.Wants(t, k.OK("/ride today"), "Planned: rest")
	bottest.Wants(t, k.Refused("/tell away from:today to:today kind:none", "from"), "you have logged today's ride")
}

// A ride that is told by its distance is asked for its time, not taken as planned.
func TestRideByDistance(t *testing.T) {
	k := withWeek(t)
	bottest.Wants(t, k.Say("i rode 60km today"), "60 km is a distance", "/done day:2026-06-02 minutes:2h15")
	if reply := k.Refused("/done 60km", "minutes"); !strings.Contains(reply.Text(), "Write the time that it takes you, for example 2h15") {
		t.Error(reply.Text())
	}
	k.Refused("/ride 80km", "day")
	bottest.Wants(t, k.Say("i rode 60km in 2h10 today"), "2h10")
}

// A ride and a doctor's word of one day name the same things, whichever comes first; while training is held back or the
// rider is ill, what stops them stands with the log.
func TestLogAndClearanceOfOneDay(t *testing.T) {
	k := withWeek(t)
	bottest.Wants(t, k.OK("/done minutes:90"), "Noted: 1h30 on Tue 2 Jun, as planned.")
	k.Say("I had chest pain")
	held := k.OK("/done minutes:30")
	bottest.Wants(t, held, "Today: 1h30 and 30min, 2h together.", "! Stop riding now and call the emergency number")
	if strings.Contains(held.Text(), "planned)") {
		t.Errorf("compared with a plan that there is not:\n%s", held.Text())
	}
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	k.OK("/done minutes:60")
	const today = "Your way back begins today, Fri 5 Jun, with recovery 30min. You have ridden 1h already, so ride no more today."
	bottest.Wants(t, k.OK("/tell well cleared:yes"), today+"\nTomorrow, Sat 6 Jun, you ride again: ")
	bottest.Wants(t, k.OK("/ride"), "Today, Fri 5 Jun: you rode 1h. Planned: recovery 30min.\nThat is 30min more than planned.")
	k = withWeek(t)
	k.Say("I had chest pain")
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	bottest.Wants(t, k.OK("/tell well cleared:yes"), "Today, Fri 5 Jun, you ride again: recovery 30min.")
	bottest.Wants(t, k.OK("/done minutes:30"), "Noted: 30min on Fri 5 Jun, as planned.")
	k = withWeek(t)
	k.OK("/tell sick symptoms:fever")
	bottest.Wants(t, k.OK("/done minutes:30"), "Noted: 30min on Tue 2 Jun (rest was planned).", "! Do not train with this.")
}
