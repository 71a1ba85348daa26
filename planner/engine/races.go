package engine

import (
	"slices"

	"musette/planner"
)

// placeRaces gives every race its days, the higher right first; of a race that
// loses days to another only the rest is ridden.
func (c *calendar) placeRaces() {
	all := slices.Clone(c.facts.Races)
	c.roles = make([]planner.RaceRole, len(all))
	order := make([]*planner.Race, len(all))
	for i := range all {
		c.roles[i].Race, order[i] = &all[i], &all[i]
	}
	slices.SortStableFunc(order, func(a, b *planner.Race) int {
		if a.Priority != b.Priority {
			return int(a.Priority) - int(b.Priority)
		}
		return int(a.Date - b.Date)
	})
	for _, r := range order {
		if r.Last() < c.first || r.Date > c.last() {
			c.races = append(c.races, r)
			continue
		}
		c.placeRace(r)
	}
	slices.SortStableFunc(c.races, func(a, b *planner.Race) int { return int(a.Date - b.Date) })
}

func (c *calendar) placeRace(r *planner.Race) {
	var first, last planner.Date
	var other *planner.Race
	for t := r.Date; t <= r.Last(); t++ {
		d := c.at(t)
		if d == nil {
			continue
		}
		if d.race != nil {
			other = d.race
			continue
		}
		if first.IsZero() {
			first = t
		}
		last = t
		if t < c.from && (r.Registered > t || d.owner == settled && !anyHard(d.out.sessions)) {
			continue // it was over when the race became known, or was not ridden
		}
		d.race, d.host, d.phase = r, r, planner.RaceDay
		d.owner = settled
		d.out = plan{sessions: []planner.Session{{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: int16(r.MinutesOn(t))}}}
		d.because(note{code: WhyRace, race: r})
	}
	if other != nil && r.Last() >= c.today {
		c.warn(Warning{Code: WarnSameDay, Race: r, Other: other})
	}
	if first.IsZero() {
		c.play(r, planner.Outranked, other)
		return
	}
	if first != r.Date || last != r.Last() {
		r.Date, r.Days = first, first.DaysUntil(last)+1
		r.Start = ""
	}
	c.races = append(c.races, r)
}

// play records how a race is planned.
func (c *calendar) play(race *planner.Race, role planner.Role, host *planner.Race) {
	for i := range c.roles {
		if c.roles[i].Race == race {
			c.roles[i].Role, c.roles[i].Host = role, host
		}
	}
}

// goals are the A races by date.
func (c *calendar) goals() []*planner.Race {
	var out []*planner.Race
	for _, r := range c.races {
		if r.Priority == planner.PriorityA {
			out = append(out, r)
		}
	}
	return out
}

// inside is the A race in whose taper a race lies, nil for none.
func (c *calendar) inside(r *planner.Race) *planner.Race {
	for _, w := range c.wins {
		if r != w.race && r.Date >= w.start() && r.Date < w.race.Date {
			return w.race
		}
	}
	return nil
}

// recovering is the A race in whose recovery days a race begins, nil for none.
func (c *calendar) recovering(r *planner.Race) *planner.Race {
	for _, other := range c.races {
		if other != r && other.Priority == planner.PriorityA && r.Date > other.Last() && r.Date <= other.Last().AddDays(RecoveryDays(c.facts, other)) {
			return other
		}
	}
	return nil
}

// belongs is the race that a day is planned for, nil on ordinary days.
func (d *day) belongs() *planner.Race {
	if d.race != nil {
		return d.race
	}
	return d.host
}
