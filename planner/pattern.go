package planner

// Limits of the pattern of hard days.
const (
	firstHard   = 3  // the last hard day before the race is D-3 ...
	lastHard    = 5  // ... or D-4 or D-5
	oneWeekMax  = 8  // windows up to here keep the usual week's order
	patternDays = 14 // further out the usual hard days stay
	twoWeekMin  = 12 // windows from here keep full sets before D-10
	fullBefore  = 10
	blockDays   = 7
)

// density is how far the pattern of hard days has widened to make room.
type density uint8

const (
	asAsked     density = iota // every second or third day, as the rider chose
	everyThird                 // every third day
	usualCount                 // the usual number of hard days in a block, on usual days
	onePerBlock                // one in a block, on a usual day
)

// attempt is one way to fill a window: a density, with some hard days fewer and
// some rides dropped.
type attempt struct {
	density      density
	fewer, drops int
}

// next is the next wider attempt; possible tells whether the last one had
// enough hard days and rides to take from.
func (a attempt) next(possible, oneWeek bool) (attempt, bool) {
	switch {
	case a.density == asAsked && oneWeek:
		return attempt{density: onePerBlock}, true
	case a.density == asAsked && a.fewer == 0:
		return attempt{density: everyThird}, true
	case a.density == everyThird:
		return attempt{density: asAsked, fewer: 1}, true
	case a.density == onePerBlock:
		return attempt{density: onePerBlock, drops: a.drops + 1}, possible
	case possible:
		return attempt{density: a.density, fewer: a.fewer + 1}, true
	case a.density == asAsked:
		return attempt{density: usualCount}, true
	}
	return attempt{density: onePerBlock}, true
}

// place chooses the hard days of the window and marks its spots. It reports
// whether the pattern had to be broken, no last hard day or a gap too wide, and
// whether so many fewer hard days are possible.
func (w *window) place(a attempt) (broken, possible bool) {
	for p := range w.spots {
		w.spots[p].hard, w.spots[p].full, w.spots[p].opening = false, false, false
	}
	limit := w.openEasy()
	if w.hardDays == 0 {
		return false, a.fewer == 0
	}
	found := w.placeLast()
	lastMissing := !found && w.wantsLast()
	broken = lastMissing
	switch {
	case a.density >= usualCount:
		w.placeUsual(a.density, limit)
	case w.n <= oneWeekMax:
		w.keepUsualHardDay()
	default:
		w.keepFarHardDays(limit)
		gap := 2
		if a.density == everyThird || w.pattern == EveryThirdDay {
			gap = 3
		}
		torn := w.chain(gap, w.last, min(limit, patternDays))
		broken = broken || torn && (found || w.wantsLast())
	}
	w.fillBlocks(limit)
	possible = true
	for range a.fewer {
		possible = possible && w.dropHard(a.density)
	}
	if a.fewer > 0 {
		broken = lastMissing // no gap is promised any more
	}
	w.chooseSets()
	return broken, possible
}

// placeUsual sets hard days on usual ones, the earliest first: the usual number
// in a block, or one; on other days only where no usual one can be.
func (w *window) placeUsual(d density, limit int) {
	for first := 1; first <= w.n; first += blockDays {
		want := w.wanted(d, first)
		for _, usual := range [2]bool{true, false} {
			for p := min(first+blockDays-1, limit); p >= first && w.hardIn(first) < want; p-- {
				s := &w.spots[p]
				if usual != s.slot.usuallyHard() || p > patternDays && !usual || p <= w.last || s.resting() {
					continue
				}
				if w.canBeHard(p, p > fullBefore && w.n >= twoWeekMin) && w.spaced(p) {
					s.hard = true
				}
			}
		}
	}
}

// spaced reports whether p keeps the distance to other hard days that the rider asked for.
func (w *window) spaced(p int) bool {
	return w.pattern == EverySecondDay || !w.isHard(p-2) && !w.isHard(p+2)
}

// wanted is how many hard days the block from D-first on keeps when the pattern widens.
func (w *window) wanted(d density, first int) int {
	switch usual := w.usuallyIn((first - 1) / blockDays); {
	case usual == 0:
		return 0
	case d != onePerBlock && first+blockDays-1 <= w.n:
		return usual
	case first+blockDays-1 > w.n && first > 1 && w.n < twoWeekMin:
		return 0 // a short remainder in front needs no hard day
	}
	return 1
}

// fillBlocks gives a whole block that came out without a hard day the best day
// that can be one: a usual hard day, else the nearest to the race, a rest day last.
func (w *window) fillBlocks(limit int) {
	for first := 1; first+blockDays-1 <= w.n; first += blockDays {
		if w.hardIn(first) > 0 {
			continue
		}
		best, bestScore := 0, 0
		for p := first; p < first+blockDays && p <= limit; p++ {
			if !w.canBeHard(p, false) {
				continue
			}
			score := 100 - p
			if w.spots[p].slot.usuallyHard() {
				score += 200
			}
			if w.spots[p].resting() {
				score -= 50
			}
			if !w.spaced(p) {
				score -= 300 // better a hard day too near than a block without
			}
			if best == 0 || score > bestScore {
				best, bestScore = p, score
			}
		}
		if best > 0 {
			w.spots[best].hard = true
		}
	}
}

// dropHard takes one hard day from a block that has more than it needs, the
// latest block first. It reports whether there was one.
func (w *window) dropHard(d density) bool {
	for first := 1; first <= w.n; first += blockDays {
		keep := w.wanted(d, first)
		if d == usualCount {
			keep = w.wanted(onePerBlock, first)
		}
		if w.hardIn(first) > keep {
			if p := w.leastNeeded(first); p > 0 {
				w.spots[p].hard = false
				return true
			}
		}
	}
	return false
}

// openEasy reserves the start of a window after overload: recovery, one full
// session, two recovery days. It returns the earliest spot left to the pattern.
func (w *window) openEasy() int {
	if !w.overload {
		return w.n
	}
	if w.n >= twoWeekMin && w.hardDays > 0 {
		for _, p := range w.openingOrder() {
			if w.canBeHard(p, true) {
				w.spots[p].hard, w.spots[p].full = true, true
				for q := p - 2; q <= w.n; q++ {
					w.spots[q].opening = true
				}
				return p - 3
			}
		}
	}
	w.spots[w.n].opening = true
	if w.n > 1 {
		w.spots[w.n-1].opening = true
	}
	return w.n - 2
}

// openingOrder are the days that may hold the full session after overload: the
// second day, or the third if that is the usual hard one.
func (w *window) openingOrder() [3]int {
	if second := w.n - 1; !w.spots[second].slot.usuallyHard() && w.spots[second-1].slot.usuallyHard() {
		return [3]int{second - 1, second, second - 2}
	}
	return [3]int{w.n - 1, w.n - 2, w.n - 3}
}

// keepFarHardDays leaves the usual hard days beyond the last 14 days where they are.
func (w *window) keepFarHardDays(limit int) {
	for p := limit; p > patternDays; p-- {
		if w.spots[p].slot.usuallyHard() && w.canBeHard(p, true) {
			w.spots[p].hard = true
		}
	}
}

// wantsLast reports whether a last hard day is due: the window is long enough
// and the rider's week has hard days then.
func (w *window) wantsLast() bool {
	if w.n < MinTaperDays {
		return false
	}
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.spots[p].usually > 0 {
			return true
		}
	}
	return false
}

// placeLast sets the last hard day: D-3, else D-4, else D-5; a race there is
// one; if only rest days are left among them, one of those moves.
func (w *window) placeLast() bool {
	w.last = 2
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.canBeHard(p, false) && !w.spots[p].resting() {
			w.spots[p].hard, w.last = true, p
			return true
		}
	}
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.spots[p].raced() {
			w.last = p
			return true
		}
	}
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.canBeHard(p, false) {
			w.spots[p].hard, w.last = true, p
			return true
		}
	}
	return false
}

// keepUsualHardDay keeps a usual hard day on D-7 or D-8 of a one-week taper.
func (w *window) keepUsualHardDay() {
	for p := 7; p <= min(oneWeekMax, w.n); p++ {
		if w.spots[p].slot.usuallyHard() && w.canBeHard(p, false) && w.hardIn(p) <= w.spots[p].usually {
			w.spots[p].hard = true
			return
		}
	}
}

// canBeHard reports whether spot p may hold a hard session: trainable, long
// enough, not D-2 or D-1, not next to a hard day or race, nor to a hard eve.
func (w *window) canBeHard(p int, full bool) bool {
	s := &w.spots[p]
	if p < firstHard || s.usually == 0 || s.raced() || s.slot.off || s.slot.travel || s.opening {
		return false
	}
	if p == w.n && w.hardEve {
		return false
	}
	if w.isHard(p-1) || w.isHard(p+1) {
		return false
	}
	lo, _ := hardBounds(s.source, full)
	most := min(s.slot.cap(), s.slot.afterCap)
	if p <= 4 {
		most = min(most, hardNearRace)
	}
	return lo <= most
}

func (w *window) isHard(p int) bool {
	return p >= 1 && p <= w.n && (w.spots[p].hard || w.spots[p].raced())
}

// hardIn counts the hard days and races in p's block of 7 days.
func (w *window) hardIn(p int) int {
	n, first := 0, (p-1)/blockDays*blockDays+1
	for q := first; q < first+blockDays && q <= w.n; q++ {
		if w.isHard(q) {
			n++
		}
	}
	return n
}

// leastNeeded is the hard day of a block to drop first, not a usual one if there
// is another; the last one before the race always stays. 0 if none can go.
func (w *window) leastNeeded(first int) int {
	best, bestScore := 0, 0
	for p := first; p < first+blockDays && p <= w.n; p++ {
		s := &w.spots[p]
		if !s.hard || p == w.last {
			continue
		}
		score := 100 - p
		if s.slot.usuallyHard() {
			score -= 200
		}
		if s.full {
			score -= 300 // the one full session after overload
		}
		if best == 0 || score > bestScore {
			best, bestScore = p, score
		}
	}
	return best
}

// chooseSets decides which hard days keep all repetitions: in long tapers
// those before D-10 and the first one, unless a race comes before it.
func (w *window) chooseSets() {
	if w.n < twoWeekMin {
		return
	}
	first := true
	for p := w.n; p >= 1; p-- {
		s := &w.spots[p]
		if s.raced() {
			first = false
		}
		if s.hard {
			s.full = p > fullBefore || first && p > lastHard
			first = false
		}
	}
}
