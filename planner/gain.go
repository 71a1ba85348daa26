package planner

import (
	"math"

	"musette/planner/response"
)

// historyDays is how far before a taper loads still tell its first morning: by
// then 93 % of their fitness has gone. What lies before counts as usual.
const historyDays = 120

// Expected is what the linear response model expects of a taper as planned:
// the share of fitness that is kept and of fatigue that is shed from the first
// morning of the taper to race morning (0 to 1, time constants of response.Classic),
// and the gain in per cent of performance against no taper, over the parameters
// that are plausible.
type Expected struct {
	Kept, Shed float64
	Gain       response.Range
}

// expect is what the days as planned bring; nil without usual training. Days
// that health forbids and races inside count as they would without the taper.
func (c *calendar) expect(race *Race, n int) *Expected {
	unit := c.facts.weekOn(race.Date - 1).meanLoad()
	if unit == 0 {
		return nil
	}
	e := &Expected{}
	first := race.Date.AddDays(-n - historyDays)
	e.Kept, e.Shed = keptAndShed(c.facts.weekOn(first).meanLoad()/unit, c.levels(first, race.Date, unit), n)
	before := make([]float64, n)
	for i := range before {
		before[i] = c.removedOn(race.Date.AddDays(-1-i), unit)
	}
	out := make([]float64, len(response.Prior()))
	response.Prior().Effect(out, 1, response.Reach{}, response.Change{Before: before})
	e.Gain = response.RangeOf(out)
	return e
}

// removedOn is by how much a day differs from what it would be without a taper,
// in usual days.
func (c *calendar) removedOn(d Date, unit float64) float64 {
	s := c.at(d)
	if s == nil || s.claim == claimRace || s.Phase == Health {
		return 0
	}
	return (c.loadOn(s) - s.possible()) / unit
}

// keptAndShed follows fitness and fatigue over loads in usual days: what is left
// of them and what has gone over the last n days. Before the loads lie endless days of steady.
func keptAndShed(steady float64, levels []float64, n int) (kept, shed float64) {
	m, begin := response.Classic, len(levels)-n
	before := m.Follow(m.Steady(steady), levels[:begin])
	start, end := m.Morning(before), m.Morning(m.Follow(before, levels[begin:]))
	if n == 0 || start.Fitness <= 0 || start.Fatigue <= 0 {
		return 1, 0
	}
	return between(end.Fitness / start.Fitness), between(1 - end.Fatigue/start.Fatigue)
}

// levels are the loads from one date up to the day before another in usual
// days, with the weekdays' own ups and downs taken out: 1 where a day is as usual.
func (c *calendar) levels(first, end Date, unit float64) []float64 {
	out := make([]float64, first.DaysUntil(end))
	var week *Week
	mean := 0.0
	for i := range out {
		d := first.AddDays(i)
		if w := c.facts.weekOn(d); w != week {
			week, mean = w, w.meanLoad()
		}
		out[i] = mean / unit
		if s := c.at(d); s != nil && s.changes() {
			out[i] += (c.loadOn(s) - load(s.Usual)) / unit
		}
	}
	return out
}

// changes reports whether a day's load can differ from its usual one.
func (s *slot) changes() bool {
	return s.noted > 0 || len(s.Sessions) != len(s.Usual) || &s.Sessions[0] != &s.Usual[0]
}

// between holds a share to 0..1.
func between(share float64) float64 { return math.Max(0, math.Min(1, share)) }
