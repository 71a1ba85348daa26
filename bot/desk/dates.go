package desk

import (
	"strings"

	"musette/bot/say"
	"musette/planner"
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

// Day reads a day option, "" meaning today; days before today are refused.
func (r *Request) Day(option string) (planner.Date, error) {
	if !r.Has(option) {
		return r.Rider.Today, nil
	}
	date, err := typed.Date(r.Get(option), r.Rider.Today)
	if err != nil {
		return 0, say.InField(option, err)
	}
	return date, AheadOnly(option, date, r.Rider.Today)
}

// AnyDay reads the option day, "" meaning today; days that are over may be asked
// about for a year.
func (r *Request) AnyDay() (planner.Date, error) {
	today := r.Rider.Today
	if r.Has("day") {
		date, err := typed.Date(r.Get("day"), today)
		switch {
		case err != nil:
			return 0, say.InField("day", err)
		case date < today.AddDays(-MostLogged):
			return 0, say.Refuse("day", "%s is over a year ago. For example %s", date.Long(), today.AddDays(-1))
		case date < today:
			return date, nil
		}
	}
	return r.Day("day")
}

// AheadOnly refuses days that are over and those over three years away.
func AheadOnly(option string, date, today planner.Date) error {
	switch {
	case date < today:
		return say.Refuse(option, "%s is past (today is %s). For example %s", date.Long(), today.Long(), today.AddDays(1))
	case date > today.AddDays(planner.MaxAhead):
		return say.Refuse(option, "%s is over three years away. For example %s", date.Long(), today.AddDays(28))
	}
	return nil
}

// Stretch reads from and to; a weekday or a day without a year in to is the
// first one from the start of the stretch on. Without to it is a single day.
func (r *Request) Stretch(most int) (from, to planner.Date, err error) {
	today := r.Rider.Today
	if from, err = typed.Date(r.Get("from"), today); err != nil {
		return 0, 0, say.InField("from", err)
	}
	if from < today.AddDays(-366) {
		return 0, 0, say.Refuse("from", "%s is over a year ago. For example %s", from.Long(), today)
	}
	if err := AheadOnly("from", max(from, today), today); err != nil {
		return 0, 0, err
	}
	if !r.Has("to") {
		return from, from, nil
	}
	if to, err = typed.Date(r.Get("to"), today); err != nil {
		return 0, 0, say.InField("to", err)
	}
	if to < from {
		if later, err := typed.Date(r.Get("to"), from); err == nil {
			to = later
		}
	}
	switch {
	case to < from:
		return 0, 0, say.Refuse("to", "%s is before %s. For example to:%s", to.Long(), from.Long(), max(from, today).AddDays(3))
	case from.DaysUntil(to) >= most:
		return 0, 0, say.Refuse("to", "%s is more than %d days after %s. For example to:%s", to.Long(), most, from.Long(), max(from, today).AddDays(3))
	}
	return from, to, nil
}
