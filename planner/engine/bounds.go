package engine

import "musette/planner"

// Least minutes of an easy ride, and its least share of the usual ones, per cent.
// With a told cut they do not follow it, so that a deeper cut makes no ride longer.
const (
	leastEasy  = 40
	leastTold  = 30
	leastShare = 45 // up to D-5
)

// Before a race of less than briefRace minutes rides up to D-5 keep more: at least
// these shares, per cent, and at most briefMore points more.
const (
	briefRace  = 45
	briefShare = 65
	briefLong  = 62
	briefMore  = 10
)

// The last long ride a week before a race of lastRide minutes and more stays a real
// one: up to lastMost minutes, lastMid before races under lastLonger, it keeps
// between lastLo and lastHi per cent.
const (
	lastRide   = 110
	lastLonger = 210
	lastMid    = 165
	lastMost   = 215
	lastLo     = 78
	lastHi     = 80
	firstLo    = 85  // per cent of a long ride up to D-11 at least
	briefRep   = 240 // seconds
	leastBunch = 50  // minutes of a hard ride without a set
	toldLong   = 72  // per cent of it at most under a cut that was asked for
)

// keepsLong reports the last long ride before a long race. After an illness or an
// overload it is cut like others.
func (w *window) keepsLong(t int) bool {
	return (t == 7 || t == 8) && w.t[t].kind == long && !w.told.cut && !w.ill && !w.block && w.race.Minutes() >= lastRide
}

// lastLong is so many per cent of that ride, up to what is enough before the race.
func (w *window) lastLong(usual, percent int) int {
	if w.race.Minutes() < lastLonger {
		return min(usual*percent/100, lastMid)
	}
	return min(usual*percent/100, lastMost)
}

// mostShare is the most of its usual minutes that D-t keeps, per cent.
func mostShare(t int) int {
	switch {
	case t >= 11:
		return 100
	case t >= 8:
		return 90
	case t >= 5:
		return 80
	}
	return 62
}

// usualOf is what D-t's share is taken of: a hard ride that of the shorter of its
// own day and of the day that its set comes from.
func (w *window) usualOf(t int) int {
	s := &w.t[t]
	if s.hard {
		switch {
		case s.mins == 0:
			return min(60, s.src.minutes)
		case s.kind == long:
			return min(s.mins, max(s.src.minutes, s.mins*6/10))
		}
		return min(s.mins, s.src.minutes)
	}
	switch {
	case s.spin && w.hours >= 8:
		return min(spinLonger, s.most())
	case s.spin:
		return spinMinutes
	}
	if s.mins == 0 && t == 2 && !s.rest {
		return 30
	}
	return s.mins
}

// bounds sets the least and most minutes of the rides that are to be found.
func (w *window) bounds() {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		switch {
		case s.rest || s.opener || !w.open(t):
		case s.hard:
			w.boundHard(t)
		case s.kind == commute:
			s.hi = min(w.usualOf(t), s.most(), s.cap)
			if s.hi < shortestRide && s.hi < s.mins {
				s.hi = 0
			}
			s.lo = s.hi
		default:
			w.boundEasy(t)
		}
	}
}

// mostOf is how long D-t's ride is at most by its usual minutes and its place
// before the race, under a told cut by that. Days before lost ones are not bound.
func (w *window) mostOf(t int) int {
	s, usual := &w.t[t], w.usualOf(t)
	most := usual
	if wholeSet := s.hard && s.set == s.src.set; (w.told.cut || !wholeSet) && (s.kind == long && !s.hard && !w.lostEve(t) || !w.lostFrees(t)) {
		share := mostShare(t)
		if w.told.cut { // a deep one shows from the first day on
			share = 100 - w.cut/3
			if s.kind == long && t <= 8 {
				share = min(share, toldLong)
			}
		} else {
			if s.kind == long && t < 11 {
				share -= longLess
			}
			if t >= 5 && w.race.Minutes() < briefRace {
				share = min(share+briefMore, 100)
			}
		}
		most = max(usual*share/100, min(usual, 40))
		if w.keepsLong(t) {
			most = max(most, w.lastLong(usual, lastHi))
		}
	}
	if (t == 3 || t == 4) && !w.afterRun(t) {
		most = min(most, w.lateMost(t))
	}
	if t == 3 && !s.hard && !w.told.cut {
		most = min(most, max(60, floor5(most*4/5)))
	}
	if t == 2 {
		most = min(most, w.eveMost(usual))
	}
	return min(most, s.day.most())
}

// lostFrees reports a day of a lost run or before one, or after one up to D-5:
// lost days have saved enough.
func (w *window) lostFrees(t int) bool {
	for u := 1; u <= w.n; u++ {
		if w.t[u].lostRun && (u <= t || t >= 5) {
			return true
		}
	}
	return false
}

// lostEve reports the last day before a lost run, up to D-5.
func (w *window) lostEve(t int) bool { return t >= 5 && w.t[t-1].lostRun && !w.t[t].lostRun }

// eveMost is how long the ride of D-2 is at most.
func (w *window) eveMost(usual int) int {
	s, most := &w.t[2], max(40, w.t[1].minutes)
	switch {
	case s.kind == recovery:
		return w.recoveryMost(2)
	case w.told.cut: // a mild one is met as well
		return max(most, min(60, usual))
	case w.hours < 8:
		return max(most, min(60, usual/2))
	case s.kind == long:
		return max(most, usual*35/100)
	}
	return most
}

func (w *window) boundHard(t int) {
	s, usual, most := &w.t[t], w.usualOf(t), w.mostOf(t)
	if s.mins > 0 {
		most = min(most, w.loadMost(t))
	}
	if t <= 5 {
		w.thin(t, max(most, s.lo))
	}
	if w.paysForAdded(t) {
		most = min(most, usual*2/3)
	}
	if s.set.part > 0 && s.set != s.src.set { // a smaller hard part shows in a shorter ride
		most = min(most, usual-5)
		s.lo = min(s.lo, max(ceil5(s.set.least(forcedFrame)), floor5(most)))
	}
	if s.set.part > 0 && !w.told.cut && s.limit >= leastBunch && (s.mins == 0 || s.mins >= leastBunch) {
		s.lo = max(s.lo, leastBunch)
	}
	s.hi = max(neatFloor(most), s.lo)
	if s.set == s.src.set && !w.told.cut {
		s.lo = max(s.lo, min(s.hi, floor5(usual*85/100)))
	}
}

// thin leaves out repetitions of D-t until its set, but one of sprints, is no denser in a ride of so many
// minutes than in the usual one. Three stay where no other day of the week is hard, and of short ones.
func (w *window) thin(t, minutes int) {
	s, fewest := &w.t[t], 2
	if w.hardIn(3, 7) < 2 || s.set.longest() <= briefRep {
		fewest = 3
	}
	for s.set.part == 0 && s.set.longest() > sprintRep && s.set.work()*s.src.minutes > s.src.set.work()*minutes {
		fewer, ok := s.set.less()
		if !ok || fewer.reps() < fewest {
			return
		}
		s.set = fewer
	}
}

func (w *window) boundEasy(t int) {
	s, usual := &w.t[t], w.usualOf(t)
	most := min(w.mostOf(t), s.cap)
	least := leastEasy
	if w.told.cut {
		least = leastTold
	}
	if w.ill && s.kind == hard && !w.told.cut {
		most = min(most, max(60, usual*2/3))
	}
	s.lo = least
	switch {
	case s.kind == recovery && !w.told.cut: // short enough as it is
		s.lo = min(usual, w.recoveryMost(t))
		most = min(s.lo, s.cap, s.day.most())
	case s.kind == recovery:
		most = min(most, 60)
	case t == 2 && w.rides <= 4 && !w.told.cut:
		s.lo = min(60, max(leastEasy, usual/2))
	case s.kind == long && t > 2:
		s.lo = max(least, floor5(usual*w.longShare()/100))
		if w.race.Minutes() < briefRace && !w.told.cut {
			s.lo = max(s.lo, floor5(usual*briefLong/100))
		}
		if t >= 11 && !w.told.cut && !w.ill && !w.block { // long rides fall towards the race
			s.lo = max(s.lo, floor5(usual*firstLo/100))
		}
		if w.keepsLong(t) {
			s.lo = max(s.lo, floor5(w.lastLong(usual, lastLo)))
		}
	case t > 4 && w.told.cut:
		s.lo = max(least, floor5(usual*least/100))
	case t > 4:
		s.lo = max(least, floor5(usual*leastShare/100))
		if w.race.Minutes() < briefRace {
			s.lo = max(least, floor5(usual*briefShare/100))
		}
	}
	if w.ill && (s.kind == long || w.lateIll(t)) && w.race.Minutes() < longRace && w.race.Days == 1 && !w.told.cut {
		most = min(most, longestReturn) // a short race needs no long ride so soon
	}
	if w.ill && w.lateIll(t) && !w.told.cut { // rides of an hour went before
		soon := otherLate
		if s.kind == long {
			soon = longLate
		}
		s.soonWell = soon < most
		most = min(most, soon)
	}
	if w.longBeforeLost(t) || w.fewLong(t) {
		most = min(usual, s.most(), s.cap)
		s.lo = floor5(most)
	}
	s.hi = neatFloor(most)
	if s.hi < shortestRide && s.hi < usual {
		s.hi = 0
	}
	s.lo = min(s.lo, usual, s.hi)
}

// fewLong reports a long ride up to D-6 of a rider under 8 hours a week before a longer race:
// there is little to recover from, and endurance is scarce. After a block it is the last one.
func (w *window) fewLong(t int) bool {
	if w.t[t].kind != long || w.told.cut || w.ill || w.c.hours(w.t[t].date+1) >= 8 || w.race.Minutes() < eventLong && w.race.Days == 1 {
		return false
	}
	return t >= 6 && !w.block || t >= 7 && t <= 10
}

// longBeforeLost reports a long ride on the three days before three lost ones or more: the
// lost days are rest enough for a race of three hours and more.
func (w *window) longBeforeLost(t int) bool {
	if w.t[t].kind != long || w.told.cut || w.ill || w.race.Minutes() < longRace && w.race.Days == 1 {
		return false
	}
	for u := t - 1; u >= max(1, t-3); u-- {
		if w.t[u].lostRun {
			return u >= 3 && w.t[u-1].lost() && w.t[u-2].lost()
		}
	}
	return false
}

// lateIll reports a D-t within nextWell days after an illness.
func (w *window) lateIll(t int) bool {
	for _, ill := range w.c.facts.Troubles() {
		if !ill.To.IsZero() && ill.From < w.t[t].date && ill.To.AddDays(nextWell) >= w.t[t].date {
			return true
		}
	}
	return false
}

// paysForAdded reports the last usual hard day before an added one: it is shorter,
// so that a longer taper never brings more load than one that begins after it.
func (w *window) paysForAdded(t int) bool {
	if w.t[t].kind != hard {
		return false
	}
	for u := t - 1; u >= 3; u-- {
		if w.t[u].hard {
			return w.t[u].kind != hard
		}
	}
	return false
}

// loadMost is how long a hard ride is at most, where its set allows: it brings no
// more load than the day's usual rides.
func (w *window) loadMost(t int) int {
	load := 0.0
	for _, s := range w.t[t].usual {
		load += s.Load()
	}
	return int(load / planner.Session{Kind: planner.Intervals}.UsualRPE())
}

// recoveryMost is how long a recovery ride lasts at most.
func (w *window) recoveryMost(t int) int {
	switch {
	case t == 2:
		return 40
	case w.hours >= 18:
		return 60
	}
	return 45
}

// longShare is how much of a long ride stays at least, in per cent: of riders with
// few rides more.
func (w *window) longShare() int {
	switch {
	case w.told.cut:
		return leastTold
	case w.rides <= 4 || w.hours < 8:
		return 70
	}
	return 50
}
