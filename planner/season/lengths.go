package season

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// RunnerUp is another length of a taper, and by how much the planned one is
// expected to be better over this and all later races, those inside the taper too,
// each counted by its weight: per cent of performance, below 0 where it is worse.
// Fair means that it leaves out no more.
type RunnerUp struct {
	Days   int
	Behind response.Range
	Fair   bool
}

// RunnersUp are the other lengths that a taper could have whose length the rider did not set,
// the nearest first, weighed by the days as they would be planned. There are none
// where the rider or the calendar left no choice.
func RunnersUp(plan *engine.Plan, f *planner.Facts, t *engine.Taper) []RunnerUp {
	switch t.Length {
	case planner.LengthTable, planner.LengthClose, planner.LengthLost, planner.LengthOwn:
	default:
		return nil
	}
	// Asked before the longest taper could begin, so that the answer stays the same.
	known := f.KnownOn(plan.Today)
	base, told := plan, f
	if first := t.Race.Date.AddDays(-planner.MaxTaperDays - 1); first < plan.Today {
		told = known.Undated()
		base = engine.DeriveUntil(first, t.Race.Date, told)
	}
	g, ok := newGoal(told, newRider(known), base, raceIn(base, t.Race))
	if !ok || g.taper.Days != t.Days {
		return nil
	}
	races := within(raced(base), base.Today)
	var out []RunnerUp
	for _, n := range Lengths {
		if n == t.Days || !g.fits(n) {
			continue
		}
		p := g.plan(n, g.taper.Cut)
		behind := g.difference(base, p, &reach{all: true, today: base.Today}, g.unit, races)
		fair := slices.ContainsFunc(p.Tapers, func(o engine.Taper) bool {
			return o.Race.Date == t.Race.Date && noMore(o.CutPercent, g.taper.CutPercent)
		})
		out = append(out, RunnerUp{Days: n, Behind: response.RangeOf(weighted(behind, races)), Fair: fair})
	}
	slices.SortStableFunc(out, func(a, b RunnerUp) int { return cmp.Compare(a.Behind.Mid, b.Behind.Mid) })
	return out
}

// raceIn is a race as another plan has it, nil if it has not.
func raceIn(p *engine.Plan, race *planner.Race) *planner.Race {
	for _, role := range p.Races {
		if r := role.Race; r.Is(race) && r.Date == race.Date {
			return r
		}
	}
	return nil
}

// Tenths is a figure with one decimal; what rounds to nothing is 0.
func Tenths(v float64) string {
	if v = math.Round(v*10) / 10; v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}
