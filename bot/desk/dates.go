package desk

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
)

// MostLogged is how far back a ride can be told, in days.
const MostLogged = 366

// reader is a parser of package typed for days.
type reader func(text string, today planner.Date) (planner.Date, error)

// date reads the day of an option. Of the days that a text can mean those that the
// option can take are meant.
func (r *Request) date(option string, read reader, fits func(planner.Date) bool) (planner.Date, error) {
	day, err := read(r.Get(option), r.Rider.Today)
	var open *typed.Ambiguous
	if !errors.As(err, &open) {
		return day, say.InField(option, err)
	}
	narrow := *open
	narrow.Readings = slices.DeleteFunc(slices.Clone(open.Readings), func(reading typed.Reading) bool {
		d, err := planner.ParseISODate(reading.Value)
		return err != nil || !fits(d)
	})
	switch len(narrow.Readings) {
	case 0:
		return 0, say.InField(option, err)
	case 1:
		return planner.ParseISODate(narrow.Readings[0].Value)
	}
	return 0, say.InField(option, &narrow)
}

// anyDay fits all days.
func anyDay(planner.Date) bool { return true }

// PastDay reads the day of something that is over, today where it was left out.
// A weekday is the last such one, a date without a year the nearest.
func (r *Request) PastDay(option string) (planner.Date, error) {
	today := r.Rider.Today
	if !r.Has(option) {
		return today, nil
	}
	day, err := r.date(option, typed.DateBack, func(d planner.Date) bool { return d <= today })
	switch {
	case err != nil:
		return 0, err
	case day > today:
		return 0, say.Refuse(option, "%s is to come (today is %s). Name a day that is over, for example %s", day.Long(), today.Long(), today.AddDays(-1))
	case day < today.AddDays(-MostLogged):
		return 0, say.Refuse(option, "%s is over a year ago. For example %s", day.Long(), today.AddDays(-1))
	}
	return day, nil
}

// Day reads a day option, "" meaning today; days before today are refused. A weekday
// may be today.
func (r *Request) Day(option string) (planner.Date, error) { return r.ahead(option, typed.Date) }

// ComingDay is Day for what is planned: a weekday is never today.
func (r *Request) ComingDay(option string) (planner.Date, error) {
	return r.ahead(option, typed.DateComing)
}

func (r *Request) ahead(option string, read reader) (planner.Date, error) {
	today := r.Rider.Today
	if !r.Has(option) {
		return today, nil
	}
	date, err := r.date(option, read, func(d planner.Date) bool { return d >= today })
	if err != nil {
		return 0, err
	}
	return date, AheadOnly(option, date, today)
}

// AnyDay reads the option day, "" meaning today; days that are over may be asked
// about for a year.
func (r *Request) AnyDay() (planner.Date, error) {
	today := r.Rider.Today
	if !r.Has("day") {
		return today, nil
	}
	date, err := r.date("day", lately, anyDay)
	switch {
	case err != nil:
		return 0, err
	case date < today.AddDays(-MostLogged):
		return 0, say.Refuse("day", "%s is over a year ago. For example %s", date.Long(), today.AddDays(-1))
	}
	return date, AheadOnly("day", max(date, today), today)
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

// FromDay reads the first day of something that may have begun: of a day without a
// year the nearest is meant, of a weekday the coming one.
func (r *Request) FromDay(option string) (planner.Date, error) {
	today := r.Rider.Today
	from, err := r.date(option, nearest, anyDay)
	switch {
	case err != nil:
		return 0, err
	case from < today.AddDays(-MostLogged):
		return 0, say.Refuse(option, "%s is over a year ago. For example %s", from.Long(), today)
	}
	return from, AheadOnly(option, max(from, today), today)
}

// lately is typed.Date, but for a day of the year that was a month ago or less.
func lately(text string, today planner.Date) (planner.Date, error) {
	const month = 31
	date, err := typed.Date(text, today)
	if last, backErr := typed.DateBack(text, today); err == nil && backErr == nil && last < today && last.DaysUntil(today) <= month && last.DaysUntil(date) > 10*month {
		return last, nil
	}
	return date, err
}

// nearest is typed.DateFrom, but for a day of the year that was nearer.
func nearest(text string, today planner.Date) (planner.Date, error) {
	from, err := typed.DateFrom(text, today)
	if err != nil {
		return 0, err
	}
	const week = 7
	if last, err := typed.DateBack(text, today); err == nil && last < today && last.DaysUntil(from) > week && last.DaysUntil(today) < today.DaysUntil(from) {
		return last, nil
	}
	return from, nil
}

// begun is the day of an option that is read as one far ahead, or the same day of this
// year where that was just now: on 9 May nobody means the 3 May of next year.
func (r *Request) begun(option string, ahead planner.Date) planner.Date {
	const (
		justNow = 30 // days
		farOff  = 300
	)
	today := r.Rider.Today
	back, err := typed.DateBack(r.Get(option), today)
	year, _, _ := ahead.Civil()
	if err == nil && back < today && back.DaysUntil(today) <= justNow && today.DaysUntil(ahead) >= farOff && !strings.Contains(r.Get(option), strconv.Itoa(year)) {
		return back
	}
	return ahead
}

// Stretch reads from and to; a weekday or a day without a year in to is the first
// one from the start of the stretch on. Without to it is a single day, or what was
// named: next week, the weekend. What may have begun is read by FromDay.
func (r *Request) Stretch(most int, began bool) (from, to planner.Date, err error) {
	today := r.Rider.Today
	if began {
		from, err = r.FromDay("from")
	} else if from, err = r.date("from", typed.DateFrom, func(d planner.Date) bool { return d >= today }); err == nil {
		if from < today.AddDays(-MostLogged) {
			return 0, 0, say.Refuse("from", "%s is over a year ago. For example %s", from.Long(), today)
		}
		from = r.begun("from", from)
		err = AheadOnly("from", max(from, today), today)
	}
	if err != nil {
		return 0, 0, err
	}
	if !r.Has("to") {
		if to, err = typed.DateTo(r.Get("from"), today); err != nil || to < from || from.DaysUntil(to) >= most || from < today {
			to = from
		}
		return from, to, nil
	}
	fits := func(d planner.Date) bool { return d >= from && from.DaysUntil(d) < most }
	if to, err = r.date("to", typed.DateTo, fits); err != nil {
		return 0, 0, err
	}
	if !fits(to) {
		const halfYear = 183 // whoever swaps two days does not mean the next year
		if later, err := typed.DateTo(r.Get("to"), from); err == nil && from.DaysUntil(later) < halfYear {
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
