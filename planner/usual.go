package planner

// WeekOn is the typical week that holds on a date; the first also holds for all days before.
func (f *Facts) WeekOn(d Date) *Week {
	if len(f.Weeks) == 0 {
		return &Week{}
	}
	w := &f.Weeks[0]
	for i := range f.Weeks {
		if f.Weeks[i].From <= d {
			w = &f.Weeks[i]
		}
	}
	return w.inTurn(d)
}

// UsualRPE is the rating that counts for load where the rider logged none (0-10,
// Foster 1998; the values are common practice).
func (s Session) UsualRPE() float64 {
	switch {
	case s.Kind == RaceRide && s.Minutes <= 90:
		return 9
	case s.Effort == Hard: // repetitions indoors are as hard as outside
		return 7
	}
	return [...]float64{0, 2, 3, 4, 7, 3, 8, 5, 3, 7, 2, 3}[s.Kind]
}

// RatingOf is a ride's session RPE: the logged one, else that of the weekday's usual riding.
func (f *Facts) RatingOf(r Ride) float64 {
	if r.RPE > 0 {
		return r.RPE
	}
	minutes, load := 0.0, 0.0
	for _, s := range f.WeekOn(r.Date)[r.Date.Weekday()].Sessions {
		if s.Kind.IsRide() {
			minutes += float64(s.Minutes)
			load += float64(s.Minutes) * s.UsualRPE()
		}
	}
	if minutes == 0 {
		return Session{Kind: Other}.UsualRPE()
	}
	return load / minutes
}

// UsualLoad is the riding load of a date in the typical week: minutes x session RPE.
func (f *Facts) UsualLoad(d Date) float64 {
	day := &f.WeekOn(d)[d.Weekday()]
	if day.Busy {
		return 0
	}
	total := 0.0
	for _, s := range day.Sessions {
		if s.Kind.IsRide() {
			total += float64(s.Minutes) * s.UsualRPE()
		}
	}
	return total
}

// Load is minutes times session RPE (Foster 1998), with the usual rating of such
// sessions. Strength counts: it tires, though it is no ride.
func (s Session) Load() float64 { return float64(s.Minutes) * s.UsualRPE() }
