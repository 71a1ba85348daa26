package engine

import (
	"math"

	"musette/planner"
)

const (
	lambdaSteps = 160 // of one lambda
	longLess    = 10  // per cent of its usual minutes that a long ride is shorter than others at most
	steepest    = 5.0 // days; the slope below 12 h a week
	evenest     = 8.0 // under a told cut
)

// target is the riding time that the window should have, in minutes: the usual
// minutes less the cut. What lost runs save is not saved again.
func (w *window) target() (target, usual int) {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if s.lostRun || !s.busy {
			usual += s.mins
		}
	}
	return round5(float64(usual*(100-w.cut)) / 100), usual
}

// slope is the days before the race on which a ride's share has doubled: riders of
// many hours lose less towards the race, and under a told cut everybody, so that a
// smaller one never brings less load.
func (w *window) slope() float64 {
	least := steepest
	if w.told.cut {
		least = evenest
	}
	return min(max(least, least+(w.hours-12)/2), least+4)
}

// open reports whether D-t's minutes are to be found.
func (w *window) open(t int) bool { return w.t[t].race == nil && w.t[t].owner != settled }

// total is the riding time for a lambda, which it writes to the days.
func (w *window) total(step int) int {
	total := 0
	lambda := float64(step) / lambdaSteps
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		switch {
		case !w.open(t):
			total += s.settledMinutes()
		case s.rest:
			s.minutes = 0
		case s.opener:
			total += s.minutes
		default:
			f := 1.0
			switch {
			case s.hard:
				f = 1.2
			case s.kind == hard:
				f = 0.8
			}
			want := lambda * float64(w.usualOf(t)) * f * (1 + float64(t)/w.slope())
			s.minutes = min(neatMinutes(min(max(want, float64(s.lo)), float64(s.hi))), s.hi)
			total += s.minutes
		}
	}
	return total
}

// settledMinutes is the riding time of a race or of a day that is settled.
func (d *day) settledMinutes() int {
	total := 0
	if d.unmet {
		return 0
	}
	for _, s := range d.out.sessions {
		if s.Kind.IsRide() {
			total += int(s.Minutes)
		}
	}
	return total
}

// findMinutes solves the one factor for the target.
func (w *window) findMinutes(held *heldTaper) {
	w.bounds()
	if w.held {
		w.keepMinutes(held)
		return
	}
	target, usual := w.target()
	if w.ill {
		w.total(int(float64(100-w.cut) / 100 * lambdaSteps))
		return
	}
	w.solve(target)
	if w.told.cut {
		w.dropRides(target, usual)
	}
	w.fall()
}

// keepMinutes leaves days as they were planned when the taper began; a day of
// another kind or with other bounds now is shared out by the same factor.
func (w *window) keepMinutes(held *heldTaper) {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if h := &held.days[t]; h.dropped && !s.hard && !s.opener {
			s.rest, s.dropped, s.reason = true, true, note{code: WhyTooShort}
		}
	}
	w.total(w.step())
	for t := 1; t <= w.n; t++ {
		s, h := &w.t[t], &held.days[t]
		if !w.open(t) || s.opener {
			continue
		}
		same := s.hard == h.hard && s.opener == h.opener && s.rest == h.rest && s.set == h.set
		if same && h.minutes > 0 && h.minutes <= s.hi { // none were ridden while ill
			s.minutes = h.minutes
		}
	}
}

func (w *window) step() int { return int(w.lambda*lambdaSteps + 0.5) }

// solve finds the step whose total is nearest to the target.
func (w *window) solve(target int) {
	lo, hi := 0, 2*lambdaSteps
	for lo < hi { // the least step that reaches the target
		mid := (lo + hi) / 2
		if w.total(mid) >= target {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	if lo > 0 && target-w.total(lo-1) < w.total(lo)-target {
		lo--
	}
	w.lambda = float64(lo) / lambdaSteps
	w.total(lo)
}

// dropRides leaves out easy rides while a told cut is not met and four in five usual rides stay.
func (w *window) dropRides(target, usual int) {
	for w.total(w.step())-target > usual/20 {
		rides, usualRides := 0, 0
		for t := 1; t <= w.n; t++ {
			if w.t[t].mins > 0 && !w.t[t].busy {
				usualRides++
			}
			if w.t[t].minutes > 0 || !w.open(t) && w.t[t].settledMinutes() > 0 {
				rides++
			}
		}
		if 5*(rides-1) < 4*usualRides {
			return
		}
		drop := 0
		for t := 2; t <= w.n; t++ {
			s := &w.t[t]
			if !w.open(t) || s.rest || s.opener || s.hard || s.kind == long || s.minutes == 0 || t == 3 || t == 4 {
				continue // D-4 and D-3 share their minutes
			}
			if t == 2 {
				drop = t
				break
			}
			if drop == 0 || s.minutes < w.t[drop].minutes {
				drop = t
			}
		}
		if drop == 0 {
			return
		}
		w.t[drop].rest, w.t[drop].dropped, w.t[drop].reason = true, true, note{code: WhyTooShort}
	}
}

// fall makes the last four days fall towards the race.
func (w *window) fall() {
	share := func(far, near int) {
		a, b := &w.t[far], &w.t[near]
		if far > w.n || !w.open(far) || !w.open(near) || a.hard || b.hard || a.rest || b.rest || a.opener || b.opener || a.minutes == 0 || b.minutes <= a.minutes {
			return
		}
		if a.kind == commute || b.kind == commute {
			return
		}
		sum := a.minutes + b.minutes
		a.minutes = min(ceil5(sum/2), a.hi)
		b.minutes = min(floor5(sum/2), b.hi)
	}
	if w.n >= 4 {
		share(4, 3)
	}
	if w.n >= 3 {
		share(3, 2)
	}
	last := 0
	for t := 4; t >= 3; t-- {
		if t <= w.n && w.t[t].hard {
			last = t
		}
	}
	for t := last - 1; t >= 1 && last > 0; t-- {
		s := &w.t[t]
		if w.open(t) && s.kind != commute && (s.kind != long || t < 3) && s.minutes > w.t[last].minutes {
			s.minutes = w.t[last].minutes
		}
	}
}

// name is what kind of easy ride so many minutes are.
func (d *day) name(minutes, below int) planner.Kind {
	if minutes <= 60 && d.kind == recovery || minutes < below {
		return planner.Recovery
	}
	if d.kind == commute {
		return planner.Commute
	}
	return planner.Endurance
}

// margin is how much lighter than usual a taper with added days must be, as a
// share of the usual load (our choice: the model is rough).
const margin = 0.02

// harm is by how much a unit of load on D-t is worse for the race than none: the
// influence of the linear model with its classic parameters (Fitz-Clarke et al. 1991).
func harm(t int) float64 {
	return 2*math.Exp(-float64(t)/15) - math.Exp(-float64(t)/45)
}

// heavier reports a taper with more load than usual where it counts, which the
// model would expect to be worse than none.
func (w *window) heavier() bool {
	more, all := 0.0, 0.0
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if !w.open(t) || s.whole || !s.opener && (s.mending() || w.recovers(s.date)) {
			continue
		}
		usual := s.usualLoad()
		more += harm(t) * (w.load(t) - usual)
		all += harm(t) * usual
	}
	return more > -margin*all
}

// usualLoad is the load of the usual sessions, as far as the day has room for them.
func (d *day) usualLoad() float64 {
	load, minutes := 0.0, rideMinutes(d.usual)
	for _, u := range d.usual {
		load += u.Load()
	}
	switch {
	case d.busy:
		return 0
	case d.most() < minutes:
		return load * float64(d.most()) / float64(minutes)
	}
	return load
}

// mending reports a day that illness makes easy, with a taper and without.
func (d *day) mending() bool {
	return d.owner == byHealth || d.ban.code == WhyIllReturn || d.ban.code == WhyHurtReturn || d.ban.code == WhyClearedReturn || d.ban.code == WhyHead
}

// recovers reports a day that is easy for an earlier A race as well.
func (w *window) recovers(d planner.Date) bool {
	for _, r := range w.c.races {
		if r.Priority == planner.PriorityA && r.Last() < d && d <= r.Last().AddDays(RecoveryDays(w.c.facts, r)) && r != w.race {
			return true
		}
	}
	return false
}

// load is minutes x session RPE of D-t as planned (Foster 1998).
func (w *window) load(t int) float64 {
	s := &w.t[t]
	ride := planner.Session{Kind: planner.Endurance, Minutes: int16(s.minutes)}
	switch {
	case s.rest:
		ride.Minutes = 0
	case s.hard:
		ride.Kind = planner.Intervals
	case s.opener:
		ride.Kind = planner.Openers
	case s.kind == long && t > steadyUntil:
		ride.Kind = planner.Long
	default:
		ride.Kind = s.name(s.minutes, 40)
	}
	strength, _ := w.strength(t)
	return ride.Load() + planner.Session{Kind: planner.Strength, Minutes: int16(strength)}.Load()
}

// cutDeeper takes five points more from a cut that nobody told, ten at most.
func (w *window) cutDeeper() bool {
	if w.told.cut || w.deeper >= 2 || w.held {
		return false
	}
	w.deeper++
	w.cut += 5
	return true
}

// dropRepetition takes one repetition from the usual hard day that keeps most of
// its set, the nearest to the race of several; two stay.
func (w *window) dropRepetition() bool {
	best, kept := 0, 0
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if !s.hard || s.kind != hard || s.whole || s.lessened || !w.open(t) {
			continue
		}
		if fewer, ok := s.set.less(); !ok || fewer.reps() < 2 {
			continue
		}
		if share := 100 * s.set.work() / max(1, s.src.set.work()); best == 0 || share > kept {
			best, kept = t, share
		}
	}
	if best == 0 {
		return false
	}
	s := &w.t[best]
	s.lessened = true
	s.set, _ = s.set.less()
	s.lo = min(s.lo, w.least(s.src, s.set, frame))
	return true
}

// dropAdded takes back an easy ride on a free day, then the added hard day that is
// nearest to the race, at last openers on a usually free day; false if nothing is left.
func (w *window) dropAdded() bool {
	for t := 1; t <= w.n; t++ {
		if s := &w.t[t]; s.spin && w.open(t) {
			s.spin, s.rest, s.minutes, s.reason = false, true, 0, note{code: WhyFreeKept}
			return true
		}
	}
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if !s.hard || s.kind == hard || s.whole || !w.open(t) {
			continue
		}
		s.hard, s.set, s.lo, s.hi = false, hardSet{}, 0, 0
		s.reason = note{code: WhyHardHeavy}
		if s.mins == 0 {
			s.rest = true
		}
		return true
	}
	if t := w.openersT; t > 0 && !(w.ill && w.t[t].mins > 0) && w.open(t) && w.load(t) > w.t[t].usualLoad() {
		s := &w.t[t]
		if s.minutes > leastOpeners {
			s.minutes = leastOpeners
			return true
		}
		s.opener, s.rest, s.minutes, w.openersT = false, s.mins == 0, 0, 0
		s.reason = note{code: WhyOpenersHeavy}
		if d2 := &w.t[min(2, w.n)]; d2.reason.code == WhyFreeMoved { // it is ridden as usual again
			d2.rest, d2.reason = false, note{}
		}
		return true
	}
	return false
}
