package season

import (
	"cmp"
	"slices"

	"musette/planner"
)

// Of a long season so many A races are weighed as B races: all sets of few of
// them, of more those that grow from the best single ones.
const (
	mostSets    = 5
	mostWeighed = 12
)

// advise looks for a choice that is clearly better than the present one: A races
// to which the optimum gives no taper and those of clashes as B races, and automatic
// lengths where the rider set one. What does not clearly add to it is left out.
func (s *season) advise(clashes []Clash) *Change {
	races := s.candidates(clashes)
	sets := [][]*planner.Race{nil, slices.DeleteFunc(s.untapered(), func(r *planner.Race) bool { return !slices.Contains(races, r) })}
	if len(races) <= mostSets {
		for k := range 1 << len(races) {
			var set []*planner.Race
			for i, r := range races {
				if k>>i&1 == 1 {
					set = append(set, r)
				}
			}
			sets = append(sets, set)
		}
	} else {
		for _, r := range races {
			sets = append(sets, []*planner.Race{r})
		}
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
	return s.suggest(s.extended(best, races))
}

// candidates are the A races that may be made B races: each by itself, all races
// are still ridden then.
func (s *season) candidates(clashes []Clash) []*planner.Race {
	out := s.untapered()
	for _, c := range clashes {
		for _, choice := range c.Choices {
			if !slices.Contains(out, choice.Race) {
				out = append(out, choice.Race)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *planner.Race) int { return cmp.Compare(a.Date, b.Date) })
	out = out[:min(len(out), mostWeighed)]
	return slices.DeleteFunc(out, func(r *planner.Race) bool { return s.choice([]*planner.Race{r}, false).drops })
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
	out := &Change{ToB: c.toB, Automatic: c.automatic, Tapers: s.tapersOf(c.plan), Total: c.total}
	for _, r := range s.toCome {
		out.Effects = append(out.Effects, Effect{Race: r, Change: s.effect(c, r)})
	}
	return out
}
