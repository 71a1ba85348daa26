package typed

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"musette/planner"
)

// dateForms read a day by its form: kinds of atoms in small letters, words in capitals.
// Each reads the atoms that are no words.
var dateForms = map[string]func(*dateReader) (planner.Date, error){
	"r":         (*dateReader).relative,
	"EARLIER r": (*dateReader).relative, "LATER r": (*dateReader).relative,
	"THIS MORNING":   dayFromToday(0),
	"LAST NIGHT":     dayFromToday(-1),
	"LAST EVENING":   dayFromToday(-1),
	"THIS EVENING":   dayFromToday(0),
	"THIS NIGHT":     dayFromToday(0),
	"u AFTER r":      (*dateReader).besideRelative, // day after tomorrow
	"AFTER r":        (*dateReader).besideRelative,
	"u BEFORE r":     (*dateReader).besideRelative,
	"BEFORE r":       (*dateReader).besideRelative,
	"THIS AFTERNOON": dayFromToday(0),

	"w": (*dateReader).weekdayNear, "THIS w": (*dateReader).weekdayNear, "ON w": (*dateReader).weekdayNear,
	"COMING w": (*dateReader).comingWeekday, "w COMING": (*dateReader).comingWeekday, "THIS COMING w": (*dateReader).comingWeekday, "THIS w COMING": (*dateReader).comingWeekday,
	"NEXT w": (*dateReader).nextWeekday, "w NEXT": (*dateReader).nextWeekday,
	"LAST w": (*dateReader).lastWeekday, "w LAST": (*dateReader).lastWeekday, "THIS LAST w": (*dateReader).goneWeekday,
	"PAST w": (*dateReader).goneWeekday, "THIS PAST w": (*dateReader).goneWeekday, "w PAST": (*dateReader).goneWeekday, "w PASSED": (*dateReader).goneWeekday,
	"THIS w GONE": (*dateReader).goneWeekday, "w GONE": (*dateReader).goneWeekday, "w JUST GONE": (*dateReader).goneWeekday, "JUST GONE w": (*dateReader).goneWeekday, "w JUST PAST": (*dateReader).goneWeekday, "w JUST PASSED": (*dateReader).goneWeekday,
	"NEXT w u": (*dateReader).nextWeeksOn, "w AFTER NEXT": (*dateReader).afterNextWeekday,
	"w LAST u": inWeek(-1), "LAST u w": inWeek(-1), "w IN LAST u": inWeek(-1),
	"w NEXT u": inWeek(1), "NEXT u w": inWeek(1), "NEXT u ON w": inWeek(1), "w IN NEXT u": inWeek(1),
	"w THIS u": inWeek(0), "THIS u w": inWeek(0), "w IN THIS u": inWeek(0),
	"w u": (*dateReader).weeksOn, "u w": (*dateReader).weeksOn, "u ON w": (*dateReader).weeksOn, "u FROM w": (*dateReader).weeksOn,
	"n u w": (*dateReader).weeksOn, "n u ON w": (*dateReader).weeksOn, "n u THIS w": (*dateReader).weeksOn, "n u FROM w": (*dateReader).weeksOn, "n u FROM THIS w": (*dateReader).weeksOn, "n u AFTER w": (*dateReader).weeksOn,

	"IN n u": unitsAway(1), "IN n u TIME": unitsAway(1), "n u TIME": unitsAway(1), "n u FROM NOW": unitsAway(1), "n u FROM r": unitsAway(1), "IN n u FROM NOW": unitsAway(1),
	"n u r": unitsAway(1), "u r": unitsAway(1), "r u": unitsAway(1), "r IN n u": unitsAway(1), "u FROM r": unitsAway(1), "u FROM NOW": unitsAway(1), "n u AFTER r": unitsAway(1),
	"n u AGO": unitsAway(-1), "n u AGO r": unitsAway(-1), "u AGO": unitsAway(-1), "u AGO r": unitsAway(-1), "n u BACK": unitsAway(-1), "JUST n u AGO": unitsAway(-1),

	"o w m": (*dateReader).nthOrDay, "o w IN m": (*dateReader).nthWeekday, "o w m n": (*dateReader).nthWeekday, "o w IN m n": (*dateReader).nthWeekday, "m o w": (*dateReader).nthOrDay,
	"LAST w m": (*dateReader).finalWeekday, "LAST w IN m": (*dateReader).finalWeekday, "LAST w m n": (*dateReader).finalWeekday, "LAST w IN m n": (*dateReader).finalWeekday,

	"LAST u m": (*dateReader).lastOfMonth, "LAST u IN m": (*dateReader).lastOfMonth,

	"o": (*dateReader).dayOfMonth, "ON o": (*dateReader).dayOfMonth,
	"w n": (*dateReader).checked, "n w": (*dateReader).checked, "w ON n": (*dateReader).checked,
	"n m": (*dateReader).monthName, "m n": (*dateReader).monthName, "n m n": (*dateReader).monthName, "m n n": (*dateReader).monthName, "ON n m": (*dateReader).monthName,
	"w n m": (*dateReader).checked, "w m n": (*dateReader).checked, "w n m n": (*dateReader).checked, "w m n n": (*dateReader).checked, "n w m": (*dateReader).checked, "w ON n m": (*dateReader).checked,
	"NEXT w n": (*dateReader).checked, "NEXT w n m": (*dateReader).checked, "THIS w n": (*dateReader).checked, "THIS w n m": (*dateReader).checked, "COMING w n": (*dateReader).checked, "COMING w n m": (*dateReader).checked,
	"n m w": (*dateReader).checked, "m n w": (*dateReader).checked, "n m n w": (*dateReader).checked, "m w n": (*dateReader).checked, "n m ON w": (*dateReader).checked, "m n ON w": (*dateReader).checked,
}

func dayFromToday(n int) func(*dateReader) (planner.Date, error) {
	return func(r *dateReader) (planner.Date, error) { return r.today.AddDays(n), nil }
}

func (r *dateReader) relative() (planner.Date, error) {
	return r.today.AddDays(r.atoms[0].value), nil
}

// besideRelative reads the day after tomorrow and the day before yesterday, also with
// "the day" left out. "Before tomorrow" is no day, and another unit is refused.
func (r *dateReader) besideRelative() (planner.Date, error) {
	day, step, named := r.atoms[len(r.atoms)-1], 1, len(r.atoms) == 2
	if strings.Contains(respell(r.text), "before") {
		step = -1
	}
	if day.value == 0 || named && r.atoms[0].text != "day" || !named && day.value != step {
		return 0, r.unreadable("")
	}
	return r.today.AddDays(day.value + step), nil
}

// weekdayFrom is the first such weekday from d on, d included.
func weekdayFrom(d planner.Date, w planner.Weekday) planner.Date {
	return d.AddDays((int(w) - int(d.Weekday()) + 7) % 7)
}

// weekdayUpTo is the last such weekday up to d, d included.
func weekdayUpTo(d planner.Date, w planner.Weekday) planner.Date {
	return weekdayFrom(d.AddDays(-6), w)
}

func (r *dateReader) monday() planner.Date { return r.today.AddDays(-int(r.today.Weekday())) }

// weekday is the one weekday of what was typed.
func (r *dateReader) weekday() planner.Weekday {
	for _, a := range r.atoms {
		if a.kind == 'w' {
			return a.weekday
		}
	}
	return 0
}

func (r *dateReader) weekdayNear() (planner.Date, error) {
	switch w := r.weekday(); r.dir {
	case back:
		return weekdayUpTo(r.today, w), nil
	case coming:
		return weekdayFrom(r.today.AddDays(1), w), nil
	default:
		return weekdayFrom(r.today, w), nil
	}
}

func (r *dateReader) comingWeekday() (planner.Date, error) {
	return weekdayFrom(r.today.AddDays(1), r.weekday()), nil
}

// nextWeekday is the day of the week to come. On Saturdays and Sundays people differ
// over which week is the next one, so it asks.
func (r *dateReader) nextWeekday() (planner.Date, error) {
	w := r.weekday()
	if r.today.Weekday() >= planner.Saturday {
		first := weekdayFrom(r.today.AddDays(1), w)
		return 0, askDays(r.text, first, first.AddDays(7))
	}
	return r.monday().AddDays(7 + int(w)), nil
}

func (r *dateReader) goneWeekday() (planner.Date, error) {
	return weekdayUpTo(r.today.AddDays(-1), r.weekday()), nil
}

// lastWeekday is the last such day before today. Where that was in this week, the one
// of last week may be meant as well, so it asks.
func (r *dateReader) lastWeekday() (planner.Date, error) {
	d := weekdayUpTo(r.today.AddDays(-1), r.weekday())
	if d >= r.monday() && r.today.DaysUntil(d) < -1 {
		return 0, askDays(r.text, d.AddDays(-7), d)
	}
	return d, nil
}

// inWeek reads a weekday of the week that is n after this one.
func inWeek(n int) func(*dateReader) (planner.Date, error) {
	return func(r *dateReader) (planner.Date, error) {
		for _, a := range r.atoms {
			if a.kind == 'u' && a.text != "week" {
				return 0, r.unreadable("")
			}
		}
		return r.monday().AddDays(7*n + int(r.weekday())), nil
	}
}

// away is how many days, and months, "2 weeks" or "week" are.
func (r *dateReader) away() (days, months int, ok bool) {
	n := 1
	for i, a := range r.atoms {
		if a.kind == 'n' && i+1 < len(r.atoms) && r.atoms[i+1].kind == 'u' {
			n = a.value
		}
		if a.kind != 'u' {
			continue
		}
		if n > maxDaysAway {
			return 0, 0, false
		}
		if a.value == 0 {
			return 0, n, true
		}
		return n * a.value, 0, n*a.value <= maxDaysAway
	}
	return 0, 0, false
}

// weeksOn reads sunday week and two weeks on sunday: counted from the next such day.
func (r *dateReader) weeksOn() (planner.Date, error) {
	days, months, ok := r.away()
	if !ok || months > 0 || days%7 != 0 {
		return 0, r.unreadable("")
	}
	return weekdayFrom(r.today, r.weekday()).AddDays(days), nil
}

// nextWeeksOn reads next thursday week. Early in a week it asks whether the thursday is that
// of this week or the one of the next.
func (r *dateReader) nextWeeksOn() (planner.Date, error) {
	days, months, ok := r.away()
	if !ok || months > 0 || days%7 != 0 {
		return 0, r.unreadable("")
	}
	return r.comingOrNext(days)
}

// afterNextWeekday reads the tuesday after next, and asks as nextWeeksOn does.
func (r *dateReader) afterNextWeekday() (planner.Date, error) { return r.comingOrNext(7) }

// comingOrNext is so many days from a weekday that is called the next one.
func (r *dateReader) comingOrNext(days int) (planner.Date, error) {
	w := r.weekday()
	coming, next := weekdayFrom(r.today.AddDays(1), w), r.monday().AddDays(7+int(w))
	if coming == next {
		return next.AddDays(days), nil
	}
	return 0, askDays(r.text, coming.AddDays(days), next.AddDays(days))
}

// unitsAway reads what is that far from today, or from the day named besides.
func unitsAway(sign int) func(*dateReader) (planner.Date, error) {
	return func(r *dateReader) (planner.Date, error) {
		days, months, ok := r.away()
		from := r.today
		for _, a := range r.atoms {
			if a.kind == 'r' {
				from = from.AddDays(a.value)
				ok = ok && a.value >= 0
			}
		}
		// "in day" and "day today" say nothing.
		counted := r.atoms[0].kind == 'n' || r.atoms[len(r.atoms)-1].text != "day" && r.atoms[0].text != "day"
		if !ok || !counted || months > 120 {
			return 0, r.unreadable("")
		}
		if months == 0 {
			return from.AddDays(sign * days), nil
		}
		y, m, d := from.Civil()
		first := planner.NewDate(y, m+time.Month(sign*months), 1)
		y, m, _ = first.Civil()
		return planner.NewDate(y, m, min(d, daysIn(m, y))), nil
	}
}

// stretchForms read more than one day.
var stretchForms = map[string]func(*dateReader) (from, to planner.Date){
	"WEEKEND": weekendNear, "THIS WEEKEND": weekendNear, "COMING WEEKEND": weekendNear, "AT WEEKEND": weekendNear, "ON WEEKEND": weekendNear,
	"THIS u": weekOrMonth(0), "NEXT u": weekOrMonth(1), "LAST u": weekOrMonth(-1),
	"LAST WEEKEND": func(r *dateReader) (from, to planner.Date) {
		from = weekdayUpTo(r.today.AddDays(-2), planner.Saturday)
		return from, from + 1
	},
	"NEXT WEEKEND": weekendAfter(1), "WEEKEND NEXT": weekendAfter(1), "WEEKEND AFTER NEXT": weekendAfter(2),
}

// weekendNear is the weekend to come, or in fields that look back the one that is over.
func weekendNear(r *dateReader) (from, to planner.Date) {
	from = r.monday() + 5
	if r.dir == back && r.today < from {
		from -= 7
	}
	return from, from + 1
}

// weekendAfter is the weekend of the calendar week that is n after this one.
func weekendAfter(n int) func(*dateReader) (from, to planner.Date) {
	return func(r *dateReader) (from, to planner.Date) {
		return r.monday().AddDays(7*n + 5), r.monday().AddDays(7*n + 6)
	}
}

// isStretch reports whether the units of a stretch are one week or month.
func (r *dateReader) isStretch() bool {
	return !slices.ContainsFunc(r.atoms, func(a dateAtom) bool { return a.kind == 'u' && a.text != "week" && a.text != "month" })
}

// weekOrMonth is the calendar week or month that is n after this one.
func weekOrMonth(n int) func(*dateReader) (from, to planner.Date) {
	return func(r *dateReader) (from, to planner.Date) {
		if r.atoms[0].text == "week" {
			return r.monday().AddDays(7 * n), r.monday().AddDays(7*n + 6)
		}
		y, m, _ := r.today.Civil()
		return planner.NewDate(y, m+time.Month(n), 1), planner.NewDate(y, m+time.Month(n+1), 0)
	}
}

func dayOf(d planner.Date) int {
	_, _, day := d.Civil()
	return day
}

// dayMonthName is 13 June, as examples in messages write it.
func dayMonthName(d planner.Date) string {
	_, m, day := d.Civil()
	return fmt.Sprintf("%d %s", day, m)
}
