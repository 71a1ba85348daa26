package desk

import (
	"slices"

	"musette/planner"
	"musette/planner/engine"
)

// Unlogged is a day as it was planned, whatever was logged of it; nil without a
// typical week.
func Unlogged(f Ledger, date planner.Date) *engine.Day { return shownOn(f, date, nil) }

// Lived is a day that is over as it was shown, or as it was ridden where that is
// logged; nil without a typical week.
func Lived(f Ledger, date planner.Date) *engine.Day {
	var rides []planner.Ride
	for _, r := range f.Now.Done {
		if r.Date == date {
			r.Told = planner.Told{On: date} // a log shows on its own day
			rides = append(rides, r)
		}
	}
	return shownOn(f, date, rides)
}

// shownOn is a day as it was planned on that day, with rides in place of those
// that are logged.
func shownOn(f Ledger, date planner.Date, rides []planner.Ride) *engine.Day {
	if !Planned(f.Now) {
		return nil
	}
	then := *f.All
	then.Done = slices.DeleteFunc(slices.Clone(f.All.Done), func(r planner.Ride) bool { return r.Date == date })
	then.Done = append(then.Done, rides...)
	day, _ := engine.DeriveUntil(date, date, &then).Day(date)
	return day
}

// PlannedThen reports whether a day that is over had a plan: a week was known by then.
func PlannedThen(f Ledger, day planner.Date) bool {
	return slices.ContainsFunc(f.All.Weeks, func(w planner.DatedWeek) bool { return w.On <= day })
}

// LaidLow reports a day on which nothing is logged and the rider was ill, whenever that was
// entered: what was planned for it was not ridden.
func LaidLow(f *planner.Facts, day planner.Date) bool {
	return f.IllOn(day) && !slices.ContainsFunc(f.Done, func(r planner.Ride) bool { return r.Date == day })
}

// LimitOn is the limit that was entered for a day.
func LimitOn(f *planner.Facts, day planner.Date) (planner.Limit, bool) {
	for _, l := range f.Limits {
		if l.Date == day {
			return l, true
		}
	}
	return planner.Limit{}, false
}

// SamePair reports whether two swaps are of the same two days.
func SamePair(a, b planner.Move) bool {
	return a.From == b.From && a.To == b.To || a.From == b.To && a.To == b.From
}

// Moved reports whether two days are swapped.
func Moved(f *planner.Facts, a, b planner.Date) bool {
	for _, m := range f.Moves {
		if SamePair(m, planner.Move{From: a, To: b}) {
			return true
		}
	}
	return false
}
