package show

import (
	"fmt"
	"strings"
	"unicode"

	"musette/planner"
)

// Span is a stretch of days: Thu 4 Jun to Sat 6 Jun, with years where one is not today's.
func Span(from, to, today planner.Date) string {
	if from == to {
		return Dated(from, today)
	}
	return Dated(from, today) + " to " + Dated(to, today)
}

// Dated is a day in short, with its year where that is not today's.
func Dated(d, today planner.Date) string {
	if year := d.String()[:4]; year != today.String()[:4] {
		return d.Short() + " " + year
	}
	return d.Short()
}

// AwayWord is what an absence means.
func AwayWord(travel bool) string {
	if travel {
		return "travelling, no rides"
	}
	return "away, no training"
}

// WeekOn is the typical week that holds on a day.
func WeekOn(f *planner.Facts, day planner.Date) *planner.DatedWeek {
	now := 0
	for i, w := range f.Weeks {
		if w.From <= day {
			now = i
		}
	}
	return &f.Weeks[now]
}

// PatternText is the setting of hard days in words.
func PatternText(p planner.Pattern) string {
	if p == planner.UsualDays {
		return "your usual hard days"
	}
	return "hard days every " + p.String() + " day"
}

// DayName is how people call a day: today, tomorrow, else the weekday and date.
func DayName(date, today planner.Date) string {
	switch date {
	case today:
		return "Today, " + date.Short()
	case today.AddDays(1):
		return "Tomorrow, " + date.Short()
	case today.AddDays(-1):
		return "Yesterday, " + date.Short()
	}
	if n := today.DaysUntil(date); n > 300 || n < -300 {
		return date.Long()
	}
	return date.Short()
}

// Count is "1 day" or "3 days".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// WeekSum is hours, rides and hard days of a week.
func WeekSum(w *planner.Week) string {
	rides := 0
	var hard []string
	for i, p := range w {
		if p.RideMinutes() > 0 {
			rides++
		}
		if p.IsHard() {
			hard = append(hard, planner.Weekday(i).Short())
		}
	}
	sum := fmt.Sprintf("%s on %s", planner.Duration(w.RideMinutes()), Count(rides, "day"))
	if len(hard) == 0 {
		return sum + ", no hard day"
	}
	return fmt.Sprintf("%s, %s (%s)", sum, Count(len(hard), "hard day"), strings.Join(hard, ", "))
}

// Named is a race's name and its day, which is left out where the name says it.
func Named(name string, r *planner.Race, today planner.Date) string {
	if NamesDay(name, r.Date) {
		return name
	}
	return name + ", " + Dated(r.Date, today)
}

// Lettered is a race's letter and its day in brackets, which is left out where the name says it.
func Lettered(r *planner.Race, today planner.Date) string {
	if NamesDay(r.Name, r.Date) {
		return "(" + r.Priority.String() + ")"
	}
	return fmt.Sprintf("(%s, %s)", r.Priority, Dated(r.Date, today))
}

// NamesDay reports a name that holds a day and its month, as 6 Jun or June 6.
func NamesDay(name string, d planner.Date) bool {
	_, month, date := d.Civil()
	day := fmt.Sprint(date)
	list := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	is := func(i int) bool {
		word := strings.ToLower(month.String())
		return i >= 0 && i < len(list) && (list[i] == word || list[i] == word[:3])
	}
	for i, word := range list {
		if word == day && (is(i-1) || is(i+1)) {
			return true
		}
	}
	return false
}
