package engine

import (
	"slices"

	"musette/planner"
)

// mayBeHard is the one place that answers whether D-t may be hard, and if not why.
// A day that is free by habit may only with free.
func (w *window) mayBeHard(t int, free bool) cause {
	d := w.t[t].day
	switch {
	case d.owner == settled:
		return cause{code: WhyToldThen}
	case d.busy && d.away:
		return cause{code: WhyAway}
	case d.busy:
		return cause{code: WhyBusy}
	case d.only:
		return cause{code: WhyTravel}
	case d.limit < lostBelow:
		return cause{code: WhyLimit}
	case t <= 2 || t == 3 && w.openersT == 2 && d.kind != hard:
		return cause{code: WhyHardNear, race: w.race}
	}
	for _, u := range [2]int{t - 1, t + 1} {
		if next := w.neighbour(u); next.is() {
			return next
		}
	}
	switch {
	case !free && !d.ridden():
		return cause{code: WhyFreeKept}
	case d.ban.is():
		return d.ban
	}
	return cause{}
}

// neighbour says whether D-u is hard: as planned inside the window, as it will be
// outside it.
func (w *window) neighbour(u int) cause {
	if u < 1 {
		return cause{code: WhyHardNear, race: w.race}
	}
	d := w.at(u)
	switch {
	case d == nil:
		return cause{}
	case d.race != nil:
		return cause{code: WhyHardNextRace, race: d.race, day: d.date}
	case u <= w.n && w.t[u].hard, (u > w.n && !w.c.easedByB(d) || d.owner == settled) && d.isHard() && !d.ban.is():
		code := WhyHardNextHard
		if u > w.n {
			code = WhyHardAfterEve
		}
		return cause{code: code, day: d.date}
	}
	return cause{}
}

// hardIn counts hard days and races from D-near back to D-far.
func (w *window) hardIn(near, far int) int {
	n := 0
	for t := near; t <= min(far, w.n); t++ {
		if w.t[t].hard || w.t[t].unmade || w.t[t].race != nil || w.t[t].owner == settled && w.t[t].isHard() {
			n++
		}
	}
	return n
}

// mark makes D-t hard.
func (w *window) mark(t int, src source, why note) {
	s := &w.t[t]
	s.hard, s.src, s.reason = true, src, why
}

func (w *window) own(t int) source { return source{set: w.t[t].day.set, minutes: w.t[t].day.mins} }

// chooseHardDays settles which days are hard.
func (w *window) chooseHardDays() {
	if w.short.set.isZero() {
		return
	}
	if w.ill {
		w.oneAfterIllness()
		return
	}
	last := w.n
	if w.pattern != planner.UsualDays {
		w.placePattern()
		last = 0
		if w.n > patternEnds {
			w.keepUsual(patternEnds+1, w.n)
		}
		return
	}
	w.keepUsual(3, last)
	w.shiftFromEve()
	w.trainUpToLostDays()
	w.addTouch()
	w.lastShort()
	w.longLast()
}

// roomLate reports whether D-6 to D-3 can take one more hard day.
func (w *window) roomLate(t int) bool { return t > 6 || w.hardIn(3, 6) < 2 }

// keepUsual keeps the usual hard days from D-near back to D-far.
func (w *window) keepUsual(near, far int) {
	for t := near; t <= far; t++ {
		d := w.t[t].day
		if d.kind != hard || d.owner == settled {
			continue
		}
		why := w.mayBeHard(t, false)
		if !why.is() && !w.roomLate(t) {
			why = cause{code: WhyHardEnough}
		}
		if why.is() {
			w.t[t].reason = note{code: why.code, race: why.race, day: why.day, n: d.limit}
			continue
		}
		if u := t + 1; u <= far && w.t[u].kind == hard && !w.mayBeHard(u, false).is() && w.roomLate(u) && !(u+1 <= w.n && w.t[u+1].kind == hard) {
			if !w.longTrial() || w.t[u].set.longest() >= d.set.longest() {
				w.t[t].reason = note{code: WhyHardPair, day: w.t[u].date}
				continue // of two in a row the first stays
			}
		}
		if t == 3 && (w.restful() && w.usuallyHardIn(4, 5) || w.raceIn(4, 6) && !w.shortBefore()) {
			w.t[t].reason = note{code: WhyHardEnough}
			continue
		}
		w.mark(t, w.own(t), note{code: WhyHardKept})
	}
}

// shiftFromEve brings the first hard session, which the hard day before the window takes,
// to the day after.
func (w *window) shiftFromEve() {
	t := w.n
	if t < 7 || w.t[t].hard || w.t[t].reason.code != WhyHardAfterEve || w.t[t-1].kind != endurance || w.mayBeHard(t-1, false).is() || !w.roomLate(t-1) {
		return
	}
	if set, _ := w.dosed(t-1, w.own(t)); !set.isZero() {
		w.mark(t-1, w.own(t), note{code: WhyHardFromEve, day: w.t[t].date})
	}
}

// restful reports a long race, which wants the last hard day earlier.
func (w *window) restful() bool { return w.race.Minutes() > 360 }

// longTrial reports a time trial or climb of an hour and more, for which long
// repetitions are the right ones.
func (w *window) longTrial() bool { return climbs(w.race) && w.race.Minutes() >= 60 }

// raceIn reports a race from D-far to D-near.
func (w *window) raceIn(near, far int) bool {
	for t := near; t <= min(far, w.n); t++ {
		if w.t[t].race != nil {
			return true
		}
	}
	return false
}

// shortBefore reports that the races of D-6 to D-4 are short, on D-5 or before, and the
// race too, so that a few sprints on D-3 keep the rider sharp.
func (w *window) shortBefore() bool {
	for t := 4; t <= min(6, w.n); t++ {
		if r := w.t[t].race; r != nil && (t == 4 || r.Minutes() > 60) {
			return false
		}
	}
	return sprints(w.race) && w.short.set.part == 0 && w.short.set.longest() <= sprintRep
}

func (w *window) usuallyHardIn(near, far int) bool {
	for t := near; t <= min(far, w.n); t++ {
		if w.t[t].kind == hard && !w.mayBeHard(t, false).is() {
			return true
		}
	}
	return false
}

type stretch struct{ from, to int } // days before the race, from >= to

// setsByLength are the week's different sets, the shortest repetitions first.
func (c *calendar) setsByLength(before planner.Date) []source {
	week := c.facts.WeekOn(before - 1)
	var out []source
	for i := range week {
		kind, minutes, set := usualRide(week[i].Sessions)
		if kind != hard || week[i].Busy {
			continue
		}
		at := len(out)
		for k, s := range out {
			if s.set == set {
				at = -1
				break
			}
			if set.longest() < s.set.longest() {
				at = k
				break
			}
		}
		if at >= 0 {
			out = append(out[:at], append([]source{{set, minutes}}, out[at:]...)...)
		}
	}
	return out
}

// oneAfterIllness keeps at most one hard day, the one nearest to D-4.
func (w *window) oneAfterIllness() {
	for _, t := range [...]int{4, 5, 3, 6, 7, 8} {
		if t <= w.n && w.t[t].kind == hard && !w.mayBeHard(t, false).is() {
			w.mark(t, w.own(t), note{code: WhyIllOne})
			w.secondAfterIllness(t)
			return
		}
	}
	order := []int{4, 3, 5}
	if w.illHard {
		order = slices.DeleteFunc(order, func(t int) bool { return t > w.n || !w.c.wellOn(w.race, w.t[t].date) })
	}
	if t := w.pick(order, false); t != 0 {
		w.touch(t)
	}
}

// secondAfterIllness adds an earlier usual hard day with short repetitions, a week after
// the last ill day, before races of less than five hours and of several days: one hard day
// is little sharpness for them.
func (w *window) secondAfterIllness(one int) {
	if w.race.Minutes() >= sharpAfterIll {
		return
	}
	for t := w.n; t >= 5; t-- {
		d := w.t[t].day
		if t == one || d.kind != hard || w.mayBeHard(t, false).is() || !w.c.wellOn(w.race, d.date) {
			continue
		}
		src := w.own(t)
		if src.set.longest() > longReps && !w.short.set.isZero() {
			src = w.short
		}
		if set, _ := w.dosed(t, src); set.isZero() {
			continue
		}
		w.mark(t, src, note{code: WhyIllTwo})
		w.t[one].reason.code = WhyIllTwo
		return
	}
}

// sharpAfterIll is how long a race is, in minutes, for which one hard day after an illness is enough.
const sharpAfterIll = 300

const patternEnds = 14 // days before the race from which on a pattern counts

// placePattern counts hard days back from D-3, every second or third day.
func (w *window) placePattern() {
	gap := 2
	if w.pattern == planner.EveryThirdDay {
		gap = 3
	}
	usual := w.c.hardDays(w.race.Date)
	k := 0
	for t := 3; t <= min(w.n, patternEnds); {
		placed := false
		for u := t; u <= t+2 && u <= min(w.n, patternEnds); u++ {
			if w.mayBeHard(u, false).is() || w.hardIn(max(1, u-6), u) >= min(usual+1, 4) {
				continue
			}
			w.mark(u, w.alternate(k), note{code: WhyHardPattern, n: gap})
			k++
			t, placed = u+gap, true
			break
		}
		if !placed {
			t += 3
		}
	}
	for t := 3; t <= min(w.n, patternEnds); t++ {
		if w.t[t].kind == hard && !w.t[t].hard {
			w.t[t].reason = note{code: WhyHardPatternOff, n: gap}
		}
	}
}

// alternate is the rider's k-th set counted from the race back: the shortest
// repetitions, the next longer, up to the longest, then again.
func (w *window) alternate(k int) source {
	kinds := w.c.setsByLength(w.race.Date)
	return kinds[k%len(kinds)]
}
