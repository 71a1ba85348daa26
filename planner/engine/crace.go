package engine

import "musette/planner"

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
	gave := race.kind == hard
	for _, t := range [2]planner.Date{r.Date - 1, r.Last() + 1} {
		d := c.at(t)
		if d == nil || d.kind != hard || !d.ridden() || d.owner >= byC || d.race != nil || t < r.Registered {
			continue
		}
		code := WhyCGives
		if gave {
			code = WhyCMovedAway
		}
		d.out = plan{kind: planner.Endurance, effort: planner.Easy, minutes: min(d.mins, d.most())}
		d.owner, d.host = byC, r
		d.because(note{code: code, race: r})
		if gave {
			c.moveOn(d, r)
		}
		gave = true
	}
	c.afterThrough(r)
}

// moveOn brings a second hard session to one of the nearest three days away from the race.
func (c *calendar) moveOn(from *day, r *planner.Race) {
	step := 1
	if from.date < r.Date {
		step = -1
	}
	for i := 1; i <= 3; i++ {
		d := c.at(from.date.AddDays(step * i))
		if d == nil || d.owner >= byC || d.race != nil || d.kind != endurance || min(d.mins, d.most()) <= 60 || !d.ridden() || d.ban.is() || c.touches(d) || d.date < r.Registered {
			continue
		}
		minutes := min(d.mins, from.mins, d.most())
		if from.set.least(forcedFrame) > minutes {
			continue
		}
		d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: from.set}
		d.owner, d.host = byC, r
		d.because(note{code: WhyCMovedHere, race: r, day: from.date})
		return
	}
}

// afterThrough eases the days after a long C race.
func (c *calendar) afterThrough(r *planner.Race) {
	ease := func(t planner.Date, most int, code Code) {
		d := c.at(t)
		if d == nil || d.owner > byC || d.race != nil || !d.ridden() || t < r.Registered {
			return
		}
		if d.kind == recovery {
			most = 60
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
		d.out = plan{kind: d.name(minutes, 41), effort: planner.Easy, minutes: minutes}
		d.because(note{code: code, race: r})
		d.noteFacts()
	}
	if r.Minutes() >= 180 {
		ease(r.Last()+1, 45, WhyCAfter)
	}
	if r.Minutes() >= 300 {
		ease(r.Last()+2, 60, WhyCAfter)
		ease(r.Date-1, 75, WhyCBefore)
	}
}
