package season

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// RunnerUp is another length of a taper, and by how much the planned one is
// expected to be better over this and all later races, those inside the taper too,
// each counted by its weight: per cent of performance, below 0 where it is worse.
type RunnerUp struct {
	Days   int
	Behind response.Range
}

// RunnersUp are the other lengths that a taper of the table's length could have,
// the nearest first, weighed by the days as they would be planned. There are none
// where the rider or the calendar left no choice.
func RunnersUp(plan *engine.Plan, f *planner.Facts, t *engine.Taper) []RunnerUp {
	if t.Length != planner.LengthTable && t.Length != planner.LengthClose && t.Length != planner.LengthLost {
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
		behind := g.difference(base, g.plan(n, g.taper.Cut), base.Today, g.unit, races)
		out = append(out, RunnerUp{Days: n, Behind: response.RangeOf(weighted(behind, races))})
	}
	slices.SortStableFunc(out, func(a, b RunnerUp) int { return cmp.Compare(a.Behind.Mid, b.Behind.Mid) })
	return out
}

// raceIn is a race as another plan has it, nil if it has not.
func raceIn(p *engine.Plan, race *planner.Race) *planner.Race {
	for _, role := range p.Races {
		if r := role.Race; r.ID == race.ID && r.Name == race.Name && r.Date == race.Date {
			return r
		}
	}
	return nil
}

// OtherLengths is RunnersUp in a sentence, "" where there are none.
func OtherLengths(plan *engine.Plan, f *planner.Facts, t *engine.Taper) string {
	others := RunnersUp(plan, f, t)
	if len(others) == 0 {
		return ""
	}
	lead := "Next best, later races counted: "
	if others[0].Behind.Mid < 0 {
		lead = "Also weighed, later races counted: "
	}
	parts := make([]string, len(others))
	for i, r := range others {
		parts[i] = fmt.Sprintf("%d days, %s.", r.Days, behind(r.Behind))
	}
	return lead + strings.Join(parts, " Or ")
}

// behind words by how much less is expected, in per cent: 0.3 % slower (0.2 %
// faster to 0.7 % slower).
func behind(r response.Range) string {
	low, mid, high := Tenths(r.Low), Tenths(r.Mid), Tenths(r.High)
	text := slower(r.Mid)
	if mid == "0" {
		text = "about the same"
	}
	switch {
	case low == "0" && high == "0":
	case r.Low >= 0 || low == "0":
		text += fmt.Sprintf(" (%s to %s %%)", low, high)
	case r.High <= 0 || high == "0":
		text += fmt.Sprintf(" (%s to %s %%)", Tenths(-r.High), Tenths(-r.Low))
	default:
		text += fmt.Sprintf(" (%s to %s)", slower(r.Low), slower(r.High))
	}
	if mid != "0" && r.Mid < 0 && r.High >= 0 {
		text += ", too close to call"
	}
	return text
}

// slower is a difference with its word.
func slower(v float64) string {
	if v < 0 {
		return Tenths(-v) + " % faster"
	}
	return Tenths(v) + " % slower"
}

// Tenths is a figure with one decimal; what rounds to nothing is 0.
func Tenths(v float64) string {
	if v = math.Round(v*10) / 10; v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}
