package season

import (
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// Inside is a race that is ridden within the taper of another one. Cost is what riding it in place of
// the usual day does to that one, in per cent of performance.
type Inside struct {
	Race, Host *planner.Race
	Cost       response.Range
}

// InsideOf are the races to come inside the taper of a race as planned, by date.
func InsideOf(plan *engine.Plan, f *planner.Facts, t *engine.Taper) []Inside {
	r := newRider(f.KnownOn(plan.Today))
	return r.inside(plan, t)
}

// inside are the races to come within a taper as planned, by date. The easier days around them are the taper's own.
func (r *rider) inside(plan *engine.Plan, t *engine.Taper) (out []Inside) {
	unit := r.unit(t.Race.Date)
	if unit == 0 {
		return nil
	}
	for _, race := range raced(plan) {
		if race == t.Race || race.Date < max(t.From, plan.Today) || race.Date >= t.Race.Date {
			continue
		}
		change := make([]float64, t.Days)
		for d := race.Date; d <= race.Last() && d < t.Race.Date; d++ {
			if day := plan.Known(d); day != nil && day.Phase == planner.RaceDay {
				change[d.DaysUntil(t.Race.Date)-1] = r.ridden(day) - r.usual(d)
			}
		}
		cost := mornings(t.Race.Date, change, unit, []*planner.Race{t.Race})[0]
		out = append(out, Inside{Race: race, Host: t.Race, Cost: response.RangeOf(cost)})
	}
	return out
}
