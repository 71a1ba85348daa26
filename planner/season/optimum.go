package season

import (
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// The half week of a B race, as the optimum takes it.
const (
	halfEases = 2   // days before the race that are cut
	easedDay  = 0.5 // of the usual load is left on them (common practice)
)

// problem is the season as the exact optimum takes it: each A race to come has
// its planned taper, none, the automatic or one of Lengths, those after the first twelve
// their planned one or none, each B race its half week or nothing. What is past has spent
// its days and binds by its recovery.
func (s *season) problem() response.Season {
	goals := 0
	stops := make([]response.Stop, len(s.races))
	budget := s.budget()
	for i, r := range s.races {
		after := -1
		if r.Priority == planner.PriorityA {
			after = engine.RecoveryDays(s.Facts, r)
		}
		stops[i] = response.Stop{First: int(r.Date), Last: int(r.Last()), Options: []response.Option{{After: after}}}
		switch {
		case r.Date <= s.today:
			budget -= s.tapers[i].days
		case r.Priority == planner.PriorityA:
			stops[i].Options = s.offer(i, after, goals < mostWeighed)
			goals++
		case r.Priority == planner.PriorityB && r.Date.AddDays(-HalfDays) >= s.today:
			half := make([]float64, halfEases)
			for k := range half {
				half[k] = (easedDay - 1) * s.usual(r.Date.AddDays(-1-k))
			}
			stops[i].Options = append(stops[i].Options, response.Option{Days: HalfDays, After: 1, Gain: s.gain(r, half)})
		}
	}
	return response.Season{Budget: max(0, budget), Stops: stops}
}

// offer lists what an A race to come may take. Days that are over are spent
// whatever is chosen.
func (s *season) offer(i, after int, other bool) []response.Option {
	r := s.races[i]
	g, ok := newGoal(near(s.told, r), s.rider, s.base, r)
	if !ok {
		return []response.Option{{After: after}}
	}
	g.trialsFrom = max(s.today, r.Date.AddDays(-nearBefore))
	auto, _ := engine.AutoLength(s.Facts, r, nextGoal(slices.Backward(s.races[:i])), nextGoal(slices.All(s.races[i+1:])))
	var out []response.Option
	lengths := []int{0, s.tapers[i].days}
	if other {
		lengths = append(append(lengths, auto), Lengths[:]...)
	}
	for _, n := range lengths {
		offered := slices.ContainsFunc(out, func(o response.Option) bool { return o.Days == n })
		if !offered && g.fits(n) {
			change := g.trial(g.plan(n, g.taper.Cut), n)
			out = append(out, response.Option{Days: n, After: after, Gain: s.gain(r, change)})
		}
	}
	return out
}

// nextGoal is the first A race of some.
func nextGoal(races func(func(int, *planner.Race) bool)) *planner.Race {
	for _, r := range races {
		if r.Priority == planner.PriorityA {
			return r
		}
	}
	return nil
}

// gain is what a change before a race is expected to do to the weighted sum of
// performance in it, those inside these days and all later ones: per cent.
func (s *season) gain(race *planner.Race, change []float64) float64 {
	curve, total := response.PriorCurve(), 0.0
	for _, r := range s.races {
		gap := race.Date.DaysUntil(r.Date)
		for k, load := range change {
			if age := gap + k + 1; age > 0 && age < response.Horizon {
				total += Weight(r) * load / s.load * curve.At(age)
			}
		}
	}
	return total
}

// untapered are the A races to come to which the optimum gives no taper.
func (s *season) untapered() []*planner.Race {
	problem := s.problem()
	choice, _, ok := problem.Solve()
	var out []*planner.Race
	for i, r := range s.races {
		if ok && r.Priority == planner.PriorityA && r.Date > s.today && problem.Stops[i].Options[choice[i]].Days == 0 {
			out = append(out, r)
		}
	}
	return out
}
