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

// lostAround prepares a race with lost days before it: their hard sessions come to the day
// before them, or a short set or openers, and a hard session that the race day takes comes
// before it.
func (h *halfWeek) lostAround() {
	h.trainUp()
	h.touchEarly()
	h.openEarly()
	h.raceDayHard()
}

const (
	farEve  = 9   // days before the race; lost days up to there count
	longSet = 150 // minutes of a long ride before lost days that takes a session
)

// trainUp brings a hard session that lost days take to the day before them, where nothing
// else would be hard, or two and more are lost and no other hard day is near.
func (h *halfWeek) trainUp() {
	for t := 6; t >= 1; t-- {
		lost := h.open(t)
		if lost == nil || !lost.lost() || lost.kind != hard || lost.neverRidden() {
			continue
		}
		u := t + 1
		for d := h.c.at(h.race.Date.AddDays(-u)); d != nil && d.lost() && u < farEve; d = h.c.at(h.race.Date.AddDays(-u)) {
			u++
		}
		eve := h.open(u)
		if eve == nil || u < 3 || eve.lost() || eve.kind == hard || eve.kind == long && (u < 5 || eve.mins > longSet) || eve.ban.is() || h.c.touches(eve) ||
			h.hardPlanned(3, u+1) && (u-t < 2 || h.hardPlanned(u+1, u+2)) {
			continue
		}
		set, minutes := lost.set.kept(threeQuarters), min(eve.minutesOr(60), eve.most())
		if set.least(forcedFrame) > minutes {
			continue
		}
		h.makeHard(eve, set, minutes)
		eve.because(note{code: WhyHardEve, day: lost.date})
		return
	}
}

// farLost is how many days before a race lost hard sessions still come to the day before them.
const farLost = 16

// trainUpBefore brings a hard session that lost days shortly before the taper take to the day
// before them: two weeks without any would be too long.
func (w *window) trainUpBefore() {
	for t := w.n + 1; t <= farLost; t++ {
		lost := w.at(t)
		if lost == nil || !lost.lost() || lost.kind != hard || lost.neverRidden() {
			continue
		}
		u := t + 1
		for d := w.at(u); d != nil && d.lost() && u < farLost+4; d = w.at(u) {
			u++
		}
		eve := w.at(u)
		if eve != nil && eve.mins == 0 && w.takesEarly(u+1) && w.at(u+1).kind == endurance {
			u, eve = u+1, w.at(u+1) // rather than on a free day
		}
		if !w.takesEarly(u) {
			return
		}
		set, minutes := lost.set, min(eve.minutesOr(60), eve.most())
		if set.least(shortFrame) > minutes {
			set = set.kept(threeQuarters)
		}
		if set.least(forcedFrame) > minutes {
			return
		}
		eve.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: set}
		eve.owner = byWindow
		eve.because(note{code: WhyHardEve, day: lost.date})
		return
	}
}

// takesEarly reports whether D-u, before the taper, can take a lost hard session.
func (w *window) takesEarly(u int) bool {
	d := w.at(u)
	return d != nil && !d.lost() && d.owner == nobody && d.race == nil && d.kind != hard && d.kind != long && d.kind != commute && !d.ban.is() &&
		!w.c.touches(d) && !w.c.besideRace(d) && !w.c.easedByB(d) && !w.hardNear(u)
}

// hardNear reports a hard day two days before D-u or up to four days after it.
func (w *window) hardNear(u int) bool {
	for t := u + 2; t > u-5 && t >= 3; t-- {
		if d := w.at(t); t != u && d != nil && d.isHard() && !d.lost() {
			return true
		}
	}
	return false
}

// minutesOr is the day's usual riding time, on a free day so many minutes.
func (d *day) minutesOr(free int) int {
	if d.mins > 0 {
		return d.mins
	}
	return free
}

// lostLast is the first of two lost days in a row on D-3 to D-1, 0 for none.
func (h *halfWeek) lostLast() int {
	for t := 3; t >= 2; t-- {
		if h.lostOn(t) && h.lostOn(t-1) {
			return t
		}
	}
	return 0
}

func (h *halfWeek) lostOn(t int) bool {
	d := h.c.at(h.race.Date.AddDays(-t))
	return d != nil && d.lost()
}

// hardDue reports a usual hard day from D-far to D-near that is not lost, whatever was made of it.
func (h *halfWeek) hardDue(near, far int) bool {
	for t := near; t <= far; t++ {
		if d := h.c.at(h.race.Date.AddDays(-t)); d != nil && d.kind == hard && !d.lost() {
			return true
		}
	}
	return false
}

// touchEarly puts half of the short set on the day before lost D-3 and D-2 or D-2 and D-1,
// where nothing is hard from D-5 on.
func (h *halfWeek) touchEarly() {
	t := h.lostLast()
	if t == 0 || h.hardPlanned(3, 5) || h.hardDue(3, 5) {
		return
	}
	d := h.open(t + 1)
	short, _ := h.c.sets(h.race.Date)
	if d == nil || d.lost() || d.busy || d.ban.is() || d.only || d.kind == long || d.kind == commute || h.c.touches(d) || short.set.isZero() || short.set.part > 0 {
		return
	}
	set := short.set.kept(half)
	minutes := min(d.minutesOr(60), d.most(), max(60, ceil5(set.least(frame))))
	if set.least(forcedFrame) <= minutes {
		h.makeHard(d, set, minutes)
		d.because(note{code: WhyBTouch, race: h.race})
	}
}

// openEarly puts openers on an easy D-3 before a lost D-2 and D-1, before races of less than
// five hours.
func (h *halfWeek) openEarly() {
	d := h.open(3)
	if h.lostLast() != 2 || d == nil || d.busy || d.kind == hard || d.kind == commute || d.ban.is() || h.race.Minutes() >= hugeB {
		return
	}
	if h.openersOn(d) {
		d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		d.because(note{code: WhyOpenersLost, race: h.race})
	}
}

// raceDayHard brings the hard session of the race's weekday to an easy day before, where
// nothing else is hard from D-6 on.
func (h *halfWeek) raceDayHard() {
	from := h.c.at(h.race.Date)
	if from == nil || from.kind != hard || h.hardPlanned(3, 6) || h.hardDue(3, 6) {
		return
	}
	for t := 1; t <= 2; t++ {
		if d := h.open(t); d != nil && d.kind == hard && d.ridden() {
			return // that one comes first
		}
	}
	h.move(from)
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
