package engine_test

import (
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

func BenchmarkTold(b *testing.B) {
	w := week(b, "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")
	f := &planner.Facts{Weeks: []planner.DatedWeek{{Week: w}}}
	start := planner.NewDate(2027, 1, 1)
	for i := range 12 {
		f.Races = append(f.Races, planner.Race{Name: string(rune('A' + i)), Date: start.AddDays(30 + 28*i), Days: 1, Hours: 3, Priority: planner.Priority(i % 3)})
	}
	b.Run("season", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			engine.Derive(start, f)
		}
	})
	g := *f
	for i := range 200 {
		d := start.AddDays(i * 364 / 200)
		g.Done = append(g.Done, planner.Ride{Date: d, Minutes: 60, Told: planner.Told{On: d}})
	}
	b.Run("told", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			engine.Derive(start.AddDays(350), &g)
		}
	})
}

func BenchmarkWorst(b *testing.B) {
	w := week(b, "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")
	f := &planner.Facts{Weeks: []planner.DatedWeek{{Week: w}}}
	start := planner.NewDate(2027, 1, 1)
	for i := range 12 {
		f.Races = append(f.Races, planner.Race{Name: string(rune('A' + i)), Date: start.AddDays(30 + 28*i), Days: 1, Hours: 3})
	}
	for i := range 200 {
		d := start.AddDays(150 + i)
		f.Done = append(f.Done, planner.Ride{Date: d, Minutes: 60, Told: planner.Told{On: d}})
	}
	b.ReportAllocs()
	for b.Loop() {
		engine.Derive(start.AddDays(350), f)
	}
}
