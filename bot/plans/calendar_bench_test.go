package plans

import (
	"testing"
	"time"

	"musette/planner"
	"musette/planner/typed"
)

// BenchmarkCalendar is a season of twelve races with a ride logged each day.
func BenchmarkCalendar(b *testing.B) {
	week, err := typed.Week("mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")
	if err != nil {
		b.Fatal(err)
	}
	const first = planner.Date(20454)
	f := planner.Facts{Weeks: []planner.DatedWeek{{From: first, Week: week, Told: planner.Told{On: first}}}}
	for n := range 12 {
		f.Races = append(f.Races, planner.Race{ID: int64(n + 1), Name: "Race", Date: first.AddDays(28 * (n + 1)), Priority: planner.Priority(n % 3), Days: 1, Hours: 3, Start: "10:30",
			Registered: first, Told: planner.Told{On: first}})
	}
	for n := range 300 {
		f.Done = append(f.Done, planner.Ride{Date: first.AddDays(n), Minutes: 60, Told: planner.Told{On: first.AddDays(n)}})
	}
	for b.Loop() {
		if len(newCalendar(time.UTC).entries(first.AddDays(299), &f)) == 0 {
			b.Fatal("no entries")
		}
	}
}
