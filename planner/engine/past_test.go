package engine_test

import (
	"flag"
	"math/rand/v2"
	"reflect"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

var weeks = flag.Int("weeks", 400, "how many random seasons the tests of the past try, ten events each")

// No day before the date on which something is told changes by it: what was shown
// of a day on that day is what later plans know of it.
func TestPastStays(t *testing.T) {
	t.Parallel()
	events := 0
	for seed := range *weeks {
		r := rand.New(rand.NewPCG(uint64(seed), 11))
		f := randomFacts(t, r)
		for range 10 {
			race := &f.Races[r.IntN(len(f.Races))]
			on := race.Date.AddDays(3 - r.IntN(18))
			before := *f
			happen(t, r, f, on)
			events++
			today := on.AddDays(r.IntN(4))
			a, b := engine.Derive(today, &before), engine.Derive(today, f)
			for d := on - 12; d < on; d++ {
				x, y := a.Known(d), b.Known(d)
				if x == nil || y == nil { // not a day of a taper that is still open
					continue
				}
				if !reflect.DeepEqual(x.Sessions, y.Sessions) {
					t.Fatalf("seed %d: told on %s, %s was %v and is %v", seed, on, d, x.Sessions, y.Sessions)
				}
			}
		}
	}
	t.Logf("%d events", events)
}

// What a plan knows of a day that is over is what it showed on that day, and with
// nothing new told a day to come never changes as today moves.
func TestDaysStayAsTodayMoves(t *testing.T) {
	t.Parallel()
	for seed := range *weeks / 4 {
		r := rand.New(rand.NewPCG(uint64(seed), 12))
		f := randomFacts(t, r)
		race := f.Races[r.IntN(len(f.Races))].Date
		for range 3 {
			happen(t, r, f, race.AddDays(2-r.IntN(16)))
		}
		told := map[planner.Date]bool{}
		for _, d := range f.ToldDates(race + 40) {
			told[d] = true
		}
		from := race.AddDays(-18)
		var shown []engine.Day
		var yesterday *engine.Plan
		for k := range 26 {
			today := from.AddDays(k)
			p := engine.Derive(today, f)
			shown = append(shown, p.Days[0])
			for i := range p.Days {
				if yesterday == nil || told[today] {
					break
				}
				if d, ok := yesterday.Day(p.Days[i].Date); ok && !reflect.DeepEqual(d.Sessions, p.Days[i].Sessions) {
					t.Fatalf("seed %d: nothing told on %s, yet %s was %v and is %v", seed, today, d.Date, d.Sessions, p.Days[i].Sessions)
				}
			}
			for _, taper := range p.Tapers {
				for d := max(taper.From, from); d < min(today, taper.Race.Date); d++ {
					if got := p.Known(d); got == nil || !reflect.DeepEqual(got.Sessions, shown[from.DaysUntil(d)].Sessions) {
						t.Fatalf("seed %d: on %s the plan knows %v of %s, which showed %v", seed, today, got, d, shown[from.DaysUntil(d)].Sessions)
					}
				}
			}
			yesterday = p
		}
	}
}
