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

// years is the same rider with 12 races a year, 30 days apart, over several years.
func years(tb testing.TB, n int) (Date, *Facts) {
	tb.Helper()
	today, f := season(tb)
	for k := range f.Races {
		f.Races[k].Date = today.AddDays(30 * (k + 1))
		for year := 1; year < n; year++ {
			r := f.Races[k]
			r.Name, r.Date = fmt.Sprintf("%s of year %d", r.Name, year+1), r.Date.AddDays(12*30*year)
			f.Races = append(f.Races, r)
		}
	}
	return today, f
}

// firstGoal is the first A race, the one that is compared.
func firstGoal(tb testing.TB, f *Facts) (string, Date) {
	tb.Helper()
	for _, r := range f.Races {
		if r.Priority == PriorityA {
			return r.Name, r.Date
		}
	}
	tb.Fatal("no A race")
	return "", 0
}

func BenchmarkOptions(b *testing.B) {
	today, f := season(b)
	name, date := firstGoal(b, f)
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := f.Options(today, name, date); !ok {
			b.Fatal("no options")
		}
	}
}

func BenchmarkSeasonCheck(b *testing.B) {
	today, f := season(b)
	b.ReportAllocs()
	for b.Loop() {
		if f.CheckSeason(today) == nil {
			b.Fatal("no check")
		}
	}
}

// The model's whole work on a year: plan with expectations, options of one race, season check; and how
// it grows with years of as many races.
func BenchmarkModelYear(b *testing.B) {
	for _, n := range []int{1, 2, 3} {
		today, f := years(b, n)
		name, date := firstGoal(b, f)
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				p := Derive(today, f)
				if _, ok := f.Options(today, name, date); !ok || len(p.Days) == 0 || f.CheckSeason(today) == nil {
					b.Fatal("something is missing")
				}
			}
			b.ReportMetric(float64(12*30*n), "days")
		})
	}
}
