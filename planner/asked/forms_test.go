package asked_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/asked"
)

// forms are ways to name a day by its weekday, and the day that each means.
var forms = []struct {
	text string // %s is the weekday
	day  func(today planner.Date, w planner.Weekday) (from, to planner.Date)
}{
	{"What do I ride on %s?", next(0)},
	{"what's my session this coming %s", next(1)},
	{"What do I ride a week on %s?", weekOn},
	{"what do i ride %s week", weekOn},
	{"What do I ride %s of next week?", ofWeek(1)},
	{"May I go to the gym on %s?", next(0)},
	{"I missed %s's intervals.", last},
	{"did %s's ride, 60 min, 8/10", last},
	{"I was sick on %s and threw up", last},
	{"my legs were dead on %s, no power at all", last},
	{"What do I ride on %s before Hill Loop?", beforeRace},
	{"what do I ride the %s after Hill Loop", afterRace},
	{"What is my %s session in Hill Loop week?", inRaceWeek},
	{"on %s of race week for Hill Loop, what do I ride", inRaceWeek},
	{"what do i ride a week come %s", weekOn},
	{"What do I ride on the %s after this one?", weekOn},
	{"the %s of Hill Loop week, what is it", inRaceWeek},
}

func next(least int) func(planner.Date, planner.Weekday) (planner.Date, planner.Date) {
	return func(today planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
		d := from(today.AddDays(least), w)
		return d, d
	}
}

// from is the first such weekday from a day on.
func from(d planner.Date, w planner.Weekday) planner.Date {
	return d.AddDays((int(w) - int(d.Weekday()) + 7) % 7)
}

func weekOn(today planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
	d := from(today, w).AddDays(7)
	return d, d
}

func ofWeek(n int) func(planner.Date, planner.Weekday) (planner.Date, planner.Date) {
	return func(today planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
		d := today.AddDays(7*n + int(w) - int(today.Weekday()))
		return d, d
	}
}

func last(today planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
	d := from(today.AddDays(-6), w)
	return d, d
}

// hillLoop is the day of the race that the forms name.
var hillLoop = planner.NewDate(2026, 6, 21)

func beforeRace(_ planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
	d := from(hillLoop.AddDays(-7), w)
	return d, d
}

func afterRace(_ planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
	d := from(hillLoop.AddDays(1), w)
	return d, d
}

func inRaceWeek(_ planner.Date, w planner.Weekday) (planner.Date, planner.Date) {
	d := hillLoop.AddDays(int(w) - int(hillLoop.Weekday()))
	return d, d
}

// Each form of a day means one day, whichever weekday it names and whichever today is.
func TestFormsOfWeekdays(t *testing.T) {
	k := sampleKnown(t)
	k.Races = []planner.Race{{Name: "Hill Loop", Priority: planner.PriorityA, Date: hillLoop, Days: 1}}
	tried := 0
	for shift := range 7 {
		k.Today = planner.NewDate(2026, 6, 1).AddDays(shift)
		for w := planner.Monday; w <= planner.Sunday; w++ {
			for _, f := range forms {
				if tried++; rounds.Left(tried) {
					continue
				}
				text := fmt.Sprintf(f.text, w)
				a, b := f.day(k.Today, w)
				wantDay(t, k, text, span(a.String(), b.String()))
			}
		}
	}
}

// wantDay expects that one of the parts of a text means a day.
func wantDay(t *testing.T, k asked.Known, text, want string) {
	t.Helper()
	var have []string
	for _, p := range asked.Read(text, k).Parts {
		if a, b, ok := p.Stretch(); ok {
			have = append(have, span(a.String(), b.String()))
		}
		for _, s := range p.Dates {
			for _, r := range s.Ask { // it asks which of them is meant
				have = append(have, r.Value)
			}
		}
	}
	for _, day := range strings.Split(want, "|") {
		for _, h := range have {
			if h == day {
				return
			}
		}
	}
	t.Errorf("%s, %s: %q means %v, want %s", k.Today.Weekday(), k.Today, text, have, want)
}

// Two days of one question stay together, and what is told of one is not taken back by the other.
func TestTwoDaysStayTogether(t *testing.T) {
	k := sampleKnown(t)
	k.Today = planner.NewDate(2026, 6, 4)
	wantDay(t, k, "what's on fri and sat and how hard should it be", "2026-06-05..2026-06-06")
	wantDay(t, k, "missed yesterday sorry, and what's tomorrow", "2026-06-03")
}

// Days that were written down with how they are meant stay read so.
func TestOwnDays(t *testing.T) {
	for i, l := range append(hands(t, "more-[678].tsv"), append(hands(t, "more-1[01234].tsv"), hands(t, "days-1.tsv")...)...) {
		if !rounds.Left(i) && l.date != "?" && l.date != "-" {
			wantDay(t, l.known, l.text, l.date)
		}
	}
}

// Lines of days that name a race mean that race, and those that mean no day have none.
func TestOwnDaysOfRaces(t *testing.T) {
	for i, l := range hands(t, "days-1.tsv") {
		if rounds.Left(i) || slices.Contains(l.topics, asked.AddRace) {
			continue
		}
		n := countLine(l)
		if n.falseDay > 0 {
			t.Errorf("%q means a day", l.text)
		}
		if n.raceRight < n.races {
			t.Errorf("%q does not mean %s", l.text, l.race)
		}
	}
}
