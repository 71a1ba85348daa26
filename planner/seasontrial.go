package planner

import (
	"slices"

	"musette/planner/response"
)

// seasonChoice is how the races of a season are ridden: days of taper of each,
// and which of the A races are ridden as B races.
type seasonChoice struct {
	days []int
	asB  []bool
}

// seasonTrial compares choices for one season.
type seasonTrial struct {
	facts  *Facts
	today  Date
	base   *calendar
	season seasonRun
	belief response.Belief
	reach  []response.Reach // of each race: the later ones, by the priorities that were told
	out    []float64        // draws, reused
	more   []float64

	present seasonChoice
}

func (f *Facts) newSeasonTrial(today Date) *seasonTrial {
	base, stopped, _ := f.laidOut(today, planEnd(today, relevantRaces(today, slices.Clone(f.Races))), nil)
	if stopped {
		return nil
	}
	for _, run := range base.seasons() {
		if run.races[len(run.races)-1].Last() < today {
			continue
		}
		s := &seasonTrial{facts: f, today: today, base: base, season: run, belief: response.Prior()}
		if !s.trains() {
			return nil
		}
		s.out, s.more = make([]float64, len(s.belief)), make([]float64, len(s.belief))
		for i := range run.races {
			s.reach = append(s.reach, s.belief.Reach(run.later(i)))
		}
		s.present = s.read(base)
		return s
	}
	return nil
}

// read takes a choice from a calendar with windows.
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

// trains reports whether anything is usually ridden before any of the races.
func (s *seasonTrial) trains() bool {
	return slices.ContainsFunc(s.season.races, func(r *Race) bool { return s.facts.weekOn(r.Date-1).meanLoad() > 0 })
}

// scenario is the season with some A races made B races, and perhaps with
// automatic lengths, its tapers sized as the plan would size them.
func (s *seasonTrial) scenario(toB []*Race, automatic bool) seasonChoice {
	facts := *s.facts
	facts.Races = slices.Clone(facts.Races)
	for _, r := range toB {
		facts.Races[s.base.indexOf(r)].Priority = PriorityB
	}
	if automatic {
		facts.Taper.Days = 0
	}
	return s.read(facts.sized(s.today, s.today, nil))
}

// change is what a choice does to the days around one race. Days that are past
// are as they were under the present choice.
func (s *seasonTrial) change(i int, c seasonChoice) response.Change {
	change := s.freeChange(i, c)
	left := max(0, s.today.DaysUntil(s.season.races[i].Date))
	if left >= MaxTaperDays {
		return change
	}
	was := s.freeChange(i, s.present).Before
	before := make([]float64, max(len(was), len(change.Before)))
	copy(before, change.Before)
	for k := left; k < len(before); k++ { // D-left is today
		before[k] = 0
		if k < len(was) {
			before[k] = was[k]
		}
	}
	change.Before = before
	return change
}

// freeChange is change before what is past is put back.
func (s *seasonTrial) freeChange(i int, c seasonChoice) response.Change {
	r := s.season.races[i]
	switch {
	case r.Priority == PriorityC, c.days[i] == 0 && (c.asB[i] || r.Priority == PriorityB):
		return response.Change{}
	case c.asB[i] || r.Priority == PriorityB:
		return s.season.half(r)
	}
	change := s.season.taper(r, c.days[i])
	change.After = s.season.recovery(i)
	return change
}

// total is what a choice brings over all races to come, one value a draw.
func (s *seasonTrial) total(c seasonChoice) []float64 {
	sum := make([]float64, len(s.belief))
	for i, r := range s.season.races {
		if r.Last() < s.today || r.Priority == PriorityC {
			continue
		}
		s.season.effect(s.out, s.more, i, s.reach[i], s.change(i, c))
		for j, v := range s.out {
			sum[j] += v
		}
	}
	return sum
}

// difference is what one choice brings more than another, and whether that is sure.
func (s *seasonTrial) difference(c, than seasonChoice) (more response.Range, sure bool) {
	a, b := s.total(c), s.total(than)
	for j := range a {
		a[j] -= b[j]
	}
	return response.RangeOf(a), response.Clear(a)
}

// differenceAt is by how much a choice changes the performance in one race.
func (s *seasonTrial) differenceAt(race *Race, c seasonChoice) response.Range {
	sum := make([]float64, len(s.belief))
	for i, r := range s.season.races {
		if r.Last() < s.today {
			continue
		}
		s.effectAt(race, i, s.change(i, c))
		for j, v := range s.out {
			sum[j] += v
		}
		s.effectAt(race, i, s.change(i, s.present))
		for j, v := range s.out {
			sum[j] -= v
		}
	}
	return response.RangeOf(sum)
}

// effectAt writes over s.out what a change around the i-th race does to the
// performance in another race, or in the race itself.
func (s *seasonTrial) effectAt(race *Race, i int, c response.Change) {
	r := s.season.races[i]
	switch gap := r.Date.DaysUntil(race.Date); {
	case r == race:
		s.belief.Effect(s.out, 1, response.Reach{}, c)
	case gap > 0:
		s.belief.Effect(s.out, 0, s.belief.Reach([]response.Later{{Days: gap, Weight: 1}}), c)
	default:
		s.belief.Effect(s.out, 1, response.Reach{}, response.Change{Before: c.Before[min(-gap, len(c.Before)):]})
	}
}

// optimum is the exact best choice by expected values alone: each A race to come
// takes its planned length, one of 0, 7, 10, 14 and, as the single goal, 21 days, or the half week or
// nothing of a B race, each B race its half week or nothing; what is past stays.
func (s *seasonTrial) optimum() seasonChoice {
	stops := make([]response.Stop, len(s.season.races))
	asB := make([][]bool, len(stops))
	for i, r := range s.season.races {
		stops[i] = response.Stop{First: int(r.Date), Last: int(r.Last())}
		add := func(c seasonChoice) {
			after := -1
			switch {
			case r.Priority == PriorityA && !c.asB[i]:
				after = r.recoveryDays()
			case c.days[i] > 0:
				after = 1
			}
			stops[i].Options = append(stops[i].Options, response.Option{Days: c.days[i], After: after, Gain: s.season.gain(i, s.change(i, c))})
			asB[i] = append(asB[i], c.asB[i])
		}
		s.offer(i, add)
	}
	out := seasonChoice{days: make([]int, len(stops)), asB: make([]bool, len(stops))}
	choice, _, ok := response.Season{Budget: s.season.budget(), Stops: stops}.Solve()
	if !ok {
		return s.present
	}
	for i, k := range choice {
		out.days[i], out.asB[i] = stops[i].Options[k].Days, asB[i][k]
	}
	return out
}

// offer hands out what one race may take, as planned first.
func (s *seasonTrial) offer(i int, add func(seasonChoice)) {
	r := s.season.races[i]
	one := func(days int, asB bool) {
		c := seasonChoice{days: make([]int, i+1), asB: make([]bool, i+1)}
		c.days[i], c.asB[i] = days, asB
		add(c)
	}
	now := s.present.days[i]
	one(now, false)
	if r.Date <= s.today || r.Priority == PriorityC {
		return
	}
	if now != 0 {
		one(0, false)
	}
	if r.Priority == PriorityB {
		if now == 0 && r.Date.AddDays(-halfDays) >= s.today {
			one(halfDays, false)
		}
		return
	}
	for _, n := range lengthsKnown {
		if start := r.Date.AddDays(-n); n != now && (n <= 14 || len(s.season.goals) == 1) && start >= max(s.today, r.Registered) {
			one(n, false)
		}
	}
	one(0, true)
	if r.Date.AddDays(-halfDays) >= s.today {
		one(halfDays, true)
	}
}
