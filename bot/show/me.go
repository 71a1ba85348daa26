package show

import (
	"musette/planner"
)

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
