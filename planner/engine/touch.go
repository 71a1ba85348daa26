package engine

import "musette/planner"

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
