package engine

import (
	"musette/planner"
)

// lateRide is how long a usual ride on the morning after a short evening race is, in minutes,
// of which more than a recovery ride stays.
const lateRide = 75

// lateHours is how many hours a week a rider rides at least who has more than that then.
const lateHours = 12

// hugeLong is how long a long ride is at least, in minutes, that is much soon after a race.
const hugeLong = 240

// eventHuge is how long a race is, in minutes, after which still less of it stays.
const eventHuge = 210

// after plans D+1, and D+2 after two hours and more.
func (h *halfWeek) after() {
	c, r := h.c, h.race
	h.shortenHugeLong()
	tires := total(r) >= tiringRace
	h.through = h.through && !c.outgrows(r) && !(tires && r.Days > 1) // it costs what it costs
	if c.longMoves(r) {
		return
	}
	if d := c.at(r.Last() + 1); d != nil && d.owner < byB && d.race == nil && d.mins > 0 {
		minutes, changes := h.minutesAfter(d)
		if !changes {
			return
		}
		minutes = min(minutes, d.most())
		if endedIll(c.facts, r, illNear) {
			minutes = min(minutes, max(60, d.mins/2))
		}
		if h.restsAfter() {
			minutes = 0
		}
		if minutes < d.mins {
			minutes = floor5(minutes)
		}
		d.owner, d.phase, d.host = byB, planner.Recovering, r
		d.out = plan{kind: d.name(minutes, 61), effort: planner.Easy, minutes: minutes}
		why := WhyBAfter
		if minutes < shortestRide {
			d.out, why = plan{}, WhyBRest
		}
		d.because(note{code: why, race: r})
		d.noteFacts()
	}
	if tires && !h.through {
		h.easeLong()
		return
	}
	if d := c.at(r.Last() + 2); r.Minutes() >= 30 && endedIll(c.facts, r, illNear) && c.hardAfter(d) {
		h.easySecond(d)
	}
	if r.Minutes() >= 30 && !h.through && endedIll(c.facts, r, illNear) {
		c.returnAfterIll(r, byB)
	}
	if d := c.at(r.Last() + 3); r.Minutes() >= longRace && !h.through && c.hardAfter(d) {
		c.smaller(d, twoThirds, note{code: WhyReturnSet, race: r})
		d.owner, d.phase, d.host = byB, planner.Recovering, r
	}
	if d := c.at(r.Last() + 2); !tiresB(r) && !h.through && r.Minutes() >= briefRace && c.hardAfter(d) {
		c.smaller(d, threeQuarters, note{code: WhyReturnSet, race: r})
		d.owner, d.phase, d.host = byB, planner.Recovering, r
	}
	if d := c.at(r.Last() + 2); d != nil && tiresB(r) && d.owner < byB && d.race == nil && d.kind == hard && d.ridden() {
		d.owner, d.phase, d.host = byB, planner.Recovering, r
		if h.through && r.Minutes() < longRace && !d.ban.is() && !d.lost() && !c.anotherRace(d) {
			c.smaller(d, threeQuarters, note{code: WhyReturnSet, race: r})
			return
		}
		h.easySecond(d)
	}
}

// easySecond leaves half of a hard second day after the race, easy.
func (h *halfWeek) easySecond(d *day) {
	minutes := min(d.mins, max(45, floor5(d.mins/2)), d.most())
	d.owner, d.phase, d.host = byB, planner.Recovering, h.race
	d.out = plan{kind: planner.Endurance, effort: planner.Easy, minutes: minutes}
	if minutes < shortestRide {
		d.out = plan{}
	}
	d.because(note{code: WhyBAfterEasy, race: h.race})
	d.noteFacts()
}

// shortenHugeLong leaves five sixths of a very long ride two or three days after a race of
// two hours and more, two thirds after three and a half.
func (h *halfWeek) shortenHugeLong() {
	c, r := h.c, h.race
	part := 5.0 / 6
	if total(r) >= eventHuge {
		part = 0.65
	}
	for i := 2; i <= 3 && r.Minutes() >= 120 && !h.through; i++ {
		d := c.at(r.Last().AddDays(i))
		if !c.openAfter(d) || d.kind != long || d.mins < hugeLong {
			continue
		}
		d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*part), d.most())}
		d.owner, d.phase, d.host = byB, planner.Recovering, r
		d.because(note{code: WhyReturnLong, race: r})
	}
}

// restsAfter reports a race after which D+1 is free: of six hours and more, from five on where
// the rider was ill or it is half as long again as any usual ride.
func (h *halfWeek) restsAfter() bool {
	c, r := h.c, h.race
	return !h.through && (total(r) >= dayLong || total(r) >= hugeB && (2*total(r) >= 3*c.longestRide(r.Date-1) || endedIll(c.facts, r, illNear)))
}

// total is the time of all stages of a race, in minutes.
func total(r *planner.Race) int { return r.Minutes() * r.Days }

// minutesAfter is how long the ride of D+1 may be. Nothing is to change after a race that costs little.
func (h *halfWeek) minutesAfter(d *day) (minutes int, changes bool) {
	c, r := h.c, h.race
	minutes = d.mins
	if d.kind != recovery {
		minutes = d.mins / 2
	}
	switch m := total(r); {
	case m >= 180 && h.through:
		minutes = min(minutes, 90)
	case m >= 180:
		minutes = min(minutes, 45)
	case m >= 120 && h.through && d.kind == long:
		return neatFloor(d.mins * 2 / 3), true // most of the long ride stays
	case m >= 120:
		minutes = min(minutes, 60)
	case m < shortRace && d.kind != hard && h.through:
		return 0, false // as usual
	case m < 20 && d.kind != hard:
		return 0, false // costs nothing
	case m < shortRace && r.Evening() && (d.kind == long || d.mins > 60):
		minutes = max(d.mins/2, min(d.mins, 60))
	case m < 45 && d.kind == long:
		minutes = neatFloor(d.mins * 5 / 6)
	case m < shortRace && d.kind == long:
		minutes = max(neatFloor(d.mins*2/3), min(d.mins, 60))
	case m < shortRace && d.kind != hard:
		minutes = d.mins
	}
	if m := r.Minutes(); r.Evening() && m >= 30 && m < shortRace && !h.through && d.kind != commute && c.hours(r.Date) < longEveFrom {
		most := max(longestSpin, c.ownRecovery(r.Date))
		if d.mins > lateRide && (d.kind == long || c.hours(r.Date) >= lateHours) {
			most = 60
		}
		minutes = min(minutes, min(most, 60))
	}
	own := c.ownRecovery(r.Date)
	if own == 0 && c.hours(r.Date) < 7 {
		own = longestSpin
	}
	if own > 0 && (r.Minutes() >= 60 || r.Minutes() >= 30 && r.Evening()) && d.kind != long && d.kind != recovery && !h.through {
		minutes = min(minutes, max(longestSpin, own)) // no longer than other recovery rides
	}
	if d.kind == commute {
		minutes = max(minutes, min(d.mins, 60)) // the way to work is as long as it is
	}
	return minutes, true
}

// longMoves brings most of a long ride to the steady ride of the day after, where a
// short race took its place.
func (c *calendar) longMoves(r *planner.Race) bool {
	race, d := c.at(r.Date), c.at(r.Last()+1)
	if race == nil || race.kind != long || r.Minutes() >= shortRace || !c.openAfter(d) || d.kind != endurance || d.date < r.Registered {
		return false
	}
	minutes := min(neatFloor(race.mins*3/4), d.mins+60, d.most())
	if minutes <= d.mins {
		return false
	}
	d.out = plan{kind: planner.Endurance, effort: planner.Steady, minutes: minutes}
	if minutes >= realLong {
		d.out.kind = planner.Long
	}
	d.owner, d.phase, d.host = byB, planner.Recovering, r
	d.because(note{code: WhyLongHere, race: r})
	return true
}

// hardAfter reports a usual hard day that nothing has planned.
func (c *calendar) hardAfter(d *day) bool { return c.openAfter(d) && d.kind == hard }

// openAfter reports a ridden day that nothing has planned.
func (c *calendar) openAfter(d *day) bool {
	return d != nil && d.owner == nobody && d.race == nil && d.ridden() && !d.ban.is() && !d.lost() && !c.anotherRace(d)
}

// easeLong plans D+2 to D+4 after a race of 4 h and more: easy, with rides that grow.
func (h *halfWeek) easeLong() {
	most := 60
	if h.c.hours(h.race.Date) >= easeHigh {
		most = easeMost
	}
	for i := 2; i <= 4; i++ {
		d := h.c.at(h.race.Last().AddDays(i))
		if d == nil || d.owner >= byB || d.race != nil || !d.ridden() || d.kind != hard && d.mins <= most {
			continue
		}
		if i == 4 && 2*h.race.Minutes() < 3*h.c.longestRide(h.race.Date-1) && h.race.Emphasis != planner.Important && h.race.Minutes() <= hugeRace && h.c.hardAfter(d) {
			h.c.smaller(d, twoThirds, note{code: WhyReturnSet, race: h.race})
			d.owner, d.phase, d.host = byB, planner.Recovering, h.race
			continue
		}
		minutes := min(d.mins, d.most(), max(most, d.mins*2/3))
		if i == 2 {
			minutes = min(minutes, most)
			if h.race.Minutes() >= dayLong && h.race.Days == 1 {
				minutes = min(minutes, longestSpin)
			}
		}
		d.owner, d.phase, d.host = byB, planner.Recovering, h.race
		if minutes < d.mins {
			minutes = neatFloor(minutes)
		}
		d.out = plan{kind: d.name(minutes, 41), effort: planner.Easy, minutes: minutes}
		if minutes < shortestRide {
			d.out = plan{}
		}
		why := WhyBAfterEasy
		if i > 2 {
			why = WhyBSoon
		}
		d.because(note{code: why, race: h.race})
		d.noteFacts()
		most += 15
	}
	if h.race.Minutes() < hugeRace && h.race.Days == 1 && !h.c.outgrows(h.race) {
		return
	}
	for i, sharp := 5, false; i <= 7; i++ {
		d := h.c.at(h.race.Last().AddDays(i))
		if i <= 6 && h.wholeWeek() && h.c.hardAfter(d) || h.race.Minutes() >= dayAway && h.c.openAfter(d) && (d.kind == hard || d.mins > 120) {
			h.easyWeek(d)
			continue
		}
		if h.c.hardAfter(d) && !sharp {
			h.c.smaller(d, twoThirds, note{code: WhyReturnSet, race: h.race})
			d.owner, d.phase, d.host = byB, planner.Recovering, h.race
			sharp = true
		}
		if !h.c.openAfter(d) || d.kind != long {
			continue
		}
		d.owner, d.phase, d.host = byB, planner.Recovering, h.race
		d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*0.75), d.most())}
		d.because(note{code: WhyReturnLong, race: h.race})
	}
}

// easyWeek keeps D+5 to D+7 after a race of eight hours and more easy, and a long ride short.
func (h *halfWeek) easyWeek(d *day) {
	d.owner, d.phase, d.host = byB, planner.Recovering, h.race
	if d.kind == long {
		d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*0.6), d.most())}
		d.because(note{code: WhyReturnLong, race: h.race})
		return
	}
	minutes := min(d.mins, d.most(), max(60, neatFloor(d.mins*55/100)))
	d.out = plan{kind: d.name(minutes, 41), effort: planner.Easy, minutes: minutes}
	d.because(note{code: WhyBSoon, race: h.race})
	d.noteFacts()
}

// returnAfterIll plans D+3 to D+7 where an illness ended in the two weeks before the
// race: smaller sets first, and a shorter long ride.
func (c *calendar) returnAfterIll(r *planner.Race, by owner) {
	shares := []int{twoThirds, threeQuarters}
	for i := 3; i <= 7; i++ {
		d := c.at(r.Last().AddDays(i))
		switch {
		case c.hardAfter(d) && len(shares) > 0:
			c.smaller(d, shares[0], note{code: WhyReturnSet, race: r})
			shares = shares[1:]
		case c.openAfter(d) && d.kind == long:
			d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*0.8), d.most())}
			d.because(note{code: WhyReturnLong, race: r})
		default:
			continue
		}
		d.owner, d.phase, d.host = by, planner.Recovering, r
	}
}

// wholeWeek reports a race that is most of the rider's weekly hours: nothing is hard on the
// six days after it.
func (h *halfWeek) wholeWeek() bool {
	return !h.through && 5*total(h.race) >= 4*h.c.facts.WeekOn(h.race.Date-1).RideMinutes()
}
