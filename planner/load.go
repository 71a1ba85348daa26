package planner

// load is minutes times session RPE (Foster 1998), with the usual rating of each
// kind of session. Strength counts: it tires, though it is no ride.
func load(sessions []Session) float64 {
	total := 0.0
	for _, s := range sessions {
		total += float64(s.Minutes) * s.defaultRPE()
	}
	return total
}

// meanLoad is the load of the week's mean day, the unit of the models.
func (w *Week) meanLoad() float64 {
	total := 0.0
	for i := range w {
		if !w[i].Busy {
			total += load(w[i].Sessions)
		}
	}
	return total / 7
}

// unit is the load of a rider's usual day before a race: of the week in force on
// its eve or before the longest taper, whichever is more, so that a lighter week
// shared for the race itself does not count as usual training.
func (f *Facts) unit(race Date) float64 {
	return max(f.weekOn(race-1).meanLoad(), f.weekOn(race.AddDays(-MaxTaperDays-1)).meanLoad())
}

// loadOn is the load of a day as it is planned, or as it was ridden where a
// rating was told.
func (c *calendar) loadOn(s *slot) float64 {
	total := load(s.Sessions)
	if rated, ok := c.rated[s.Date]; ok {
		for _, u := range s.Sessions {
			if u.Kind.IsRide() {
				total -= float64(u.Minutes) * u.defaultRPE()
			}
		}
		total += rated
	}
	return total
}

// possible is the load that the day would have without any race: the usual one,
// as far as days off, travel and limits leave it.
func (s *slot) possible() float64 {
	usual, minutes := load(s.Usual), rideMinutes(s.Usual)
	switch {
	case s.off:
		return 0
	case s.cap() < minutes:
		return usual * float64(s.cap()) / float64(minutes)
	}
	return usual
}
