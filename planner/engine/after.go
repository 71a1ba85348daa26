package engine

import (
	"math"

	"musette/planner"
)

// afterRace is what follows an A race.
type afterRace struct {
	race      *planner.Race
	firstHard planner.Date
	twoSteps  bool
}

const (
	mostEasyDays = 8  // the first hard day is at most so many days after a race
	shortRace    = 90 // minutes; after less the usual easy days are back at once
	growingDays  = 4  // days after a race on which rides grow from little
	backInFull   = 9  // days after a race from which on nothing is reduced
)

// boundAfter bounds the days after an A race: nothing hard until the first hard
// day, free at first, then rides that grow.
func (c *calendar) boundAfter(r *planner.Race) afterRace {
	hours := float64(r.Minutes()) / 60
	week, single := c.hours(r.Date), c.hardDays(r.Date) <= 1
	wait := RecoveryDays(c.facts, r) + 1
	a := afterRace{race: r, firstHard: r.Last().AddDays(wait), twoSteps: hours >= 3 || r.Days > 1}
	rest := c.restAfter(r, hours, week, single)
	k := 0
	for i := 1; i < wait; i++ {
		d := c.at(r.Last().AddDays(i))
		if d == nil || d.race != nil {
			continue
		}
		why := note{code: noteAfterEasy, race: r}
		if i <= rest {
			d.bound(0, note{code: noteAfterRest, race: r})
			continue
		}
		most := 40 + (10+week)*float64(k)
		if hours > 5 {
			most *= 0.75
		}
		switch {
		case r.Minutes() < shortRace && r.Days == 1 && i > 1:
			most = noLimit
		case i > growingDays:
			most = math.Max(60, float64(d.mins)*0.75)
		}
		if d.mins > 0 {
			k++
		}
		d.bound(max(30, floor5(int(most+2.5))), why)
	}
	return a
}

// RecoveryDays is how many days after a race nothing is hard: after an A race by
// its length, after others one.
func RecoveryDays(f *planner.Facts, r *planner.Race) int {
	if r.Priority != planner.PriorityA {
		return 1
	}
	wait := roundHalfUp(float64(r.Minutes()) / 60)
	switch {
	case r.Minutes() < 180:
		wait = max(wait+2, 3)
	default: // the return is in two steps
		wait = min(wait+1, mostEasyDays)
	}
	if r.Minutes() >= shortRace && f.WeekOn(r.Date-1).HardDays() <= 1 {
		wait = min(wait+1, mostEasyDays)
	}
	if r.Days > 1 {
		wait = mostEasyDays
	}
	return wait - 1
}

// restAfter is how many days after a race are free.
func (c *calendar) restAfter(r *planner.Race, hours, week float64, single bool) int {
	second := c.at(r.Last() + 2)
	switch {
	case hours > 8:
		return 2
	case r.Days > 1:
		return 1
	case single && hours >= 2:
		return 1
	case hours < 3, week >= 15, week < 5 && second != nil && second.mins == 0:
		return 0
	}
	return 1
}

// planAfter plans the days after an A race that no window holds.
func (c *calendar) planAfter(a afterRace) {
	for t := a.race.Last() + 1; t < a.firstHard; t++ {
		d := c.at(t)
		if d == nil || d.owner >= byAfter {
			continue
		}
		d.owner, d.phase, d.host = byAfter, planner.Recovering, a.race
		c.easeWithin(d)
	}
	if a.twoSteps {
		c.returnInSteps(a)
	}
}

// easeWithin makes a day easy and as long as its bounds allow.
func (c *calendar) easeWithin(d *day) {
	minutes := min(d.mins, d.cap, d.most())
	if minutes < d.mins {
		minutes = floor5(minutes)
	}
	if minutes < shortestRide {
		minutes = 0
	}
	d.because(d.note)
	if d.mins == 0 {
		d.out = plan{}
		return
	}
	d.out = plan{kind: d.name(minutes, 41), effort: planner.Easy, minutes: minutes}
	if minutes == 0 {
		d.out = plan{}
	}
	d.noteFacts()
}

// noteFacts puts what the day's own facts forbid before its other reasons.
func (d *day) noteFacts() {
	switch {
	case d.busy && d.away && d.mins > 0:
		d.because(note{code: noteAway})
	case d.only && d.mins > 0:
		d.because(note{code: noteTravel})
	case d.limit < min(d.mins, d.cap):
		d.because(append([]note{{code: noteLimit, n: d.limit}}, d.why...)...)
	}
}

// returnInSteps shortens the first hard day after a long race and the long rides
// up to the first long day.
func (c *calendar) returnInSteps(a afterRace) {
	hardLeft, longLeft := true, true
	for t := a.firstHard; t <= a.race.Last().AddDays(backInFull); t++ {
		d := c.at(t)
		if d == nil || d.race != nil || d.owner >= byAfter {
			continue
		}
		switch {
		case d.kind == hard && hardLeft && !d.ban.is() && d.ridden():
			hardLeft = false
			set := d.set.kept(twoThirds)
			minutes := max(round5(float64(d.mins)*0.75), ceil5(set.least(frame)))
			d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: min(minutes, d.mins), set: set}
			d.owner, d.host, d.phase = byAfter, a.race, planner.Recovering
			d.because(note{code: noteReturnSet, race: a.race})
		case d.mins > 120 && longLeft && d.ridden() && d.kind != hard:
			d.out = plan{kind: kindOf(d.kind), effort: planner.Steady, minutes: round5(float64(d.mins) * 0.75)}
			d.owner, d.host, d.phase = byAfter, a.race, planner.Recovering
			d.because(note{code: noteReturnLong, race: a.race})
			longLeft = d.kind != long
		}
	}
}

func kindOf(k rideKind) planner.Kind {
	return [...]planner.Kind{planner.Rest, planner.Recovery, planner.Commute, planner.Endurance, planner.Long, planner.Intervals}[k]
}
