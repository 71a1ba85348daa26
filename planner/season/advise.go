package season

import (
	"slices"

	"musette/planner"
	"musette/planner/response"
)

// Of a long season so many A races are weighed as B races: all sets of few of
// them, of more those that promise most.
const (
	mostSets    = 7
	mostWeighed = 12
)

// advise looks for a choice that is clearly better than the present one: A races to
// come as B races, and automatic lengths where the rider set one. What does not
// clearly add to it is left out.
func (s *season) advise() *choice {
	races := s.candidates()
	sets := s.promising(races)
	if len(races) <= mostSets {
		sets = allSets(races)
	}
	var best *choice
	for _, toB := range sets {
		for _, automatic := range [2]bool{false, true} {
			if automatic && s.Taper.Days == 0 {
				continue
			}
			if other := s.reduced(toB, automatic); other != nil && other.goesBefore(best) {
				best = other
			}
		}
	}
	if len(races) > mostSets {
		best = s.extended(best, races)
	}
	return best
}

// candidates are the next A races to come that may be made B races: each by itself,
// all races are still ridden then. What the rider called important stays.
func (s *season) candidates() []*planner.Race {
	var out []*planner.Race
	for _, r := range s.toCome {
		if r.Priority == planner.PriorityA && r.Emphasis != planner.Important && len(out) < mostWeighed {
			out = append(out, r)
		}
	}
	return slices.DeleteFunc(out, func(r *planner.Race) bool { return s.choice([]*planner.Race{r}, false).drops })
}

// allSets are the sets of races, the empty one first.
func allSets(races []*planner.Race) [][]*planner.Race {
	sets := make([][]*planner.Race, 1<<len(races))
	for k := range sets {
		for i, r := range races {
			if k>>i&1 == 1 {
				sets[k] = append(sets[k], r)
			}
		}
	}
	return sets
}

// promising are few sets to try: none, the races to which the optimum gives no taper,
// the best single one, and the set that is best if each race adds what it does by
// itself and with the next one.
func (s *season) promising(races []*planner.Race) [][]*planner.Race {
	untapered := slices.DeleteFunc(s.untapered(), func(r *planner.Race) bool { return !slices.Contains(races, r) })
	alone, both := make([]float64, len(races)), make([]float64, len(races))
	for i, r := range races {
		alone[i] = response.Mean(s.choice([]*planner.Race{r}, false).sum)
		if i > 0 {
			both[i] = response.Mean(s.choice([]*planner.Race{races[i-1], r}, false).sum) - alone[i-1] - alone[i]
		}
	}
	out := [][]*planner.Race{nil, untapered, bestChain(races, alone, both)}
	if len(races) > 0 {
		k := slices.Index(alone, slices.Max(alone))
		out = append(out, races[k:k+1])
	}
	return out
}

// bestChain is the set with the greatest sum, where races count alone and besides with
// the one before them, if that is in the set too.
func bestChain(races []*planner.Race, alone, both []float64) []*planner.Race {
	type chain struct {
		sum   float64
		races []*planner.Race
	}
	var with, without chain // of those up to a race, by whether it is in
	for i, r := range races {
		next := chain{without.sum + alone[i], append(slices.Clone(without.races), r)}
		if sum := with.sum + alone[i] + both[i]; i > 0 && sum > next.sum {
			next = chain{sum, append(slices.Clone(with.races), r)}
		}
		if i > 0 && with.sum > without.sum {
			without = with
		}
		with = next
	}
	if with.sum > without.sum {
		return with.races
	}
	return without.races
}

// extended adds to a choice what makes it better still, one race at a time.
func (s *season) extended(best *choice, races []*planner.Race) *choice {
	for grown := best != nil; grown; {
		grown = false
		for _, r := range races {
			if slices.Contains(best.toB, r) {
				continue
			}
			other := s.reduced(append(slices.Clone(best.toB), r), best.automatic)
			if other != nil && len(other.toB) > len(best.toB) && other.goesBefore(best) {
				best, grown = other, true
			}
		}
	}
	return best
}

// reduced leaves out of a choice the races that do not clearly add to it, one at
// a time; nil where what is left is no change or may not be offered.
func (s *season) reduced(toB []*planner.Race, automatic bool) *choice {
	least := 1 // races that stay whatever they add
	if automatic {
		least = 0
	}
	for k := 0; k < len(toB) && len(toB) > least; {
		without := slices.Delete(slices.Clone(toB), k, k+1)
		if s.choice(toB, automatic).surelyBetter(s.choice(without, automatic)) {
			k++
		} else {
			toB, k = without, 0
		}
	}
	if len(toB) < least {
		return nil
	}
	if c := s.choice(toB, automatic); s.offered(c) {
		return c
	}
	return nil
}

// goesBefore prefers what brings more.
func (c *choice) goesBefore(other *choice) bool { return other == nil || c.total.Mid > other.total.Mid }

// suggest tells of a choice, nil of none.
func (s *season) suggest(c *choice) *Change {
	if c == nil {
		return nil
	}
	out := &Change{ToB: c.toB, Automatic: c.automatic, Tapers: s.tapersOf(s.whole(c)), Total: c.total}
	for _, r := range s.toCome {
		out.Effects = append(out.Effects, Effect{Race: r, Change: s.effect(c, r)})
	}
	if len(c.toB) > 1 {
		out.Step = s.suggest(s.step(c.toB))
	}
	return out
}

// step is the race that brings most if it alone becomes a B race, nil where none may be offered.
func (s *season) step(toB []*planner.Race) (best *choice) {
	for _, r := range toB {
		if alone := s.choice([]*planner.Race{r}, false); s.offered(alone) && alone.goesBefore(best) {
			best = alone
		}
	}
	return best
}
