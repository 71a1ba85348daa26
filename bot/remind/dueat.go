package remind

import (
	"time"

	"musette/planner"
)

// DueAt is the instant at which clocks in the zone first show that time of the
// day, "06:30". A time that the clocks jump over is due when they have jumped;
// where the jump ends the day, in the last minute before it. ok is false for
// days that the zone never had and for what is no time of day.
func DueAt(day planner.Date, at string, zone *time.Location) (due time.Time, ok bool) {
	clock, err := time.Parse("15:04", at)
	if err != nil {
		return time.Time{}, false
	}
	due = reach(midnight(day).Add(time.Duration(clock.Hour())*time.Hour+time.Duration(clock.Minute())*time.Minute), zone)
	if planner.DateOf(due) == day {
		return due, true
	}
	due = due.Add(-time.Minute)
	return due, planner.DateOf(due) == day
}

// StartOfDay is the first instant of a day in the zone, or of the next one for a
// day that the zone never had.
func StartOfDay(day planner.Date, zone *time.Location) time.Time { return reach(midnight(day), zone) }

// midnight is the start of a day as clocks show it, written as if it were UTC.
func midnight(day planner.Date) time.Time { return time.Unix(int64(day)*86400, 0).UTC() }

// maxOffset is more than any zone is ahead of UTC.
const maxOffset = 16 * time.Hour

// reach is the first instant at which clocks in the zone show wall, written as
// if it were UTC, or more.
func reach(wall time.Time, zone *time.Location) time.Time {
	for t := wall.Add(-maxOffset).In(zone); ; {
		_, offset := t.Zone()
		start, end := t.ZoneBounds()
		at := wall.Add(-time.Duration(offset) * time.Second).In(zone)
		switch {
		case at.Before(start): // clocks jumped over it
			return start
		case end.IsZero() || at.Before(end):
			return at
		}
		t = end
	}
}
