package planner

import "slices"

// WorthTelling is the least expected gain on average over the races to come that
// is advice, per cent.
const WorthTelling = 0.1

// advise looks for a choice that is better than the present one: A races that the
// optimum rides as B races, either race of a clash, and automatic lengths where the rider
// set one. What does not clearly add to it is left out. Where A races clash, the
// nearest other choice is named even if it brings nothing.
func (s *seasonTrial) advise(clashes []Clash) *SeasonChange {
	average := s.optimum()
	var toB []*Race
	for _, i := range s.toCome {
		if r := s.season.races[i]; r.Priority == PriorityA && (average.asB[i] || average.days[i] == 0) {
			toB = append(toB, r)
		}
	}
	changes := [][]*Race{nil, toB}
	for _, c := range clashes {
		for _, choice := range c.Choices {
			changes = append(changes, []*Race{choice.Race})
		}
	}
	var best, nearest *SeasonChange
	for _, races := range changes {
		for _, automatic := range [2]bool{false, true} {
			if automatic && s.facts.Taper.Days == 0 {
				continue
			}
			other := s.reduced(races, automatic)
			switch {
			case other == nil:
			case other.Total.Mid < WorthTelling*s.weightToCome():
				if len(other.ToB) > 0 && other.betterThan(nearest) {
					nearest = other
				}
			case other.betterThan(best):
				best = other
			}
		}
	}
	if best == nil && len(clashes) > 0 {
		return nearest
	}
	return s.extended(best, changes)
}

// extended adds to a change what makes it better still, one race of a clash at a time.
func (s *seasonTrial) extended(best *SeasonChange, changes [][]*Race) *SeasonChange {
	for grown := best != nil; grown; {
		grown = false
		for _, races := range changes {
			if len(races) != 1 || slices.Contains(best.ToB, races[0]) {
				continue
			}
			other := s.reduced(append(slices.Clone(best.ToB), races[0]), best.Automatic)
			if other != nil && len(other.ToB) > len(best.ToB) && other.betterThan(best) {
				best, grown = other, true
			}
		}
	}
	return best
}

// reduced drops those races from a change that do not clearly add to it, one at
// a time; nil where nothing is left to change.
func (s *seasonTrial) reduced(toB []*Race, automatic bool) *SeasonChange {
	choice := s.scenario(toB, automatic)
	for k := 0; k < len(toB) && len(toB) > 1; {
		without := slices.Delete(slices.Clone(toB), k, k+1)
		other := s.scenario(without, automatic)
		if _, sure := s.difference(choice, other); sure {
			k++
			continue
		}
		toB, choice, k = without, other, 0
	}
	if automatic && len(toB) == 1 {
		other := s.scenario(nil, true)
		if _, sure := s.difference(choice, other); !sure {
			toB, choice = nil, other
		}
	}
	if len(toB) == 0 && !automatic {
		return nil
	}
	total, sure := s.difference(choice, s.present)
	return &SeasonChange{ToB: toB, Automatic: automatic, Tapers: s.tapersOf(choice), Effects: s.effects(choice), Total: total, Sure: sure}
}

func (c *SeasonChange) betterThan(other *SeasonChange) bool {
	switch {
	case c == nil || other == nil:
		return other == nil
	case c.Sure != other.Sure:
		return c.Sure
	}
	return c.Total.Mid > other.Total.Mid
}
