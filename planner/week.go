package planner

import (
	"slices"
	"strings"
)

// WeekdayPlan is what a rider usually does on one weekday.
// Busy means that riding is never possible then; a free day by habit has no session.
type WeekdayPlan struct {
	Busy     bool
	Sessions []Session
}

// Week is a typical week, Monday first.
type Week [7]WeekdayPlan

// DatedWeek is a typical week with the first date from which it holds. With a
// second one the two take turns: Week is that of the calendar week of From.
type DatedWeek struct {
	From   Date
	Week   Week
	Second *Week
	Told
}

// inTurn is the one of the two weeks that holds on a date.
func (w *DatedWeek) inTurn(d Date) *Week {
	monday := func(d Date) Date { return d - Date(d.Weekday()) }
	if w.Second != nil && monday(w.From).DaysUntil(monday(d))/7%2 != 0 {
		return w.Second
	}
	return &w.Week
}

// rideMinutes is the riding time of a list of sessions.
func rideMinutes(sessions []Session) int {
	total := 0
	for _, s := range sessions {
		if s.Kind.IsRide() {
			total += int(s.Minutes)
		}
	}
	return total
}

// RideMinutes is the usual riding time of the weekday; a busy day has none.
func (p WeekdayPlan) RideMinutes() int {
	if p.Busy {
		return 0
	}
	return rideMinutes(p.Sessions)
}

// IsHard reports whether the weekday usually holds a hard session.
func (p WeekdayPlan) IsHard() bool {
	return !p.Busy && slices.ContainsFunc(p.Sessions, Session.IsHard)
}

// String is the weekday as the week grammar writes it: a free day as rest.
func (p WeekdayPlan) String() string {
	if p.Busy {
		return "busy"
	}
	if len(p.Sessions) == 0 {
		return "rest"
	}
	parts := make([]string, len(p.Sessions))
	for i, s := range p.Sessions {
		parts[i] = s.Label()
	}
	return strings.Join(parts, "; ")
}

// RideMinutes is the riding time of the whole week.
func (w *Week) RideMinutes() int {
	total := 0
	for _, p := range w {
		total += p.RideMinutes()
	}
	return total
}

// HardDays counts the weekdays with a hard session.
func (w *Week) HardDays() int {
	n := 0
	for _, p := range w {
		if p.IsHard() {
			n++
		}
	}
	return n
}

// String is the week in the grammar of typed.Week, one clause group a weekday.
func (w *Week) String() string {
	parts := make([]string, 7)
	for i, p := range w {
		parts[i] = strings.ToLower(Weekday(i).Short()) + " " + p.String()
	}
	return strings.Join(parts, "; ")
}

// Rides is how many days of the week are ridden.
func (w *Week) Rides() int {
	n := 0
	for _, p := range w {
		if p.RideMinutes() > 0 {
			n++
		}
	}
	return n
}
