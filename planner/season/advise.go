package season

import (
	"slices"

	"musette/planner"
)

// advise looks for a choice that is better than the present one: A races to which
// the optimum gives no taper as B races, either race of a clash, and automatic
// lengths where the rider set one. What does not clearly add to it is left out.
// Where A races clash, the nearest other choice is named even if it brings nothing.
func (s *season) advise(clashes []Clash) *Change {
	changes := [][]*planner.Race{nil, s.untapered()}
	for _, c := range clashes {
		for _, choice := range c.Choices {
			changes = append(changes, []*planner.Race{choice.Race})
		}
	}
	var best, nearest *choice
	for _, toB := range changes {
		for _, automatic := range [2]bool{false, true} {
			if automatic && s.Taper.Days == 0 {
				continue
			}
			other := s.reduced(toB, automatic)
			switch {
			case other == nil:
			case other.total.Mid < WorthTelling*s.weight:
				if len(other.toB) > 0 && other.goesBefore(nearest) {
					nearest = other
				}
			case other.goesBefore(best):
				best = other
			}
		}
	}
	if best == nil && len(clashes) > 0 {
		best = nearest
	} else {
		best = s.extended(best, changes)
	}
	return s.suggest(best)
}

// extended adds to a choice what makes it better still, one race of a clash at a time.
func (s *season) extended(best *choice, changes [][]*planner.Race) *choice {
	for grown := best != nil; grown; {
		grown = false
		for _, toB := range changes {
			if len(toB) != 1 || slices.Contains(best.toB, toB[0]) {
				continue
			}
			other := s.reduced(append(slices.Clone(best.toB), toB[0]), best.automatic)
			if len(other.toB) > len(best.toB) && other.goesBefore(best) {
				best, grown = other, true
			}
		}
	}
	return best
}

// reduced drops those races from a choice that do not clearly add to it, one at a
// time; nil where nothing is left to change.
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
	return s.choice(toB, automatic)
}

// goesBefore prefers what is sure, then what brings more.
func (c *choice) goesBefore(other *choice) bool {
	switch {
	case other == nil:
		return true
	case c.sure != other.sure:
		return c.sure
	}
	return c.total.Mid > other.total.Mid
}

// suggest tells of a choice, nil of none.
func (s *season) suggest(c *choice) *Change {
	if c == nil {
		return nil
	}
	out := &Change{ToB: c.toB, Automatic: c.automatic, Tapers: s.tapersOf(c.plan), Total: c.total, Sure: c.sure}
	for _, r := range s.toCome {
		out.Effects = append(out.Effects, Effect{Race: r, Change: s.effect(c, r)})
	}
	return out
}
