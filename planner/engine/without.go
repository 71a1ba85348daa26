package engine

import (
	"slices"

	"musette/planner"
)

// Without is what a changed day would hold without the fact that decided it: its
// race, block, absence, limit, illness, swap or pin. It is nil where that says
// nothing: unchanged days, days that are over.
func Without(today planner.Date, f *planner.Facts, d *Day) []planner.Session {
	if len(d.Causes) == 0 || d.Date < today {
		return nil
	}
	g := *f
	switch c := d.Causes[0]; c.Code {
	case WhyLogged, WhyMissed, WhyToldThen, WhyRace, WhyBusy:
		return nil
	case WhyAway, WhyTravel:
		g.Absences = slices.DeleteFunc(slices.Clone(f.Absences), func(a planner.Absence) bool { return a.From <= d.Date && d.Date <= a.To })
	case WhyLimit, WhyLimitSet:
		g.Limits = slices.DeleteFunc(slices.Clone(f.Limits), func(l planner.Limit) bool { return l.Date == d.Date })
	case WhyIll, WhyIllFree, WhyIllReturn, WhyIllRace, WhyIllStart, WhyIllHalf, WhyIllOne, WhyHold, WhyHead:
		g.Ill, g.Holds = nil, nil
	case WhyBlock, WhyBlockAfter:
		g.Blocks = nil
	case WhyMoved:
		g.Moves = nil
	case WhyPinned:
		g.Pins = nil
	default:
		race := c.Race
		if race == nil {
			race = d.Race
		}
		if race == nil {
			return nil
		}
		g.Races = slices.DeleteFunc(slices.Clone(f.Races), func(r planner.Race) bool {
			return r.ID == race.ID && r.Name == race.Name
		})
	}
	other, ok := DeriveUntil(today, d.Date, &g).Day(d.Date)
	if !ok {
		return nil
	}
	return other.Sessions
}
