package engine

import (
	"math"

	"musette/planner"
)

// Days after an A race. Each class of races has its own: short ones are over the
// day after, long ones (and those of several days) take more than a week.
const (
	shortRace   = 90  // minutes; below, the usual easy days are back on D+2
	briefKept   = 90  // minutes of a ride that stays whole on the day after a race of under 20 min
	longRace    = 180 // from here a day off comes first and the return is in two steps
	hugeRace    = 300 // above, the first weekend is small as well
	mostWait    = 8   // the first hard day is at most so many days after a race of up to 8 h
	dayWait     = 10  // after a longer one
	tiringRace  = 240 // from here the day after is free, and four days grow
	growingDays = 3   // days on which rides grow from little
	illReach    = 21  // days before a race; an illness that ended in them makes its recovery longer
	illWait     = 4   // days longer
	mostIllWait = 9   // the first hard day then
	firstLong   = 5   // days after a race of longEnough; a long ride on them is shorter
	longEnough  = 100 // minutes
	lastLong    = 9   // the last day after a race on which rides are shorter
	lastStage   = 12  // the same after a race of several days, and after 5 to 8 h for riders of manyMinutes
	manyMinutes = 660 // a week, at least
	dayAway     = 480 // minutes; above, the first days are shorter and the return two days longer
	longestSpin = 45  // minutes of a recovery ride, but on the day after a race and where the usual ride is one
	longestHard = 150 // minutes of a hard ride of the return
	steadyAfter = 90  // minutes; shortened rides up to this are easy, longer ones steady
)

func huge(r *planner.Race) bool { return r.Minutes() > hugeRace || r.Days > 1 }

func twoSteps(r *planner.Race) bool { return r.Minutes() >= longRace || r.Days > 1 }

// RecoveryDays is how many days after a race nothing is hard: after an A race by
// its length, after others one.
func RecoveryDays(f *planner.Facts, r *planner.Race) int {
	if r.Priority != planner.PriorityA {
		return 1
	}
	wait := mostWait
	switch m := r.Minutes(); {
	case r.Days > 1:
	case m > dayAway:
		wait = dayWait
	case m < shortRace:
		wait = 3
	case m < longRace:
		wait = 4
	case m < tiringRace:
		wait = 5
	case m < hugeRace:
		wait = 6
	case m <= 400:
		wait = 7
	}
	if r.Minutes() >= shortRace && illBefore(f, r) {
		wait = max(wait, min(wait+illWait, mostIllWait))
	}
	if r.Minutes() >= shortRace && f.WeekOn(r.Date-1).HardDays() <= 1 && wait < mostWait {
		wait++
	}
	return wait - 1
}

// illBefore reports an illness that ended in the three weeks before a race.
func illBefore(f *planner.Facts, r *planner.Race) bool { return endedIll(f, r, illReach) }

// endedIll reports an illness that ended in so many days before a race.
func endedIll(f *planner.Facts, r *planner.Race, days int) bool {
	for _, ill := range f.Troubles() {
		if !ill.Injury && !ill.To.IsZero() && ill.From < r.Date && ill.To >= r.Date.AddDays(-days) {
			return true
		}
	}
	return false
}

// returnDays is how many days after a race can differ from usual.
func returnDays(f *planner.Facts, r *planner.Race) int {
	switch {
	case r.Priority != planner.PriorityA || !twoSteps(r):
		return RecoveryDays(f, r)
	case r.Minutes() > dayAway:
		return dayWait + 1
	case r.Days > 1, r.Minutes() >= hugeRace && r.Minutes() <= dayAway && f.WeekOn(r.Date-1).RideMinutes() >= manyMinutes:
		return lastStage
	case huge(r):
		return lastLong
	case r.Minutes() >= tiringRace:
		return 8
	}
	return 7
}

// afterRace is what follows an A race.
type afterRace struct {
	race      *planner.Race
	firstHard planner.Date
}

// boundAfter bounds the days after an A race: nothing hard until the first hard
// day, free at first, then rides that grow.
func (c *calendar) boundAfter(r *planner.Race) afterRace {
	wait := RecoveryDays(c.facts, r) + 1
	a := afterRace{race: r, firstHard: r.Last().AddDays(wait)}
	rest := c.restAfter(r)
	step := 10 + c.hours(r.Date)
	k := 0
	for i := 1; i < wait; i++ {
		d := c.at(r.Last().AddDays(i))
		if d == nil || d.race != nil {
			continue
		}
		if i <= rest {
			d.bound(0, note{code: WhyAfterRest, race: r})
			continue
		}
		d.bound(mostAfter(r, i, k, step, d), note{code: WhyAfterEasy, race: r})
		if d.mins > 0 {
			k++
		}
	}
	return a
}

// mostAfter is the most minutes of D+i, the k-th ride after a race.
func mostAfter(r *planner.Race, i, k int, step float64, d *day) int {
	most, growing := 40+step*float64(k), growingDays
	if k == 0 && step >= 18 { // 8 h a week
		most = 45
	}
	if huge(r) || r.Minutes() >= tiringRace {
		growing++
	}
	if r.Minutes() > dayAway {
		most *= 0.75
	}
	usual := float64(d.mins)
	switch {
	case r.Minutes() < shortRace && r.Days == 1 && i == 1:
		most = math.Max(45, 0.4*usual)
		switch m := r.Minutes(); {
		case m < 20 && usual <= briefKept: // costs nothing
			most = usual
		case m < 45:
			most = math.Max(45, 0.6*usual)
		}
	case r.Minutes() < shortRace && r.Days == 1 && i > 1:
		most = usual
		if d.kind == hard || i == 2 && usual > 120 {
			most = 0.75 * usual
		}
	case i > growing && huge(r) && d.mins > 120:
		most = 0.55 * usual
		if r.Minutes() > dayAway {
			most = math.Min(most, 150)
		}
	case i > growing:
		most = math.Max(60, 0.75*usual)
	}
	if k == 0 && i >= 3 && r.Minutes() < longRace { // two days of rest went before
		most = math.Max(most, math.Min(60, 0.8*usual))
	}
	return max(30, floor5(int(most+2.5)))
}

// restAfter is how many days after a race are free. A free day of the week that
// follows is rest enough.
func (c *calendar) restAfter(r *planner.Race) int {
	second := c.at(r.Last() + 2)
	switch {
	case r.Minutes() >= 420:
		return 2
	case r.Days > 1:
		return 1
	case r.Minutes() < longRace, r.Minutes() < tiringRace && second != nil && second.mins == 0 && c.facts.WeekOn(r.Date-1).Rides() > 4,
		r.Minutes() < hugeRace && c.hours(r.Date) >= 15:
		return 0
	}
	return 1
}

// planAfter plans the days after an A race that no window holds.
func (c *calendar) planAfter(a afterRace) {
	c.smallerAfterBlock(a.race)
	for t := a.race.Last() + 1; t < a.firstHard; t++ {
		d := c.at(t)
		if d == nil || d.owner >= byAfter {
			continue
		}
		d.owner, d.phase, d.host = byAfter, planner.Recovering, a.race
		c.easeWithin(d)
	}
	for t := a.firstHard; t <= a.race.Last().AddDays(returnDays(c.facts, a.race)); t++ {
		if d := c.at(t); d != nil && d.owner == nobody && d.race == nil {
			d.phase, d.host = planner.Recovering, a.race
		}
	}
}

// easeWithin makes a day easy and as long as its bounds allow.
func (c *calendar) easeWithin(d *day) {
	minutes := min(d.mins, d.cap, d.most())
	if minutes < d.mins {
		minutes = neatFloor(minutes)
	}
	if minutes < shortestRide {
		minutes = 0
	}
	if d.because(d.note); d.note.code == NoReason {
		d.because(note{code: d.ban.code, race: d.ban.race, day: d.ban.day})
	}
	if d.mins == 0 {
		d.out = plan{}
		return
	}
	first := c.raceOn(d.date - 1)
	below := spinLonger
	if !first {
		below = longestSpin + 1
	}
	d.out = plan{kind: d.name(minutes, below), effort: planner.Easy, minutes: minutes}
	if (minutes > steadyAfter || minutes > 60 && minutes == d.mins) && (d.kind == endurance || d.kind == long) && !first {
		d.out.kind, d.out.effort = planner.Endurance, planner.Steady
	}
	if minutes == 0 {
		d.out = plan{}
	}
	d.noteFacts()
}

// raceOn reports a race on a date.
func (c *calendar) raceOn(t planner.Date) bool {
	d := c.at(t)
	return d != nil && d.race != nil
}

// noteFacts puts what the day's own facts forbid before its other reasons.
func (d *day) noteFacts() {
	switch {
	case d.busy && d.away && d.mins > 0:
		d.because(note{code: WhyAway})
	case d.only && d.mins > 0:
		d.because(note{code: WhyTravel})
	case d.limit < min(d.mins, d.cap):
		d.because(append([]note{{code: WhyLimit, n: d.limit}}, d.why...)...)
	}
}

// returnInSteps shortens the first hard day after a long race and the long rides
// up to the first long day.
func (c *calendar) returnInSteps(a afterRace) {
	share, longLeft := twoThirds, true
	for t := a.firstHard; t <= a.race.Last().AddDays(returnDays(c.facts, a.race)); t++ {
		d := c.at(t)
		if d == nil || d.race != nil || d.owner != nobody || !d.ridden() || d.ban.is() || d.lost() || c.besideRace(d) || c.beforeRace(d) {
			continue
		}
		switch {
		case d.kind == hard:
			set := d.set.kept(share)
			share = threeQuarters
			minutes := max(neatMinutes(min(float64(d.mins)*0.85, longestHard)), ceil5(set.least(frame)))
			d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: min(minutes, d.mins, d.most()), set: set}
			d.owner, d.host, d.phase = byAfter, a.race, planner.Recovering
			d.because(note{code: WhyReturnSet, race: a.race})
			c.fitLimit(d)
		case d.mins > 120 && longLeft && (d.kind == long || d.kind == endurance):
			share := 0.85
			switch {
			case huge(a.race):
				share = 0.65
			case a.race.Minutes() >= tiringRace:
				share = 0.7
			}
			d.out = plan{kind: kindOf(d.kind), effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*share), d.most())}
			d.owner, d.host, d.phase = byAfter, a.race, planner.Recovering
			d.because(note{code: WhyReturnLong, race: a.race})
			longLeft = d.kind != long || huge(a.race)
		}
	}
}

// returnAtOnce makes the first hard day after a race of 45 min to three hours smaller, up
// to four days after it (three after a short one without a block or an illness before, six
// after two hours and more), and a long ride that comes soon after.
func (c *calendar) returnAtOnce(a afterRace) {
	c.shortenFirstLong(a.race)
	if a.race.Minutes() < shortRace && endedIll(c.facts, a.race, illNear) {
		c.returnAfterIll(a.race, byAfter)
		return
	}
	until := a.race.Last() + 4
	_, block := c.blockBefore(a.race)
	switch m := a.race.Minutes(); {
	case m >= 120:
		until += 2
	case m < shortRace && !block && !illBefore(c.facts, a.race):
		until--
	}
	for t := a.firstHard; a.race.Minutes() >= briefRace && t <= until; t++ {
		d := c.at(t)
		if !c.hardAfter(d) {
			continue
		}
		c.smaller(d, threeQuarters, note{code: WhyReturnSet, race: a.race})
		d.owner, d.host, d.phase = byAfter, a.race, planner.Recovering
		return
	}
}

// shortenFirstLong leaves most of a long ride up to five days after a race.
func (c *calendar) shortenFirstLong(r *planner.Race) {
	for t := r.Last() + 2; r.Minutes() >= longEnough && t <= r.Last()+firstLong; t++ {
		d := c.at(t)
		if !c.openAfter(d) || d.kind != long {
			continue
		}
		d.out = plan{kind: planner.Long, effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*0.85), d.most())}
		d.owner, d.host, d.phase = byAfter, r, planner.Recovering
		d.because(note{code: WhyReturnLong, race: r})
		return
	}
}

// smaller leaves a share of a hard day's repetitions and three quarters of its minutes;
// with half of them, repetitions are no longer than late in a taper.
func (c *calendar) smaller(d *day, share int, why note) { c.smallerOf(d, d.set, share, why) }

// smallerOf is smaller with a set that may be another day's.
func (c *calendar) smallerOf(d *day, set hardSet, share int, why note) {
	set = set.kept(share)
	part := 0.75
	if share == half {
		part, set = 0.65, set.atMost(longestLate)
	}
	around := frame
	if c.hours(d.date) < 10 {
		around = shortFrame
	}
	minutes := max(neatMinutes(float64(d.mins)*part), ceil5(set.least(around)))
	d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: min(minutes, d.mins, d.most()), set: set}
	d.because(why)
	c.fitLimit(d)
}

func kindOf(k rideKind) planner.Kind {
	return [...]planner.Kind{planner.Rest, planner.Recovery, planner.Commute, planner.Endurance, planner.Long, planner.Intervals}[k]
}
