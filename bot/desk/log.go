package desk

import (
	"slices"
	"strings"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
)

// MostLogged is how far back a ride can be told, in days.
const MostLogged = 366

// PastDay reads the day of something that is over, today where it was left out.
// A weekday is the last such one, a date without a year the nearest.
func (r *Request) PastDay(option string) (planner.Date, error) {
	today := r.Rider.Today
	if !r.Has(option) {
		return today, nil
	}
	day, err := LastDayOf(r.Get(option), today)
	switch {
	case err != nil:
		return 0, say.InField(option, err)
	case day > today:
		return 0, say.Refuse(option, "%s is to come (today is %s). Name a day that is over, for example %s", day.Long(), today.Long(), today.AddDays(-1))
	case day < today.AddDays(-MostLogged):
		return 0, say.Refuse(option, "%s is over a year ago. For example %s", day.Long(), today.AddDays(-1))
	}
	return day, nil
}

// LastDayOf is typed.Date for days that are over: where its next such day
// is to come, the last such day is meant if it is nearer or within a week.
func LastDayOf(text string, today planner.Date) (planner.Date, error) {
	next, err := typed.Date(text, today)
	if err != nil || next <= today || strings.HasPrefix(strings.ToLower(text), "next") {
		return next, err
	}
	// Asked a day earlier, a weekday or a date is the same day, or yesterday; "tomorrow" is not.
	if eve, err := typed.Date(text, today-1); err != nil || eve != next && eve != today-1 {
		return next, nil
	}
	for _, back := range []int{6, 30, 365} {
		last, err := typed.Date(text, today.AddDays(-back))
		ago := last.DaysUntil(today)
		if err == nil && ago >= 0 && (ago < 7 || ago < today.DaysUntil(next)) {
			return last, nil
		}
	}
	return next, nil
}

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
