package planner

import (
	"fmt"
	"math"
	"slices"
)

// Gaps between A races, in days, that decide a taper's length and the warnings.
const (
	closeGap      = 28 // nearer A races are warned about
	carriedGap    = 14 // up to here the second A race lives off the first taper
	spacedGap     = 56 // a next A race up to here shortens the taper
	halfTaperGap  = 4  // nearer B races share one half taper
	overloadReach = 7  // a block that ends nearer to the window lengthens it
)

// window is one A race's taper: N days, D-N up to D-1.
type window struct {
	race      *Race
	n         int
	overload  bool // opens easy after an overload block
	cut       int
	hours     float64 // usual weekly riding hours
	week      *Week
	hardDays  int    // hard days of the usual week, the most of several weeks
	spots     []spot // by days before the race; spots[0] is unused
	pattern   Pattern
	shape     Shape
	last      int    // the last hard day before the race
	hardEve   bool   // the day before the window is hard
	wantD2    bool   // the rider prefers openers on D-2
	freeEve   bool   // the rider wants D-1 without a ride, openers on D-2
	stretch   bool   // hard rides may be longer than their day usually is
	broken    bool   // the pattern of hard days could not be held
	rule      string // why this length
	automatic bool   // chosen by evidence and model
}

func (w *window) start() Date { return w.race.Date.AddDays(-w.n) }

// ride gives every race its days, the higher right first; of a race that loses
// days to another only the rest is ridden, and a warning names it.
func (c *calendar) ride(today Date, races []*Race) {
	for p := PriorityA; p <= PriorityC; p++ {
		for _, r := range races {
			if r.Priority == p {
				c.rideDays(today, r)
			}
		}
	}
	for _, r := range races {
		if r.Days > 0 {
			c.races = append(c.races, r)
		}
	}
	slices.SortStableFunc(c.races, func(a, b *Race) int { return int(a.Date - b.Date) })
}

func (c *calendar) rideDays(today Date, r *Race) {
	var first, last Date
	var other *Race
	for d := r.Date; d <= r.Last(); d++ {
		s := c.at(d)
		if s.claim == claimRace {
			other = s.Race
			continue
		}
		if first.IsZero() {
			first = d
		}
		last = d
		s.Race, s.claim, s.Phase = r, claimRace, RaceDay
		c.set(s, Session{Kind: RaceRide, Effort: RaceEffort, Minutes: int16(r.minutes())})
		s.note(noteRaceDay)
	}
	if other != nil && r.Last() >= today {
		c.warn(ruleSameDay, r, fmt.Sprintf("%s (%s, %s) falls on a race day of %s (%s), which comes first: that day is planned for %s. Change or remove one of them.",
			r.Name, r.Priority, r.Date.Short(), other.Name, other.Priority, other.Name))
	}
	if first.IsZero() {
		r.Days = 0
		c.play(r, Outranked, other)
		return
	}
	r.Date, r.Days = first, first.DaysUntil(last)+1
	c.warnRace(today, r)
}

func (c *calendar) warnRace(today Date, r *Race) {
	if r.Last() < today {
		return
	}
	if r.Hours <= 0 {
		c.warn(ruleHours, r, fmt.Sprintf("%s has no length: planned as %d h. Tell its hours for the right days after it.", r.Name, assumedRaceHours))
	}
	for d := r.Date; d <= r.Last(); d++ {
		if c.awayOn(d) {
			c.warn(ruleOff, r, fmt.Sprintf("%s is on %s, a day you said you are away: the race stays in the plan. Change one of them.", r.Name, d.Short()))
			return
		}
	}
}

func (c *calendar) awayOn(d Date) bool {
	for _, a := range c.facts.Absences {
		if !a.Travel && a.From <= d && d <= a.To {
			return true
		}
	}
	return false
}

// claimWindows gives every A race its days, the earlier race first: recovery
// days after it, and the taper window that is left before it.
func (c *calendar) claimWindows(today Date) []window {
	var goals []*Race
	for _, r := range c.races {
		if r.Priority == PriorityA {
			goals = append(goals, r)
		}
	}
	if c.facts.Taper.Days == 0 {
		c.chooseLengths()
	}
	windows := make([]window, 0, len(goals))
	for i, r := range goals {
		var prev, next *Race
		if i > 0 {
			prev = goals[i-1]
		}
		if i+1 < len(goals) {
			next = goals[i+1]
		}
		w := c.sizeWindow(today, r, prev, next)
		for d := r.Last() + 1; d <= r.Last().AddDays(r.recoveryDays()); d++ {
			if s := c.at(d); s.claim < claimRecovery {
				s.claim, s.Race, s.Phase = claimRecovery, r, Recovering
			}
		}
		if w.n <= 0 {
			c.play(r, NoDaysLeft, prev)
			continue
		}
		c.play(r, Tapered, nil)
		for d := w.start(); d < r.Date; d++ {
			if s := c.at(d); s.claim < claimTaper {
				s.claim, s.Race, s.Phase = claimTaper, r, Tapering
			}
		}
		windows = append(windows, w)
	}
	return windows
}

// sizeWindow works out N: told or automatic, at least 14 after overload, and
// never more than the days that registration, the block and the race before leave.
func (c *calendar) sizeWindow(today Date, r, prev, next *Race) window {
	w := window{race: r, cut: c.facts.Taper.cut()}
	toCome := r.Last() >= today
	want := c.facts.Taper.Days
	w.rule = toldRule(want)
	if want == 0 {
		i := c.indexOf(r)
		want, w.rule, w.automatic = c.lengths[i], c.rules[i], true
	}
	compared := c.trial.compares(c.plan, r)
	if compared {
		want, w.cut = c.trial.days, c.trial.cut
	}
	start := r.Date.AddDays(-want)
	if end, ok := c.overloadBefore(r, prev, start); ok && !(compared && c.trial.shorter()) {
		w.overload = true
		if want < 14 {
			if c.facts.Taper.Days != 0 && toCome {
				c.warn(ruleOverload, r, fmt.Sprintf("%s comes right after an overload block: its taper takes 14 days, not the %d you set, so that the block's fatigue can go.", r.Name, want))
			}
			want = 14
		}
		w.rule = fmt.Sprintf("%d days, because an overload block comes right before it.", want)
		start = max(r.Date.AddDays(-want), end+1)
		if left := start.DaysUntil(r.Date); left < 14 && toCome {
			c.warn(ruleOverload, r, fmt.Sprintf("The overload block leaves %d days before %s; 14 are needed. End the block on %s instead.", left, r.Name, r.Date.AddDays(-15).Short()))
			w.rule, w.automatic = fmt.Sprintf("%d days: what the overload block leaves.", left), false
		}
	}
	if prev != nil {
		gap := prev.Last().DaysUntil(r.Date)
		if gap < closeGap && toCome {
			c.warn(ruleClose, r, fmt.Sprintf("%s and %s are A races %s apart: the second cannot have a whole taper. Weigh making one of them a B race, with /season check", prev.Name, r.Name, days(gap)))
		}
	}
	if free, after := c.recovered(r); free > start {
		start = free
		w.rule, w.automatic = fmt.Sprintf("%s: what is left after recovery from %s.", days(start.DaysUntil(r.Date)), after.Name), false
	}
	if r.Registered > start {
		if toCome {
			c.warn(ruleRaceLate, r, lateText(r, start.DaysUntil(r.Date)))
		}
		start = r.Registered
		w.rule, w.automatic = fmt.Sprintf("%s: what was left when the race was registered.", days(start.DaysUntil(r.Date))), false
	}
	w.n = start.DaysUntil(r.Date)
	w.week = c.facts.weekOn(r.Date.AddDays(-1))
	w.hours = w.week.hours()
	return w
}

// toldRule words a length that the rider has set.
func toldRule(days int) string {
	if days > 21 {
		return fmt.Sprintf("%d days, as you set it; trials support 8 to 14, and none more than 21.", days)
	}
	return fmt.Sprintf("%d days, as you set it.", days)
}

func lateText(r *Race, want int) string {
	if r.Registered >= r.Date {
		return fmt.Sprintf("%s was registered on race day: no day is left for a taper.", r.Name)
	}
	return fmt.Sprintf("%s was registered %s before the race, a %d-day taper no longer fits: it takes the days that are left.",
		r.Name, days(r.Registered.DaysUntil(r.Date)), want)
}

// recovered is the first day that no earlier A race's recovery takes, and the race that decides it.
func (c *calendar) recovered(r *Race) (Date, *Race) {
	free, after := Date(math.MinInt32), r
	for _, prev := range c.told {
		if prev.Date >= r.Date {
			break
		}
		if end := prev.Last().AddDays(prev.recoveryDays() + 1); prev.Priority == PriorityA && end > free {
			free, after = end, prev
		}
	}
	return free, after
}

func days(n int) string {
	switch {
	case n == 1:
		return "1 day"
	case n < 0:
		return "0 days"
	}
	return fmt.Sprintf("%d days", n)
}

// overloadBefore finds the last day of an overload block that ends less than a
// week before the window's start or inside it. From D-7 on a block yields.
func (c *calendar) overloadBefore(r, prev *Race, start Date) (Date, bool) {
	if prev != nil && prev.Last().DaysUntil(r.Date) <= carriedGap {
		return 0, false
	}
	free, _ := c.recovered(r)
	var end Date
	found := false
	consider := func(from, to Date) {
		from, to = max(from, free), min(to, r.Date.AddDays(-8))
		if to >= from && to.DaysUntil(start) < overloadReach && (!found || to > end) {
			end, found = to, true
		}
	}
	for _, b := range c.facts.Blocks {
		if b.Percent >= overloadPercent {
			consider(b.From, b.To)
		}
	}
	for _, b := range c.logged {
		consider(b.From, b.To)
	}
	return end, found
}
