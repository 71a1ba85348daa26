package engine

import (
	"slices"

	"musette/planner"
)

const (
	halfGap      = 4   // days; nearer B races share one half week, nearer to an A race none is left
	longestEve   = 300 // minutes of a long ride that a displaced session may follow
	fewBHours    = 5.5 // hours a week; below it four rides are few
	sharpMinutes = 45  // of a hard D-2 that becomes openers
	mostOpeners  = 75  // minutes of openers
	spinReach    = 8   // days before the race; up to there an easy ride follows lost days
	sharpLong    = 0.7 // of a long ride that takes the displaced session of few rides
	longEveFrom  = 16  // hours a week; from here on D-2 has 5 min for each of them
	longEve      = 90  // minutes of D-2 before long B races, at most half of the usual ride
	easeHigh     = 14  // hours a week; from here on the first ride after long B races has easeMost
	easeMost     = 90  // minutes
	illNear      = 14  // days before the race; an illness that ended in them leaves one hard day
	illShare     = 7   // twelfths of its set
	spareHours   = 6   // hours a week
	hugeB        = 300 // minutes
	easedLong    = 150 // minutes of a race; before longer ones a long ride on the eve of a hard D-3 is shorter
	longEnough3  = 180 // minutes of an easy D-3 that is much before any race
)

// planHalves plans the half weeks of B races, important ones first.
func (c *calendar) planHalves() {
	var bs []*planner.Race
	for _, r := range c.races {
		if r.Priority == planner.PriorityB {
			bs = append(bs, r)
		}
	}
	slices.SortStableFunc(bs, func(a, b *planner.Race) int { return int(b.Emphasis) - int(a.Emphasis) })
	var taken []*planner.Race
	for _, r := range bs {
		through := r.Emphasis == planner.TrainThrough
		for _, other := range taken {
			if gapDays(other, r) <= halfGap {
				through = true
				c.warnClose(other, r)
				break
			}
		}
		for _, other := range c.races {
			if other.Priority == planner.PriorityA && gapDays(other, r) <= halfGap {
				through = true
			}
		}
		taken = append(taken, r)
		c.planHalf(r, through)
	}
}

// gapDays is how many days lie between two races, 0 if they touch.
func gapDays(a, b *planner.Race) int {
	if a.Date > b.Date {
		a, b = b, a
	}
	return max(0, a.Last().DaysUntil(b.Date))
}

// half is a B race's half week.
type halfWeek struct {
	c       *calendar
	race    *planner.Race
	through bool
	few     bool // openers come to D-2, so that the free eve stays free
}

// open is the day t days before the race if this race may plan it.
func (h *halfWeek) open(t int) *day {
	d := h.c.at(h.race.Date.AddDays(-t))
	if d == nil || d.owner >= byB || d.race != nil || d.date < h.race.Registered {
		return nil // planned already, or not this race's
	}
	return d
}

func (c *calendar) planHalf(r *planner.Race, through bool) {
	if through && r.Emphasis == planner.TrainThrough && c.inside(r) == nil && endedIll(c.facts, r, illNear) {
		through = false // health goes first
	}
	h := &halfWeek{c: c, race: r, through: through}
	h.absorbBlock()
	if host := c.inside(r); host != nil {
		c.play(r, planner.InsideTaper, host)
	} else if host := c.recovering(r); host != nil {
		c.play(r, planner.InRecovery, host)
	} else {
		c.play(r, planner.HalfTapered, nil)
	}
	if !through {
		h.lostAround()
		h.spin()
	}
	h.eves() // as far as no taper holds these days
	h.shorten()
	h.after()
}

// eves plans D-1 and D-2 and moves the hard session that they displace.
func (h *halfWeek) eves() {
	c, r := h.c, h.race
	openers := 1
	d1, d2 := h.open(1), h.open(2)
	eve := c.at(r.Date - 1)
	if (eve == nil || eve.most() < leastOpeners || eve.only || c.facts.Taper.OpenersD2 && d1 != nil) && d2 != nil && d2.most() >= leastOpeners {
		openers = 2
	} else if h.few = h.fewRides(d1, d2); h.few {
		openers = 2
	}
	var displaced *day
	for t := 2; t >= 1; t-- {
		d := h.open(t)
		if d == nil {
			continue
		}
		if d.kind == hard && d.ridden() && displaced == nil {
			displaced = d
		}
		if t == 2 && d.kind == commute && openers == 1 {
			continue // the way to work is as long as it is
		}
		if t == 2 && h.through && openers == 1 && d.kind != hard {
			continue // trained through
		}
		wasFree := d.mins == 0
		if wasFree && h.through && !(t == 1 && openers == 1 && h.wakes(d2)) {
			continue // nothing is added for a race that is trained through
		}
		d.phase = planner.Tapering
		switch {
		case t == openers && h.openersOn(d):
			if t == 1 && wasFree && d2 != nil && d2.mins > 0 && h.ridesOn(3) && !h.through && c.facts.WeekOn(r.Date-1).Rides() > 4 {
				d2.out = plan{}
				d2.because(note{code: WhyFreeMoved, day: d.date})
			}
		case t == 1 && openers == 2 && d.mins > 0 && c.facts.Taper.OpenersD2:
			d.out = plan{}
			d.because(note{code: WhyFreeEve, race: r})
		case wasFree:
			d.phase = planner.Normal
			continue
		case t == 2 && h.through && d.kind == hard:
			h.c.give(d, r, WhyBRecovery) // its work goes, its minutes stay
			if eve == nil || eve.out.kind != planner.Openers && (d1 == nil || d1.mins == 0) {
				h.openersOn(d) // the eve has none
			}
		case t == 2 && d.kind != hard && (h.race.Minutes() < shortRace || h.race.Minutes() < longRace && h.race.Emphasis != planner.Important):
			h.twoThirds(d) // a short race costs little
		case t == 2 && openers == 1 && h.restsBefore(d, d1):
			d.out = plan{}
			d.because(note{code: WhyFreeBefore, race: r, day: r.Date - 1})
		default:
			h.recovery(d)
		}
		d.owner, d.host = byB, h.race
		d.noteFacts()
	}
	if displaced != nil && !h.move(displaced) && displaced == d2 && openers == 1 {
		h.keepSharp(displaced)
	}
}

// wakes reports that a free D-1 has openers although the race is trained through: after a day
// without a ride, before short races after any that has none.
func (h *halfWeek) wakes(d2 *day) bool {
	if h.race.Minutes() < shortRace && d2 != nil && d2.out.kind != planner.Openers {
		return true
	}
	return !h.ridesOn(2) && h.race.Minutes() < hugeB
}

// restsBefore reports a D-2 that is free before an important race: all of D-5 to D-1 would be
// ridden else.
func (h *halfWeek) restsBefore(d, eve *day) bool {
	return !h.through && h.race.Emphasis == planner.Important && d.kind != commute && d.kind != long && h.c.facts.WeekOn(h.race.Date-1).Rides() < 7 &&
		eve != nil && eve.mins > 0 && h.ridesOn(3) && h.ridesOn(4) && h.ridesOn(5)
}

// hardPlanned reports a hard day or a race from D-far to D-near.
func (h *halfWeek) hardPlanned(near, far int) bool {
	for t := near; t <= far; t++ {
		if d := h.c.at(h.race.Date.AddDays(-t)); d != nil && d.isHard() {
			return true
		}
	}
	return false
}

// easedByB reports a day that a B race will make easy: the two before it, the day
// after, and the next one after longer or important ones.
func (c *calendar) easedByB(d *day) bool {
	for _, r := range c.races {
		before, after := d.date.DaysUntil(r.Date), r.Last().DaysUntil(d.date)
		if r.Priority == planner.PriorityB && (before == 1 || before == 2 || after == 1 || after == 2 && tiresB(r)) {
			return true
		}
	}
	return false
}

// tiresB reports a B race after which the second day is not hard either.
func tiresB(r *planner.Race) bool {
	return r.Minutes() >= 120 || r.Emphasis == planner.Important && r.Minutes() >= shortRace
}

// twoThirds leaves two thirds of an easy ride, and a recovery ride as it is.
func (h *halfWeek) twoThirds(d *day) {
	minutes := min(d.mins, d.cap, d.most())
	if d.kind != recovery {
		part := 2.0 / 3
		if h.race.Registered > h.race.Date-5 {
			part = 0.5 // nothing else was shortened
		}
		minutes = min(minutes, max(neatMinutes(float64(d.mins)*part), min(d.mins, 40)))
	}
	if minutes < d.mins {
		minutes = neatFloor(minutes)
	}
	d.out = plan{kind: d.name(minutes, 40), effort: planner.Easy, minutes: minutes}
	d.because(note{code: WhyBRecovery, race: h.race})
	if minutes < shortestRide {
		d.out = plan{}
	}
}

// recovery leaves a recovery ride of the week's shortest recovery length, on D-2 after
// an easy day riders of many hours a longer easy one.
func (h *halfWeek) recovery(d *day) {
	minutes := min(h.c.shortestRecovery(h.race.Date), 60)
	if hours := h.c.hours(h.race.Date); hours >= longEveFrom && h.race.Emphasis != planner.Important && d.date == h.race.Date-2 && d.kind != recovery && !h.hardPlanned(3, 3) {
		minutes = max(minutes, floor5(int(5*hours)))
	}
	if hours := h.c.hours(h.race.Date); hours >= longEveFrom && d.date == h.race.Date-2 && d.kind != recovery {
		minutes = max(minutes, floor5(int(4*hours)))
	}
	if h.race.Minutes() >= tiringRace && d.date == h.race.Date-2 && (d.kind == endurance || d.kind == long) {
		minutes = max(minutes, min(longEve, d.mins/2)) // a long race is not ridden from a standstill
	}
	minutes = min(minutes, d.mins, d.cap, d.most())
	if minutes < d.mins {
		minutes = floor5(minutes)
	}
	d.out = plan{kind: d.name(minutes, 0), effort: planner.Easy, minutes: minutes}
	d.because(note{code: WhyBRecovery, race: h.race})
	if minutes < shortestRide {
		d.out = plan{}
	}
}

// shortestRecovery is the rider's shortest recovery ride, 40 min where there is none.
func (c *calendar) shortestRecovery(before planner.Date) int {
	if own := c.ownRecovery(before); own > 0 {
		return own
	}
	return 40
}

// ownRecovery is the week's shortest recovery ride, 0 where there is none.
func (c *calendar) ownRecovery(before planner.Date) int {
	week, least := c.facts.WeekOn(before-1), 0
	for i := range week {
		if kind, minutes, _ := usualRide(week[i].Sessions); kind == recovery && !week[i].Busy && (least == 0 || minutes < least) {
			least = minutes
		}
	}
	return least
}

// move brings a displaced hard session to D-4, D-3 or D-5, of races that are trained
// through to D-3, D-4 or D-5; false where none of them has room.
func (h *halfWeek) move(from *day) bool {
	order := []int{4, 3, 5}
	switch {
	case from.set.part > 0: // a bunch ride has its own day
		order = nil
	case h.through:
		order = []int{3, 4, 5}
	}
	for _, t := range order {
		d := h.open(t)
		if d == nil || !d.ridden() || d.kind == hard || d.kind == long && !h.lone() || min(d.mins, d.most()) < h.leastMoved() || d.ban.is() || d.only || h.c.touches(d) || h.c.easedByB(d) {
			continue
		}
		if five := h.c.at(h.race.Date - 5); t == 3 && !h.through && five != nil && five.isHard() {
			continue // three days before the race one hard day of two would be too much
		}
		eve := h.c.at(d.date - 1)
		afterLong := eve != nil && eve.kind == long && eve.ridden()
		if t == 5 && h.through && !from.lost() && (afterLong || h.hardPlanned(3, 3)) {
			continue // the race takes its place
		}
		far := 6
		if h.race.Minutes() < shortRace && !h.through {
			far = 5 // six days without are too long before a short race
		}
		if afterLong && (t == 5 && !h.through || eve.mins > longestEve || h.hardPlanned(t+2, far)) {
			continue // the day after the long ride only where all else would be easy
		}
		set := from.set
		if (t == 3 || afterLong || d.kind == long) && !h.through {
			set = set.kept(twoThirds)
		}
		if !h.through && set == from.set && h.hardPlanned(t+1, t+3) {
			set = set.kept(threeQuarters) // another hard day is near
		}
		minutes := from.mins
		if d.kind == long {
			minutes = max(minutes, neatMinutes(float64(d.mins)*sharpLong))
		}
		minutes = min(minutes, d.mins, d.most())
		for fewer, ok := set.less(); ok && fewer.reps() >= 2 && d.mins <= 60 && set.least(forcedFrame) > minutes; fewer, ok = set.less() {
			set = fewer
		}
		if set.least(forcedFrame) > minutes {
			continue
		}
		h.makeHard(d, set, minutes)
		h.movedTo(d, from)
		return true
	}
	if h.halfLate(from) {
		return true
	}
	if from.race == nil {
		from.also(note{code: WhyBLeftOut, race: h.race})
	}
	return false
}

// makeHard makes a day of the half week hard.
func (h *halfWeek) makeHard(d *day, set hardSet, minutes int) {
	d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: set}
	d.owner, d.phase, d.host = byB, planner.Tapering, h.race
}

// movedTo gives the reasons of a hard session that has come from another day.
func (h *halfWeek) movedTo(d, from *day) {
	if from.race != nil {
		d.because(note{code: WhyBRaceDay, race: from.race})
		return
	}
	d.because(note{code: WhyBMovedHere, race: h.race, day: from.date})
	from.also(note{code: WhyHardMovedAway, day: d.date})
}

// lone reports a rider of few rides who has nothing else hard on D-6 to D-3: a shorter long
// ride takes the displaced session.
func (h *halfWeek) lone() bool {
	return !h.through && h.c.facts.WeekOn(h.race.Date-1).Rides() <= 4 && !h.hardPlanned(3, 6)
}

// leastMoved is how many minutes a day has at least that a displaced session comes to:
// over an hour, less where nothing else would be hard.
func (h *halfWeek) leastMoved() int {
	switch {
	case !h.through && h.race.Minutes() < shortRace && !h.hardPlanned(3, 4):
		return 45
	case !h.through && !h.hardPlanned(3, 6):
		return 50
	}
	return 61
}

// shorten makes a hard D-3 smaller, before an important race D-4 too.
func (h *halfWeek) shorten() {
	if h.through {
		return
	}
	important := h.race.Emphasis == planner.Important || h.c.outgrows(h.race)
	far := 6
	if h.race.Minutes() < shortRace {
		far = 4 // what lies further back costs a short race nothing
		if h.race.Emphasis == planner.Important && !h.rested() {
			far = 5
		}
	}
	h.afterIllness()
	h.keepTold()
	h.lastLong()
	for t := 3; t <= far; t++ {
		d := h.open(t)
		if d == nil || !d.ridden() || d.ban.is() || d.only || h.c.besideRace(d) || h.c.easedByB(d) {
			continue
		}
		switch {
		case t == 4 && d.kind == hard && d.out.asUsual && sprints(h.race) && d.set.longest() > longReps:
			h.c.smallerOf(d, h.setFor(d), threeQuarters, note{code: WhyBShort, race: h.race, n: t})
			d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		case d.kind == recovery, d.kind == commute, t == 4 && !important && d.kind != hard && !(d.kind == long && h.race.Minutes() >= easedLong && h.hardOn(3)):
			continue
		case t == 5 && d.kind == hard && d.out.asUsual && h.needsRest() && !h.hardOn(4) && !h.hardOn(3):
			h.c.smallerOf(d, h.setFor(d), threeQuarters, note{code: WhyBShort, race: h.race, n: t})
			d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		case t >= 5 && !h.hardOn(4) && !h.hardOn(3) && (d.kind == hard || d.mins < realLong):
			continue // days enough to get over it
		case t >= 5 && (!important || d.kind != hard && d.mins <= 60 || t == 6 && (d.kind == hard && h.race.Days == 1 || d.kind != hard && h.ridesOn(5))):
			continue
		case d.kind == hard && d.out.asUsual && (t == 3 || important || h.race.Minutes() >= longRace):
			share := twoThirds
			switch {
			case t > 3:
				share = threeQuarters
			case important && (h.race.Minutes() >= 120 || d.set.longest() > longReps):
				share = half
			}
			h.c.smallerOf(d, h.setFor(d), share, note{code: WhyBShort, race: h.race, n: t})
			d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		case (important || d.mins > 60) && d.kind != hard && d.out.asUsual:
			part := 2.0 / 3
			if t >= 5 {
				part = 0.75
			} else if !important && t == 3 {
				part = 0.8
				if d.mins >= longEnough3 {
					part = 0.6
				}
			}
			minutes := max(neatFloor(int(part*float64(d.mins))), min(d.mins, 40))
			if minutes == d.mins || d.most() < shortestRide {
				continue
			}
			d.out = plan{kind: d.name(minutes, 40), effort: planner.Easy, minutes: min(minutes, d.most())}
			if t >= 5 && d.out.kind == planner.Endurance {
				d.out.effort = planner.Steady
			}
			d.owner, d.phase, d.host = byB, planner.Tapering, h.race
			why := WhyBEase
			switch {
			case h.race.Emphasis == planner.Important:
				why = WhyBImportant
			case important:
				why = WhyBOutgrows
			}
			d.because(note{code: why, race: h.race})
		}
		d.noteFacts()
	}
}

// lastLong leaves three quarters of a very long ride on D-8 to D-6 before an important race
// of eight hours and more.
func (h *halfWeek) lastLong() {
	for t := 6; t <= 8 && h.race.Emphasis == planner.Important && h.race.Minutes() >= dayAway; t++ {
		d := h.open(t)
		if d == nil || d.mins < hugeLong || d.kind != long || !d.out.asUsual || !h.c.openAfter(d) {
			continue
		}
		d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*0.75), d.most())}
		d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		d.because(note{code: WhyBImportant, race: h.race})
	}
}

// rested reports days before the race that are lost or follow an illness: they freshen enough.
func (h *halfWeek) rested() bool {
	for t := 1; t <= spinReach; t++ {
		if d := h.c.at(h.race.Date.AddDays(-t)); d != nil && d.lost() && !d.neverRidden() {
			return true
		}
	}
	return endedIll(h.c.facts, h.race, illNear)
}

// needsRest reports a race before which a hard D-5 is smaller: an important one of three
// hours and more, any of five, for riders who have hours enough to spare some.
func (h *halfWeek) needsRest() bool {
	r := h.race
	return h.c.hours(r.Date) >= spareHours && (r.Minutes() >= longRace && r.Emphasis == planner.Important || r.Minutes() >= hugeB)
}

// hardOn reports a usually hard D-t.
func (h *halfWeek) hardOn(t int) bool {
	d := h.c.at(h.race.Date.AddDays(-t))
	return d != nil && d.kind == hard && d.ridden()
}

// ridesOn reports a D-t that is usually ridden and not lost.
func (h *halfWeek) ridesOn(t int) bool {
	d := h.c.at(h.race.Date.AddDays(-t))
	return d != nil && d.mins > 0 && !d.lost()
}

// setFor is the set that a hard day rides: the rider's sprints in place of longer
// repetitions before a race of sprints, else its own.
func (h *halfWeek) setFor(d *day) hardSet {
	short, _ := h.c.sets(h.race.Date)
	if sprints(h.race) && short.set.part == 0 && !short.set.isZero() && short.set.longest() <= sprintRep && d.set.longest() > sprintRep {
		return short.set
	}
	return d.set
}
