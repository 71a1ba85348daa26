package engine

import (
	"math"

	"musette/planner"
)

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
	return d.owner == byHealth || d.ban.code == WhyIllReturn || d.ban.code == WhyHead
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

// dropRepetition takes one repetition from the usual hard day nearest to the race
// that has lost none this way; two stay.
func (w *window) dropRepetition() bool {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if !s.hard || s.kind != hard || s.lessened || !w.open(t) {
			continue
		}
		s.lessened = true
		if fewer, ok := s.set.less(); ok && fewer.reps() >= 2 {
			s.set = fewer
			s.lo = min(s.lo, w.least(s.src, fewer, frame))
			return true
		}
	}
	return false
}

// dropAdded takes back the added hard day that is nearest to the race, at last
// openers on a usually free day; false if nothing is left.
func (w *window) dropAdded() bool {
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
	if t := w.openersT; t > 0 && w.open(t) && w.load(t) > w.t[t].usualLoad() {
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
