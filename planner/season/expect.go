package season

import (
	"math"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// Expected is what the linear model expects of a taper as planned. Kept is how
// much of the fitness that usual days would leave on race morning is there, Shed
// how much of their fatigue is gone, 0 to 1 (time constants of response.Classic).
// Gain is in per cent of performance in the race against usual days, over the
// parameters that are plausible.
type Expected struct {
	Kept, Shed float64
	Gain       response.Range
}

// Expect is what the days of a taper bring as planned; nil without usual
// training. Days that health forbids, days away and races inside count as they
// would without the taper.
func Expect(plan *engine.Plan, f *planner.Facts, t *engine.Taper) *Expected {
	r := newRider(f.KnownOn(plan.Today))
	unit := r.unit(t.Race.Date)
	if unit == 0 {
		return nil
	}
	return r.expect(t.Race, r.change(plan, t.Race.Date, t.Days), unit)
}

func (r *rider) expect(race *planner.Race, change []float64, unit float64) *Expected {
	e := &Expected{}
	e.Kept, e.Shed = r.shares(race.Date, change)
	e.Gain = response.RangeOf(mornings(race.Date, change, unit, []*planner.Race{race})[0])
	return e
}

// shares are the share of usual fitness that is there on race morning, and that
// of usual fatigue that is gone.
func (r *rider) shares(race planner.Date, change []float64) (kept, shed float64) {
	loads := make([]float64, response.Horizon)
	for i := range loads {
		loads[i] = r.usual(race.AddDays(i - len(loads)))
	}
	usual := response.Classic.Follow(response.State{}, loads)
	for i, v := range change {
		loads[len(loads)-1-i] += v
	}
	left := response.Classic.Follow(response.State{}, loads)
	if usual.Fitness == 0 {
		return 1, 0
	}
	share := func(v float64) float64 { return math.Max(0, math.Min(1, v)) }
	return share(left.Fitness / usual.Fitness), share(1 - left.Fatigue/usual.Fatigue)
}

// mornings is by how many per cent performance on the mornings of races differs
// where the loads of the days before a date differ by change, the day before it
// first, in loads of which unit makes a usual day: a row a race, one value a draw.
// Races ascend and none lies before these days.
func mornings(end planner.Date, change []float64, unit float64, races []*planner.Race) [][]float64 {
	first := end.AddDays(-len(change))
	at, out := make([]int, len(races)), make([][]float64, len(races))
	belief := response.Prior()
	days := len(change)
	for k, race := range races {
		at[k], out[k] = first.DaysUntil(race.Date), make([]float64, len(belief))
		days = max(days, at[k])
	}
	loads := make([]float64, days)
	for i, v := range change {
		loads[len(change)-1-i] = v / unit
	}
	belief.Mornings(out, loads, at)
	return out
}

// ownWhole is mornings of a taper on its own race, with all its days, and on those after it,
// with its days from today on: what is over cannot be changed.
func ownWhole(race planner.Date, change []float64, today planner.Date, unit float64, races []*planner.Race) [][]float64 {
	rows := mornings(race, change, unit, races)
	if left := max(0, today.DaysUntil(race)); left < len(change) && len(races) > 1 {
		copy(rows[1:], mornings(race, change[:left], unit, races[1:]))
	}
	return rows
}

// weighted adds up rows of mornings, each by the weight of its race.
func weighted(rows [][]float64, races []*planner.Race) []float64 {
	sum := make([]float64, len(response.Prior()))
	for k, row := range rows {
		for j, v := range row {
			sum[j] += Weight(races[k]) * v
		}
	}
	return sum
}

// within are the races from a date on, as far as its days still tell on them.
func within(races []*planner.Race, from planner.Date) []*planner.Race {
	var out []*planner.Race
	for _, r := range races {
		if r.Date >= from && r.Date < from.AddDays(response.Horizon) {
			out = append(out, r)
		}
	}
	return out
}
