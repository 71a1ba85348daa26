package planner

import "slices"

// overloadPercent is the rise over usual load from which a stretch is an overload block.
const overloadPercent = 10

// planBlocks gives the days of told overload blocks that no race claims their
// usual minutes times (1 + percent/100), same sets. From D-7 of an A race on a block yields.
func (c *calendar) planBlocks() {
	for _, b := range c.facts.Blocks {
		for d := max(b.From, c.first); d <= min(b.To, c.first.AddDays(len(c.slots)-1)); d++ {
			s := c.at(d)
			if s.claim != unclaimed || c.goalWithin(d, 7) {
				continue
			}
			s.claim, s.Phase = claimBlock, Overload
			c.setRaised(s, b.Percent)
		}
	}
}

// goalWithin reports whether an A race starts within n days after d.
func (c *calendar) goalWithin(d Date, n int) bool {
	for _, r := range c.races {
		if left := d.DaysUntil(r.Date); r.Priority == PriorityA && left > 0 && left <= n {
			return true
		}
	}
	return false
}

func (c *calendar) setRaised(s *slot, percent int) {
	if !s.usuallyRidden() {
		return
	}
	from := len(c.arena)
	c.arena = append(c.arena, s.Usual...)
	raised := c.arena[from:len(c.arena):len(c.arena)]
	for i := range raised {
		if raised[i].Kind.IsRide() {
			raised[i].Minutes = int16(round5((int(raised[i].Minutes)*(100+percent) + 50) / 100))
		}
	}
	s.Sessions = raised
	s.note(noteBlock, percent)
}

// loggedBlocks finds stretches of 7 days or more in the log whose load
// (minutes x session RPE, Foster 1998) is 110 % of usual or more.
func (f *Facts) loggedBlocks() []Block {
	if len(f.Done) < 3 {
		return nil
	}
	first, last := f.Done[0].Date, f.Done[0].Date
	for _, r := range f.Done {
		first, last = min(first, r.Date), max(last, r.Date)
	}
	n := first.DaysUntil(last) + 1
	if n < 7 {
		return nil
	}
	load := make([]float64, n)
	for _, r := range f.Done {
		usual := f.weekOn(r.Date)[r.Date.Weekday()].Sessions
		load[first.DaysUntil(r.Date)] += float64(r.Minutes) * ratingOf(r, usual)
	}
	var blocks []Block
	for i := 0; i+7 <= n; i++ {
		done, usual := 0.0, 0.0
		for j := i; j < i+7; j++ {
			done += load[j]
			usual += f.usualLoad(first.AddDays(j))
		}
		if usual == 0 || done < usual*(100+overloadPercent)/100 {
			continue
		}
		from, to := first.AddDays(i), first.AddDays(i+6)
		if k := len(blocks) - 1; k >= 0 && blocks[k].To >= from-1 {
			blocks[k].To = to
		} else {
			blocks = append(blocks, Block{From: from, To: to})
		}
	}
	return slices.Clip(blocks)
}

// ratingOf is the logged RPE, or the default of the day's usual riding.
func ratingOf(r Ride, usual []Session) float64 {
	if r.RPE > 0 {
		return r.RPE
	}
	minutes, load := 0.0, 0.0
	for _, s := range usual {
		if s.Kind.IsRide() {
			minutes += float64(s.Minutes)
			load += float64(s.Minutes) * s.defaultRPE()
		}
	}
	if minutes == 0 {
		return Session{Kind: Other}.defaultRPE()
	}
	return load / minutes
}

// usualLoad is the load of a date in the typical week.
func (f *Facts) usualLoad(d Date) float64 {
	day := f.weekOn(d)[d.Weekday()]
	if day.Busy {
		return 0
	}
	total := 0.0
	for _, s := range day.Sessions {
		if s.Kind.IsRide() {
			total += float64(s.Minutes) * s.defaultRPE()
		}
	}
	return total
}
