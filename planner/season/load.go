package season

import (
	"cmp"
	"slices"

	"musette/planner"
	"musette/planner/engine"
)

// rider gives a rider's daily loads.
type rider struct {
	*planner.Facts // as they are known
	logged         map[planner.Date]log
}

// log is what was ridden on a day.
type log struct {
	rated   float64 // load of the rides of which a rating was told
	minutes int     // of the others
}

func newRider(known *planner.Facts) rider {
	r := rider{Facts: known, logged: make(map[planner.Date]log, len(known.Done))}
	for _, ride := range known.Done {
		l := r.logged[ride.Date]
		if ride.RPE > 0 {
			l.rated += float64(ride.Minutes) * ride.RPE
		} else {
			l.minutes += ride.Minutes
		}
		r.logged[ride.Date] = l
	}
	return r
}

// usual is the load of a date in the usual week.
func (r *rider) usual(d planner.Date) float64 {
	day := &r.WeekOn(d)[d.Weekday()]
	if day.Busy {
		return 0
	}
	rides, other := loads(day.Sessions)
	return rides + other
}

// unit is the load of a rider's usual day before a race: of the week in force on
// its eve or before the longest taper, whichever is more, so that a lighter week
// shared for the race itself does not count as usual training.
func (r *rider) unit(race planner.Date) float64 {
	mean := func(in planner.Date) float64 {
		total := 0.0
		for _, day := range r.WeekOn(in) {
			if !day.Busy {
				rides, other := loads(day.Sessions)
				total += (rides + other) / 7
			}
		}
		return total
	}
	return max(mean(race-1), mean(race.AddDays(-planner.MaxTaperDays-1)))
}

// ridden is the load of a planned day, as it was ridden where that was entered. On a
// day of which illness was told later, nothing was.
func (r *rider) ridden(day *engine.Day) float64 {
	rides, other := loads(day.Sessions)
	l, ok := r.logged[day.Date]
	switch {
	case day.Phase != planner.RaceDay && r.lay(day.Date):
		return 0
	case !ok:
		return rides + other
	}
	rating := r.RatingOf(planner.Ride{Date: day.Date})
	if minutes := day.Minutes(); minutes > 0 {
		rating = rides / float64(minutes)
	}
	return l.rated + float64(l.minutes)*rating + other
}

// lay reports a day on which illness kept the rider from riding.
func (r *rider) lay(d planner.Date) bool {
	_, logged := r.logged[d]
	return !logged && r.IllOn(d)
}

// loads are those of rides and of other sessions.
func loads(sessions []planner.Session) (rides, other float64) {
	for _, s := range sessions {
		if s.Kind.IsRide() {
			rides += s.Load()
		} else {
			other += s.Load()
		}
	}
	return rides, other
}

// change is by how much a taper of n days changes the load of each day before a
// race, the eve first. Days that health forbids, races inside and days after an
// earlier A race would be the same without it, and days away are no taper's.
func (r *rider) change(p *engine.Plan, race planner.Date, n int) []float64 {
	first := race.AddDays(-n)
	out, room := make([]float64, n), engine.Room(r.Facts, first, race)
	for i := range out {
		d := race.AddDays(-1 - i)
		day := p.Known(d)
		if day != nil && day.Phase != planner.RaceDay && day.Phase != planner.Health && !r.lay(d) {
			out[i] = r.ridden(day) - r.usual(d)*room[first.DaysUntil(d)]
		}
	}
	for _, role := range p.Races {
		other := role.Race
		if other.Priority != planner.PriorityA || !rides(p, role) {
			continue
		}
		last := other.Last().AddDays(engine.RecoveryDays(r.Facts, other))
		for d := max(other.Last()+1, first); d <= last && d < race; d++ {
			out[d.DaysUntil(race)-1] = 0
		}
	}
	return out
}

// rides reports whether a race is ridden: it has days of its own, and health does
// not forbid all of them.
func rides(p *engine.Plan, role planner.RaceRole) bool {
	for d := role.Race.Date; d <= role.Race.Last() && role.Role != planner.Outranked; d++ {
		if day := p.Known(d); day == nil || day.Phase == planner.RaceDay {
			return true
		}
	}
	return false
}

// raced are the races that are ridden, by date.
func raced(p *engine.Plan) []*planner.Race {
	var out []*planner.Race
	for _, role := range p.Races {
		if rides(p, role) {
			out = append(out, role.Race)
		}
	}
	slices.SortStableFunc(out, func(a, b *planner.Race) int { return cmp.Compare(a.Date, b.Date) })
	return out
}
