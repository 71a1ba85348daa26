package planner

import (
	"fmt"
	"testing"
)

// season is a rider's year with 12 races: 3 A, 3 B, 6 C.
func season(tb testing.TB) (Date, *Facts) {
	tb.Helper()
	week := mustWeek(tb, inesWeek)
	today := mustDate(tb, "2026-03-02")
	f := &Facts{Weeks: []DatedWeek{{Week: week}}}
	priorities := []Priority{PriorityC, PriorityB, PriorityC, PriorityA}
	for i := range 12 {
		f.Races = append(f.Races, Race{
			Name: fmt.Sprintf("Race %d", i+1), Date: today.AddDays(20 + 21*i), Priority: priorities[i%4],
			Hours: float64(1 + i%4), Days: 1, Registered: today,
		})
	}
	return today, f
}

func BenchmarkSeason(b *testing.B) {
	today, f := season(b)
	b.ReportAllocs()
	for b.Loop() {
		Derive(today, f)
	}
}
