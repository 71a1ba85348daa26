package planner

import (
	"testing"
	"time"
)

// Two weeks take turns by calendar weeks, the first being that of the day from
// which they hold, before it too.
func TestWeeksTakeTurns(t *testing.T) {
	wednesday := NewDate(2026, time.May, 6)
	var first, second, next Week
	first[0].Busy, second[1].Busy, next[2].Busy = true, true, true
	f := &Facts{Weeks: []DatedWeek{{From: wednesday, Week: first, Second: &second}, {From: wednesday + 28, Week: next}}}
	for after, want := range map[int]*Week{-2: &first, 0: &first, 4: &first, 5: &second, 11: &second, 12: &first, 18: &first, 19: &second, 27: &first,
		28: &next, 40: &next, -3: &second, -9: &second, -10: &first, -17: &second} {
		if got := f.WeekOn(wednesday.AddDays(after)); got.String() != want.String() {
			t.Errorf("%d days after: %s, want %s", after, got, want)
		}
	}
}
