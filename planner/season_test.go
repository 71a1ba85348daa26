package planner

import (
	"strings"
	"testing"
)

// goal is an A race of 3.5 h on a date, registered long before.
func goal(t *testing.T, name, date string) Race {
	t.Helper()
	d := mustDate(t, date)
	return Race{Name: name, Priority: PriorityA, Date: d, Hours: 3.5, Days: 1, Registered: d - 200}
}

func ines(t *testing.T, races ...Race) *Facts {
	t.Helper()
	return &Facts{Weeks: []DatedWeek{{Week: mustWeek(t, inesWeek)}}, Races: races}
}

func hasWarning(p *Plan, code, name string) bool {
	for _, w := range p.Warnings {
		if w.Code == code && strings.Contains(w.Text, name) {
			return true
		}
	}
	return false
}

// dayLine is the planned day of a date in one short line.
func dayLine(t *testing.T, p *Plan, date string) string {
	t.Helper()
	d, ok := p.Day(mustDate(t, date))
	if !ok {
		t.Fatalf("%s is not in the plan", date)
	}
	return line(d)
}

// The default lengths: 7 days near another A race, 10 before one within 8 weeks, else 14.
func TestDefaultLength(t *testing.T) {
	first := mustDate(t, "2026-05-10")
	for gap, want := range map[int][2]int{15: {7, 7}, 28: {7, 7}, 29: {10, 14}, 56: {10, 14}, 57: {14, 14}} {
		second := goal(t, "Mill Circuit", "2026-05-10")
		second.Date = first.AddDays(gap)
		p := Derive(first-20, ines(t, goal(t, "Gorge Circuit", "2026-05-10"), second))
		got := [2]int{p.Tapers[0].Days, p.Tapers[1].Days}
		if got != want {
			t.Errorf("%d days apart: got tapers of %v days, want %v", gap, got, want)
		}
		if warned := hasWarning(p, "season.close", "Mill Circuit"); warned != (gap < 28) {
			t.Errorf("%d days apart: warned is %v", gap, warned)
		}
	}
}

// A second A race within 14 days takes the days that recovery leaves.
func TestSecondGoalTakesWhatRecoveryLeaves(t *testing.T) {
	p := Derive(mustDate(t, "2026-06-01"), ines(t, goal(t, "Gorge Circuit", "2026-06-07"), goal(t, "Mill Circuit", "2026-06-14")))
	if got := p.Tapers[1]; got.Days != 3 || got.From != mustDate(t, "2026-06-11") {
		t.Errorf("second taper: %d days from %s, want 3 from 2026-06-11", got.Days, got.From)
	}
	for _, date := range []string{"2026-06-08", "2026-06-09", "2026-06-10"} {
		if d, _ := p.Day(mustDate(t, date)); d.Phase != Recovering || d.IsHard() {
			t.Errorf("%s: phase %s, hard %v", date, d.Phase, d.IsHard())
		}
	}
}

func TestRacesOnOneDay(t *testing.T) {
	cup := goal(t, "Crit Cup", "2026-06-14")
	cup.Priority = PriorityC
	p := Derive(mustDate(t, "2026-06-10"), ines(t, cup, goal(t, "Gorge Circuit", "2026-06-14")))
	if d, _ := p.Day(mustDate(t, "2026-06-14")); d.Race.Name != "Gorge Circuit" {
		t.Errorf("planned race: got %s, want the A race", d.Race.Name)
	}
	if !hasWarning(p, "race.same-day", "Crit Cup") {
		t.Errorf("warnings: got %v, want one that names Crit Cup", p.Warnings)
	}
}

func TestRegisteredLate(t *testing.T) {
	race := goal(t, "Gorge Circuit", "2026-06-14")
	race.Registered = mustDate(t, "2026-06-09")
	p := Derive(race.Registered, ines(t, race))
	if got := p.Tapers[0]; got.Days != 5 || got.From != race.Registered {
		t.Errorf("taper: %d days from %s, want 5 from the day of registering", got.Days, got.From)
	}
	if !hasWarning(p, "race.late", "Gorge Circuit") {
		t.Errorf("warnings: got %v, want race.late", p.Warnings)
	}
	race.Registered = race.Date
	if p := Derive(race.Date, ines(t, race)); len(p.Tapers) != 0 {
		t.Errorf("registered on race day: got tapers %v, want none", p.Tapers)
	}
}

// An overload block just before lengthens the taper to 14 days, even against a set length, and opens it easy.
func TestOverloadBefore(t *testing.T) {
	f := ines(t, goal(t, "Gorge Circuit", "2026-06-28"))
	f.Taper.Days = 7
	f.Blocks = []Block{{From: mustDate(t, "2026-06-01"), To: mustDate(t, "2026-06-16"), Percent: 20}}
	p := Derive(mustDate(t, "2026-06-15"), f)
	if got := p.Tapers[0]; got.Days != 11 {
		t.Errorf("taper: %d days, want the 11 that the block leaves", got.Days)
	}
	if !hasWarning(p, "taper.overload", "Sat 13 Jun") {
		t.Errorf("warnings: got %v, want the day to end the block on", p.Warnings)
	}
	for date, want := range map[string]string{
		"2026-06-15": "mon / recovery 50", "2026-06-16": "tue / intervals 110 5x3min",
		"2026-06-17": "wed / recovery 60", "2026-06-18": "thu / rest",
	} {
		if got := dayLine(t, p, date); got != want {
			t.Errorf("%s: got %q, want %q", date, got, want)
		}
	}

	f.Taper.Days, f.Blocks[0].To = 0, mustDate(t, "2026-06-13")
	p = Derive(mustDate(t, "2026-06-12"), f)
	if got := p.Tapers[0]; got.Days != 14 {
		t.Errorf("taper: %d days, want 14", got.Days)
	}
	for date, want := range map[string]string{ // Tuesday is the rider's hard day
		"2026-06-14": "sun / recovery 60", "2026-06-15": "mon / recovery 30", "2026-06-16": "tue / intervals 55 5x3min", "2026-06-17": "wed / recovery 60",
	} {
		if got := dayLine(t, p, date); got != want {
			t.Errorf("%s: got %q, want %q", date, got, want)
		}
	}
	f.Taper.Days = 7
	if p = Derive(mustDate(t, "2026-06-12"), f); p.Tapers[0].Days != 7 {
		t.Errorf("a block that ended 8 days before the window: taper of %d days, want the 7 that are set", p.Tapers[0].Days)
	}
}

// A B race inside an A taper is one of its hard days; close to the goal it is warned about.
func TestRaceInsideTaper(t *testing.T) {
	b := goal(t, "Heron Valley", "2026-06-12")
	b.Priority, b.Hours = PriorityB, 1
	p := Derive(mustDate(t, "2026-06-01"), ines(t, b, goal(t, "Gorge Circuit", "2026-06-14")))
	if !hasWarning(p, "season.inside", "Heron Valley") {
		t.Errorf("warnings: got %v, want season.inside", p.Warnings)
	}
	if got := dayLine(t, p, "2026-06-13"); got != "sat / openers 60" {
		t.Errorf("day between the races: got %q", got)
	}
	if d, _ := p.Day(mustDate(t, "2026-06-11")); d.IsHard() {
		t.Errorf("the day before the inner race is hard: %q", line(d))
	}
}

// Of two B races within 4 days the later is trained through unless it is the important one.
func TestTwoHalfTapersClash(t *testing.T) {
	first, second := goal(t, "Heron Valley", "2026-06-10"), goal(t, "Mill Circuit", "2026-06-13")
	first.Priority, second.Priority = PriorityB, PriorityB
	p := Derive(mustDate(t, "2026-06-01"), ines(t, first, second))
	if got := dayLine(t, p, "2026-06-09"); got != "tue / openers 60" {
		t.Errorf("eve of the first: got %q, want openers", got)
	}
	if !hasWarning(p, "season.close", "Mill Circuit is trained through") {
		t.Errorf("warnings: %v", p.Warnings)
	}
	second.Emphasis = Important
	p = Derive(mustDate(t, "2026-06-01"), ines(t, first, second))
	if got := dayLine(t, p, "2026-06-09"); got != "tue / intervals 90 5x3min" {
		t.Errorf("eve of the lesser race: got %q, want the usual day", got)
	}
}

// The plan ends the day after the last recovery day, or after 14 days without a race.
func TestPlanEnds(t *testing.T) {
	today := mustDate(t, "2026-06-01")
	for hours, after := range map[float64]int{1: 2, 1.5: 3, 3: 3, 3.5: 4, 5: 4, 6: 6, 8: 6, 9: 8} {
		race := goal(t, "Gorge Circuit", "2026-06-14")
		race.Hours = hours
		p := Derive(today, ines(t, race))
		if got := race.Date.DaysUntil(p.Days[len(p.Days)-1].Date); got != after {
			t.Errorf("A race of %g h: ends on D+%d, want D+%d", hours, got, after)
		}
	}
	if got := len(Derive(today, ines(t)).Days); got != 14 {
		t.Errorf("no race: %d days, want 14", got)
	}
}

// A typical week that changes inside the window: each day's hard sessions are those of the week in force.
func TestWeekChangesInsideWindow(t *testing.T) {
	f := ines(t, goal(t, "Gorge Circuit", "2026-06-28"))
	f.Weeks = append(f.Weeks, DatedWeek{From: mustDate(t, "2026-06-22"), Week: mustWeek(t, "mon endurance 1h; tue intervals 1h 6x2min; wed endurance 1h30; sat long 2h; sun endurance 2h")})
	p := Derive(mustDate(t, "2026-06-12"), f)
	hard := 0
	for i := range p.Days {
		d := &p.Days[i]
		for _, s := range d.Sessions {
			if s.Kind == Intervals {
				hard++
				if s.Minutes < 30 || s.Sets.IsZero() {
					t.Errorf("%s: %q is no hard session", d.Date, line(d))
				}
			}
		}
	}
	if hard < 4 {
		t.Errorf("got %d hard sessions, want those of both weeks", hard)
	}
	f.Weeks[1].Week = mustWeek(t, "mon endurance 1h; tue endurance 1h; wed endurance 1h30; sat long 2h; sun endurance 2h")
	p = Derive(mustDate(t, "2026-06-12"), f)
	if first, _ := p.Day(mustDate(t, "2026-06-14")); !first.IsHard() {
		t.Errorf("a hard day of the week before the change is lost: %q", line(first))
	}
	for _, w := range p.Warnings {
		if w.Code == "taper.pattern" {
			t.Errorf("warned of a pattern that the new week does not have: %s", w.Text)
		}
	}
}
