package post

import (
	"time"

	"musette/bot/remind"
	"musette/planner"
)

// endOfDay is the first instant after a day in the zone.
func endOfDay(day planner.Date, zone *time.Location) time.Time {
	return remind.StartOfDay(day.AddDays(1), zone)
}

// moment is a local day with the instant that is due on it.
type moment struct {
	day planner.Date
	due time.Time
}

// nextDue is the first moment of a time of day after an instant; ok is false
// where there is none within a few days.
func nextDue(at string, zone *time.Location, after time.Time) (m moment, ok bool) {
	today := planner.DateOf(after.In(zone))
	for day := today.AddDays(-1); day <= today.AddDays(4); day++ {
		if due, ok := remind.DueAt(day, at, zone); ok && due.After(after) {
			return moment{day, due}, true
		}
	}
	return moment{}, false
}

// duesBetween lists the moments of a time of day after one instant and up to
// another, in order.
func duesBetween(at string, zone *time.Location, after, until time.Time) []moment {
	var all []moment
	for m, ok := nextDue(at, zone, after); ok && !m.due.After(until); m, ok = nextDue(at, zone, m.due) {
		all = append(all, m)
	}
	return all
}
