package planner

// shortestRide is the least that a limited ordinary day is ridden for, in minutes.
const shortestRide = 15

// applyDayFacts holds every day outside the A windows, which have room for them
// already, to days off, limits and travel. A race is ridden all the same.
func (c *calendar) applyDayFacts() {
	for i := range c.slots {
		s := &c.slots[i]
		if s.claim == claimRace || s.claim == claimTaper {
			continue
		}
		switch {
		case s.off:
			if s.Sessions[0].Kind != Rest || len(s.Sessions) > 1 {
				c.set(s)
				s.noteOff()
			}
		case s.travel:
			c.easeTravel(s)
		case s.limit < noCap:
			c.capDay(s)
		}
	}
}

// easeTravel leaves at most one easy ride of 45 minutes.
func (c *calendar) easeTravel(s *slot) {
	room := s.cap()
	rides := ridesOf(s.Sessions)
	if len(rides) == len(s.Sessions) && len(rides) == 1 && rides[0].Effort == Easy && int(rides[0].Minutes) <= room {
		return
	}
	minutes := floor5(min(room, rideMinutes(rides)))
	if minutes < shortestRide {
		c.set(s)
	} else {
		c.set(s, easyRide(s.Sessions, minutes))
	}
	s.renote(noteTravel)
}

// capDay fits a day into its limit: strength goes first, then the hard ride
// stays if its set or half of it fits, else the longest ride, shortened.
func (c *calendar) capDay(s *slot) {
	total := 0
	for _, u := range s.Sessions {
		total += int(u.Minutes)
	}
	if total <= s.limit {
		return
	}
	rides := ridesOf(s.Sessions)
	if rideMinutes(rides) > s.limit {
		rides = shortened(rides, s.limit)
	}
	c.set(s, rides...)
	s.note(noteLimit, s.told)
}

func shortened(rides []Session, limit int) []Session {
	if limit < shortestRide {
		return nil
	}
	if hard, ok := hardSession(rides); ok {
		for _, full := range [2]bool{true, false} {
			if lo, _ := hardBounds(hard, full); lo <= limit {
				if !full {
					hard.Sets = hard.Sets.halved()
				}
				hard.Minutes = int16(min(int(hard.Minutes), limit))
				return []Session{hard}
			}
		}
		return []Session{easyRide(rides, limit)}
	}
	longest := rides[0]
	for _, r := range rides {
		if r.Minutes > longest.Minutes {
			longest = r
		}
	}
	longest.Minutes = int16(min(int(longest.Minutes), limit))
	if longest.Effort == OpenersEffort && limit < leastOpeners {
		return []Session{easyRide(rides, limit)}
	}
	return []Session{longest}
}

// applyDone shows logged rides as they were ridden, several of a day as one.
// Nothing that was missed is made up.
func (c *calendar) applyDone() {
	days := map[Date]Ride{}
	for _, done := range c.facts.Done {
		day := days[done.Date]
		day.Minutes, day.RPE = day.Minutes+done.Minutes, max(day.RPE, done.RPE)
		days[done.Date] = day
	}
	c.rate(days)
	for date, done := range days {
		s := c.at(date)
		if s == nil || s.claim == claimRace || s.Phase == Health {
			continue
		}
		ridden, planned := min(done.Minutes, noCap), ridesOf(s.Sessions)
		sessions := make([]Session, 0, 2)
		switch {
		case ridden > 0:
			sessions = append(sessions, asRidden(planned, ridden, done.RPE))
		case len(planned) == 0:
			continue
		}
		for _, u := range s.Sessions {
			if u.Kind == Strength {
				sessions = append(sessions, u)
			}
		}
		c.set(s, sessions...)
		if ridden > 0 {
			s.renote(noteLogged, ridden)
		} else {
			s.renote(noteNotRidden)
		}
	}
}

// rate adds up the loads of the days of which the rider rated a ride; rides of
// theirs without a rating count by the day's usual one.
func (c *calendar) rate(days map[Date]Ride) {
	c.rated = map[Date]float64{}
	for _, done := range c.facts.Done {
		if days[done.Date].RPE > 0 {
			usual := c.facts.weekOn(done.Date)[done.Date.Weekday()].Sessions
			c.rated[done.Date] += float64(done.Minutes) * ratingOf(done, usual)
		}
	}
}

// asRidden is a logged ride in the words of the plan: the planned session where
// length and rating fit it, else a ride of the effort that was rated (Foster 2001).
func asRidden(planned []Session, minutes int, rpe float64) Session {
	ride := Session{Kind: Other, Effort: Easy}
	if len(planned) > 0 {
		ride = planned[0]
	}
	ride.Minutes = int16(minutes)
	whole := minutes >= ride.Sets.leastMinutes()-warmUp-coolDown
	switch {
	case ride.IsHard() && whole && (rpe == 0 || rpe >= 7):
		return ride
	case rpe >= 7:
		return Session{Kind: Other, Effort: Hard, Minutes: ride.Minutes}
	case rpe >= 4:
		return Session{Kind: Endurance, Effort: Steady, Minutes: ride.Minutes}
	case ride.IsHard() || rpe > 0 && ride.Effort == Steady:
		return Session{Kind: Endurance, Effort: Easy, Minutes: ride.Minutes}
	}
	return ride
}
