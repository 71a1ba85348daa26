package planner

import "fmt"

// host is the A race in whose taper or recovery days a race lies, nil where none is.
func (c *calendar) host(r *Race) (goal *Race, role Role) {
	for i := range c.windows {
		if w := &c.windows[i]; r.Date >= w.start() && r.Date < w.race.Date {
			return w.race, InsideTaper
		}
	}
	for _, goal := range c.races {
		if after := goal.Last().DaysUntil(r.Date); goal.Priority == PriorityA && after >= 1 && after <= goal.recoveryDays() {
			return goal, InRecovery
		}
	}
	return nil, History
}

// insideGoal reports whether a race lies in an A race's taper or recovery days,
// and warns where that costs the A race.
func (c *calendar) insideGoal(r *Race) bool {
	goal, role := c.host(r)
	if goal == nil {
		return false
	}
	c.play(r, role, goal)
	left := r.Date.DaysUntil(goal.Date)
	switch {
	case r.Last() < c.plan.Today:
	case role == InRecovery:
		c.warn(ruleInside, r, fmt.Sprintf("%s (%s) lies in the recovery days after %s: it is ridden, but gets no days of its own.", r.Name, r.Priority, goal.Name))
	case left <= 3:
		c.warn(ruleInside, r, fmt.Sprintf("%s (%s) is %s before %s: it is ridden, but the legs will not be fresh for %s. Leave it out or ride it easy.",
			r.Name, r.Priority, days(left), goal.Name, goal.Name))
	case r.minutes() >= 120:
		c.warn(ruleInside, r, fmt.Sprintf("%s (%s, %s) lies inside the taper for %s and counts as one of its hard days; at 2 h or more it costs freshness.",
			r.Name, r.Priority, Duration(r.minutes()), goal.Name))
	}
	return true
}

// planThrough trains through the C races, and B races that lost to a nearer one.
func (c *calendar) planThrough() {
	for _, r := range c.races {
		if r.Priority != PriorityC {
			continue
		}
		if !c.insideGoal(r) {
			c.through = append(c.through, r)
		} else if r.long() {
			c.easeAfter(r)
		}
	}
	for _, r := range c.through {
		c.play(r, TrainedThrough, nil)
		c.rideThrough(r)
		switch {
		case r.Priority == PriorityB:
			c.easeAfterHalf(r)
		case r.long():
			c.easeAfter(r)
		}
	}
}

// rideThrough lets the race take the place of its day's hard session, else of
// the nearest one within two days, the one after on a tie.
func (c *calendar) rideThrough(r *Race) {
	for d := r.Date; d <= r.Last(); d++ {
		if s := c.at(d); s.usuallyHard() {
			return
		}
	}
	for k := 1; k <= 2; k++ {
		for _, d := range [2]Date{r.Last().AddDays(k), r.Date.AddDays(-k)} {
			s := c.at(d)
			if s == nil || !s.usuallyHard() || d < r.Registered {
				continue
			}
			if s.claim <= claimBlock && s.IsHard() {
				c.giveWay(s, r)
			}
			return // where another rule has taken that session, no more gives way
		}
	}
}

// giveWay replaces a day's hard session by the race day's usual ride or rest;
// where the race day is usually hard too, by an easy ride.
func (c *calendar) giveWay(s *slot, r *Race) {
	raceDay := c.at(r.Date)
	hard, _ := hardSession(s.Usual)
	sessions := make([]Session, 0, 4)
	if c.facts.weekOn(r.Date)[r.Date.Weekday()].Busy {
		sessions = append(sessions, recoveryRide(evenMinutes(c.facts.weekOn(s.Date).recoveryLength(), s.usualMinutes())))
	} else if raceDay.usuallyHard() {
		sessions = append(sessions, easyRide(s.Usual, easedMinutes(hard)))
	} else {
		sessions = append(sessions, ridesOf(raceDay.Usual)...)
	}
	for i := range sessions {
		sessions[i].Minutes = int16(round5(int(sessions[i].Minutes)))
	}
	for _, u := range s.Usual {
		if u.Kind == Strength {
			sessions = append(sessions, u)
		}
	}
	s.claim, s.Race = claimC, r
	c.set(s, sessions...)
	s.renote(noteThroughGives)
}

// easeAfter halves the day after a long race that is trained through.
func (c *calendar) easeAfter(r *Race) {
	s := c.at(r.Last() + 1)
	if s == nil || s.off || s.claim > claimC && (s.claim != claimB || s.Phase >= Tapering) {
		return
	}
	rides := ridesOf(s.Sessions)
	if len(rides) == 0 {
		return
	}
	s.claim, s.Race, s.Phase = claimC, r, Recovering
	s.note(noteThroughAfter)
	if onlyKind(rides, Recovery) {
		c.set(s, rides...)
		return
	}
	minutes := min(floor5(s.usualMinutes()/2), floor5(rideMinutes(rides)))
	c.set(s, easyRide(s.Usual, max(5, minutes)))
}

// easeEve lets the hard session on the eve of a window give way to a race on the window's first day.
func (c *calendar) easeEve(w *window) {
	first := &w.spots[w.n]
	eve := c.at(w.start() - 1)
	if !first.raced() || eve == nil || eve.claim > claimBlock || !eve.IsHard() || eve.Date < first.slot.Race.Registered {
		return
	}
	c.giveWay(eve, first.slot.Race)
}
