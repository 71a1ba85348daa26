package planner

// defaultRecovery is a recovery ride where the typical week has none, in minutes (common practice).
const defaultRecovery = 40

// planRecoveries plans the days after each A race that its recovery claims.
func (c *calendar) planRecoveries() {
	for _, r := range c.races {
		if r.Priority != PriorityA {
			continue
		}
		for k := 1; k <= r.recoveryDays(); k++ {
			s := c.at(r.Last().AddDays(k))
			if s.claim != claimRecovery || s.Race != r {
				continue
			}
			before := c.at(s.Date - 1)
			switch {
			case k == 1:
				c.setAfter(s, r)
			case before.claim == claimRace && before.Race.Priority != PriorityC:
				s.Race = before.Race
				c.setAfter(s, before.Race)
			default:
				c.setEased(s)
				if m := c.afterCap(s); rideMinutes(s.Sessions) > m {
					c.set(s, easyRide(s.Usual, m))
					s.note(noteAfterCap)
				}
			}
		}
	}
}

// setAfter plans the day after an A or B race by the race's length.
func (c *calendar) setAfter(s *slot, r *Race) {
	s.note(noteAfterDay)
	minutes := min(s.usualMinutes(), afterMinutes(r, s.usualMinutes()))
	if r.Days == 1 && r.minutes() < 90 {
		c.setEasy(s, easyRide(s.Usual, floor5(minutes)))
		return
	}
	if rides := ridesOf(s.Usual); len(rides) == 1 && rides[0].Kind == Recovery && int(rides[0].Minutes) <= minutes {
		c.setEasy(s, rides[0]) // the usual recovery ride is just right
		return
	}
	c.setEasy(s, recoveryRide(floor5(minutes)))
}

// afterMinutes caps the day after a race: usual minutes halved after less than
// 90 min, 60 min after up to 3 h, 45 min after longer and stage races (common practice).
func afterMinutes(r *Race, usual int) int {
	switch m := r.minutes(); {
	case r.Days > 1 || m > 180:
		return 45
	case m >= 90:
		return 60
	default:
		return usual / 2
	}
}

// afterCap is what a race on the day before leaves of a day that another race has claimed.
func (c *calendar) afterCap(s *slot) int {
	before := c.at(s.Date - 1)
	if before == nil || before.claim != claimRace {
		return noCap
	}
	r := before.Race
	switch {
	case r.Priority != PriorityC:
		return floor5(afterMinutes(r, s.usualMinutes()))
	case r.long():
		return floor5(s.usualMinutes() / 2)
	}
	return noCap
}

// setEased keeps a day's usual riding but makes it easy: long rides halved, hard
// rides without their hard part.
func (c *calendar) setEased(s *slot) {
	s.note(noteAfterEasy)
	minutes, easy := 0, true
	rides := ridesOf(s.Usual)
	for _, u := range rides {
		easy = easy && u.Effort == Easy
		minutes += easedMinutes(u)
	}
	if easy {
		c.setEasy(s, rides...)
		return
	}
	c.setEasy(s, easyRide(s.Usual, floor5(minutes)))
}

func easedMinutes(u Session) int {
	m := int(u.Minutes)
	switch {
	case u.Kind == Long:
		return m / 2
	case u.IsHard() && u.Sets.IsZero():
		return m / 2
	case u.IsHard():
		return max(m-u.Sets.seconds()/60, m/2)
	}
	return m
}

// setEasy plans easy rides only; nothing where the day is off or nothing is left.
func (c *calendar) setEasy(s *slot, rides ...Session) {
	if s.off || rideMinutes(rides) == 0 {
		c.set(s)
		return
	}
	c.set(s, rides...)
}

func ridesOf(sessions []Session) []Session {
	rides := make([]Session, 0, len(sessions))
	for _, s := range sessions {
		if s.Kind.IsRide() {
			rides = append(rides, s)
		}
	}
	return rides
}

// recoveryLength is the usual recovery ride of the week, the longest of several.
func (w *Week) recoveryLength() int {
	longest := 0
	for _, day := range w {
		for _, s := range day.Sessions {
			if s.Kind == Recovery && !day.Busy {
				longest = max(longest, int(s.Minutes))
			}
		}
	}
	if longest == 0 {
		return defaultRecovery
	}
	return longest
}
