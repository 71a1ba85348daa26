package engine

import "musette/planner"

// A block counts for a taper that follows it from so many per cent and days on.
const (
	blockPercent = 10
	blockLength  = 7
	blockReach   = 21 // days before a race in which it ends
	blockYields  = 7  // days before a race from which on it gives way
	blockEasy    = 3  // easy days after it
	blockThird   = 90 // minutes of the third of them
)

// layBlocks gives the days of told overload blocks their minutes; recovery rides
// and repetitions stay as they are. Near an A race a block yields.
func (c *calendar) layBlocks() {
	for _, b := range c.facts.Blocks {
		for t := max(b.From, c.first); t <= min(b.To, c.last()); t++ {
			d := c.at(t)
			if d.mins == 0 || d.phase == planner.Overload || c.goalWithin(t, blockYields) {
				continue
			}
			d.phase = planner.Overload
			if d.kind == recovery || d.kind == commute {
				continue
			}
			d.mins = round5(float64(d.mins) * float64(100+b.Percent) / 100)
			d.because(note{code: WhyBlock, n: b.Percent})
		}
	}
}

func (c *calendar) goalWithin(t planner.Date, n int) bool {
	for i := range c.facts.Races {
		r := &c.facts.Races[i]
		if left := t.DaysUntil(r.Date); r.Priority == planner.PriorityA && left > 0 && left <= n {
			return true
		}
	}
	return false
}

// blockBefore is the last day of an overload block that ends in the three weeks
// before an A race.
func (c *calendar) blockBefore(r *planner.Race) (end planner.Date, ok bool) {
	from := r.Date.AddDays(-blockReach)
	for _, b := range c.facts.Blocks {
		last := min(b.To, r.Date.AddDays(-blockYields-1))
		if b.Percent >= blockPercent && b.From.DaysUntil(last)+1 >= blockLength && last >= from && last < r.Date && last > end {
			end, ok = last, true
		}
	}
	return end, ok
}

// easeAfterBlock bounds the first days after the block.
func (c *calendar) easeAfterBlock(r *planner.Race, end planner.Date) {
	for i := 1; i <= blockEasy; i++ {
		d := c.at(end.AddDays(i))
		if d == nil || d.date >= r.Date {
			return
		}
		most := 0
		switch i {
		case 2:
			most = 45
		case 3:
			most = max(60, min(blockThird, d.mins*2/5))
		}
		d.bound(most, note{code: WhyBlockAfter, race: r})
	}
}

// absorbBlock plans easy days after a block that ends in the three weeks before a B race
// that no taper holds, and a smaller first set.
func (h *halfWeek) absorbBlock() {
	c, r := h.c, h.race
	end, ok := c.blockBefore(r)
	if !ok || c.inside(r) != nil {
		return
	}
	c.easeAfterBlock(r, end)
	c.planAfterBlock(r, end, byB)
	for i := blockEasy + 1; i <= 2*blockEasy && c.hardDays(r.Date) > 1; i++ {
		if d := c.at(end.AddDays(i)); c.hardAfter(d) && d.date < r.Date-6 && d.date >= r.Registered {
			c.smaller(d, twoThirds, note{code: WhyBlockSet, race: r})
			d.owner, d.phase, d.host = byB, planner.Tapering, r
			return
		}
	}
}

// planAfterBlock plans the easy days after a block that no taper holds.
func (c *calendar) planAfterBlock(r *planner.Race, end planner.Date, by owner) {
	for i := 1; i <= blockEasy; i++ {
		if d := c.at(end.AddDays(i)); d != nil && d.owner == nobody && d.race == nil && d.mins > 0 && d.date >= r.Registered {
			d.owner, d.phase, d.host = by, planner.Tapering, r
			c.easeWithin(d)
		}
	}
}

// smallerAfterBlock leaves two thirds of the first hard day after a block's easy days where
// the taper begins later.
func (c *calendar) smallerAfterBlock(r *planner.Race) {
	end, ok := c.blockBefore(r)
	for i := blockEasy + 1; i <= 2*blockEasy && ok; i++ {
		if d := c.at(end.AddDays(i)); c.hardAfter(d) && d.date < r.Date && d.date >= r.Registered {
			c.smaller(d, twoThirds, note{code: WhyBlockSet, race: r})
			d.owner, d.phase, d.host = byAfter, planner.Tapering, r
			return
		}
	}
}

// bound says that a day is not hard and at most so long, and why.
func (d *day) bound(most int, why note) {
	if !d.ban.is() {
		d.ban = cause{code: why.code, race: why.race, day: why.day}
	}
	if most < d.cap {
		d.cap, d.note = most, why
	}
}

// neatMinutes is the nearest length that riders like to read: fives up to an hour,
// tens and quarters of an hour above.
func neatMinutes(minutes float64) int {
	m := round5(minutes)
	if m <= 60 || m%10 == 0 || m%15 == 0 {
		return m
	}
	if float64(m) > minutes {
		return m - 5
	}
	return m + 5
}

// neatFloor is the longest such length that is not longer.
func neatFloor(minutes int) int {
	m := floor5(minutes)
	if m > 60 && m%10 != 0 && m%15 != 0 {
		m -= 5
	}
	return m
}

func round5(minutes float64) int { return int(minutes/5+0.5) * 5 }

func floor5(minutes int) int { return minutes / 5 * 5 }

func ceil5(minutes int) int { return (minutes + 4) / 5 * 5 }
