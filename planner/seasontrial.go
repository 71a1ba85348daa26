package planner

import (
	"slices"

	"musette/planner/response"
)

// seasonChoice is how the races of a season are ridden, in their order: days of
// taper, and which of the A races are ridden as B races. loads are the daily loads
// that the plan has then, from today to the eve of the last race, in usual days.
type seasonChoice struct {
	days  []int
	asB   []bool
	loads []float64
}

// seasonTrial compares choices for one season, of which some race is to come.
type seasonTrial struct {
	facts  *Facts
	today  Date
	base   *calendar
	season seasonRun
	belief response.Belief
	unit   float64
	end    Date  // the last race's first day
	toCome []int // races that begin after today
	at     []int // days from today to each

	present seasonChoice
}

func (f *Facts) newSeasonTrial(today Date) *seasonTrial {
	base, stopped, _ := f.laidOut(today, planEnd(today, relevantRaces(today, slices.Clone(f.Races))), nil)
	if stopped {
		return nil
	}
	for _, run := range base.seasons() {
		if !slices.ContainsFunc(run.races, func(r *Race) bool { return r.Last() >= today }) {
			continue
		}
		s := &seasonTrial{facts: f, today: today, base: base, season: run, belief: f.belief(), end: today}
		for i, r := range run.races {
			s.unit = max(s.unit, f.unit(r.Date))
			if r.Date > today {
				s.toCome, s.at, s.end = append(s.toCome, i), append(s.at, today.DaysUntil(r.Date)), r.Date
			}
		}
		if s.unit == 0 {
			return nil
		}
		s.present = s.read(base)
		return s
	}
	return nil
}

// read takes a choice from a plan.
func (s *seasonTrial) read(c *calendar) seasonChoice {
	n := len(s.season.races)
	out := seasonChoice{days: make([]int, n), asB: make([]bool, n)}
	halved, _ := c.halfWeeks()
	for i, r := range s.season.races {
		planned := c.plan.Races[s.base.indexOf(r)].Race
		switch {
		case planned.Priority == PriorityA:
			out.days[i] = c.planned(planned)
			if r.Last() < s.today.AddDays(-pastReach) {
				out.days[i] = s.past(c, planned)
			}
		case planned.Priority == PriorityB:
			if slices.Contains(halved, planned) {
				out.days[i] = halfDays
			}
			out.asB[i] = r.Priority == PriorityA
		}
	}
	out.loads = make([]float64, s.today.DaysUntil(s.end))
	for i := range out.loads {
		if slot := c.at(s.today.AddDays(i)); slot != nil {
			out.loads[i] = c.loadOn(slot) / s.unit
		}
	}
	return out
}

// past is the taper of an A race so long over that it is planned no more.
func (s *seasonTrial) past(c *calendar, r *Race) int {
	want := s.facts.Taper.Days
	if want == 0 {
		want = c.lengths[c.indexOf(r)]
	}
	for i := range s.season.goals {
		if g := &s.season.goals[i]; g.race.Date == r.Date {
			return max(0, min(want, s.season.room(g)))
		}
	}
	return 0
}

// scenario is the season with some A races made B races, and perhaps with
// automatic lengths, as it would be planned then.
func (s *seasonTrial) scenario(toB []*Race, automatic bool) seasonChoice {
	facts := *s.facts
	facts.Races = slices.Clone(facts.Races)
	for _, r := range toB {
		facts.Races[s.base.indexOf(r)].Priority = PriorityB
	}
	if automatic {
		facts.Taper.Days = 0
	}
	c, _, _ := facts.laidOut(s.today, s.end, nil)
	return s.read(c)
}

// differences are by how many per cent one choice changes the performance in each
// race to come against another, one row a race and one value a draw.
func (s *seasonTrial) differences(c, than seasonChoice) [][]float64 {
	change := make([]float64, len(c.loads))
	for i := range change {
		change[i] = c.loads[i] - than.loads[i]
	}
	out := make([][]float64, len(s.at))
	for k := range out {
		out[k] = make([]float64, len(s.belief))
	}
	s.belief.Mornings(out, change, s.at)
	return out
}

// difference is what one choice brings more than another, in sum over all races
// to come by the priorities that were told, and whether that is sure.
func (s *seasonTrial) difference(c, than seasonChoice) (more response.Range, sure bool) {
	sum := make([]float64, len(s.belief))
	for k, row := range s.differences(c, than) {
		weight := weights[s.season.races[s.toCome[k]].Priority]
		for j, v := range row {
			sum[j] += weight * v
		}
	}
	return response.RangeOf(sum), response.Clear(sum)
}

// weightToCome is the sum of the weights of the races to come.
func (s *seasonTrial) weightToCome() float64 {
	total := 0.0
	for _, i := range s.toCome {
		total += weights[s.season.races[i].Priority]
	}
	return total
}

// effects are what a choice changes in each race to come.
func (s *seasonTrial) effects(c seasonChoice) []RaceEffect {
	var out []RaceEffect
	for k, row := range s.differences(c, s.present) {
		out = append(out, RaceEffect{Race: s.season.races[s.toCome[k]], Change: response.RangeOf(row)})
	}
	return out
}

// optimum is the exact best choice by expected values: each A race to come takes
// its planned length, none, another one that it may have, or the half week or nothing of a
// B race, each B race its half week or nothing; what is past stays.
func (s *seasonTrial) optimum() seasonChoice {
	problem, asB := s.problem()
	choice, _, ok := problem.Solve()
	if !ok {
		return s.present
	}
	out := seasonChoice{days: slices.Clone(s.present.days), asB: slices.Clone(s.present.asB)}
	for _, i := range s.toCome {
		out.days[i], out.asB[i] = problem.Stops[i].Options[choice[i]].Days, asB[i][choice[i]]
	}
	return out
}

// problem is the season as the optimum takes it, and which options ride an A race as a B race.
func (s *seasonTrial) problem() (problem response.Season, asB [][]bool) {
	stops := make([]response.Stop, len(s.season.races))
	asB = make([][]bool, len(stops))
	budget := s.season.budget()
	for i, r := range s.season.races {
		stops[i] = response.Stop{First: int(r.Date), Last: int(r.Last())}
		add := func(days, after int, b bool, gain float64) {
			stops[i].Options = append(stops[i].Options, response.Option{Days: days, After: after, Gain: gain})
			asB[i] = append(asB[i], b)
		}
		switch {
		case r.Priority == PriorityC:
			add(0, -1, false, 0)
		case r.Date <= s.today: // its days are spent, and bind nobody but by its recovery
			after := -1
			if r.Priority == PriorityA {
				after = r.recoveryDays()
			}
			add(0, after, false, 0)
			budget -= s.present.days[i]
		case r.Priority == PriorityA:
			s.offerA(i, add)
		default:
			s.offerHalf(i, false, add)
		}
	}
	return response.Season{Budget: max(0, budget), Stops: stops}, asB
}

// offerA hands out what an A race to come may take, the planned length first.
func (s *seasonTrial) offerA(i int, add func(days, after int, asB bool, gain float64)) {
	r := s.season.races[i]
	lengths := []int{s.present.days[i], 0}
	for k := range s.season.goals {
		if g := &s.season.goals[k]; g.stop == i {
			lengths = append(lengths, g.lengths...)
		}
	}
	for k, n := range lengths {
		begins := r.Date.AddDays(-n)
		if slices.Contains(lengths[:k], n) || k > 0 && n > 0 && begins < max(s.today, r.Registered) {
			continue
		}
		add(n, r.recoveryDays(), false, s.gainAhead(i, s.season.real(i, PriorityA, n)))
	}
	s.offerHalf(i, true, add)
}

// offerHalf hands out a B race's half week and nothing.
func (s *seasonTrial) offerHalf(i int, asB bool, add func(days, after int, asB bool, gain float64)) {
	add(0, -1, asB, 0)
	if r := s.season.races[i]; r.Date.AddDays(-halfDays) >= s.today {
		add(halfDays, 1, asB, s.gainAhead(i, s.season.real(i, PriorityB, halfDays)))
	}
}

// gainAhead is the gain of a change without what of it is past.
func (s *seasonTrial) gainAhead(i int, c response.Change) float64 {
	if left := s.today.DaysUntil(s.season.races[i].Date); left < len(c.Before) {
		c.Before = c.Before[:left]
	}
	return s.season.gain(i, c)
}
