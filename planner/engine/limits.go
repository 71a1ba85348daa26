package engine

import (
	"musette/planner"
)

// holdFacts fits every day that no rule has planned to its own facts.
func (c *calendar) holdFacts() {
	for i := range c.days {
		d := &c.days[i]
		if d.owner == settled || d.race != nil || !d.out.asUsual {
			continue
		}
		switch {
		case d.busy:
			d.out = plan{}
			if d.away {
				d.because(note{code: WhyAway})
			}
		case d.only:
			minutes := floor5(min(d.mins, d.most()))
			if minutes < shortestRide {
				minutes = 0
			}
			d.out = easyPlan(d, minutes)
			d.because(note{code: WhyTravel})
		case d.ban.is() && d.mins > 0 && (d.kind == hard || d.cap < d.mins):
			c.easeWithin(d)
		case d.usualMinutes() > d.limit:
			c.limitDay(d)
		case d.phase == planner.Overload && d.mins != rideMinutes(d.usual):
			d.out = plan{kind: kindOf(d.kind), effort: effortOf(d.kind), minutes: d.mins, set: d.set, strength: strengthOf(d.usual)}
		}
	}
}

func easyPlan(d *day, minutes int) plan {
	if minutes < min(shortestRide, d.mins) || minutes == 0 {
		return plan{}
	}
	return plan{kind: d.name(minutes, 40), effort: planner.Easy, minutes: minutes}
}

func effortOf(k rideKind) planner.Effort {
	return [...]planner.Effort{planner.NoEffort, planner.Easy, planner.Easy, planner.Steady, planner.Steady, planner.Hard}[k]
}

// usualMinutes is the time of all usual sessions, strength too.
func (d *day) usualMinutes() int { return d.mins + strengthOf(d.usual) }

func strengthOf(sessions []planner.Session) int {
	total := 0
	for _, s := range sessions {
		if s.Kind == planner.Strength {
			total += int(s.Minutes)
		}
	}
	return total
}

func rideMinutes(sessions []planner.Session) int {
	total := 0
	for _, s := range sessions {
		if s.Kind.IsRide() {
			total += int(s.Minutes)
		}
	}
	return total
}

// limitDay fits a usual day into its limit: strength goes first, then as many
// repetitions stay as fit, else an easy ride.
func (c *calendar) limitDay(d *day) {
	minutes := min(d.mins, d.limit)
	if minutes < d.mins && minutes >= 5 {
		minutes = floor5(minutes)
	}
	d.out = plan{kind: kindOf(d.kind), effort: effortOf(d.kind), minutes: minutes, set: d.set}
	d.because(note{code: WhyLimit, n: d.limit})
	if minutes < shortestRide {
		d.out = plan{}
		return
	}
	c.fitLimit(d)
}

// fitLimit leaves as many repetitions of a hard day as its minutes hold, at least half.
func (c *calendar) fitLimit(d *day) {
	if d.out.effort != planner.Hard {
		return
	}
	set := d.out.set
	around := forcedFrame
	if d.out.minutes >= d.mins {
		around = 0
	}
	for set.least(around) > d.out.minutes {
		fewer, ok := set.less()
		if ok && 2*fewer.reps() >= d.out.set.reps() {
			set = fewer
			continue
		}
		if around != forcedFrame || d.eased {
			d.out = easyPlan(d, d.out.minutes)
			return
		}
		around, set = leastFrame, d.out.set // the one hard ride of many a week
	}
	if set != d.out.set {
		d.also(note{code: WhyLimitSet})
	}
	d.out.set = set
}

// trainUpToLostDays brings the first hard day of a lost run to the run's eve, and
// a hard day on D-2 to D-3: lost days are rest enough.
func (w *window) trainUpToLostDays() {
	for _, run := range w.lostRuns() {
		eve := run.from + 1
		for eve < w.n && w.t[eve].neverRidden() {
			eve++
		}
		if eve > w.n {
			continue
		}
		if run.from-run.to >= 2 {
			for t := eve; t <= min(eve+3, w.n); t++ {
				w.t[t].whole = w.t[t].hard
			}
		}
		if w.t[eve].hard {
			w.t[eve].whole = true
			continue
		}
		for t := run.from; t >= run.to; t-- {
			if w.t[t].kind == hard {
				if day := w.eveOf(eve); day != 0 {
					w.mark(day, w.own(t), note{code: WhyHardEve, day: w.t[t].date})
					w.t[day].whole = w.t[min(day+1, w.n)].kind != long
				} else {
					w.afterLost(run, t)
				}
				break
			}
		}
	}
	w.saveOnFreeDay()
	w.makeRoom()
	if w.n >= 3 && w.t[2].kind == hard && w.t[2].owner != settled && !w.t[3].hard && w.t[3].kind != long &&
		!w.mayBeHard(3, false).is() && w.roomLate(3) {
		w.mark(3, w.own(2), note{code: WhyHardFromEve, day: w.t[2].date})
	}
}

// saveOnFreeDay brings a lost hard session to the usually free day that follows a
// lost run, up to D-6, where nothing else is hard near it: else all the days in a
// row would be off.
func (w *window) saveOnFreeDay() {
	for _, run := range w.lostRuns() {
		t := run.to - 1
		if t < 6 || run.from == run.to || w.t[t].mins > 0 || w.mayBeHard(t, true).is() || w.hardIn(t-2, t) > 0 {
			continue
		}
		for u := run.to; u <= run.from; u++ {
			if w.t[u].kind == hard {
				w.mark(t, w.own(u), note{code: WhyHardFromEve, day: w.t[u].date})
				break
			}
		}
	}
}

// makeRoom brings a hard session that a limit leaves no room for to the day before.
func (w *window) makeRoom() {
	for t := w.n - 1; t >= 3; t-- {
		s := &w.t[t]
		if !s.hard || s.limit >= s.mins {
			continue
		}
		if set, _ := w.dosed(t, s.src); !set.isZero() {
			continue
		}
		s.hard, s.reason = false, note{code: WhyHardRoom, day: s.date}
		if !w.mayBeHard(t+1, false).is() && w.roomLate(t+1) && w.t[t+1].kind != long {
			w.mark(t+1, w.own(t), note{code: WhyHardEve, day: s.date})
		}
	}
}

// eveOf is the day that takes a hard session before lost days: their eve, or the
// ridden day before it where the eve is a long ride; 0 for none.
func (w *window) eveOf(eve int) int {
	if w.t[eve].kind == long && eve < w.n && !w.mayBeHard(eve+1, false).is() && w.roomLate(eve+1) {
		return eve + 1
	}
	if !w.mayBeHard(eve, true).is() && w.roomLate(eve) {
		return eve
	}
	return 0
}

// afterLost brings a lost hard session to the first day after the run that may be hard, up to D-6.
func (w *window) afterLost(run stretch, lost int) {
	for t := run.to - 1; t >= max(6, run.to-3); t-- {
		if !w.mayBeHard(t, false).is() && w.roomLate(t) && w.t[t].kind != long {
			w.mark(t, w.own(lost), note{code: WhyHardFromEve, day: w.t[lost].date})
			return
		}
	}
}

// lostRuns are stretches of two or more usually ridden days that are lost, up to
// D-3, and single hard ones.
func (w *window) lostRuns() []stretch {
	var out []stretch
	for t := w.n; t >= 3; t-- {
		if !w.t[t].lost() || w.t[t].neverRidden() {
			continue
		}
		run, ridden := stretch{from: t, to: t}, 0
		for ; t >= 3 && w.t[t].lost() && !w.t[t].neverRidden(); t-- {
			run.to = t
			if w.t[t].mins > 0 {
				ridden++
			}
		}
		if ridden >= 2 || ridden == 1 && run.from == run.to && w.t[run.to].kind == hard {
			out = append(out, run)
		}
	}
	return out
}

// neverRidden reports a weekday that is never ridden.
func (d *day) neverRidden() bool { return d.busy && !d.away && d.limit >= shortestRide }

// trainUp brings a hard session that lost days take to the day before them, where
// nothing else would be hard.
func (h *halfWeek) trainUp() {
	for t := 6; t >= 1; t-- {
		lost := h.open(t)
		if lost == nil || !lost.lost() || lost.kind != hard || lost.neverRidden() {
			continue
		}
		u := t + 1
		for d := h.c.at(h.race.Date.AddDays(-u)); d != nil && d.lost() && u < 6; d = h.c.at(h.race.Date.AddDays(-u)) {
			u++
		}
		eve := h.open(u)
		if eve == nil || u < 3 || eve.lost() || eve.kind == hard || eve.kind == long || eve.ban.is() || h.c.touches(eve) || h.hardPlanned(3, u+1) {
			continue
		}
		set, minutes := lost.set.kept(threeQuarters), min(eve.mins, eve.most())
		if eve.mins == 0 {
			minutes = min(60, eve.most())
		}
		if set.least(forcedFrame) > minutes {
			continue
		}
		eve.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: set}
		eve.owner, eve.phase, eve.host = byB, planner.Tapering, h.race
		eve.because(note{code: WhyHardEve, day: lost.date})
		return
	}
}

// spin rides easily on a usually free day after three days or more without a ride, where
// the next day is hard: legs wake before they work.
func (h *halfWeek) spin() {
	for t := 2; t <= spinReach; t++ {
		d, next := h.open(t), h.c.at(h.race.Date.AddDays(-t+1))
		if d == nil || next == nil || d.mins > 0 || d.busy || d.only || d.ban.is() || d.most() < spinMinutes || !h.c.lostBefore(d, 2) {
			continue
		}
		if t > 2 && !next.isHard() || t == 2 && (next.lost() || !h.c.lostBefore(d, 3)) {
			continue // the next day asks nothing of the legs
		}
		minutes := spinMinutes
		if h.c.hours(h.race.Date) >= 8 {
			minutes = spinLonger
		}
		d.out = plan{kind: planner.Endurance, effort: planner.Easy, minutes: min(minutes, floor5(d.most()))}
		d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		d.because(note{code: WhySpin})
		return
	}
}

// lostBefore reports so many lost days right before a day.
func (c *calendar) lostBefore(d *day, days int) bool {
	for u := 1; u <= days; u++ {
		if e := c.at(d.date.AddDays(-u)); e == nil || !e.lost() || e.neverRidden() {
			return false
		}
	}
	return true
}
