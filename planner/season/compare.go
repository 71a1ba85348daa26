package season

import (
	"slices"

	"musette/planner"
	"musette/planner/engine"
)

// goal is an A race to come whose taper is compared with others.
type goal struct {
	rider
	told  *planner.Facts // with all versions, for trials
	base  *engine.Plan
	taper *engine.Taper
	from  planner.Date // first day on which another taper may begin
	unit  float64      // load of a usual day

	trialsFrom planner.Date // first day of the plans of other tapers
}

// newGoal takes the taper that a plan has for a race; false where it has none or
// nothing is usually ridden.
func newGoal(told *planner.Facts, r rider, base *engine.Plan, race *planner.Race) (*goal, bool) {
	k := slices.IndexFunc(base.Tapers, func(t engine.Taper) bool { return t.Race == race })
	if k < 0 || race.Date <= base.Today {
		return nil, false
	}
	g := &goal{rider: r, told: told, base: base, taper: &base.Tapers[k], unit: r.unit(race.Date), trialsFrom: base.Today}
	g.from = max(base.Today, race.Registered)
	if g.taper.Length == planner.LengthBlock {
		g.from = max(g.from, g.taper.From)
	}
	for _, role := range base.Races {
		if other := role.Race; other.Priority == planner.PriorityA && other.Date < race.Date && rides(base, role) {
			g.from = max(g.from, other.Last()+1)
		}
	}
	return g, g.unit > 0
}

// Races around a taper that its days can depend on, in days.
const (
	nearBefore = 70
	nearAfter  = 14
)

// near is the facts without races that are far away, for trials of which only
// the days of the taper count.
func near(f *planner.Facts, race *planner.Race) *planner.Facts {
	out := *f
	out.Races = make([]planner.Race, 0, len(f.Races))
	for _, r := range f.Races {
		if r.Last() >= race.Date.AddDays(-nearBefore) && r.Date <= race.Last().AddDays(nearAfter) {
			out.Races = append(out.Races, r)
		}
	}
	return &out
}

// fits reports a length that what comes before leaves room for. What of the
// planned taper is over stays.
func (g *goal) fits(n int) bool {
	return n <= g.taper.Days || g.taper.Race.Date.AddDays(-n) >= g.from
}

// plan is the plan with another length or cut.
func (g *goal) plan(n, cut int) *engine.Plan {
	trial := engine.Trial{Race: g.taper.Race, Days: n}
	if cut != g.taper.Cut {
		trial.Cut = cut
	} else if n == g.taper.Days {
		return g.base
	}
	return engine.DeriveTrial(g.trialsFrom, g.taper.Race.Date, g.told, trial)
}

// trial is what a taper changes, day by day before the race: days that are over
// are those of the planned one.
func (g *goal) trial(p *engine.Plan, n int) []float64 {
	race := g.taper.Race.Date
	out := g.change(p, race, n)
	if over := g.taper.From.DaysUntil(g.base.Today); over > 0 {
		planned := g.change(g.base, race, g.taper.Days)
		left := len(planned) - over
		out = append(out[:min(n, left)], make([]float64, len(planned)-min(n, left))...)
		copy(out[left:], planned[left:])
	}
	return out
}

// difference is by how many per cent performance on the mornings of races differs by
// the days of two plans; each race has a row, each draw a value.
func (r *rider) difference(p, than *engine.Plan, days *reach, unit float64, races []*planner.Race) [][]float64 {
	if len(races) == 0 {
		return nil
	}
	end := races[len(races)-1].Date
	change := make([]float64, max(0, days.today.DaysUntil(end)))
	for i := range change {
		if !days.changes(end.AddDays(-1 - i)) {
			continue
		}
		a, b := p.Known(end.AddDays(-1-i)), than.Known(end.AddDays(-1-i))
		if a != nil && b != nil {
			change[i] = r.ridden(a) - r.ridden(b)
		}
	}
	return mornings(end, change, unit, races)
}
