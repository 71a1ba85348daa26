package engine_test

import (
	"flag"
	"math/rand/v2"
	"reflect"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
)

var weeks = flag.Int("weeks", rounds.Of(400), "how many random seasons the tests of the past try, ten events each")

// No day of a taper before the date on which something is told changes by it.
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
			for _, taper := range b.Tapers {
				for d := taper.From; d < min(on, taper.Race.Date); d++ {
					x, y := a.Known(d), b.Known(d)
					if x != nil && y != nil && !reflect.DeepEqual(x.Sessions, y.Sessions) {
						t.Fatalf("seed %d: told on %s, %s was %v and is %v", seed, on, d, x.Sessions, y.Sessions)
					}
				}
			}
		}
	}
	t.Logf("%d events", events)
}

// Another name for a race changes no more than another place does, least of all a
// taper that has begun.
func TestRenamedRaceKeepsItsTaper(t *testing.T) {
	for seed := range 50 {
		r := rand.New(rand.NewPCG(uint64(seed), 13))
		f := randomFacts(t, r)
		on := f.Races[0].Date.AddDays(-1 - r.IntN(8))
		told := func(change func(*planner.Race)) *engine.Plan {
			g := *f
			g.Races = append(append([]planner.Race{}, f.Races...), f.Races[0])
			anew := &g.Races[len(f.Races)]
			if anew.ID == 0 {
				t.Fatal("a race without an ID")
			}
			g.Races[0].Withdrawn, anew.On = on, on
			change(anew)
			return engine.Derive(on, &g)
		}
		moved, renamed := told(func(r *planner.Race) { r.Place = "Market Square" }), told(func(r *planner.Race) { r.Name = "Another Name" })
		for i := range moved.Days {
			if x, y := moved.Days[i].Sessions, renamed.Days[i].Sessions; !reflect.DeepEqual(x, y) {
				t.Fatalf("seed %d, %s: %v became %v", seed, moved.Days[i].Date, x, y)
			}
		}
	}
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
