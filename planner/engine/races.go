package engine

import (
	"slices"

	"musette/planner"
)

// placeRaces gives every race its days, the higher right first; of a race that
// loses days to another only the rest is ridden.
func (c *calendar) placeRaces() {
	all := slices.Clone(c.facts.Races)
	c.roles = make([]planner.RaceRole, len(all))
	order := make([]*planner.Race, len(all))
	for i := range all {
		c.roles[i].Race, order[i] = &all[i], &all[i]
	}
	slices.SortStableFunc(order, func(a, b *planner.Race) int {
		if a.Priority != b.Priority {
			return int(a.Priority) - int(b.Priority)
		}
		return int(a.Date - b.Date)
	})
	for _, r := range order {
		if r.Last() < c.first || r.Date > c.last() {
			c.races = append(c.races, r)
			continue
		}
		c.placeRace(r)
	}
	slices.SortStableFunc(c.races, func(a, b *planner.Race) int { return int(a.Date - b.Date) })
}

func (c *calendar) placeRace(r *planner.Race) {
	var first, last planner.Date
	var other *planner.Race
	for t := r.Date; t <= r.Last(); t++ {
		d := c.at(t)
		if d == nil {
			continue
		}
		if d.race != nil {
			other = d.race
			continue
		}
		if first.IsZero() {
			first = t
		}
		last = t
		if t < c.from && (r.Registered > t || d.owner == settled && !anyHard(d.out.sessions)) {
			continue // it was over when the race became known, or was not ridden
		}
		d.race, d.host, d.phase = r, r, planner.RaceDay
		d.owner = settled
		d.out = plan{sessions: []planner.Session{{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: int16(r.MinutesOn(t))}}}
		d.because(note{code: WhyRace, race: r})
	}
	if other != nil && r.Last() >= c.today {
		c.warn(Warning{Code: WarnSameDay, Race: r, Other: other})
	}
	if first.IsZero() {
		c.play(r, planner.Outranked, other)
		return
	}
	if first != r.Date || last != r.Last() {
		r.Date, r.Days = first, first.DaysUntil(last)+1
		r.Start = ""
	}
	c.races = append(c.races, r)
}

// play records how a race is planned.
func (c *calendar) play(race *planner.Race, role planner.Role, host *planner.Race) {
	for i := range c.roles {
		if c.roles[i].Race == race {
			c.roles[i].Role, c.roles[i].Host = role, host
		}
	}
}

// goals are the A races by date.
func (c *calendar) goals() []*planner.Race {
	var out []*planner.Race
	for _, r := range c.races {
		if r.Priority == planner.PriorityA {
			out = append(out, r)
		}
	}
	return out
}

// inside is the A race in whose taper a race lies, nil for none.
func (c *calendar) inside(r *planner.Race) *planner.Race {
	for _, w := range c.wins {
		if r != w.race && r.Date >= w.start() && r.Date < w.race.Date {
			return w.race
		}
	}
	return nil
}

// recovering is the A race in whose recovery days a race begins, nil for none.
func (c *calendar) recovering(r *planner.Race) *planner.Race {
	for _, other := range c.races {
		if other != r && other.Priority == planner.PriorityA && r.Date > other.Last() && r.Date <= other.Last().AddDays(RecoveryDays(c.facts, other)) {
			return other
		}
	}
	return nil
}

// belongs is the race that a day is planned for, nil on ordinary days.
func (d *day) belongs() *planner.Race {
	if d.race != nil {
		return d.race
	}
	return d.host
}

// trainThrough plans the days around a C race: it takes the place of one hard
// session, and nothing else changes but after long ones.
func (c *calendar) trainThrough(r *planner.Race) {
	if host := c.inside(r); host != nil {
		c.play(r, planner.InsideTaper, host)
		return
	}
	if host := c.recovering(r); host != nil {
		c.play(r, planner.InRecovery, host)
	} else {
		c.play(r, planner.TrainedThrough, nil)
	}
	race := c.at(r.Date)
	if race == nil {
		return
	}
	if end, ok := c.blockBefore(r); ok {
		c.easeAfterBlock(r, end)
		c.planAfterBlock(r, end, byC)
	}
	c.smallerSecond(r)
	eve, next := c.giver(r.Date-1, r), c.giver(r.Last()+1, r)
	switch {
	case race.kind == hard && eve != nil && next != nil:
		c.give(eve, r, WhyCMovedAway)
		c.moveOn(eve, r)
		c.give(next, r, WhyCMovedAway)
		c.moveOn(next, r)
	case eve != nil && next != nil:
		c.give(next, r, WhyCMovedAway)
		moved := c.moveOn(next, r) // the race takes the eve's place
		if moved || r.Minutes() <= shortRace || c.hours(r.Date) < fewHours {
			c.give(eve, r, WhyCGives)
		}
		if r.Minutes() <= shortRace || !moved && c.hours(r.Date) < fewHours {
			c.wake(eve, r)
		}
	case race.kind == hard && eve != nil:
		c.give(eve, r, WhyCMovedAway)
		c.moveOn(eve, r)
	case race.kind == hard && next != nil:
		c.give(next, r, WhyCMovedAway)
		c.moveOn(next, r)
	case eve != nil:
		c.give(eve, r, WhyCGives)
		c.wake(eve, r)
	case next != nil:
		c.give(next, r, WhyCGives)
	}
	c.afterThrough(r)
}

// smallerSecond leaves two thirds of a hard D-2 before a race under 45 min where the eve is
// easy and no lost days went before.
func (c *calendar) smallerSecond(r *planner.Race) {
	d := c.at(r.Date - 2)
	if r.Minutes() >= briefRace || !c.hardAfter(d) || d.date < r.Registered || c.giver(r.Date-1, r) != nil || c.lostBefore(d, 2) {
		return
	}
	c.smaller(d, twoThirds, note{code: WhyBShort, race: r})
	d.owner, d.phase, d.host = byC, planner.Normal, r
}

// fewHours is how many hours a week riders ride less than for whom a C race
// between two hard days is enough.
const fewHours = 9

// bigPart is the part of a week's riding from which on a C race of 3 h and more
// takes the hard session two days later as well.
const bigPart = 0.3

// longEveC is how long a ride is at least, in minutes, that is too long on the eve of any race.
const longEveC = 150

// outgrownNext is how long D+3 of such a race is at most, in minutes.
const outgrownNext = 75

// outgrows reports a race of tiringRace and more that is longer than any ride of the
// rider's week.
func (c *calendar) outgrows(r *planner.Race) bool {
	return r.Minutes() >= tiringRace && r.Minutes() > c.longestRide(r.Date-1)
}

// longestRide is the longest usual ride of the week, in minutes.
func (c *calendar) longestRide(t planner.Date) int {
	week, longest := c.facts.WeekOn(t), 0
	for i := range week {
		if _, minutes, _ := usualRide(week[i].Sessions); !week[i].Busy {
			longest = max(longest, minutes)
		}
	}
	return longest
}

// giver is a usual hard day beside a C race that can still give way.
func (c *calendar) giver(t planner.Date, r *planner.Race) *day {
	d := c.at(t)
	if d == nil || d.kind != hard || !d.ridden() || d.owner >= byC || d.race != nil || t < r.Registered {
		return nil
	}
	return d
}

// give makes a hard day beside a C race easy.
func (c *calendar) give(d *day, r *planner.Race, why Code) {
	minutes, effort := min(d.mins, d.most()), planner.Steady
	if d.date > r.Date {
		minutes, effort = min(minutes, max(neatFloor(d.mins*4/5), min(d.mins, 60))), planner.Easy
	}
	d.out = plan{kind: planner.Endurance, effort: effort, minutes: minutes}
	if d.most() < shortestRide {
		d.out = plan{}
	}
	d.owner, d.host = byC, r
	d.because(note{code: why, race: r})
}

// wake makes openers of a hard eve that gave way: something brisk stays in it.
func (c *calendar) wake(eve *day, r *planner.Race) {
	minutes := min(max(floor5(eve.mins*2/3), min(eve.mins, leastWake)), mostWake, eve.most())
	if minutes < leastOpeners || eve.only {
		return
	}
	eve.out = plan{kind: planner.Openers, effort: planner.OpenersEffort, minutes: floor5(minutes)}
	eve.because(note{code: WhyCOpeners, race: r})
}

// moveOn brings a second hard session to one of the nearest three days away from the race.
func (c *calendar) moveOn(from *day, r *planner.Race) bool {
	step := 1
	if from.date < r.Date {
		step = -1
	}
	for i := 1; i <= 3; i++ {
		d := c.at(from.date.AddDays(step * i))
		if d == nil || d.owner >= byC || d.race != nil || d.kind != endurance || min(d.mins, d.most()) <= 60 || !d.ridden() || d.ban.is() || c.touches(d) || d.date < r.Registered {
			continue
		}
		minutes := min(d.mins, max(from.mins, 90), d.most())
		if from.set.least(forcedFrame) > minutes {
			continue
		}
		d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: from.set}
		d.owner, d.host = byC, r
		for t := r.Last() + 1; t <= d.date; t++ {
			if u := c.at(t); u.phase == planner.Normal {
				u.phase, u.host = planner.Recovering, r
			}
		}
		d.because(note{code: WhyCMovedHere, race: r, day: from.date})
		return true
	}
	return false
}

// afterThrough eases the days after a long C race.
func (c *calendar) afterThrough(r *planner.Race) {
	ease := func(t planner.Date, most int, code Code) {
		d := c.at(t)
		if d == nil || d.owner > byC || d.race != nil || !d.ridden() || t < r.Registered {
			return
		}
		if d.kind == recovery {
			most = max(most, 60)
		}
		below := 41
		if t == r.Last()+1 {
			below = spinLonger
		}
		if d.mins <= most && d.kind != hard && d.owner != byC {
			return
		}
		minutes := min(d.mins, most, d.most())
		if minutes < d.mins {
			minutes = floor5(minutes)
		}
		d.owner, d.phase, d.host = byC, planner.Recovering, r
		if t < r.Date {
			d.phase = planner.Tapering
		}
		d.out = plan{kind: d.name(minutes, below), effort: planner.Easy, minutes: minutes}
		if minutes < shortestRide {
			d.out = plan{}
		}
		d.because(note{code: code, race: r})
		d.noteFacts()
	}
	if d := c.at(r.Last() + 1); d != nil && d.kind == endurance && r.Evening() && r.Minutes() >= briefRace && c.hours(r.Date) < 7 {
		ease(r.Last()+1, longestSpin, WhyCEvening)
	}
	c.easeBefore(r)
	c.longMoves(r)
	if d := c.at(r.Last() + 1); d != nil && d.kind == long && r.Minutes() >= longEnough && r.Minutes() < longRace {
		most, why := max(60, d.mins*6/10), WhyCAfter
		if c.facts.WeekOn(r.Date-1).Rides() <= 3 && r.Minutes() >= c.longestRide(r.Date-1) {
			most, why = 0, WhyCRest // the race was the long ride of the week
		}
		ease(r.Last()+1, most, why)
	}
	if r.Minutes() >= 180 {
		most := 45
		if d := c.at(r.Last() + 1); d != nil {
			share := 30
			if r.Minutes() < tiringRace && d.kind != hard {
				share = 60
			}
			if !c.outgrows(r) {
				most = max(most, floor5(d.mins*share/100))
			}
		}
		ease(r.Last()+1, most, WhyCAfter)
	}
	if d := c.at(r.Date - 1); d != nil && (d.kind == long || d.kind == endurance) && (d.mins >= realLong && r.Minutes() >= 120 || d.mins >= longEveC) && r.Minutes() < hugeRace {
		ease(r.Date-1, max(60, d.mins*6/10), WhyCBefore)
	}
	if d := c.at(r.Last() + 2); d != nil && d.kind == hard && r.Minutes() >= 180 && float64(r.Minutes()) >= bigPart*60*c.hours(r.Date) {
		ease(r.Last()+2, 60, WhyCAfter)
	}
	if c.outgrows(r) {
		for i, most := range [...]int{60, outgrownNext} {
			if d := c.at(r.Last().AddDays(2 + i)); d != nil && d.kind == hard {
				ease(d.date, most, WhyCAfter)
			}
		}
		if d := c.at(r.Date - 2); d != nil && d.kind == hard && r.Minutes() >= hugeRace {
			ease(r.Date-2, max(60, d.mins*3/4), WhyCBefore)
		}
		if eve := c.at(r.Date - 1); eve == nil || eve.out.kind != planner.Openers || r.Minutes() >= hugeRace {
			ease(r.Date-1, 60, WhyCBefore)
		}
	}
	if r.Minutes() >= tiringRace {
		c.returnFromThrough(r)
	}
	if r.Minutes() >= 300 {
		ease(r.Last()+2, 60, WhyCAfter)
		if !c.outgrows(r) {
			ease(r.Date-1, 75, WhyCBefore)
		}
	}
}

// returnFromThrough leaves two thirds of the first hard day up to three days after a
// long C race.
func (c *calendar) returnFromThrough(r *planner.Race) {
	for t := r.Last() + 2; t <= r.Last()+3; t++ {
		if d := c.at(t); c.hardAfter(d) {
			c.smaller(d, twoThirds, note{code: WhyReturnSet, race: r})
			d.owner, d.phase, d.host = byC, planner.Recovering, r
			return
		}
	}
}

// easeBefore leaves three quarters of a hard D-2 before races of many hours. Shorter ones are
// training as they are.
func (c *calendar) easeBefore(r *planner.Race) {
	d, eve := c.at(r.Date-2), c.at(r.Date-1)
	if r.Minutes() < tiringRace || !c.hardAfter(d) || d.date < r.Registered || eve.isHard() {
		return
	}
	set := d.set.kept(threeQuarters)
	if set == d.set {
		return
	}
	minutes := max(min(d.mins, ceil5(set.least(forcedFrame))), neatFloor(d.mins*85/100))
	d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: min(minutes, d.most()), set: set}
	d.owner, d.host, d.phase = byC, r, planner.Tapering
	d.because(note{code: WhyCShort, race: r})
	d.noteFacts()
}
