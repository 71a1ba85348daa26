package planner

import "math"

// volumeTolerance is how far the planned share of usual minutes may lie from the asked one.
const volumeTolerance = 0.05

// minChainStep keeps a later block's share below the one before it.
const minChainStep = 0.002

// outcome ranks one way to fill a window: minutes beyond the tolerance first, then shape.
type outcome struct {
	excess   float64 // minutes outside the tolerated volume
	rides    int     // riding days too many or too few
	shapeBad bool
	broken   bool // the pattern of hard days could not be held
}

func (o outcome) perfect() bool { return o.excess == 0 && o.rides == 0 && !o.shapeBad }

func (o outcome) betterThan(b outcome) bool {
	if o.excess != b.excess {
		return o.excess < b.excess
	}
	if o.rides != b.rides {
		return o.rides < b.rides
	}
	return !o.shapeBad && b.shapeBad
}

// search fills the window: the pattern of hard days widens first, then rides
// drop to 80 %, latest first, until the least lengths leave room for volume and
// shape. Hard rides may outlast their day's usual riding only if nothing else
// reaches the volume.
func (w *window) search() outcome {
	best, bestTry := w.widen()
	if best.excess > 0 {
		w.stretch = true
		if longer, try := w.widen(); longer.excess < best.excess {
			best, bestTry = longer, try
		} else {
			w.stretch = false
		}
	}
	if !best.perfect() || w.stretch {
		best, _ = w.fill(bestTry)
	}
	return best
}

// widen makes one attempt after the other and returns the first perfect one,
// else the best.
func (w *window) widen() (best outcome, bestTry attempt) {
	try, more := attempt{}, true
	for first := true; more; first = false {
		o, possible := w.fill(try)
		if possible && (first || o.betterThan(best)) {
			best, bestTry = o, try
		}
		if possible && o.perfect() {
			return o, try
		}
		try, more = try.next(possible, w.n <= oneWeekMax)
	}
	return best, bestTry
}

// fill places hard days, rides and minutes for one attempt. It reports false
// where there are not so many hard days or rides to take from.
func (w *window) fill(a attempt) (outcome, bool) {
	for p := 1; p <= w.n; p++ {
		s := &w.spots[p]
		s.moved, s.extra = p == 1 && w.freeEve, 0
	}
	broken, possible := w.place(a)
	if !possible {
		return outcome{}, false
	}
	for p := 1; p <= w.n; p++ {
		w.bound(p)
	}
	w.fitRides()
	usual, planned := w.countRides()
	for range a.drops {
		p := w.latestEasy()
		if p == 0 || planned <= leastRides(usual) {
			return outcome{}, false
		}
		w.spots[p].moved = true
		planned--
	}
	o := w.spread()
	o.broken = broken
	if w.n >= MinTaperDays {
		o.rides = max(planned-usual, leastRides(usual)-planned, 0)
	}
	return o, true
}

// bound sets the least and most minutes of a spot and its weight in the share-out.
func (w *window) bound(p int) {
	s := &w.spots[p]
	room := min(s.slot.cap(), s.slot.afterCap)
	switch {
	case s.raced():
		s.lo, s.hi, s.weight = s.slot.Race.minutes(), s.slot.Race.minutes(), 0
		return
	case s.openers:
		lo, hi := openerBounds(w.week)
		room = s.slot.cap()
		if s.slot.afterCap < noCap {
			room = min(room, afterOpeners)
		}
		s.hi = floor5(min(hi, room))
		s.lo, s.weight = min(lo, s.hi), 1
		return
	case s.hard:
		lo, hi := hardBounds(s.source, s.full)
		if p <= 4 {
			room = min(room, hardNearRace)
		}
		if usual := floor5(s.slot.usualMinutes()); usual > 0 && !w.stretch {
			hi = min(hi, max(lo, usual)) // no longer than the day usually is, if its set fits
		}
		s.hi = floor5(min(hi, room))
		s.lo, s.weight = min(lo, s.hi), float64(max(s.slot.usualMinutes(), int(s.source.Minutes)))
		return
	}
	usual := max(s.slot.usualMinutes(), s.extra)
	s.hi = min(usual, room)
	recovery, longer := w.recoveryAt(p)
	if recovery || p >= 2 && p <= 4 {
		s.hi = min(s.hi, mostEasy(w.hours))
	}
	s.hi = floor5(s.hi)
	s.lo, s.weight = min(w.least(), s.hi), float64(usual)
	if usual < w.least() && usual <= room && easyAlready(s.slot.Usual) {
		s.lo, s.hi = usual, usual // a short easy ride stays as it is
	}
	if longer {
		s.lo, s.weight = min(w.least()+10, s.hi), 1.5*s.weight
	}
}

// easyAlready reports a single ride that a taper need not change.
func easyAlready(usual []Session) bool {
	rides := 0
	for _, u := range usual {
		if u.Kind.IsRide() {
			if rides++; u.Effort != Easy {
				return false
			}
		}
	}
	return rides == 1
}

// mostEasy is the longest recovery ride of a taper, and the longest easy ride
// on D-4 to D-2, for a rider of that many hours a week.
func mostEasy(hours float64) int { return max(60, floor5(int(6*hours))) }

// leastRide is the shortest ride worth the change of clothes, in minutes, for
// a rider of that many hours a week.
func leastRide(hours float64) int {
	if hours >= bigWeekHours {
		return 30
	}
	return 20
}

func (w *window) least() int { return leastRide(w.hours) }

// recoveryAt reports whether an easy day is a recovery ride: as usual, after a
// rest day in a short taper, after a full hard day, or at the start after overload.
func (w *window) recoveryAt(p int) (recovery, longer bool) {
	s := &w.spots[p]
	if w.n >= twoWeekMin && p < w.n && w.spots[p+1].hard && w.spots[p+1].full {
		return true, true
	}
	if s.opening || onlyKind(s.slot.Usual, Recovery) {
		return true, false
	}
	if w.n <= oneWeekMax && p != 1 && p != firstHard && p < w.n {
		before := w.spots[p+1].slot
		return !before.usuallyRidden() && before.claim != claimRace, false
	}
	return false, false
}

// part is a block of the window in the share-out of minutes.
type part struct {
	first, last int // spots
	usual       float64
	lo, hi      int
	chained     bool
	floor, ceil float64 // share of usual minutes that bounds and chain allow
	target      float64
	minutes     int
}

// spread shares the window's minutes out over its days and reports what could not be met.
func (w *window) spread() outcome {
	usual := 0.0
	for p := 1; p <= w.n; p++ {
		s := &w.spots[p]
		usual += float64(s.slot.usualMinutes())
		if !s.rides() {
			s.lo, s.hi = 0, 0
		}
		s.minutes = s.lo
	}
	target, slack := usual*float64(100-w.cut)/100, usual*volumeTolerance
	parts := w.parts()
	total, shapeBad := w.shareOut(parts, target, slack, true)
	if math.Abs(float64(total)-target) > slack && len(parts) > 1 {
		total, shapeBad = w.shareOut(parts, target, slack, false) // volume comes before shape
	}
	for i := range parts {
		w.distribute(&parts[i])
	}
	excess := math.Max(0, math.Abs(float64(total)-target)-slack)
	if w.n < MinTaperDays || excess < 1e-9 {
		excess = 0
	}
	return outcome{excess: excess, shapeBad: shapeBad && w.n >= MinTaperDays}
}

// shareOut gives the parts their minutes, falling from part to part where that
// is asked and can be. It returns their sum and whether the fall is missing.
func (w *window) shareOut(parts []part, target, slack float64, falling bool) (total int, shapeBad bool) {
	if len(parts) == 1 {
		parts[0].minutes = nearest5(parts[0], target)
		return parts[0].minutes, false
	}
	for i := range parts {
		b := &parts[i]
		b.floor, b.ceil = share(b.lo, b.usual), share(b.hi, b.usual)
	}
	falling = falling && chain(parts)
	w.solveCurve(parts, target)
	roundParts(parts, target, slack, falling)
	for i := range parts {
		total += parts[i].minutes
	}
	return total, chainBroken(parts)
}

// parts are the blocks of 7 days counted back from D-1; windows of up to 8
// days and step tapers are one part, shared out evenly.
func (w *window) parts() []part {
	size := blockDays
	if w.n <= oneWeekMax || w.shape == Step {
		size = w.n
	}
	parts := make([]part, 0, 4)
	for first := 1; first <= w.n; first += size {
		b := part{first: first, last: min(first+size-1, w.n)}
		ridden := 0
		for p := b.first; p <= b.last; p++ {
			s := &w.spots[p]
			b.usual += float64(s.slot.usualMinutes())
			b.lo += s.lo
			b.hi += s.hi
			if s.slot.usuallyRidden() {
				ridden++
			}
		}
		b.chained = b.usual > 0 && (b.last-b.first+1 == blockDays || ridden >= 3)
		parts = append(parts, b)
	}
	return parts
}

// chain narrows the parts' shares so that each later one is below the one
// before it, and reports whether that can be met. Parts come latest first.
func chain(parts []part) bool {
	below := -1.0
	for i := range parts {
		if b := &parts[i]; b.chained {
			b.floor = math.Max(b.floor, below)
			below = b.floor + minChainStep
		}
	}
	above := math.Inf(1)
	for i := len(parts) - 1; i >= 0; i-- {
		if b := &parts[i]; b.chained {
			b.ceil = math.Min(b.ceil, above)
			above = b.ceil - minChainStep
		}
	}
	for i := range parts {
		if parts[i].floor > parts[i].ceil+1e-9 {
			for j := range parts {
				b := &parts[j]
				b.floor, b.ceil = share(b.lo, b.usual), share(b.hi, b.usual)
			}
			return false
		}
	}
	return true
}

func share(minutes int, usual float64) float64 {
	if usual == 0 {
		return 0
	}
	return float64(minutes) / usual
}

// solveCurve finds by bisection the decay at which the parts add up to the
// target, each within its bounds, and sets the parts' targets.
func (w *window) solveCurve(parts []part, target float64) {
	lo, hi := 0.0, 4.0
	for range 40 {
		mid := (lo + hi) / 2
		total := 0.0
		for i := range parts {
			b := &parts[i]
			b.target = math.Max(float64(b.lo), math.Min(float64(b.hi),
				b.usual*math.Max(b.floor, math.Min(b.ceil, w.meanShare(b, mid)))))
			total += b.target
		}
		if total > target {
			lo = mid
		} else {
			hi = mid
		}
	}
}

// meanShare is the part of usual minutes that the curve leaves a block on average.
func (w *window) meanShare(b *part, curve float64) float64 {
	sum, weight := 0.0, 0.0
	for p := b.first; p <= b.last; p++ {
		u := float64(w.spots[p].slot.usualMinutes())
		sum += u * w.curveAt(p, curve)
		weight += u
	}
	if weight == 0 {
		return 1
	}
	return sum / weight
}

// curveAt is the share of usual minutes at D-p: from 1 on the eve of the window
// it falls exponentially or linearly with the decay per day.
func (w *window) curveAt(p int, decay float64) float64 {
	t := float64(w.n - p + 1)
	if w.shape == Linear {
		return math.Max(0, 1-decay*t)
	}
	return math.Exp(-decay * t)
}
