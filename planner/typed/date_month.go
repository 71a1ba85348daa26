package typed

import (
	"slices"
	"strings"
	"time"

	"musette/planner"
)

// checked reads a date that was typed with its weekday. Both must agree.
func (r *dateReader) checked() (planner.Date, error) {
	w := r.weekday()
	r.atoms = slices.DeleteFunc(r.atoms, func(a dateAtom) bool { return a.kind == 'w' })
	read := r.monthName
	if len(r.atoms) == 1 {
		read = r.dayOfMonth
	}
	d, err := read()
	if err == nil && d.Weekday() != w {
		return 0, wrongWeekday(d, w)
	}
	return d, err
}

func wrongWeekday(d planner.Date, told planner.Weekday) error {
	return planner.BadInput("", "%s is a %s, not a %s. Write for example %s", d.Long()[len(d.Weekday().String())+1:], d.Weekday(), told, dayMonthName(d))
}

// monthName reads a day and a month's name in either order, and a year of four digits.
func (r *dateReader) monthName() (planner.Date, error) {
	month := 0
	for r.atoms[month].kind != 'm' {
		month++
	}
	if month > 1 {
		return 0, r.unreadable("")
	}
	day, year := r.atoms[1-month], 0
	if len(r.atoms) == 3 {
		told := r.atoms[2]
		if told.digits != 2 && told.digits != 4 || told.kind == 'o' || strings.ContainsAny(r.text, "/+") {
			return 0, r.unreadable("")
		}
		if told.digits != 4 {
			return 0, planner.BadInput("", "the year in %s needs four digits. Write it like %s %s", quoted(r.text), dayMonthName(r.sample()), r.sample().String()[:4])
		}
		year = told.value
	}
	return r.dayMonth(day.value, r.atoms[month].month, year)
}

// dayOfMonth is the next day with that number, the 20th, or in fields that look
// back the nearest.
func (r *dateReader) dayOfMonth() (planner.Date, error) {
	day := r.atoms[0].value
	if day < 1 || day > 31 {
		return 0, planner.BadInput("", "no month has a day %d. %s", day, r.likeDate())
	}
	next, last := r.today, r.today
	for dayOf(next) != day {
		next++
	}
	for dayOf(last) != day {
		last--
	}
	if r.dir == back && last.DaysUntil(r.today) <= r.today.DaysUntil(next) {
		return last, nil
	}
	return next, nil
}

// nthWeekday reads the first sunday in july.
func (r *dateReader) nthWeekday() (planner.Date, error) {
	nth := 0
	for _, a := range r.atoms {
		if a.kind == 'o' {
			nth = a.value
		}
	}
	if nth < 1 || nth > 5 {
		return 0, r.unreadable("")
	}
	return r.weekdayOfMonth(func(y int, m time.Month, w planner.Weekday) planner.Date {
		return weekdayFrom(planner.NewDate(y, m, 1), w).AddDays(7 * (nth - 1))
	})
}

// nthOrDay reads july first sunday and july 18th saturday. The 4th saturday in july can
// be both where the 4th is a Saturday.
func (r *dateReader) nthOrDay() (planner.Date, error) {
	nth, err := r.nthWeekday()
	if slices.ContainsFunc(r.atoms, func(a dateAtom) bool { return a.kind == 'o' && a.digits == 0 }) || strings.Contains(r.text, " of ") {
		return nth, err
	}
	day, fault := r.checked()
	switch {
	case fault != nil && err == nil:
		return nth, nil
	case fault == nil && err == nil && day != nth:
		return 0, askDays(r.text, min(day, nth), max(day, nth))
	}
	return day, fault
}

// finalWeekday reads the last sunday in july.
func (r *dateReader) finalWeekday() (planner.Date, error) {
	return r.weekdayOfMonth(func(y int, m time.Month, w planner.Weekday) planner.Date {
		return weekdayUpTo(planner.NewDate(y, m+1, 0), w)
	})
}

// lastOfMonth reads the last day of july.
func (r *dateReader) lastOfMonth() (planner.Date, error) {
	month := r.atoms[len(r.atoms)-1].month
	if unitDays[r.atoms[0].text] != 1 {
		return 0, r.unreadable("")
	}
	d, ok := r.inSomeYear(0, func(y int) (planner.Date, bool) { return planner.NewDate(y, month+1, 0), true })
	if !ok {
		return 0, r.unreadable("")
	}
	return d, nil
}

// weekdayOfMonth is the day that a rule picks in the month, in the year told or in the
// one towards which the field looks.
func (r *dateReader) weekdayOfMonth(pick func(int, time.Month, planner.Weekday) planner.Date) (planner.Date, error) {
	var month time.Month
	year, w := 0, r.weekday()
	for _, a := range r.atoms {
		switch {
		case a.kind == 'm':
			month = a.month
		case a.kind == 'n' && a.digits == 4:
			year = a.value
		case a.kind == 'n':
			return 0, r.unreadable("")
		}
	}
	if year != 0 && (year < planner.MinYear || year > planner.MaxYear) {
		return 0, r.outside()
	}
	d, ok := r.inSomeYear(year, func(y int) (planner.Date, bool) { return pick(y, month, w), true })
	if _, m, _ := d.Civil(); !ok || m != month {
		return 0, planner.BadInput("", "%s has no such %s. %s", month, w, r.likeDate())
	}
	return d, nil
}

// inSomeYear is the day of the told year, or of the one towards which the field looks:
// the next from today on, or looking back the nearest that is in no year to come.
func (r *dateReader) inSomeYear(year int, day func(year int) (planner.Date, bool)) (planner.Date, bool) {
	if year != 0 {
		return day(year)
	}
	from, _, _ := r.today.Civil()
	if r.dir != back {
		for y := from; y <= from+8; y++ { // leap days may be eight years apart
			if d, ok := day(y); ok && d >= r.today {
				return d, true
			}
		}
		return 0, false
	}
	best, found := planner.Date(0), false
	for y := from; y >= from-8; y-- {
		d, ok := day(y)
		if ok && (!found || distance(d, r.today) < distance(best, r.today)) {
			best, found = d, true
		}
	}
	return best, found
}

func distance(a, b planner.Date) int { return max(a.DaysUntil(b), b.DaysUntil(a)) }
