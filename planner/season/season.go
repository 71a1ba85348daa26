package season

import (
	"fmt"
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// season is a run of races with no long gap, of which some race is to come, and
// the plans of choices for it.
type season struct {
	rider
	today  planner.Date
	told   *planner.Facts // with all versions
	base   *engine.Plan
	races  []*planner.Race // that are ridden, by date, as the base has them
	tapers []tapered       // of each
	toCome []*planner.Race // that begin after today
	weight float64         // of these
	load   float64         // of a usual day

	choices map[string]*choice // that have been planned
}

// tapered is a race's taper and the plan that has it: one that is long over is of
// another plan than those to come.
type tapered struct {
	plan *engine.Plan
	days int
}

func newSeason(today planner.Date, f *planner.Facts) *season {
	s := &season{rider: newRider(f.KnownOn(today)), today: today, told: f, base: engine.Derive(today, f), choices: map[string]*choice{}}
	s.races = seasonOf(raced(s.base), today)
	if s.base.Held || len(s.races) == 0 {
		return nil
	}
	for _, r := range s.races {
		s.load = max(s.load, s.unit(r.Date))
		if r.Date > today {
			s.toCome = append(s.toCome, r)
		}
	}
	if s.load == 0 {
		return nil
	}
	s.weight = weightOf(s.toCome)
	s.findTapers()
	return s
}

// seasonOf is the run of races in which the next one lies.
func seasonOf(races []*planner.Race, today planner.Date) []*planner.Race {
	for len(races) > 0 {
		end, last := 1, races[0].Last()
		for end < len(races) && last.DaysUntil(races[end].Date) <= GapDays {
			last = max(last, races[end].Last())
			end++
		}
		if last >= today {
			return races[:end]
		}
		races = races[end:]
	}
	return nil
}

// findTapers looks up the tapers of the whole season. Those that are over are
// planned once more with what is known now.
func (s *season) findTapers() {
	s.tapers = make([]tapered, len(s.races))
	over := func(r *planner.Race) bool { return r.Last() < s.today }
	whole := s.base
	if slices.ContainsFunc(s.races, over) {
		whole = engine.Derive(s.races[0].Date.AddDays(-planner.MaxTaperDays-1), s.Undated())
	}
	for i, r := range s.races {
		p := s.base
		if over(r) {
			p = whole
		}
		s.tapers[i] = tapered{plan: p, days: taperDays(p, s.placeOf(r))}
	}
}

// placeOf is a race's place among the known ones, the same in all plans.
func (s *season) placeOf(r *planner.Race) int {
	return slices.IndexFunc(s.base.Races, func(role planner.RaceRole) bool { return role.Race == r })
}

// taperDays is the taper that a plan has for one of its races, 0 for none.
func taperDays(p *engine.Plan, place int) int {
	for i := range p.Tapers {
		if p.Tapers[i].Race == p.Races[place].Race {
			return p.Tapers[i].Days
		}
	}
	return 0
}

// days is the length of the season, build-up included.
func (s *season) days() int {
	last := s.races[0].Last()
	for _, r := range s.races {
		last = max(last, r.Last())
	}
	return s.races[0].Date.DaysUntil(last) + 1 + LeadDays
}

// budget is the most taper days that the season may hold.
func (s *season) budget() int { return int(WindowShare * float64(s.days())) }

// choice is the season with some A races made B races today, and perhaps the
// rider's own length taken back, as it would be planned then.
type choice struct {
	toB       []*planner.Race
	automatic bool
	rows      [][]float64 // what each race to come gains by it, one value a draw
	sum       []float64   // of these, weighted
	total     response.Range
	sure      bool
	drops     bool // some race would not be ridden as it is now
}

// choice plans a choice, or has planned it before.
func (s *season) choice(toB []*planner.Race, automatic bool) *choice {
	places := make([]int, len(toB))
	for i, r := range toB {
		places[i] = s.placeOf(r)
	}
	slices.Sort(places)
	key := fmt.Sprint(places, automatic)
	if c := s.choices[key]; c != nil {
		return c
	}
	c := &choice{toB: toB, automatic: automatic}
	around := s.around(toB)
	around.all = around.all || automatic
	near, kept := around.of(s.changed(places, automatic), s.Facts)
	plan := engine.Derive(s.today, near)
	c.rows = s.difference(plan, s.base, &around, s.load, s.toCome)
	c.sum = weighted(c.rows, s.toCome)
	c.total, c.sure = response.RangeOf(slices.Clone(c.sum)), response.Clear(c.sum)
	c.drops = s.dropsRaces(plan, kept)
	s.choices[key] = c
	return c
}

// whole is the plan of a choice.
func (s *season) whole(c *choice) *engine.Plan {
	places := make([]int, len(c.toB))
	for i, r := range c.toB {
		places[i] = s.placeOf(r)
	}
	return engine.Derive(s.today, s.changed(places, c.automatic))
}

// dropsRaces reports a plan of some of the races in which one that is not over has other
// days than now, or none: of two that share days the one of the higher priority is ridden.
func (s *season) dropsRaces(p *engine.Plan, places []int) bool {
	for k, i := range places {
		was, is := s.base.Races[i], p.Races[k]
		if was.Race.Last() < s.today {
			continue
		}
		if rides(p, is) != rides(s.base, was) || is.Race.Date != was.Race.Date || is.Race.Last() != was.Race.Last() {
			return true
		}
	}
	return false
}

// offered reports a choice that may be offered: it drops no race, the middle half
// of its effect lies above zero, and its middle is worth telling.
func (s *season) offered(c *choice) bool {
	return !c.drops && c.sure && c.total.Mid >= WorthTelling*s.weight
}

// surelyBetter reports whether a choice clearly brings more than another.
func (c *choice) surelyBetter(than *choice) bool {
	more := slices.Clone(c.sum)
	for i, v := range than.sum {
		more[i] -= v
	}
	return response.Clear(more)
}

// changed is the facts of a choice.
func (s *season) changed(toB []int, automatic bool) *planner.Facts {
	f := *s.told
	f.Races = nil
	for _, r := range s.told.Races {
		if k := slices.Index(s.Races, r); !slices.Contains(toB, k) {
			f.Races = append(f.Races, r)
			continue
		}
		if r.On < s.today {
			before := r
			before.Withdrawn = s.today
			f.Races = append(f.Races, before)
		}
		r.Priority, r.On = planner.PriorityB, s.today
		f.Races = append(f.Races, r)
	}
	if automatic {
		before := f.Taper
		before.Withdrawn = s.today
		f.OldTaper = append(slices.Clone(f.OldTaper), before)
		f.Taper.Days, f.Taper.Usual, f.Taper.On = 0, false, s.today
	}
	return &f
}

// effect is what a choice changes in one race to come.
func (s *season) effect(c *choice, r *planner.Race) response.Range {
	if k := slices.Index(s.toCome, r); k >= 0 {
		return response.RangeOf(slices.Clone(c.rows[k]))
	}
	return response.Range{}
}

// tapersOf is a plan's tapers in the terms of riders.
func (s *season) tapersOf(p *engine.Plan) []Taper {
	var out []Taper
	for _, r := range s.races {
		if r.Priority != planner.PriorityA || r.Last() < s.today {
			continue
		}
		place := s.placeOf(r)
		t := Taper{Race: r, Days: taperDays(p, place)}
		if role := p.Races[place]; role.Race.Priority == planner.PriorityB {
			t.AsB = true
			if role.Role == planner.HalfTapered {
				t.Days = HalfDays
			}
		}
		out = append(out, t)
	}
	return out
}
