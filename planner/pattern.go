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
	asAsked    density = iota // every second or third day, as the rider chose
	everyThird                // every third day
	usualCount                // as many hard days in a block as in the usual week
	onePerBlock
	densities
)

// place chooses the hard days of the window and marks its spots. It reports
// whether the pattern had to be broken: no last hard day, or a gap too wide.
func (w *window) place(d density) (broken bool) {
	for p := range w.spots {
		w.spots[p].hard, w.spots[p].full, w.spots[p].opening = false, false, false
	}
	limit := w.openEasy()
	if w.hardDays == 0 {
		return false
	}
	w.keepFarHardDays(limit)
	last, found := w.placeLast()
	w.last = last
	if !found {
		broken = w.wantsLast()
	}
	switch {
	case w.n <= oneWeekMax:
		w.keepUsualHardDay()
	default:
		gap := 2
		if d >= everyThird || w.pattern == EveryThirdDay {
			gap = 3
		}
		if w.chain(gap, last, min(limit, patternDays)) {
			broken = true
		}
	}
	if d >= usualCount {
		w.thin(d)
		broken = !found && w.wantsLast() // no gap is promised any more
	}
	w.chooseSets()
	return broken
}

// openEasy reserves the start of a window after overload: recovery, one full
// session, two recovery days. It returns the earliest spot left to the pattern.
func (w *window) openEasy() int {
	if !w.overload {
		return w.n
	}
	if w.n >= twoWeekMin && w.hardDays > 0 {
		for p := w.n - 1; p >= w.n-3; p-- {
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
func (w *window) placeLast() (int, bool) {
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.canBeHard(p, false) && !w.spots[p].resting() {
			w.spots[p].hard = true
			return p, true
		}
	}
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.spots[p].raced() {
			return p, true
		}
	}
	for p := firstHard; p <= min(lastHard, w.n); p++ {
		if w.canBeHard(p, false) {
			w.spots[p].hard = true
			return p, true
		}
	}
	return 2, false
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

// thin drops hard days block by block: down to the usual number, or to one.
func (w *window) thin(d density) {
	for first := 1; first <= w.n; first += blockDays {
		keep := max(w.usuallyIn((first-1)/blockDays), 1)
		if d == onePerBlock {
			keep = 1
			if first+blockDays-1 > w.n && first > 1 && w.n < twoWeekMin {
				keep = 0 // a short remainder in front needs no hard day
			}
		}
		for w.hardIn(first) > keep {
			p := w.leastNeeded(first)
			if p == 0 {
				break
			}
			w.spots[p].hard = false
		}
	}
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
