package remind_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

const seasonFile = "testdata/reminders.golden.txt"

func day(t testing.TB, text string) planner.Date {
	t.Helper()
	d, err := planner.ParseISODate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// reminded is a season with each kind of race, and of life.
func reminded(t testing.TB) *planner.Facts {
	t.Helper()
	week, err := typed.Week(bottest.InesWeek)
	if err != nil {
		t.Fatal(err)
	}
	f := &planner.Facts{Weeks: []planner.DatedWeek{{Week: week}},
		Blocks:   []planner.Block{{From: day(t, "2026-06-29"), To: day(t, "2026-07-09"), Percent: 25}},
		Absences: []planner.Absence{{From: day(t, "2026-03-18"), To: day(t, "2026-03-19")}, {From: day(t, "2026-05-05"), To: day(t, "2026-05-06"), Travel: true}},
		Limits:   []planner.Limit{{Date: day(t, "2026-04-29"), Minutes: 40}, {Date: day(t, "2026-08-19"), Minutes: 40}}}
	for _, r := range []planner.Race{
		{Name: "Frost Ride", Date: day(t, "2026-02-08"), Priority: planner.PriorityC, Hours: 4},
		{Name: "Barley Ring", Date: day(t, "2026-03-08"), Priority: planner.PriorityB, Hours: 2},
		{Name: "Heron Valley", Date: day(t, "2026-03-22"), Priority: planner.PriorityB, Hours: 2, Emphasis: planner.Important},
		{Name: "Mallard Mile", Date: day(t, "2026-03-25"), Priority: planner.PriorityB, Hours: 1},
		{Name: "Quarry Crit", Date: day(t, "2026-04-12"), Priority: planner.PriorityC, Hours: 1},
		{Name: "Hill Loop", Date: day(t, "2026-05-17"), Priority: planner.PriorityA, Hours: 3.75, Start: "10:30", TaperDays: 12},
		{Name: "Lane Dash", Date: day(t, "2026-06-20"), Priority: planner.PriorityC, Hours: 1},
		{Name: "Mill Road", Date: day(t, "2026-06-21"), Priority: planner.PriorityB, Hours: 3},
		{Name: "Barn Sprint", Date: day(t, "2026-07-16"), Priority: planner.PriorityB, Hours: 1},
		{Name: "Four Valleys", Date: day(t, "2026-07-24"), Priority: planner.PriorityA, Hours: 3, Days: 3},
	} {
		r.Days, r.Registered = max(1, r.Days), day(t, "2026-01-01")
		f.Races = append(f.Races, r)
	}
	return f
}

// TestRemindedSeason writes down each day of a season that is due, in which mode and why.
func TestRemindedSeason(t *testing.T) {
	f := reminded(t)
	var b strings.Builder
	for d := day(t, "2026-01-01"); d <= day(t, "2026-08-31"); d++ {
		o := remind.OccasionOf(engine.Derive(d, f), f, d)
		modes := ""
		for _, mode := range []storage.Remind{storage.RemindChanged, storage.RemindAlways} {
			if o.Due(mode) {
				modes += fmt.Sprintf(" %-7s", mode)
			} else {
				modes += fmt.Sprintf(" %-7s", "")
			}
		}
		if o.Due(storage.RemindOff) {
			t.Errorf("%s is due without reminders", d)
		}
		if strings.TrimSpace(modes) == "" {
			if o.Eve != nil || o.Race != nil || o.After != nil {
				t.Errorf("%s is by a race and not due", d)
			}
			continue
		}
		if !remind.RaceNear(f, d) {
			t.Errorf("%s is due and no race is near", d)
		}
		marks := o.Lead.Race.Name
		for i, race := range []*planner.Race{o.Race, o.Eve, o.After} {
			if race != nil {
				marks += [...]string{", race day of ", ", eve of ", ", day after "}[i] + race.Name
			}
		}
		fmt.Fprintf(&b, "%s%s %s: %s\n", d.Short()+strings.Repeat(" ", 10-len(d.Short())), modes, marks, strings.TrimSpace(show.DayLine(o.Day).String()[10:]))
	}
	if *bottest.Update {
		if err := os.WriteFile(seasonFile, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(seasonFile)
	if err != nil || b.String() != string(want) {
		t.Errorf("%v; due now:\n%s", err, b.String())
	}
}

// The build-up's ends, counted by hand.
func TestBuildUp(t *testing.T) {
	f := reminded(t)
	for _, tc := range []struct{ race, from, to string }{
		{"Frost Ride", "2026-02-01", "2026-02-10"},   // C: D-7 to D+2, as 4 h are a big part of the week
		{"Barley Ring", "2026-02-25", "2026-03-10"},  // B of 2 h: D-11 to D+2
		{"Hill Loop", "2026-04-28", "2026-05-24"},    // A: 12 days of its own and 7, and 7 days after 3 h 45
		{"Four Valleys", "2026-07-03", "2026-08-07"}, // A of three days: 14 days after a block and 7, and 12 days after
	} {
		first, last := planner.Date(0), planner.Date(0)
		for d := day(t, "2026-01-01"); d <= day(t, "2026-08-31"); d++ {
			plan := engine.Derive(d, f)
			at, _ := plan.Day(d)
			for _, role := range plan.Races {
				if role.Race.Name == tc.race && remind.InBuildUp(plan, role, at) {
					if last = d; first.IsZero() {
						first = d
					}
				}
			}
		}
		if first.String() != tc.from || last.String() != tc.to {
			t.Errorf("%s: %s to %s, want %s to %s", tc.race, first, last, tc.from, tc.to)
		}
	}
}

// A race that has lost all its days to another is neither expected nor asked about.
func TestRaceWithoutDays(t *testing.T) {
	f := reminded(t)
	f.Races = append(f.Races, planner.Race{Name: "Shadow", Date: day(t, "2026-05-17"), Priority: planner.PriorityC, Hours: 1, Days: 1})
	for d, want := range map[string]string{"2026-05-16": "Hill Loop", "2026-05-17": "Hill Loop", "2026-05-18": "Hill Loop"} {
		d := day(t, d)
		o := remind.OccasionOf(engine.Derive(d, f), f, d)
		o.Ask = o.After
		if got := o.About(); got == nil || got.Name != want {
			t.Errorf("%s is about %+v, want %s", d, got, want)
		}
	}
}

// Which race a day speaks of where several are near.
func TestWordsBetweenRaces(t *testing.T) {
	f := reminded(t)
	for _, tc := range []struct{ day, has, lacks string }{
		{"2026-06-19", "Tomorrow, Sat 20 Jun: Lane Dash (C race).\n", "The openers are for it"}, // they are for the race of the 21st
		{"2026-06-20", "Race day: Lane Dash.\nGood luck, and enjoy it!\nTomorrow, Sun 21 Jun: Mill Road (B race).\n", "is in 1 day"},
		{"2026-06-21", "How were your legs in Lane Dash?", "Lane Dash is"},
		{"2026-07-05", "The taper for Four Valleys begins in 5 days, on Fri 10 Jul.", "Barn Sprint"},
		{"2026-07-16", "Race day: Barn Sprint.\n", "Four Valleys"}, {"2026-07-24", "Race day: Four Valleys, day 1 of 3.\n", "Day 1"},
		{"2026-07-25", "Race day: Four Valleys, day 2 of 3.\n", "How were"}, {"2026-03-24", "Tomorrow, Wed 25 Mar: Mallard Mile (B race).\n", "How were"},
		{"2026-04-13", "Quarry Crit was yesterday. This day is the same as in your usual week.", "Recovery"}, {"2026-03-09", "You recover from Barley Ring until Tue 10 Mar.", "Heron"},
	} {
		d := day(t, tc.day)
		plan := engine.Derive(d, f)
		o := remind.OccasionOf(plan, f, d)
		o.Ask = o.After
		r := o.Remind(plan, "Marrow Vale Wheelers")
		if bottest.Wants(t, r, tc.has); strings.Contains(r.Text(), tc.lacks) {
			t.Errorf("%s says %q:\n%s", tc.day, tc.lacks, r.Text())
		}
		if asked := strings.Contains(fmt.Sprint(r.Buttons), "Flying"); asked != (o.Ask != nil && o.Race == nil) {
			t.Errorf("%s has buttons %+v", tc.day, r.Buttons)
		}
	}
}

// Who is ill hears about health alone, also on the days by a race.
func TestRemindedWhileIll(t *testing.T) {
	f := reminded(t)
	for _, tc := range []struct{ symptom, want string }{{"chest pain", "Stop training now and see a doctor"}, {"fever", "You do not train until you have been free of symptoms"}} {
		f.Ill = []planner.Illness{{From: day(t, "2026-05-13"), Symptoms: []string{tc.symptom}}}
		due := 0
		for d := day(t, "2026-05-13"); d <= day(t, "2026-05-18"); d++ {
			plan := engine.Derive(d, f)
			o := remind.OccasionOf(plan, f, d)
			if !o.Due(storage.RemindChanged) {
				continue
			}
			due++
			o.Ask = o.After
			r := o.Remind(plan, "Marrow Vale Wheelers")
			bottest.Wants(t, r, tc.want, "see a doctor", "/me set remind:off", ": rest.\n")
			for _, not := range []string{"luck", "openers", "Race day", "taper for", "How were", "start 10:30", "Recovery after"} {
				if strings.Contains(r.Text(), not) {
					t.Errorf("%s on %s says %q:\n%s", tc.symptom, d, not, r.Text())
				}
			}
			well := tc.symptom == "fever" && d > day(t, "2026-05-13") // a doctor ends the other
			if n := len(r.Buttons); n != map[bool]int{false: 3, true: 4}[well] || len(r.Moments) > 0 || !strings.HasPrefix(r.Buttons[0].Label, "Why ") || well != (r.Buttons[1].Label == "I am well") {
				t.Errorf("%s on %s: buttons %+v", tc.symptom, d, r.Buttons)
			}
		}
		if due != 5 { // Thursday the 14th is a rest day as any other
			t.Errorf("%s: %d days are due, want 5", tc.symptom, due)
		}
	}
}

// Where a red flag has taken the taper out of the plan, its usual length stands in for it.
func TestRemindedWhileNothingIsPlanned(t *testing.T) {
	f := reminded(t)
	f.Ill = []planner.Illness{{From: day(t, "2026-04-20"), Symptoms: []string{"chest pain"}}}
	for text, want := range map[string]bool{"2026-04-25": false, "2026-04-26": true} {
		d := day(t, text)
		if o := remind.OccasionOf(engine.Derive(d, f), f, d); o.Due(storage.RemindChanged) != want {
			t.Errorf("%s: due %v", d, !want)
		}
	}
}

// rode is a ride that was logged on its day.
func rode(day planner.Date, minutes int) planner.Ride {
	return planner.Ride{Date: day, Minutes: minutes, Told: planner.Told{On: day}}
}

func TestRiddenDayIsQuiet(t *testing.T) {
	f := reminded(t)
	f.Done = []planner.Ride{rode(day(t, "2026-05-12"), 60), rode(day(t, "2026-05-16"), 30)}
	ridden, eve := day(t, "2026-05-12"), day(t, "2026-05-16")
	if o := remind.OccasionOf(engine.Derive(ridden, f), f, ridden); o.Due(storage.RemindAlways) {
		t.Error("a day that was told is due")
	}
	plan := engine.Derive(eve, f)
	o := remind.OccasionOf(plan, f, eve)
	if !o.Due(storage.RemindChanged) {
		t.Fatal("the eve of a race is not due once something was ridden")
	}
	r := o.Remind(plan, "Marrow Vale Wheelers")
	bottest.Wants(t, r, "Tomorrow, Sun 17 May: Hill Loop (A race), start 10:30.", "you rode 30min already")
	for _, b := range r.Buttons {
		if b.Command == "done" || b.Command == "tell missed" {
			t.Errorf("offers %s for a day that was told", b.Label)
		}
	}
}

// A year of anybody: a reminder is short, ends with how to stop, has few
// buttons, and each is a command that the table takes.
func TestRemindersOfAnybody(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 7))
	table, reminders := bot.Commands(), 0
	lives := max(25, rounds.Of(100))
	for range lives {
		today, f := bottest.AnyFacts(t, r)
		for d := today.AddDays(-120); d <= today.AddDays(245); d++ {
			known := f.KnownOn(d)
			if !remind.RaceNear(known, d) {
				continue
			}
			plan := engine.Derive(d, f)
			o := remind.OccasionOf(plan, known, d)
			if !o.Due(storage.RemindAlways) {
				continue
			}
			if o.Day.Phase != planner.Health {
				o.Ask = o.After
			}
			reminders++
			checkReminder(t, table, o.Remind(plan, strings.Repeat("W", 100)))
		}
	}
	if reminders < 30*lives {
		t.Errorf("only %d reminders were looked at", reminders)
	}
}

func checkReminder(t *testing.T, table []command.Command, r say.Reply) {
	t.Helper()
	lines := strings.Split(r.Text(), "\n")
	if n := utf8.RuneCountInString(r.Text()); n > 4000 || !strings.HasPrefix(lines[0], "Today, ") && !strings.HasPrefix(lines[0], "Race day: ") ||
		!strings.HasSuffix(r.Text(), "/me set remind:off") || strings.Contains(r.Text(), "%!") || !r.Private || r.Topic != say.TopicCommand {
		t.Fatalf("%d characters, private %v:\n%s", n, r.Private, r.Text())
	}
	for _, line := range lines {
		if line == "" || line != strings.TrimSpace(line) {
			t.Errorf("line %q of:\n%s", line, r.Text())
		}
	}
	labels := map[string]bool{}
	for _, b := range r.Buttons {
		if labels[b.Label] {
			t.Errorf("two buttons %s", b.Label)
		}
		labels[b.Label] = true
		for i := range table {
			if table[i].Name == b.Command {
				req, err := command.ParseLine(table, table[i].FormatLine(b.Options))
				if err == nil && req.Command == b.Command {
					_, err = table[i].Check(b.Options)
				}
				if err != nil {
					t.Errorf("%s: %v: %v", b.Label, b.Options, err)
				}
			}
		}
	}
	if n := len(r.Buttons); n < 3 || n > 7 || !labels["Stop reminders"] || !labels["Pause reminders for 3 days"] {
		t.Errorf("buttons %+v", r.Buttons)
	}
}

// A time of day comes once on each day: after a gap of the clocks at its end,
// the first time where it comes twice.
func TestDueAt(t *testing.T) {
	for _, tc := range []struct{ zone, day, clock, want string }{
		{"Europe/Lisbon", "2026-06-02", "06:30", "2026-06-02T05:30:00Z"}, {"Europe/Berlin", "2026-03-29", "02:30", "2026-03-29T01:00:00Z"},
		{"Europe/Berlin", "2026-03-29", "06:30", "2026-03-29T04:30:00Z"}, {"Europe/Berlin", "2026-10-25", "02:30", "2026-10-25T00:30:00Z"},
		{"Europe/Berlin", "2026-10-25", "01:59", "2026-10-24T23:59:00Z"}, {"Europe/Berlin", "2026-10-25", "03:00", "2026-10-25T02:00:00Z"},
		{"America/New_York", "2026-03-08", "02:15", "2026-03-08T07:00:00Z"}, {"America/New_York", "2026-11-01", "01:30", "2026-11-01T05:30:00Z"},
		{"Australia/Lord_Howe", "2026-10-04", "02:15", "2026-10-03T15:30:00Z"}, {"Australia/Lord_Howe", "2026-04-05", "01:45", "2026-04-04T14:45:00Z"},
		{"Asia/Kathmandu", "2026-06-02", "06:30", "2026-06-02T00:45:00Z"}, {"Pacific/Kiritimati", "2026-06-02", "00:00", "2026-06-01T10:00:00Z"},
		{"Pacific/Pago_Pago", "2026-06-02", "23:59", "2026-06-03T10:59:00Z"}, {"Africa/Cairo", "2026-04-24", "00:10", "2026-04-23T22:00:00Z"}, {"UTC", "2026-06-02", "06:30", "2026-06-02T06:30:00Z"},
	} {
		zone, err := time.LoadLocation(tc.zone)
		if err != nil {
			t.Fatal(err)
		}
		if got := mustDue(t, day(t, tc.day), tc.clock, zone).UTC().Format(time.RFC3339); got != tc.want {
			t.Errorf("%s on %s in %s: %s, want %s", tc.clock, tc.day, tc.zone, got, tc.want)
		}
	}
}
