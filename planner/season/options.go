package season

import (
	"math"
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

const (
	longestOption = 21 // days; the longest taper that is compared, unless a longer one is planned
	doseDays      = 60 // before the taper, which the variable-dose model follows day by day
)

// optionCuts are the cuts that are compared, per cent.
var optionCuts = [...]int{30, 40, 50, 60, 70, 80}

// Option is one way to taper for a race. Kept and Shed are as in Expected. Gain
// is in per cent of performance in the race: of a length against no taper, of a
// cut against the planned one. Next is what the taper does to the race of
// Options.Next, and Later to all later races together, each counted by its
// weight, both in per cent against no taper. Of these two only the days from today
// on count: what is over cannot be changed. Here and There are what a length
// changes against the planned one in this race and in that of Options.Next. Ahead is
// by how much it brings more over this and all later races, each by its weight;
// Clear means that the middle half of it lies above zero.
type Option struct {
	Days, Cut  int
	Removed    float64 // of the taper's usual minutes, per cent: not quite Cut where rides leave no more
	Planned    bool
	Kept, Shed float64
	Gain       response.Range
	Next       response.Range
	Later      response.Range
	Here       response.Range
	There      response.Range
	Ahead      response.Range
	Clear      bool
}

// Options compares tapers for one A race as they would be ridden from today on.
// Lengths ascend from 0 days and have the planned cut; Cuts have the planned
// length, the planned one among them. Lengths are weighed by the linear model,
// which cannot choose the size of a cut, Cuts by the variable-dose model.
// AfterBlock are Lengths by that model, against the planned one, where the taper
// comes out of an overload block.
type Options struct {
	Race       *planner.Race
	Next       *planner.Race // the next A race, else the next race; nil: none to come
	Inside     []Inside      // races to come inside the taper, which count as riding
	Days       int           // planned
	Cut        int           // planned, per cent
	Lengths    []Option
	Cuts       []Option
	AfterBlock []Option
}

// NewOptions compares tapers for a race of the facts that is to come. It reports
// false where that race gets no taper, nothing is usually ridden, or symptoms
// allow no plan.
func NewOptions(today planner.Date, f *planner.Facts, race *planner.Race) (*Options, bool) {
	known := f.KnownOn(today)
	k := slices.IndexFunc(known.Races, func(r planner.Race) bool { return r.Is(race) })
	if k < 0 {
		return nil, false
	}
	base := engine.DeriveUntil(today, race.Date, f)
	g, ok := newGoal(near(f, base.Races[k].Race), newRider(known), base, base.Races[k].Race)
	if !ok {
		return nil, false
	}
	c := &comparison{goal: g}
	c.look()
	o := &Options{Race: g.taper.Race, Next: c.next, Days: g.taper.Days, Cut: g.taper.Cut}
	o.Inside = g.inside(base, g.taper)
	for n := 0; n <= max(longestOption, o.Days); n++ {
		if n != o.Days && (n > 0 && n < planner.MinTaperDays || n > longestOption) || !g.fits(n) {
			continue
		}
		option, p := c.option(n, o.Cut)
		o.Lengths = append(o.Lengths, option)
		if g.taper.Length == planner.LengthBlock && n > 0 && (n%7 == 0 || option.Planned) {
			option.Gain = c.dose(p, n)
			o.AfterBlock = append(o.AfterBlock, option)
		}
	}
	cuts := optionCuts[:]
	if !slices.Contains(cuts, o.Cut) {
		cuts = append(slices.Clone(cuts), o.Cut)
		slices.Sort(cuts)
	}
	for _, cut := range cuts {
		option, p := c.option(o.Days, cut)
		option.Gain = c.dose(p, o.Days)
		o.Cuts = append(o.Cuts, option)
	}
	return o, true
}

// mostMore is how many points more a length may cut than the planned one and still be
// fairly compared with it.
const mostMore = 2

// noMore reports a cut that is hardly more than another one. The linear model wants the
// greatest cut there is, so a length that cuts more is ahead without being better.
func noMore(cut, planned float64) bool { return cut <= planned+mostMore }

// SameCut reports a length that leaves out as much as the planned one does, in whole per cent.
func (o *Options) SameCut(l *Option) bool {
	return math.Round(l.Removed) == math.Round(o.planned().Removed)
}

// planned is the planned one of the lengths.
func (o *Options) planned() *Option {
	return &o.Lengths[slices.IndexFunc(o.Lengths, func(l Option) bool { return l.Planned })]
}

// Compares reports a length of Lengths that is fairly compared with the planned one.
func (o *Options) Compares(l *Option) bool {
	return slices.Contains(Lengths[:], l.Days) && noMore(l.Removed, o.planned().Removed)
}

// Preferred is the one of Lengths that the linear model would choose over this and
// all later races, of those that cut no more: the planned one unless another is ahead.
func (o *Options) Preferred() *Option {
	best := o.planned()
	for i := range o.Lengths {
		if l := &o.Lengths[i]; o.Compares(l) && l.Ahead.Mid > max(best.Ahead.Mid, leastAhead) {
			best = l
		}
	}
	return best
}

// leastAhead is the smallest lead that counts as one, per cent.
const leastAhead = 0.05

// comparison is what all options of a race share.
type comparison struct {
	*goal
	history *engine.Plan    // of the days before today, with what is known now
	races   []*planner.Race // this one and those after it, as far as it tells on them
	next    *planner.Race
	near    *engine.Plan // as planned, of the races that trials have
	planned []float64    // gain of the planned taper by the variable-dose model, one value a draw
}

// look finds what lies before and after the race.
func (c *comparison) look() {
	race := c.taper.Race
	c.races = []*planner.Race{race}
	for _, r := range within(raced(c.base), race.Date+1) {
		c.races = append(c.races, r)
		if c.next == nil || c.next.Priority != planner.PriorityA && r.Priority == planner.PriorityA {
			c.next = r
		}
	}
	c.history = c.base
	if first := race.Date.AddDays(-max(longestOption, c.taper.Days) - doseDays); first < c.base.Today {
		c.history = engine.DeriveUntil(first, race.Date, c.Undated())
	}
	c.near = engine.DeriveTrial(c.base.Today, race.Date, c.told, engine.Trial{Race: race, Days: c.taper.Days})
	c.planned = c.doseGains(c.base, c.taper.Days)
}

// option plans one taper and weighs it with the linear model.
func (c *comparison) option(n, cut int) (Option, *engine.Plan) {
	p := c.plan(n, cut)
	o := Option{Days: n, Cut: cut, Planned: p == c.base}
	for _, t := range p.Tapers {
		if t.Race.Date == c.taper.Race.Date && n > 0 {
			o.Removed = t.CutPercent
		}
	}
	change := c.trial(p, n)
	o.Kept, o.Shed = c.shares(c.taper.Race.Date, change)
	rows := ownWhole(c.taper.Race.Date, change, c.base.Today, c.unit, c.races)
	o.Later = response.RangeOf(weighted(rows[1:], c.races[1:]))
	o.Gain, o.Next = c.both(rows)
	if !o.Planned {
		rows = c.untilRace(p)
		more := weighted(rows, c.races)
		o.Clear, o.Ahead = response.Clear(more), response.RangeOf(more)
		o.Here, o.There = c.both(rows)
	}
	return o, p
}

// both are the rows of this race and of the next one.
func (c *comparison) both(rows [][]float64) (here, there response.Range) {
	for k, r := range c.races {
		switch r {
		case c.taper.Race:
			here = response.RangeOf(rows[k])
		case c.next:
			there = response.RangeOf(rows[k])
		}
	}
	return here, there
}

// untilRace is what the days up to the race change in it and in later races, against
// those that are planned.
func (c *comparison) untilRace(p *engine.Plan) [][]float64 {
	race := c.taper.Race.Date
	change := make([]float64, c.base.Today.DaysUntil(race))
	for i := range change {
		if a, b := p.Known(race.AddDays(-1-i)), c.near.Known(race.AddDays(-1-i)); a != nil && b != nil {
			change[i] = c.ridden(a) - c.ridden(b)
		}
	}
	return mornings(race, change, c.unit, c.races)
}

// dose is how a taper differs from the planned one by the variable-dose model.
func (c *comparison) dose(p *engine.Plan, n int) response.Range {
	gains := c.doseGains(p, n)
	for i := range gains {
		gains[i] -= c.planned[i]
	}
	return response.RangeOf(gains)
}

// doseGains are what a taper brings by the variable-dose model, one value a draw.
func (c *comparison) doseGains(p *engine.Plan, n int) []float64 {
	race, change := c.taper.Race.Date, c.trial(p, n)
	days := max(n, c.taper.Days) + doseDays
	planned, usual := make([]float64, days), make([]float64, days)
	for i := range planned {
		d := race.AddDays(i - days)
		from := p
		if d < c.base.Today && d >= c.taper.From {
			from = c.base
		} else if d < c.base.Today {
			from = c.history
		}
		if day := from.Known(d); day != nil {
			planned[i] = c.ridden(day) / c.unit
		}
		usual[i] = planned[i]
		if k := d.DaysUntil(race) - 1; k < len(change) {
			usual[i] = max(0, planned[i]-change[k]/c.unit)
		}
	}
	out := make([]float64, len(response.DosePrior()))
	response.DosePrior().Gains(out, planned, usual)
	return out
}
