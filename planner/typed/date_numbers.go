package typed

import (
	"errors"
	"slices"
	"time"

	"musette/planner"
)

// numericDay reads a date of numbers, with or without its weekday: sun 5/7. The
// weekday decides where day and month can be either.
func (r *dateReader) numericDay(toks []token) (planner.Date, bool, error) {
	rest := toks
	w, named := weekdayWord(toks[0].text)
	if named {
		if rest = toks[1:]; len(rest) > 0 && rest[0].isMark(",") {
			rest = rest[1:]
		}
	} else if w, named = weekdayWord(toks[len(toks)-1].text); named {
		rest = toks[:len(toks)-1]
	}
	d, ok, err := r.numeric(rest)
	if !named {
		return d, ok, err
	}
	readings := []planner.Date{d}
	if open := (*Ambiguous)(nil); errors.As(err, &open) {
		readings = nil
		for _, reading := range open.Readings {
			d, _ := planner.ParseISODate(reading.Value)
			readings = append(readings, d)
		}
	} else if !ok {
		return d, ok, err
	}
	fitting := slices.DeleteFunc(slices.Clone(readings), func(d planner.Date) bool { return d.Weekday() != w })
	switch len(fitting) {
	case 0:
		return 0, false, wrongWeekday(readings[0], w)
	case 1:
		return fitting[0], true, nil
	}
	return 0, false, err
}

// numeric reads 2026-06-13, 20260613, 13/6, 6/13, 13.6. and 13/6/2027.
func (r *dateReader) numeric(toks []token) (d planner.Date, ok bool, err error) {
	if len(toks) == 1 && toks[0].kind == numberToken && toks[0].digits == 8 {
		n := int(toks[0].value)
		d, err = r.inYear(n%100, time.Month(n/100%100), n/10000)
		return d, err == nil, err
	}
	if n := len(toks); (n == 4 || n == 6) && toks[1].isMark(".") && toks[n-1].isMark(".") {
		toks = toks[:n-1]
	}
	if len(toks) != 3 && len(toks) != 5 {
		return 0, false, nil
	}
	for i, t := range toks {
		if i%2 == 0 && t.kind != numberToken {
			return 0, false, nil
		}
		if i%2 == 1 && (t.text != toks[1].text || !t.isMark("/") && !t.isMark(".") && !t.isMark("-")) {
			return 0, false, nil
		}
	}
	a, b := int(toks[0].value), int(toks[2].value)
	if len(toks) == 3 {
		if toks[0].digits > 2 || toks[2].digits > 2 {
			return 0, false, nil
		}
		d, err = r.twoNumbers(a, b, 0)
		return d, err == nil, err
	}
	c := int(toks[4].value)
	switch {
	case toks[0].digits == 4 && toks[2].digits <= 2 && toks[4].digits <= 2:
		d, err = r.inYear(c, time.Month(b), a)
	case toks[1].isMark(".") && toks[0].digits <= 2 && toks[2].digits <= 2 && b <= 12 && (toks[4].digits == 4 || toks[4].digits == 2):
		// Who writes a date with two dots writes the day first.
		if toks[4].digits == 2 {
			c += 2000
		}
		d, err = r.inYear(a, time.Month(b), c)
	case toks[0].digits <= 2 && toks[2].digits <= 2 && toks[4].digits == 4:
		d, err = r.twoNumbers(a, b, c)
	case toks[0].digits <= 2 && toks[2].digits <= 2 && toks[4].digits == 2:
		d, err = r.twoNumbers(a, b, 2000+c)
	default:
		return 0, false, nil
	}
	return d, err == nil, err
}

// twoNumbers reads day and month where only one order makes sense. Year 0 means none told.
func (r *dateReader) twoNumbers(a, b, year int) (planner.Date, error) {
	switch {
	case a == b || a > 12 && b <= 12:
		return r.dayMonth(a, time.Month(b), year)
	case b > 12 && a <= 12:
		return r.dayMonth(b, time.Month(a), year)
	case a > 12:
		return 0, planner.BadInput("", "%s has no month of 1 to 12. %s", quoted(r.text), r.likeDate())
	}
	first, err := r.dayMonth(a, time.Month(b), year)
	if err != nil {
		return 0, err
	}
	second, err := r.dayMonth(b, time.Month(a), year)
	if err != nil {
		return 0, err
	}
	return 0, &Ambiguous{
		[]Reading{{first.Long(), first.String()}, {second.Long(), second.String()}},
		planner.BadInput("", "%s can mean %s or %s. Write %s or %s", quoted(r.text), first.Long(), second.Long(), dayMonthName(first), dayMonthName(second)),
	}
}

// dayMonth is that day of the told year, or of the one towards which the field looks.
func (r *dateReader) dayMonth(day int, month time.Month, year int) (planner.Date, error) {
	if year != 0 || month < 1 || month > 12 {
		return r.inYear(day, month, max(year, 1))
	}
	d, ok := r.inSomeYear(0, func(y int) (planner.Date, bool) {
		return planner.NewDate(y, month, day), day >= 1 && day <= daysIn(month, y)
	})
	if !ok {
		return 0, planner.BadInput("", "%s has no day %d. %s", month, day, r.likeDate())
	}
	return d, nil
}

func (r *dateReader) inYear(day int, month time.Month, year int) (planner.Date, error) {
	switch {
	case month < 1 || month > 12:
		return 0, planner.BadInput("", "%s has no month of 1 to 12. %s", quoted(r.text), r.likeDate())
	case year < planner.MinYear || year > planner.MaxYear:
		return 0, r.outside()
	case day < 1 || day > daysIn(month, year):
		return 0, planner.BadInput("", "%s %d has no day %d. %s", month, year, day, r.likeDate())
	}
	return planner.NewDate(year, month, day), nil
}

func daysIn(month time.Month, year int) int {
	_, _, last := planner.NewDate(year, month+1, 0).Civil()
	return last
}
