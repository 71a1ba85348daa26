package engine

import (
	"strings"

	"musette/planner"
)

const (
	dayLong      = 360 // minutes; before races of this length D-2 is free
	spinMinutes  = 40
	spinLonger   = 60 // from 8 h a week on
	leastOpeners = 25 // minutes; a day that allows less has none
	leastWake    = 40 // minutes of openers in place of a hard day before a C race, where the day has them
	mostWake     = 60
	leastTouch   = 6 * 60 // seconds of hard work of a late set
	eventLong    = 150    // minutes; before races of this length few rides a week stay few
	pacedRace    = 20     // minutes; time trials and climbs from here on are paced
	sprintRace   = 120    // minutes of a race of sprints at most
	sprintRep    = 120    // seconds of a repetition
	sprintReps   = 4      // that the last hard day has at least
)

// openerMinutes is the length of openers for a rider of so many hours a week.
func openerMinutes(hours float64) int { return round5(25 + 1.25*hours) }

// placeOpeners puts openers on D-1, or on D-2 where D-1 has no room or by wish.
func (w *window) placeOpeners() {
	if w.hours == 0 {
		return
	}
	order := [2]int{1, 2}
	wish := w.c.facts.Taper.OpenersD2
	if wish || w.fewRides() {
		order = [2]int{2, 1}
	}
	for _, t := range order {
		if t > w.n {
			continue
		}
		s := &w.t[t]
		minutes := w.openersOn(s)
		if minutes < leastOpeners || s.only {
			continue
		}
		s.opener, s.minutes, w.openersT = true, minutes, t
		switch {
		case t == 2 && wish:
			s.reason = note{code: WhyOpenersWish}
			if w.t[1].owner != settled && w.t[1].race == nil {
				w.t[1].rest, w.t[1].reason = true, note{code: WhyFreeEve}
			}
		case t == 2 && w.fewRides():
			s.reason = note{code: WhyOpenersFew, day: w.t[1].date}
		case t == 2:
			s.reason = note{code: WhyOpenersD2, day: w.t[1].date}
		default:
			s.reason = note{code: WhyOpeners}
		}
		return
	}
}

// keepSharp puts openers on a hard D-2 as well before a short race that has nothing
// hard on D-4 and D-3.
func (w *window) keepSharp() {
	if w.n < 5 || w.race.Minutes() >= shortRace || w.openersT != 1 || w.ill {
		return
	}
	s := &w.t[2]
	if s.kind != hard || !s.ridden() || s.ban.is() || s.only || !w.open(2) || w.hardIn(3, 4) > 0 {
		return
	}
	if minutes := w.openersOn(s); minutes >= leastOpeners {
		s.opener, s.minutes, s.reason = true, minutes, note{code: WhySharp, race: w.race}
	}
}

// fewRides reports a rider of three rides a week or fewer who has a ride on D-2 and
// none on D-1, before a long race: no ride is added.
func (w *window) fewRides() bool {
	return w.n >= 2 && w.rides <= 3 && w.race.Minutes() >= eventLong && w.t[1].mins == 0 && w.t[2].mins > 0 && w.t[2].ridden()
}

// openersOn is how long openers on a day can be, 0 where the day is not the rider's.
func (w *window) openersOn(s *taperDay) int {
	if s.owner == settled || s.race != nil || s.ban.is() && s.cap == 0 {
		return 0
	}
	minutes := openerMinutes(w.hours)
	if w.short.set.isZero() {
		minutes = min(minutes, leastOpeners) // who never rides hard needs little
	}
	if most := w.c.longestShort(w.race.Date); most > 0 {
		minutes = min(minutes, most)
	}
	if s.mins > 0 {
		minutes = min(minutes, max(s.mins, 30))
	}
	return floor5(min(minutes, s.most()))
}

// placeFreeDays keeps the usual free days; one that openers took moves to D-2 for
// riders of five rides a week and more.
func (w *window) placeFreeDays() {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		switch {
		case s.mins > 0 || s.hard || s.opener:
		case w.spins(t):
			s.spin, s.reason = true, note{code: WhySpin}
		default:
			s.rest = true
		}
	}
	if w.n >= 2 && w.openersT == 1 && w.t[1].mins == 0 && w.rides > 4 && w.t[2].owner != settled && w.t[2].race == nil &&
		w.n >= 4 && w.t[3].mins > 0 && w.t[4].mins > 0 && w.t[2].mins > 0 {
		w.t[2].rest, w.t[2].reason = true, note{code: WhyFreeMoved, day: w.t[1].date}
	}
	stays := w.n >= 2 && (w.t[2].kind == commute || w.n >= 7 && w.t[2].kind == recovery && !w.ill && !w.told.cut)
	if w.n >= 5 && w.rides < 7 && !stays && w.openersT == 1 && w.t[1].mins > 0 && w.t[2].owner != settled && w.t[2].race == nil &&
		w.t[2].mins > 0 && w.t[2].kind != long && w.t[3].mins > 0 && w.t[4].mins > 0 && w.t[5].mins > 0 && !w.lostIn(3, 5) {
		w.t[2].rest, w.t[2].reason = true, note{code: WhyFreeBefore, day: w.t[1].date}
	}
	if w.n >= 2 && w.race.Minutes() >= dayLong && w.rides < 7 && w.openersT == 1 && (w.n < 3 || w.t[3].mins > 0) && w.t[2].owner != settled && w.t[2].race == nil && w.t[2].mins > 0 {
		w.t[2].rest, w.t[2].reason = true, note{code: WhyRestBeforeLong}
	}
}

// lostIn reports a lost day from D-far to D-near.
func (w *window) lostIn(near, far int) bool {
	for t := near; t <= min(far, w.n); t++ {
		if w.t[t].lost() || w.t[t].ban.is() {
			return true
		}
	}
	return false
}

// spins reports a usually free day that is ridden easily after three lost days or
// more: the day after them if the next one is hard, and the one after that.
func (w *window) spins(t int) bool {
	s := &w.t[t]
	if t < 2 || s.busy || s.only || s.ban.is() || s.most() < spinMinutes || !w.open(t) {
		return false
	}
	after := t + 1 // the last lost day
	if !w.offOn(after) {
		after++
	} else if !w.t[t-1].hard {
		off, _ := w.daysOff(t)
		return off >= 3 && w.longBreak(t)
	}
	return w.offOn(after) && w.offOn(after+1) && w.offOn(after+2) || w.longBreak(t)
}

// daysOff counts the days without a ride right before D-t, and those of them that are lost.
func (w *window) daysOff(t int) (off, lost int) {
	for u := t + 1; u <= t+spinReach; u++ {
		d := w.at(u)
		if d == nil || d.mins > 0 && !w.offOn(u) {
			break
		}
		off++
		if w.offOn(u) {
			lost++
		}
	}
	return off, lost
}

// longBreak reports three days and more without a ride up to the free D-t, two of them
// lost, where the day after is ridden.
func (w *window) longBreak(t int) bool {
	off, lost := w.daysOff(t)
	return lost >= 2 && (off >= 3 || w.offOn(t+1)) && (w.t[t-1].opener || w.t[t-1].mins > 0) && !w.t[t-1].lost()
}

// offOn reports a lost day on which not even a short ride is possible.
func (w *window) offOn(t int) bool {
	d := w.at(t)
	return w.lostOn(t) && (d.busy || d.only || d.limit < shortestRide)
}

// StrengthUntil is the last day before an A race that has strength work.
const StrengthUntil = 8

// strength is how many minutes of strength work D-t keeps: half and light early, none late.
func (w *window) strength(t int) (minutes int, n note) {
	for _, s := range w.t[t].usual {
		if s.Kind != planner.Strength {
			continue
		}
		if t >= StrengthUntil && !w.block && !w.ill && w.t[t].ridden() {
			return round5(float64(s.Minutes) / 2), note{code: WhyStrengthLight}
		}
		return 0, note{code: WhyStrengthEnds}
	}
	return 0, note{}
}

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
	if w.restful() && w.single && w.hardIn(3, 7) > 0 { // endurance is what counts
		return
	}
	pairs := w.n >= 6 && w.t[5].kind == hard // of two hard days in a row the later one is near enough
	if t := w.pick([]int{4, 3, 5}, lostNear); t != 0 && !(pairs && w.t[6].hard) {
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

// addShortTouch puts a second short set on D-3 where the last hard day is D-5: before an
// event of under 90 minutes, and before others of less than dayLong on an endurance day.
func (w *window) addShortTouch() {
	d3 := w.t[3].kind
	if w.race.Minutes() >= shortRace && (w.restful() || d3 != endurance && d3 != long) || d3 == long && (w.race.Minutes() > tiringRace || w.told.length || w.told.cut) ||
		w.single || w.hardIn(3, 4) > 0 || w.mayBeHard(3, false).is() {
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
			r += 2
		}
		if t == 5 {
			r++
		}
		if w.t[t].kind == long {
			r++
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
	if t >= 3 && t < 8 && w.longNear(t) {
		return w.short
	}
	if t >= 8 || t >= 3 && climbs(w.race) && w.race.Minutes() >= 30 && w.long.set.longest() <= longestLate {
		return w.long
	}
	return w.short
}

// longNear reports that the hard day before D-t, up to four days back, rides the long set.
func (w *window) longNear(t int) bool {
	for u := t + 1; u <= t+4; u++ {
		switch d := w.at(u); {
		case d == nil:
			return false
		case u <= w.n && w.t[u].hard:
			return w.t[u].src.set == w.long.set && w.long.set != w.short.set
		case d.isHard():
			return d.set == w.long.set && w.long.set != w.short.set
		}
	}
	return false
}

// longLast gives the last hard day before a time trial or climb of 20 min and more the
// long set, where no other day of D-10 to D-3 rides it.
func (w *window) longLast() {
	if !climbs(w.race) || w.race.Minutes() < pacedRace || w.pattern != planner.UsualDays || w.ill || w.long.set.part > 0 || w.long.set.longest() < longReps {
		return
	}
	last := 0
	for t := min(10, w.n); t >= 3; t-- {
		if w.t[t].hard {
			if w.t[t].src.set.longest() >= sharpFrom {
				return
			}
			last = t
		}
	}
	if last == 4 || last == 5 {
		w.t[last].src = w.long
	}
}

// lastShort gives the last hard day before a short race in a bunch the short set.
func (w *window) lastShort() {
	fast := sprints(w.race)
	if climbs(w.race) || w.race.Minutes() >= shortRace && !fast || w.pattern != planner.UsualDays {
		return
	}
	for t := 3; t <= min(5, w.n); t++ {
		if w.t[t].hard {
			if w.race.Minutes() < shortRace && w.t[t].src.set.longest() > sharpRep || fast && w.sprinter(t) {
				w.t[t].src = w.short
			}
			return
		}
	}
}

// sprints reports a race of sprints and attacks.
func sprints(r *planner.Race) bool {
	kind := strings.ToLower(r.Kind)
	return r.Minutes() <= sprintRace && (strings.Contains(kind, "crit") || strings.Contains(kind, "track") || strings.Contains(kind, "omnium"))
}

// sprinter reports a rider whose short set is of sprints, of which D-t has enough.
func (w *window) sprinter(t int) bool {
	short := w.short.set
	return short.part == 0 && !short.isZero() && short.longest() <= sprintRep && short.kept(w.share(t, short)).reps() >= sprintReps
}

// openersOn plans openers on a day; false where it has no room.
func (h *halfWeek) openersOn(d *day) bool {
	hours := h.c.hours(h.race.Date)
	minutes := openerMinutes(hours) + 5
	if d.mins == 0 {
		minutes = openerMinutes(hours)
		if d.busy {
			return false
		}
	}
	if h.through {
		minutes = throughOpeners(minutes, d)
	}
	if h.few {
		minutes += 10 // they are all that is ridden
	}
	if most := h.c.longestShort(h.race.Date); most > 0 {
		minutes = min(minutes, most)
	}
	if d.mins > 0 {
		minutes = min(minutes, max(d.mins, 30))
	}
	minutes = floor5(min(minutes, d.most()))
	if minutes < leastOpeners || d.only || d.ban.is() && d.cap == 0 {
		return false
	}
	d.out = plan{kind: planner.Openers, effort: planner.OpenersEffort, minutes: minutes}
	code := WhyOpeners
	if d.date == h.race.Date-2 {
		code = WhyOpenersD2
		if h.c.facts.Taper.OpenersD2 {
			code = WhyOpenersWish
		} else if h.few {
			code = WhyOpenersFew
		}
	}
	d.because(note{code: code, race: h.race, day: h.race.Date - 1})
	return true
}

// fewRides reports a rider of two to four rides and few hours a week whose D-1 is free while D-2
// is ridden: no ride is added for a race of less than 2 h 30.
func (h *halfWeek) fewRides(d1, d2 *day) bool {
	if rides := h.c.facts.WeekOn(h.race.Date - 1).Rides(); rides < 2 || rides > 4 || h.through || h.race.Minutes() >= eventLong || h.c.hours(h.race.Date) > fewBHours {
		return false
	}
	return d1 != nil && d1.mins == 0 && d2 != nil && d2.ridden() && (d2.kind == hard || d2.kind == endurance) && d2.most() >= leastOpeners && !d2.only && !d2.ban.is()
}

// throughOpeners is how long openers before a race that is trained through are: half of
// the usual ride, so that they are training too.
func throughOpeners(minutes int, d *day) int {
	return min(max(minutes, floor5(d.mins/2)), mostOpeners)
}

// keepSharp puts a few short hard efforts into the easy ride that a hard D-2 has
// become, where nothing is hard on D-5 to D-3, before short races on D-4 and D-3: legs
// go flat without any.
func (h *halfWeek) keepSharp(d *day) {
	far := 5
	if h.race.Minutes() < shortRace {
		far = 4
	}
	if h.through || d.only || d.ban.is() || h.hardPlanned(3, far) {
		return
	}
	minutes := floor5(min(d.mins, max(d.out.minutes, sharpMinutes), mostOpeners, d.most()))
	if minutes < leastOpeners {
		return
	}
	d.out = plan{kind: planner.Openers, effort: planner.OpenersEffort, minutes: minutes}
	d.because(note{code: WhyBSharp, race: h.race})
	d.noteFacts()
}

// shorterReps gives the only hard day of D-5 to D-3 two shorter repetitions of so many seconds
// together at most; false where that is too little.
func (w *window) shorterReps(t, seconds int) bool {
	s := &w.t[t]
	if t < 3 || t > 5 || w.hardIn(3, 5) > 1 || s.set.part > 0 || seconds < leastTouch {
		return false
	}
	short := s.set.one()
	short.sets[0].Reps, short.sets[0].Work = 2, neat(seconds/2)
	if short.work() > seconds {
		short.sets[0].Work -= 60
	}
	s.set = short
	s.lo = min(s.lo, max(w.least(s.src, short, shortFrame), min(s.mins, 45)))
	return true
}

// halfLate puts half of a hard session that no day has room for on an easy D-3 or D-4, so
// that the race is not the first hard effort of the week: not before races of four hours and
// more, of those that are trained through only before short ones, on a short ride.
func (h *halfWeek) halfLate(from *day) bool {
	r := h.race
	if from.race != nil || r.Minutes() >= tiringRace || h.through && r.Minutes() >= shortRace || h.hardPlanned(3, 4) || h.hardDue(3, 4) || h.c.facts.WeekOn(r.Date-1).Rides() < 4 {
		return false
	}
	set := from.set
	if short, _ := h.c.sets(r.Date); set.part > 0 || set.longest() > longReps && !climbs(r) {
		set = short.set
	}
	if set = set.kept(half); set.part > 0 || set.isZero() {
		return false
	}
	for _, t := range [2]int{3, 4} {
		d := h.open(t)
		if d == nil || !d.ridden() || d.kind == hard || d.kind == long || d.kind == commute || d.ban.is() || d.only || h.c.touches(d) || h.c.easedByB(d) || h.through && d.mins > lateRide {
			continue
		}
		minutes := min(d.mins, d.most(), max(60, ceil5(set.least(frame))))
		if set.least(forcedFrame) > minutes {
			continue
		}
		h.makeHard(d, set, minutes)
		h.movedTo(d, from)
		return true
	}
	return false
}
