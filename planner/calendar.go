package planner

// travelMinutes is the longest easy ride of a travel day (common practice).
const travelMinutes = 45

// noCap marks a day without a limit.
const noCap = 24 * 60

// claim says whose rule decides a day; a higher claim is never overruled.
type claim uint8

const (
	unclaimed claim = iota
	claimBlock
	claimC
	claimB
	claimTaper
	claimRecovery
	claimRace
)

// slot is a day's facts and the state of planning it. Its Day is what comes out.
type slot struct {
	Day
	off      bool // weekday off, away, or limited to 0 minutes
	travel   bool
	limit    int // minutes of training at most, in steps of 5, noCap without
	told     int // the limit as the rider told it
	afterCap int // riding minutes at most after the race before, noCap without
	claim    claim
}

// cap is the most riding minutes that the day's facts leave.
func (s *slot) cap() int {
	switch {
	case s.off:
		return 0
	case s.travel:
		return min(s.limit, travelMinutes)
	}
	return s.limit
}

// usualMinutes is the usual riding time; a day off has none.
func (s *slot) usualMinutes() int {
	if s.off {
		return 0
	}
	return rideMinutes(s.Usual)
}

func (s *slot) usuallyRidden() bool { return s.usualMinutes() > 0 }

func (s *slot) usuallyHard() bool {
	_, ok := hardSession(s.Usual)
	return ok && !s.off
}

// calendar is the stretch of days that one derivation works on.
type calendar struct {
	first Date
	slots []slot
	facts *Facts
	arena []Session // backs the planned sessions, to keep allocations few
	races []*Race   // races with days that can matter today, by date
	told  []*Race   // all races with days, by date
	plan  *Plan

	logged  []Block          // overload found in the log
	windows []window         // of A races, by date
	through []*Race          // races to train through
	lengths []int            // chosen for A races where the rider tells none, as plan.Races; 0: none
	rules   []string         // why
	rated   map[Date]float64 // loads of rides with a told rating
	trial   *trial           // another taper than the plan's, to compare; nil for plans
}

var restDay = []Session{RestSession}

// newCalendar lays out the usual days from first to last with the facts of each day.
func newCalendar(first, last Date, f *Facts) *calendar {
	n := first.DaysUntil(last) + 1
	c := &calendar{first: first, slots: make([]slot, n), facts: f, arena: make([]Session, 0, n+n/2), plan: &Plan{}}
	for i := range c.slots {
		s := &c.slots[i]
		s.Date = first.AddDays(i)
		day := &f.weekOn(s.Date)[s.Date.Weekday()]
		s.off, s.Usual = day.Busy, day.Sessions
		if day.Busy || len(day.Sessions) == 0 {
			s.Usual = restDay
		}
		s.Sessions = s.Usual
		s.limit, s.afterCap = noCap, noCap
	}
	for _, a := range f.Absences {
		for d := max(a.From, first); d <= min(a.To, last); d++ {
			s := c.at(d)
			s.travel = s.travel || a.Travel
			s.off = s.off || !a.Travel
		}
	}
	c.logged = f.loggedBlocks()
	for _, l := range f.Limits {
		if s := c.at(l.Date); s != nil {
			if l.Minutes < s.limit {
				s.limit, s.told = floor5(l.Minutes), l.Minutes
			}
			s.off = s.off || l.Minutes == 0
		}
	}
	return c
}

// at is the slot of a date, nil outside the calendar.
func (c *calendar) at(d Date) *slot {
	i := c.first.DaysUntil(d)
	if i < 0 || i >= len(c.slots) {
		return nil
	}
	return &c.slots[i]
}

// set replaces a day's planned sessions; no session at all is rest.
func (c *calendar) set(s *slot, sessions ...Session) {
	if len(sessions) == 0 {
		s.Sessions = restDay
		return
	}
	from := len(c.arena)
	c.arena = append(c.arena, sessions...)
	s.Sessions = c.arena[from:len(c.arena):len(c.arena)]
	if sameSessions(s.Usual, s.Sessions) {
		s.Sessions = s.Usual
	}
}

func (c *calendar) warn(code string, race *Race, text string) {
	c.plan.Warnings = append(c.plan.Warnings, Warning{Code: code, Text: text, Race: race})
}

// play records how a race is planned.
func (c *calendar) play(race *Race, role Role, host *Race) {
	for i := range c.plan.Races {
		if c.plan.Races[i].Race == race {
			c.plan.Races[i].Role, c.plan.Races[i].Host = role, host
		}
	}
}

// indexOf is a race's place among the told ones.
func (c *calendar) indexOf(race *Race) int {
	for i := range c.plan.Races {
		if c.plan.Races[i].Race == race {
			return i
		}
	}
	return 0
}

// weekOn is the typical week that holds on a date.
func (f *Facts) weekOn(d Date) *Week {
	if len(f.Weeks) == 0 {
		return &Week{}
	}
	w := &f.Weeks[0].Week
	for i := range f.Weeks {
		if f.Weeks[i].From <= d {
			w = &f.Weeks[i].Week
		}
	}
	return w
}

// WeekOn is the typical week that holds on a date; the first also holds for all days before.
func (f *Facts) WeekOn(d Date) *Week { return f.weekOn(d) }

// RatingOf is a ride's session RPE: the logged one, else the usual one of its weekday.
func (f *Facts) RatingOf(r Ride) float64 {
	return ratingOf(r, f.weekOn(r.Date)[r.Date.Weekday()].Sessions)
}

// UsualLoad is the load of a date in the typical week, minutes x session RPE.
func (f *Facts) UsualLoad(d Date) float64 { return f.usualLoad(d) }

func floor5(minutes int) int { return minutes / 5 * 5 }

func ceil5(minutes int) int { return (minutes + 4) / 5 * 5 }

// round5 is the nearest multiple of 5, at least 5 for anything above 0.
func round5(minutes int) int {
	if minutes <= 0 {
		return 0
	}
	return max(5, (minutes+2)/5*5)
}

// easyRide is the easy session that takes the place of a day's usual rides.
func easyRide(usual []Session, minutes int) Session {
	kind := Endurance
	if onlyKind(usual, Recovery) {
		kind = Recovery
	} else if onlyKind(usual, Other) {
		kind = Other
	}
	return Session{Kind: kind, Effort: Easy, Minutes: int16(minutes)}
}

func recoveryRide(minutes int) Session {
	return Session{Kind: Recovery, Effort: Easy, Minutes: int16(minutes)}
}

func onlyKind(sessions []Session, kind Kind) bool {
	found := false
	for _, s := range sessions {
		if s.Kind.IsRide() {
			if s.Kind != kind {
				return false
			}
			found = true
		}
	}
	return found
}

// strengthOf is the day's usual strength session, if any.
func strengthOf(sessions []Session) (Session, bool) {
	for _, s := range sessions {
		if s.Kind == Strength {
			return s, true
		}
	}
	return Session{}, false
}
