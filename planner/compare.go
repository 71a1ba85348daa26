package planner

import (
	"slices"

	"musette/planner/response"
)

// How much of a season a compared taper is planned with, in days.
const (
	nearBefore = 70 // races before: their recovery days, and those of stage races
	nearAfter  = 14 // races after
	doseDays   = 60 // before the taper, which the variable-dose model follows day by day
)

// comparison plans other tapers for one race and weighs them against none.
type comparison struct {
	today  Date
	base   *calendar // as planned
	window *window   // of the race, as planned
	facts  Facts     // with the races near alone
	trial  trial
	unit   float64 // load of the usual day
	belief response.Belief

	first          Date // of the loads
	planned, usual []float64

	later, toNext response.Reach
	hasNext       bool
	out           []float64 // draws, reused
}

func (f *Facts) newComparison(today Date, name string, date Date) (*comparison, bool) {
	base, stopped, _ := f.laidOut(today, planEnd(today, relevantRaces(today, slices.Clone(f.Races))), nil)
	if stopped {
		return nil, false
	}
	index := slices.IndexFunc(f.Races, func(r Race) bool { return r.Name == name && r.Date == date })
	if index < 0 {
		return nil, false
	}
	race := base.plan.Races[index].Race
	k := slices.IndexFunc(base.windows, func(w window) bool { return w.race == race })
	if k < 0 || race.Date <= today {
		return nil, false
	}
	c := &comparison{today: today, base: base, window: &base.windows[k], trial: trial{planned: base.windows[k].n}, facts: *f, belief: f.belief(), unit: f.unit(race.Date)}
	if c.unit == 0 {
		return nil, false
	}
	c.out = make([]float64, len(c.belief))
	c.narrow(race)
	c.first = race.Date.AddDays(-max(longestOption, c.window.n) - historyDays)
	c.planned, c.usual = base.loads(c.first, race.Date)
	c.reach(race)
	return c, true
}

// narrow leaves the races near the compared one, with the lengths that they have.
func (c *comparison) narrow(race *Race) {
	c.facts.Races = nil
	for i := range c.base.plan.Races {
		r := c.base.plan.Races[i].Race
		if r.Days == 0 || r.Last() < race.Date.AddDays(-nearBefore) || r.Date > race.Last().AddDays(nearAfter) {
			continue
		}
		if r == race {
			c.trial.race = len(c.facts.Races)
		}
		c.facts.Races = append(c.facts.Races, *r)
		c.trial.lengths = append(c.trial.lengths, c.base.planned(r))
	}
}

// planned is the taper length that a race has, 0 for none.
func (c *calendar) planned(r *Race) int {
	for i := range c.windows {
		if c.windows[i].race == r {
			return c.windows[i].n
		}
	}
	return 0
}

// reach prepares what later races see of this one.
func (c *comparison) reach(race *Race) {
	var later []response.Later
	for _, r := range c.base.told {
		if days := race.Date.DaysUntil(r.Date); days > 0 && days < response.Horizon {
			later = append(later, response.Later{Days: days, Weight: weights[r.Priority]})
		}
	}
	c.later = c.belief.Reach(later)
	if next := c.next(); next != nil {
		c.hasNext = true
		c.toNext = c.belief.Reach([]response.Later{{Days: race.Date.DaysUntil(next.Date), Weight: 1}})
	}
}

// next is the next A race after the compared one, else the next race, nil where there is none.
func (c *comparison) next() *Race {
	var next *Race
	for _, r := range c.base.told {
		switch {
		case r.Date <= c.window.race.Date:
		case r.Priority == PriorityA:
			return r
		case next == nil:
			next = r
		}
	}
	return next
}

// plan plans one taper. It reports false for a taper that no longer fits.
func (c *comparison) plan(n, cut int) (*calendar, bool) {
	w := c.window
	if n == w.n && cut == w.cut {
		return c.base, true
	}
	if n > w.n && w.race.Date.AddDays(-n) < c.today {
		return nil, false
	}
	c.trial.days, c.trial.cut = n, cut
	other, _, _ := c.facts.laidOut(c.today, w.race.Last(), &c.trial)
	return other, other.planned(other.plan.Races[c.trial.race].Race) == n
}

// try plans one taper and weighs it with the linear model.
func (c *comparison) try(n, cut int) (Option, bool) {
	other, ok := c.plan(n, cut)
	if !ok {
		return Option{}, false
	}
	option := Option{Days: n, Cut: cut, Planned: other == c.base}
	option.Kept, option.Shed = c.follow(other, n)
	option.Removed = c.minutesCut(other, n)
	removed := c.removed(other, n)
	c.belief.Effect(c.out, 1, response.Reach{}, removed)
	option.Gain = response.RangeOf(c.out)
	c.belief.Effect(c.out, 0, c.later, removed)
	option.Later = response.RangeOf(c.out)
	if c.hasNext {
		c.belief.Effect(c.out, 0, c.toNext, removed)
		option.Next = response.RangeOf(c.out)
	}
	return option, true
}

// total writes over out, one value a draw, what a length brings to this race, those
// inside its days and all later ones, each counted by its priority. It reports false
// for one that does not fit.
func (c *comparison) total(out []float64, n int) bool {
	other, ok := c.plan(n, c.window.cut)
	if !ok {
		return false
	}
	removed := c.removed(other, n)
	c.belief.Effect(out, 1, c.later, removed)
	for _, r := range c.base.told {
		gap := r.Date.DaysUntil(c.window.race.Date)
		if gap <= 0 || gap >= len(removed.Before) {
			continue
		}
		c.belief.Effect(c.out, weights[r.Priority], response.Reach{}, response.Change{Before: removed.Before[gap:]})
		for i, v := range c.out {
			out[i] += v
		}
	}
	return true
}

// against puts in the place of an option's gain how it differs from the planned
// taper by the variable-dose model.
func (c *comparison) against(o *Option) {
	other, _ := c.plan(o.Days, o.Cut)
	dose := c.base.facts.dose()
	planned, usual := c.series(c.base, c.window.n)
	base := make([]float64, len(dose))
	dose.Gains(base, planned, usual)
	planned, usual = c.series(other, o.Days)
	gains := make([]float64, len(dose))
	dose.Gains(gains, planned, usual)
	for i := range gains {
		gains[i] -= base[i]
	}
	o.Gain = response.RangeOf(gains)
}

// of is the calendar that a day comes from: what is past was as planned.
func (c *comparison) of(other *calendar, d Date) *calendar {
	if d < c.today {
		return c.base
	}
	return other
}

// tapered reports whether a day belongs to the taper, or did while it was still to come.
func (c *comparison) tapered(d Date, n int) bool {
	left := d.DaysUntil(c.window.race.Date)
	return left <= n || d < c.today && left <= c.window.n
}

// removed is what the taper takes from each day before the race.
func (c *comparison) removed(other *calendar, n int) response.Change {
	race := c.window.race.Date
	before := make([]float64, max(n, c.window.n))
	for i := range before {
		if d := race.AddDays(-i - 1); c.tapered(d, n) {
			before[i] = c.of(other, d).removedOn(d) / c.unit
		}
	}
	return response.Change{Before: before}
}

// follow is what is kept of fitness and shed of fatigue over the taper; once the
// planned one has begun, over that at least, since its days are the same for all.
func (c *comparison) follow(other *calendar, n int) (kept, shed float64) {
	race := c.window.race.Date
	planned := slices.Clone(c.planned)
	if from := max(c.today, race.AddDays(-max(longestOption, c.window.n))); other != c.base && from < race {
		tail, _ := other.loads(from, race)
		copy(planned[c.first.DaysUntil(from):], tail)
	}
	if c.window.start() < c.today {
		n = max(n, c.window.n)
	}
	skip := len(planned) - n - historyDays
	return keptAndShed(planned[skip:], c.usual[skip:], n)
}

// series are the daily loads up to the race as they would be ridden, and
// without the taper.
func (c *comparison) series(other *calendar, n int) (planned, usual []float64) {
	race := c.window.race.Date
	days := max(n, c.window.n) + doseDays
	planned, usual = make([]float64, days), make([]float64, days)
	for i := range planned {
		d := race.AddDays(i - days)
		from := c.of(other, d)
		s := from.at(d)
		if s == nil {
			planned[i] = c.facts.usualShare(d, c.unit)
			usual[i] = planned[i]
			continue
		}
		planned[i] = from.loadOn(s) / c.unit
		usual[i] = planned[i]
		if c.tapered(d, n) {
			usual[i] -= from.removedOn(d) / c.unit
		}
	}
	return planned, usual
}

// minutesCut is the share of usual minutes that the taper removes, per cent.
func (c *comparison) minutesCut(other *calendar, n int) float64 {
	usual, planned := 0, 0
	for i := 1; i <= n; i++ {
		s := c.of(other, c.window.race.Date.AddDays(-i)).at(c.window.race.Date.AddDays(-i))
		usual += s.usualMinutes()
		planned += s.Minutes()
	}
	return cutPercent(usual, planned)
}
