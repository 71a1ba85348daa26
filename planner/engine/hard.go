package engine

import "musette/planner"

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
	case u <= w.n && w.t[u].hard, (u > w.n || d.owner == settled) && d.isHard() && !d.ban.is():
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
		if w.t[t].hard || w.t[t].race != nil || w.t[t].owner == settled && w.t[t].isHard() {
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

// lastShort gives the last hard day before a short race in a bunch the short set.
func (w *window) lastShort() {
	if w.race.Minutes() >= shortRace || climbs(w.race) || w.pattern != planner.UsualDays {
		return
	}
	for t := 3; t <= min(5, w.n); t++ {
		if w.t[t].hard {
			w.t[t].src = w.short
			return
		}
	}
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
	w.trainUpToLostDays()
	w.addTouch()
	w.lastShort()
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
		if t == 3 && (w.restful() && w.usuallyHardIn(4, 5) || w.raceIn(4, 6)) {
			w.t[t].reason = note{code: WhyHardEnough}
			continue
		}
		w.mark(t, w.own(t), note{code: WhyHardKept})
	}
}

// restful reports a long race, which wants the last hard day earlier.
func (w *window) restful() bool { return w.race.Minutes() >= 360 }

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

func (w *window) usuallyHardIn(near, far int) bool {
	for t := near; t <= min(far, w.n); t++ {
		if w.t[t].kind == hard && !w.mayBeHard(t, false).is() {
			return true
		}
	}
	return false
}

// trainUpToLostDays brings the first hard day of a lost run to the run's eve, and
// a hard day on D-2 to D-3: lost days are rest enough.
func (w *window) trainUpToLostDays() {
	for _, run := range w.lostRuns() {
		eve := run.from + 1
		if eve > w.n || w.t[eve].hard {
			continue
		}
		for t := run.from; t >= run.to; t-- {
			if w.t[t].kind == hard {
				if !w.mayBeHard(eve, true).is() && w.roomLate(eve) {
					w.mark(eve, w.own(t), note{code: WhyHardEve, day: w.t[t].date})
					w.t[eve].whole = true
				} else {
					w.afterLost(run, t)
				}
				break
			}
		}
	}
	if w.n >= 3 && w.t[2].kind == hard && w.t[2].owner != settled && !w.t[3].hard && w.t[3].kind != long &&
		!w.mayBeHard(3, false).is() && w.roomLate(3) {
		w.mark(3, w.own(2), note{code: WhyHardFromEve, day: w.t[2].date})
	}
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

type stretch struct{ from, to int } // days before the race, from >= to

// lostRuns are stretches of two or more usually ridden days that are lost, up to
// D-3, and single hard ones.
func (w *window) lostRuns() []stretch {
	var out []stretch
	for t := w.n; t >= 3; t-- {
		if !w.t[t].lost() || w.t[t].Busy() {
			continue
		}
		run, ridden := stretch{from: t, to: t}, 0
		for ; t >= 3 && w.t[t].lost() && !w.t[t].Busy(); t-- {
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

// Busy reports a weekday that is never ridden.
func (d *day) Busy() bool { return d.busy && !d.away && d.limit >= shortestRide }

// addTouch puts one short hard day on D-5 to D-3 where none is: legs go flat without.
func (w *window) addTouch() {
	if w.hardIn(3, 5) > 0 {
		w.addShortTouch()
		return
	}
	lostNear := false
	for t := 3; t <= min(5, w.n); t++ {
		lostNear = lostNear || w.t[t].lost()
	}
	if t := w.pick([]int{4, 3, 5}, lostNear); t != 0 {
		w.touch(t)
		return
	}
	if w.n >= 6 && w.t[6].hard {
		six := w.t[6]
		w.t[6].hard = false
		if set, _ := w.dosed(5, w.touchSource(5)); !set.isZero() && !w.mayBeHard(5, false).is() {
			w.touch(5)
			w.t[6].reason = note{code: WhyHardMovedAway, day: w.t[5].date}
			if w.n >= 7 && !w.mayBeHard(7, false).is() {
				w.mark(7, six.src, note{code: WhyHardFromEve, day: six.date})
			}
			return
		}
		w.t[6] = six
	}
	if w.hardIn(6, 8) == 0 {
		if t := w.pick([]int{6, 7, 8}, lostNear); t != 0 {
			w.touch(t)
		}
	}
}

// addShortTouch puts a second short set on D-3 before an event of under 90 minutes
// whose last hard day is D-5.
func (w *window) addShortTouch() {
	if w.race.Minutes() >= shortRace || w.single || w.hardIn(3, 4) > 0 || w.mayBeHard(3, false).is() || w.t[3].kind == long {
		return
	}
	if set, _ := w.dosed(3, w.short); !set.isZero() {
		w.mark(3, w.short, note{code: WhyHardTouch})
	}
}

// pick is the first of the days that may be hard; days two days after a hard day
// come last, a long day last among equals, free days after all others.
func (w *window) pick(order []int, free bool) int {
	best, rank := 0, 9
	for _, t := range order {
		if t > w.n {
			continue
		}
		r := 0
		if w.mayBeHard(t, free).is() {
			continue
		}
		if w.t[t].mins == 0 {
			r += 4
		}
		if w.neighbour(t + 2).is() {
			r++
		}
		if w.t[t].kind == long {
			r += 2
		}
		if set, _ := w.dosed(t, w.touchSource(t)); set.isZero() {
			continue
		}
		if r < rank {
			best, rank = t, r
		}
	}
	return best
}

func (w *window) touch(t int) {
	code := WhyHardTouch
	if w.t[t].mins == 0 {
		code = WhyHardTouchFree
	}
	w.mark(t, w.touchSource(t), note{code: code})
}

// touchSource is the set of a day that is not usually hard.
func (w *window) touchSource(t int) source {
	if w.t[t].kind == hard {
		return w.own(t)
	}
	if t >= 8 {
		return w.long
	}
	return w.short
}

// oneAfterIllness keeps at most one hard day, the one nearest to D-4.
func (w *window) oneAfterIllness() {
	for _, t := range [...]int{4, 5, 3, 6, 7, 8} {
		if t <= w.n && w.t[t].kind == hard && !w.mayBeHard(t, false).is() {
			w.mark(t, w.own(t), note{code: WhyIllOne})
			return
		}
	}
	if !w.illHard {
		if t := w.pick([]int{4, 3, 5}, false); t != 0 {
			w.touch(t)
		}
	}
}

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
