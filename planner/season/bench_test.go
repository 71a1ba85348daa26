package season

import (
	"fmt"
	"syscall"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// year is a rider's year with 12 races: 3 A, 3 B, 6 C.
func year(tb testing.TB) (planner.Date, *planner.Facts) {
	tb.Helper()
	f := facts(tb, mixedWeek)
	priorities := []planner.Priority{planner.PriorityC, planner.PriorityB, planner.PriorityC, planner.PriorityA}
	for i := range 12 {
		f.Races = append(f.Races, planner.Race{
			Name: fmt.Sprintf("Race %d", i+1), Date: firstDay.AddDays(20 + 28*i), Priority: priorities[i%4],
			Hours: float64(1 + i%4), Days: 1, Registered: firstDay,
		})
	}
	return firstDay, f
}

func BenchmarkCheck(b *testing.B) {
	today, f := year(b)
	b.ReportAllocs()
	for b.Loop() {
		if NewCheck(today, f) == nil {
			b.Fatal("no check")
		}
	}
}

// BenchmarkCheckGoals: all 12 races are A races four weeks apart.
func BenchmarkCheckGoals(b *testing.B) {
	today, f := year(b)
	for i := range f.Races {
		f.Races[i].Priority = planner.PriorityA
	}
	b.ReportAllocs()
	for b.Loop() {
		if NewCheck(today, f) == nil {
			b.Fatal("no check")
		}
	}
}

// BenchmarkCheckThirtyGoals: 30 A races three weeks apart. The CPU it takes is that of the whole process.
func BenchmarkCheckThirtyGoals(b *testing.B) {
	f := facts(b, mixedWeek)
	for i := range 30 {
		r := raceOn(40+21*i, planner.PriorityA)
		r.Hours = 3
		f.Races = append(f.Races, r)
	}
	spent := func() float64 {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e6
	}
	before := spent()
	for b.Loop() {
		if NewCheck(firstDay, f) == nil {
			b.Fatal("no check")
		}
	}
	b.ReportMetric((spent()-before)/float64(b.N), "cpu-ms/op")
}

func BenchmarkOptions(b *testing.B) {
	today, f := year(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := NewOptions(today, f, &f.Races[3]); !ok {
			b.Fatal("no options")
		}
	}
}

func BenchmarkRunnersUp(b *testing.B) {
	today, f := year(b)
	p := engine.Derive(today, f)
	b.ReportAllocs()
	for b.Loop() {
		if RunnersUp(p, f, &p.Tapers[0]) == nil {
			b.Fatal("no runners-up")
		}
	}
}

func BenchmarkExpect(b *testing.B) {
	today, f := year(b)
	p := engine.Derive(today, f)
	b.ReportAllocs()
	for b.Loop() {
		if Expect(p, f, &p.Tapers[0]) == nil {
			b.Fatal("nothing is expected")
		}
	}
}
