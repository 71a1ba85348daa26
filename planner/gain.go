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
// morning of the taper to race morning (0 to 1, time constants of response.Classic;
// see keptAndShed), and the gain in per cent of performance against no taper, over the parameters
// that are plausible.
type Expected struct {
	Kept, Shed float64
	Gain       response.Range
}

// belief is what is known of how this rider responds: nothing but the prior.
func (f *Facts) belief() response.Belief { return response.Prior() }

// curve is the mean influence over the belief.
func (f *Facts) curve() response.Curve { return response.PriorCurve() }

// dose is what is known of the rider's variable-dose model.
func (f *Facts) dose() response.DoseBelief { return response.DosePrior() }

// expect is what the days as planned bring; nil without usual training. Days
// that health forbids and races inside count as they would without the taper.
func (c *calendar) expect(race *Race, n int) *Expected {
	unit := c.facts.unit(race.Date)
	if unit == 0 {
		return nil
	}
	e := &Expected{}
	planned, usual := c.loads(race.Date.AddDays(-n-historyDays), race.Date)
	e.Kept, e.Shed = keptAndShed(planned, usual, n)
	before := make([]float64, n)
	for i := range before {
		before[i] = c.removedOn(race.Date.AddDays(-1-i)) / unit
	}
	belief := c.facts.belief()
	out := make([]float64, len(belief))
	belief.Effect(out, 1, response.Reach{}, response.Change{Before: before})
	e.Gain = response.RangeOf(out)
	return e
}

// removedOn is by how much a day's load differs from what it would be without a taper.
func (c *calendar) removedOn(d Date) float64 {
	s := c.at(d)
	if s == nil || s.claim == claimRace || s.Phase == Health {
		return 0
	}
	return c.loadOn(s) - s.possible()
}

// keptAndShed follows fitness and fatigue over daily loads and over the usual
// ones: by how much their share of what usual training has on that morning falls
// over the last n days. So a weekday's own ups and downs are taken out. What lies
// before the loads counts as their mean usual day.
func keptAndShed(planned, usual []float64, n int) (kept, shed float64) {
	m, begin := response.Classic, len(planned)-n
	steady := m.Steady(response.Mean(usual))
	if n == 0 || steady.Fitness == 0 {
		return 1, 0
	}
	before, beforeUsual := m.Follow(steady, planned[:begin]), m.Follow(steady, usual[:begin])
	after, afterUsual := m.Follow(before, planned[begin:]), m.Follow(beforeUsual, usual[begin:])
	kept = after.Fitness / afterUsual.Fitness * beforeUsual.Fitness / before.Fitness
	shed = 1 - after.Fatigue/afterUsual.Fatigue*beforeUsual.Fatigue/before.Fatigue
	return between(kept), between(shed)
}

// loads are the loads from one date up to the day before another, and those of
// the usual week.
func (c *calendar) loads(first, end Date) (planned, usual []float64) {
	n := first.DaysUntil(end)
	planned, usual = make([]float64, n), make([]float64, n)
	for i := range planned {
		d := first.AddDays(i)
		usual[i] = c.facts.usualOn(d)
		planned[i] = usual[i]
		if s := c.at(d); s != nil && s.changes() {
			planned[i] = c.loadOn(s)
		}
	}
	return planned, usual
}

// changes reports whether a day's load can differ from its usual one.
func (s *slot) changes() bool {
	return s.noted > 0 || len(s.Sessions) != len(s.Usual) || &s.Sessions[0] != &s.Usual[0]
}

// between holds a share to 0..1.
func between(share float64) float64 { return math.Max(0, math.Min(1, share)) }
