package planner

import (
	"fmt"
	"strings"
	"time"
)

// Date is a calendar day without time or zone, counted in days since
// 1970-01-01. The zero value means "no date" wherever a date is optional.
type Date int32

// Years that a date may lie in.
const (
	MinYear = 1971
	MaxYear = 2199
)

// Weekday counts from Monday (0) to Sunday (6), as ISO 8601 weeks do.
type Weekday int8

// Weekdays of a typical week, Monday first.
const (
	Monday Weekday = iota
	Tuesday
	Wednesday
	Thursday
	Friday
	Saturday
	Sunday
)

var weekdayNames = [7]string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

var weekdayShort = [7]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

// String is the English name of the weekday.
func (w Weekday) String() string { return weekdayNames[w] }

// Short is the three-letter name: Mon.
func (w Weekday) Short() string { return weekdayShort[w] }

// NewDate is the day of that year, month and day of the month.
// Days past the month's end roll over, as in package time.
func NewDate(year int, month time.Month, day int) Date {
	return Date(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// DateOf is the calendar day that t shows in its own location.
func DateOf(t time.Time) Date { return NewDate(t.Date()) }

// Civil splits a date into year, month and day of the month.
func (d Date) Civil() (year int, month time.Month, day int) {
	return time.Unix(int64(d)*86400, 0).UTC().Date()
}

// AddDays is the date n days later; n may be negative.
func (d Date) AddDays(n int) Date { return d + Date(n) }

// DaysUntil is the number of days from d to later: 1 from a day to the next.
func (d Date) DaysUntil(later Date) int { return int(later - d) }

// Weekday is the day of the week of d.
func (d Date) Weekday() Weekday {
	n := (int(d) + 3) % 7 // 1970-01-01 was a Thursday
	if n < 0 {
		n += 7
	}
	return Weekday(n)
}

// IsZero reports whether d means "no date".
func (d Date) IsZero() bool { return d == 0 }

// String is the ISO 8601 form, 2026-06-13.
func (d Date) String() string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%04d-%02d-%02d", y, m, day)
}

// Short is weekday and day for a phone: Sat 13 Jun.
func (d Date) Short() string {
	_, m, day := d.Civil()
	return fmt.Sprintf("%s %d %s", d.Weekday().Short(), day, m.String()[:3])
}

// Long is the form echoed back to people: Saturday 13 June 2026.
func (d Date) Long() string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%s %d %s %d", d.Weekday(), day, m, y)
}

// ParseISODate reads 2026-06-13 and nothing else: the form of plan files and of storage.
func ParseISODate(s string) (Date, error) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil || t.Year() < 1971 {
		return 0, fmt.Errorf("%q is not a date. Write it like 2026-06-13", s)
	}
	return DateOf(t), nil
}

// ParseWeekday reads a weekday's English name, whole or shortened to three letters or more.
func ParseWeekday(s string) (Weekday, bool) {
	s = strings.ToLower(strings.TrimSuffix(strings.TrimSpace(s), "."))
	if len(s) < 3 {
		return 0, false
	}
	switch s {
	case "tues", "weds", "thur", "thurs":
		s = s[:3]
	}
	for i, name := range weekdayNames {
		if strings.HasPrefix(strings.ToLower(name), s) {
			return Weekday(i), true
		}
	}
	return 0, false
}
