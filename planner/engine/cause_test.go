package engine_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// A changed day says why, an unchanged one says nothing, and what a cause names is
// there: the race, the hard neighbour, the session that has moved, the openers.
func TestCausesAreThere(t *testing.T) {
	t.Parallel()
	seen := map[engine.Code]int{}
	for seed := range 4 * *weeks {
		r := rand.New(rand.NewPCG(uint64(seed), 13))
		f := randomFacts(t, r)
		for range r.IntN(4) {
			happen(t, r, f, f.Races[0].Date.AddDays(-r.IntN(20)))
		}
		today := f.Races[0].Date.AddDays(-r.IntN(25))
		p := engine.Derive(today, f)
		for i := range p.Days {
			d := &p.Days[i]
			if d.Changed() != (len(d.Causes) > 0) && d.Phase != planner.Health {
				t.Fatalf("seed %d: %s is changed: %t, causes %v, usually %v, planned %v", seed, d.Date, d.Changed(), d.Causes, d.Usual, d.Sessions)
			}
			for _, c := range d.Causes {
				seen[c.Code]++
				if fault := missing(p, d, c); fault != "" {
					t.Fatalf("seed %d: %s has cause %s (race %v, day %s): %s; planned %v, facts %+v", seed, d.Date, c.Code, c.Race, c.Day, fault, d.Sessions, f.Races)
				}
			}
		}
	}
	if len(seen) < 45 {
		t.Errorf("only %d kinds of causes were provoked", len(seen))
	}
}

// missing says what a cause names that is not there, nothing if all is.
func missing(p *engine.Plan, d *engine.Day, c engine.Cause) string {
	if c.Code == engine.WhyLimit && d.Date >= p.Today {
		for _, l := range p.Facts.Limits {
			if l.Date == d.Date && l.Minutes == c.N {
				return ""
			}
		}
		return fmt.Sprintf("no limit of %d min was told", c.N)
	}
	usuallyHard := func(d *engine.Day) bool {
		for _, s := range d.Usual {
			if s.Effort == planner.Hard {
				return true
			}
		}
		return false
	}
	switch c.Code {
	case engine.WhyBImportant:
		if c.Race.Emphasis != planner.Important {
			return "the race is not important to the rider"
		}
	case engine.WhyHardEnough, engine.WhyHardPair:
		if !usuallyHard(d) {
			return "the day is not usually hard"
		}
	case engine.WhyBOutgrows:
		for _, day := range p.Facts.WeekOn(c.Race.Date - 1) {
			for _, s := range day.Sessions {
				if !day.Busy && s.Kind.IsRide() && int(s.Minutes) >= c.Race.Minutes() {
					return fmt.Sprintf("a usual ride has %d min", s.Minutes)
				}
			}
		}
	}
	other := p.Known(c.Day)
	if c.Race != nil {
		if d := c.Race.Date.DaysUntil(d.Date); d < -28 || d > 40 {
			return "the race is far away"
		}
	}
	if other == nil {
		return ""
	}
	switch c.Code {
	case engine.WhyHardNextHard, engine.WhyHardAfterEve, engine.WhyHardPair:
		if gap := other.Date - d.Date; gap < -1 || gap > 1 {
			return "it is no neighbour"
		}
		if !other.IsHard() && other.Date >= p.Today {
			return fmt.Sprintf("it is not hard: %v", other.Sessions)
		}
	case engine.WhyHardNextRace:
		if other.Phase != planner.RaceDay {
			return "there is no race"
		}
	case engine.WhyHardEve, engine.WhyHardFromEve, engine.WhyBMovedHere, engine.WhyCMovedHere:
		if !usuallyHard(other) {
			return "it is usually not hard"
		}
	case engine.WhyHardMovedAway:
		if !other.IsHard() && other.Date >= p.Today {
			return fmt.Sprintf("nothing hard has come to it: %v", other.Sessions)
		}
	case engine.WhyFreeMoved:
		for _, s := range other.Sessions {
			if s.Kind == planner.Openers {
				return ""
			}
		}
		return fmt.Sprintf("it has no openers: %v", other.Sessions)
	}
	return ""
}
