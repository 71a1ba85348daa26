package desk

import (
	"musette/planner"
)

// LimitOn is the limit that was told for a day, in minutes.
func LimitOn(f *planner.Facts, day planner.Date) (int, bool) {
	for _, l := range f.Limits {
		if l.Date == day {
			return l.Minutes, true
		}
	}
	return 0, false
}
