package engine

import (
	"slices"

	"musette/planner"
)

const quietDays = 14 // shown when no race is to come

// Derive plans every day from today to the day after the last race's last
// recovery day, or 14 days when no race is to come. It is a pure function of the
// facts: days that are over stay as they were shown, and without new facts a
// planned day is the same whichever day it is asked on.
func Derive(today planner.Date, f *planner.Facts) *Plan { return DeriveUntil(today, 0, f) }

// DeriveUntil is Derive that reaches until the given date at least.
func DeriveUntil(today, until planner.Date, f *planner.Facts) *Plan {
	c, _ := replay(today, until, f, nil)
	return c.output(today)
}

// Trial is another taper for one race, to compare: days before it (0: none) and
// a cut in per cent (0: as planned), whatever rules or wishes say.
type Trial struct {
	Race      *planner.Race
	Days, Cut int
}

// of is the trial if it is of that race, nil else.
func (t *Trial) of(r *planner.Race) *Trial {
	if t != nil && t.Race.Is(r) && t.Race.Date == r.Date {
		return t
	}
	return nil
}

// DeriveTrial is DeriveUntil with another taper for one race.
func DeriveTrial(today, until planner.Date, f *planner.Facts, t Trial) *Plan {
	c, _ := replay(today, until, f, &t)
	return c.output(today)
}

// replay runs the stages up to today and returns the last one's calendar. moved
// is why the last swap is not possible, if it is not.
func replay(today, until planner.Date, f *planner.Facts, trial *Trial) (c *calendar, moved *planner.InputError) {
	list := stages(f, today)
	past := &history{}
	for i, s := range list {
		last := i == len(list)-1
		from := s.on
		if from == beforeAll {
			from = firstOf(s.facts, today, list)
		}
		var end planner.Date
		if last {
			end = max(planEnd(today, s.facts), until)
		} else {
			end = max(list[i+1].on, from)
		}
		c = newCalendar(s, from, end, last, today)
		c.trial = trial
		if past.first.IsZero() || s.need > past.first {
			past.cut(s.need)
		}
		if toldBesides(f, s) {
			past.next.sessions = unlogged(s, from, end, past, today)
		}
		moved = c.plan(s, from, end, past)
		if last {
			c.reachOn()
		}
		if !last {
			past = c.remember(from, list[i+1].on, past)
		}
	}
	return c, moved
}

// toldBesides reports a day on which rides were logged and something else was told:
// what was shown last before the log is no longer what the stage before had.
func toldBesides(f *planner.Facts, s stage) bool {
	if !slices.ContainsFunc(s.facts.Done, func(r planner.Ride) bool { return r.Date == s.on }) {
		return false
	}
	others := *f
	others.Done, others.Moves = nil, nil // a swap takes the day as it was
	dates := others.ToldDates(s.on)
	return len(dates) > 0 && dates[len(dates)-1] == s.on
}

// unlogged is what a stage shows for its own day without the rides and swaps of that day.
func unlogged(s stage, from, end planner.Date, past *history, today planner.Date) []planner.Session {
	facts := *s.facts
	facts.Done = slices.DeleteFunc(slices.Clone(facts.Done), func(r planner.Ride) bool { return r.Date == s.on })
	facts.Moves = slices.DeleteFunc(slices.Clone(facts.Moves), func(m planner.Move) bool { return m.On == s.on })
	s.facts = &facts
	c := newCalendar(s, from, end, false, today)
	c.plan(s, from, end, past)
	if d := c.at(s.on); d != nil {
		return d.sessions()
	}
	return past.next.sessions
}

// reachOn lets the plan end after the last day that recovers from a race, and not
// amid days away.
func (c *calendar) reachOn() {
	for t := c.last() - 1; t >= c.until; t-- {
		if c.at(t).phase == planner.Recovering {
			c.until = t + 1
			break
		}
	}
	for d := c.at(c.until + 1); d != nil && (d.away || d.only); d = c.at(c.until + 1) {
		c.until++
	}
}

// firstOf is the first day that matters of what was known before everything.
func firstOf(f *planner.Facts, today planner.Date, list []stage) planner.Date {
	first := today
	for _, s := range list {
		if s.on != beforeAll {
			first = min(first, s.on, s.need)
		}
	}
	from := first
	for i := range f.Races {
		r := &f.Races[i]
		if r.Last().AddDays(daysAfter) >= first {
			from = min(from, r.Date.AddDays(-planner.MaxTaperDays))
		}
	}
	for _, ill := range f.Troubles() {
		if ill.To.IsZero() || ill.To.AddDays(daysAfter+1) >= first {
			from = min(from, ill.From)
		}
	}
	return from
}

// newCalendar lays out the days that a stage has to look at: its own and those of
// all races whose days touch them.
func newCalendar(s stage, from, end planner.Date, last bool, today planner.Date) *calendar {
	lo, hi := from, end
	if s.need > beforeAll {
		lo = min(lo, s.need)
	}
	for i := range s.facts.Races {
		r := &s.facts.Races[i]
		if r.Last().AddDays(daysAfter) >= from && (last || r.Date.AddDays(-planner.MaxTaperDays) <= end) {
			hi = max(hi, r.Last().AddDays(daysAfter))
			if r.Date < lo {
				lo = r.Date
			}
		}
	}
	c := layOut(lo.AddDays(-2), hi, s.facts)
	c.from, c.until, c.today, c.quiet = from, end, today, !last
	return c
}

// planEnd is the last day of the plan.
func planEnd(today planner.Date, f *planner.Facts) planner.Date {
	end, toCome := today, false
	for i := range f.Races {
		r := &f.Races[i]
		if r.Last().AddDays(returnDays(f, r)) < today {
			continue
		}
		toCome = toCome || r.Last() >= today
		end = max(end, r.Last().AddDays(returnDays(f, r)+1))
	}
	if !toCome {
		end = max(end, today.AddDays(quietDays-1))
	}
	return end
}

// plan runs the rules once, in order, over the calendar of a stage.
func (c *calendar) plan(s stage, from, end planner.Date, past *history) (moved *planner.InputError) {
	c.settlePast(past)
	c.placeRaces()
	spells, held := c.spells()
	c.ills = spells
	c.layIllness(spells)
	c.settleLog(past)
	c.settleFixed(past)
	afters := c.sizeWindows(spells, past)
	for _, w := range c.wins {
		c.planWindow(w, past.taper(w))
	}
	for _, a := range afters {
		c.planAfter(a)
	}
	c.planHalves()
	for _, a := range afters {
		if twoSteps(a.race) {
			c.returnInSteps(a)
		} else {
			c.returnAtOnce(a)
		}
	}
	c.easeReturn(spells)
	for _, r := range c.races {
		if r.Priority == planner.PriorityC {
			c.trainThrough(r)
		}
	}
	c.holdFacts()
	c.keepFromStart(spells)
	moved = c.newMoves(s, past)
	if !held.from.IsZero() {
		c.hold(held.from)
	}
	for _, w := range c.wins {
		w.tellCut()
	}
	if !c.quiet {
		c.warnIll(spells, held)
		c.warnAll()
	}
	return moved
}

// sizeWindows bounds the days after A races and gives each its taper.
func (c *calendar) sizeWindows(spells []spell, past *history) (afters []afterRace) {
	goals := c.goals()
	for i, r := range goals {
		var prev, next *planner.Race
		if i > 0 {
			prev = goals[i-1]
		}
		if i+1 < len(goals) {
			next = goals[i+1]
		}
		if r.Last().AddDays(daysAfter) >= c.first && r.Date <= c.last() {
			afters = append(afters, c.boundAfter(r))
		}
		if r.Date < c.first || r.Last() > c.last() {
			continue
		}
		w := c.sizeWindow(r, prev, next)
		if held := past.taper(w); held != nil && c.trial.of(r) == nil {
			w.hold(held)
		}
		if w.n <= 0 {
			c.play(r, planner.NoDaysLeft, prev)
			continue
		}
		c.play(r, planner.Tapered, nil)
		if w.start() > c.until || r.Last() < c.from || w.start() < c.first {
			continue // not yet, over, or before what matters
		}
		w.ill, w.illHard = illIn(w, spells)
		c.wins = append(c.wins, w)
	}
	return afters
}

// Without is what a changed day would hold without the fact that decided it: its
// race, block, absence, limit, illness, swap or pin. It is nil where that says
// nothing: unchanged days, days that are over.
func Without(today planner.Date, f *planner.Facts, d *Day) []planner.Session {
	if len(d.Causes) == 0 || d.Date < today {
		return nil
	}
	g := *f
	switch c := d.Causes[0]; c.Code {
	case WhyLogged, WhyMissed, WhyToldThen, WhyRace, WhyBusy:
		return nil
	case WhyAway, WhyTravel:
		g.Absences = slices.DeleteFunc(slices.Clone(f.Absences), func(a planner.Absence) bool { return a.From <= d.Date && d.Date <= a.To })
	case WhyLimit, WhyLimitSet, WhyEased:
		g.Limits = slices.DeleteFunc(slices.Clone(f.Limits), func(l planner.Limit) bool { return l.Date == d.Date })
	case WhyIll, WhyIllFree, WhyIllReturn, WhyHurt, WhyHurtFree, WhyHurtReturn, WhyClearedReturn, WhyIllRace, WhyIllOpen, WhyIllStart, WhyIllHalf, WhyIllOne, WhyIllTwo, WhyIllSoon, WhyHold, WhyHead, WhyHeadRest:
		g.Ill, g.Holds = nil, nil
	case WhyBlock, WhyBlockAfter:
		g.Blocks = nil
	case WhyMoved:
		g.Moves = nil
	case WhyPinned:
		g.Pins = nil
	default:
		race := c.Race
		if race == nil {
			race = d.Race
		}
		if race == nil {
			return nil
		}
		g.Races = slices.DeleteFunc(slices.Clone(f.Races), func(r planner.Race) bool {
			return r.Is(race)
		})
	}
	other, ok := DeriveUntil(today, d.Date, &g).Day(d.Date)
	if !ok {
		return nil
	}
	return other.Sessions
}

// Room is the share of its usual riding that each day has time for without any
// race, from one date up to the day before another: less where the rider is away
// or has set a limit.
func Room(f *planner.Facts, first, end planner.Date) []float64 {
	if end <= first {
		return nil
	}
	c := layOut(first, end-1, f)
	out := make([]float64, len(c.days))
	for i := range c.days {
		d := &c.days[i]
		switch usual := rideMinutes(d.usual); {
		case d.busy:
		case d.most() < usual:
			out[i] = float64(d.most()) / float64(usual)
		default:
			out[i] = 1
		}
	}
	return out
}
