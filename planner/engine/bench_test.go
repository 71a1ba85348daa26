package engine_test

import (
	"fmt"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// season are races of all priorities, four weeks apart.
func season(b *testing.B, races int) (first planner.Date, f *planner.Facts) {
	f = &planner.Facts{Weeks: []planner.DatedWeek{{Week: week(b, "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")}}}
	first = planner.NewDate(2027, 1, 1)
	for i := range races {
		f.Races = append(f.Races, planner.Race{Name: fmt.Sprintf("Race %d", i), ID: int64(i + 1), Date: first.AddDays(30 + 28*i), Days: 1, Hours: 3, Priority: planner.Priority(i % 3)})
	}
	return first, f
}

func BenchmarkSeason(b *testing.B) {
	for _, races := range []int{6, 12, 24, 48} {
		b.Run(fmt.Sprintf("races=%d", races), func(b *testing.B) {
			first, f := season(b, races)
			b.ReportAllocs()
			for b.Loop() {
				engine.Derive(first, f)
			}
		})
	}
}

// 200 days on which something was entered: all through the year, on the last 200
// days, and where told tapers of 24 days touch each other, so that the days that
// are over hang together as far back as they go.
func BenchmarkTold(b *testing.B) {
	for _, bench := range []struct {
		name         string
		every, taper int
	}{{"year", 364, 0}, {"last", 200, 0}, {"chained", 364, 24}} {
		b.Run(bench.name, func(b *testing.B) {
			first, f := season(b, 12)
			f.Taper.Days = bench.taper
			if bench.taper > 0 {
				for i := range f.Races {
					f.Races[i].Priority = planner.PriorityA
				}
			}
			for i := range 200 {
				d := first.AddDays(350 - bench.every + i*bench.every/200)
				f.Done = append(f.Done, planner.Ride{Date: d, Minutes: 60, Told: planner.Told{On: d}})
			}
			b.ReportAllocs()
			for b.Loop() {
				engine.Derive(first.AddDays(350), f)
			}
		})
	}
}
