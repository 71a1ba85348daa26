package engine

import "musette/planner"

const (
	lambdaSteps = 160 // of one lambda
	slope       = 6.0 // days before the race on which a ride's share has doubled
	longLess    = 10  // per cent of its usual minutes that a long ride is shorter than others at most
)

// mostShare is the most of its usual minutes that D-t keeps, per cent.
func mostShare(t int) int {
	switch {
	case t >= 11:
		return 100
	case t >= 8:
		return 80
	}
	return 75
}

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
	if s.mins == 0 && t == 2 && !s.rest {
		return 30
	}
	return s.mins
}

// bounds sets the least and most minutes of the rides that are to be found.
func (w *window) bounds(least, leastShare int) {
	end := 0 // the first day of the last lost run
	for t := w.n; t >= 1; t-- {
		if w.t[t].lostRun {
			end = t
		}
	}
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if s.rest || s.opener || !w.open(t) {
			continue
		}
		usual := w.usualOf(t)
		most := usual
		if wholeSet := s.hard && s.set == s.src.set; !w.told.cut && !wholeSet && (end == 0 || t < end) {
			share := mostShare(t)
			if s.kind == long && t < 11 {
				share -= longLess
			}
			most = max(usual*share/100, min(usual, 40))
		}
		if s.kind == commute && !s.hard {
			s.lo, s.hi = min(usual, s.most()), min(usual, s.most())
			continue
		}
		if t == 3 || t == 4 {
			most = min(most, w.lateMost(t))
		}
		if t == 2 {
			d2 := max(40, w.t[1].minutes)
			switch {
			case w.hours < 8:
				d2 = max(d2, min(60, usual/2))
			case s.kind == long:
				d2 = max(d2, usual*35/100)
			}
			if s.kind == recovery {
				d2 = w.recoveryMost(2)
			}
			most = min(most, d2)
		}
		if !s.hard {
			most = min(most, s.cap)
		}
		most = min(most, s.day.most())
		if s.hard {
			if s.mins > 0 { // no more load than the usual rides
				most = min(most, w.addedMost(t))
			}
			if w.paysForAdded(t) {
				most = min(most, usual*2/3)
			}
			s.hi = max(neatFloor(most), s.lo)
			if s.set == s.src.set && !w.told.cut {
				s.lo = max(s.lo, min(s.hi, floor5(usual*85/100)))
			}
			continue
		}
		switch {
		case s.kind == recovery && !w.told.cut: // short enough as it is
			s.lo = min(usual, w.recoveryMost(t))
			most = min(s.lo, s.cap, s.day.most())
		case s.kind == recovery:
			s.lo, most = min(least, 30), min(most, 60)
		case t == 2:
			s.lo = least
			if w.rides <= 4 && !w.told.cut {
				s.lo = min(60, usual/2)
			}
		case s.kind == long:
			s.lo = max(least, floor5(usual*w.longShare(leastShare)/100))
		case t > 4:
			s.lo = max(least, floor5(usual*leastShare/100))
		default:
			s.lo = least
		}
		s.hi = neatFloor(most)
		if s.hi < shortestRide && s.hi < usual {
			s.hi = 0
		}
		s.lo = min(s.lo, usual, s.hi)
	}
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

// addedMost is how long an added hard ride is at most, where its set allows: it
// brings no more load than the day's usual rides.
func (w *window) addedMost(t int) int {
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
func (w *window) longShare(other int) int {
	switch {
	case w.told.cut && other < 40:
		return other
	case w.rides <= 4:
		return 60
	}
	return 50
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
			want := lambda * float64(w.usualOf(t)) * f * (1 + float64(t)/slope)
			s.minutes = min(neatMinutes(min(max(want, float64(s.lo)), float64(s.hi))), s.hi)
			total += s.minutes
		}
	}
	return total
}

// settledMinutes is the riding time of a race or of a day that is settled.
func (d *day) settledMinutes() int {
	total := 0
	for _, s := range d.out.sessions {
		if s.Kind.IsRide() {
			total += int(s.Minutes)
		}
	}
	return total
}

// findMinutes solves the one factor for the target.
func (w *window) findMinutes(held *heldTaper) {
	w.bounds(w.floors())
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

// floors are the least minutes of an easy ride and its least share, per cent. They
// do not follow a told cut, so that a deeper one makes no ride longer.
func (w *window) floors() (least, share int) {
	if w.told.cut {
		return 25, 25
	}
	return 40, 40
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
		if same && h.minutes <= s.hi {
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
			if !w.open(t) || s.rest || s.opener || s.hard || s.kind == long || s.minutes == 0 {
				continue
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
