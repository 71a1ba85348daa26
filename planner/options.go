package planner

import (
	"slices"

	"musette/planner/response"
)

// longestOption is the longest taper that is compared, in days, unless a longer one is planned.
const longestOption = 21

// optionCuts are the cuts that are compared, per cent.
var optionCuts = [...]int{30, 40, 50, 60, 70, 80}

// Option is one way to taper for a race. Kept and Shed are as in Expected. Gain
// is in per cent of performance in the race: of a length against no taper, of a
// cut against the planned one. Next is what the taper does to the race of
// Options.Next, and Later to all later races together, each counted by its
// priority (A 1, B 0.4, C 0.1), both in per cent against no taper.
type Option struct {
	Days, Cut  int
	Removed    float64 // of the usual minutes, per cent: less than Cut where least lengths of rides leave no more
	Planned    bool
	Kept, Shed float64
	Gain       response.Range
	Next       response.Range
	Later      response.Range
}

// Options compares tapers for one A race as they would really be ridden from
// today on. Lengths ascend from 0 days and have the planned cut; Cuts have the
// planned length, the planned one among them. Lengths are weighed by the linear
// model, which cannot choose the size of a cut, Cuts by the variable-dose model. AfterBlock are
// Lengths by that model, against the planned one, where the taper comes out of an overload block.
type Options struct {
	Race       *Race
	Next       *Race // the next A race, else the next race; nil: none to come
	Days       int   // planned
	Cut        int   // planned, per cent
	Lengths    []Option
	Cuts       []Option
	AfterBlock []Option
}

// trial is another taper for one race than the planned one.
type trial struct {
	race, days, cut int   // race -1: none
	planned         int   // days of the plan's own taper
	date            Date  // of the compared race
	lengths         []int // of all races, as planned
}

// Options compares tapers for a race of the facts that is to come. It reports
// false where that race gets no taper, nothing is usually ridden, or symptoms allow no plan.
func (f *Facts) Options(today Date, name string, date Date) (*Options, bool) {
	f = f.KnownOn(today)
	c, ok := f.newComparison(today, name, date)
	if !ok {
		return nil, false
	}
	o := &Options{Race: c.window.race, Next: c.next(), Days: c.window.n, Cut: c.window.cut}
	for n := 0; n <= max(longestOption, o.Days); n++ {
		if n > 0 && n < MinTaperDays && n != o.Days || n > longestOption && n != o.Days {
			continue
		}
		option, ok := c.try(n, o.Cut)
		if !ok {
			continue
		}
		o.Lengths = append(o.Lengths, option)
		if c.window.overload && n > 0 && (n%7 == 0 || option.Planned) {
			c.against(&option)
			o.AfterBlock = append(o.AfterBlock, option)
		}
	}
	cuts := optionCuts[:]
	if !slices.Contains(cuts, o.Cut) {
		cuts = append(slices.Clone(cuts), o.Cut)
		slices.Sort(cuts)
	}
	for _, cut := range cuts {
		if option, ok := c.try(o.Days, cut); ok {
			c.against(&option)
			o.Cuts = append(o.Cuts, option)
		}
	}
	return o, true
}

// compares reports whether a race is the one whose taper is tried.
func (t *trial) compares(p *Plan, r *Race) bool {
	return t != nil && t.race >= 0 && p.Races[t.race].Race == r
}

// shorter reports a length that only a comparison has after an overload block:
// the plan would lengthen it.
func (t *trial) shorter() bool { return t.days < 14 && t.days != t.planned }

// lead is how many days before a race the calendar has to reach; near races of
// which only the other days count have short tapers in trials.
func (t *trial) lead(r *Race) int {
	if t == nil || t.lengths != nil || t.date == r.Date {
		return leadDays
	}
	return oneWeekMax + 14
}
