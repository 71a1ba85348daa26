package planner

import (
	"slices"

	"musette/planner/response"
)

// real is what a taper of n days for an A race, or the half week of a B race,
// takes from the usual days, as the planner would plan them among the races near.
// Absences, limits, illness and the log are left out: they do not change lengths.
func (s *seasonRun) real(stop int, priority Priority, n int) response.Change {
	r := s.races[stop]
	unit := s.facts.unit(r.Date)
	if unit == 0 {
		return response.Change{}
	}
	facts := Facts{Weeks: s.facts.Weeks, Taper: s.facts.Taper, Blocks: slices.Concat(s.facts.Blocks, s.logged)}
	facts.Taper.Days = oneWeekMax // any told length: only the compared one counts
	t := &trial{race: -1, date: r.Date, days: n, cut: s.facts.Taper.cut()}
	for i, near := range s.races {
		if near.Last() < r.Date.AddDays(-MaxTaperDays-maxRecovery-1) || near.Date > r.Last().AddDays(nearAfter) {
			continue
		}
		facts.Races = append(facts.Races, *near)
		if i == stop {
			facts.Races[len(facts.Races)-1].Priority = priority
			if priority == PriorityA {
				t.race = len(facts.Races) - 1
			}
		}
	}
	c := facts.planned(r.Date-1, r.Last().AddDays(maxRecovery), t)
	change := response.Change{Before: make([]float64, n), After: make([]float64, max(0, r.Date.DaysUntil(s.recoveredBy(stop, priority))))}
	for i := range change.Before {
		change.Before[i] = c.removedOn(r.Date.AddDays(-i-1)) / unit
	}
	for i := range change.After {
		change.After[i] = c.removedOn(r.Date.AddDays(i+1)) / unit
	}
	return change
}

// recoveredBy is the last recovery day after a race, as far as the next race lets it have them.
func (s *seasonRun) recoveredBy(stop int, priority Priority) Date {
	r := s.races[stop]
	last := r.Last().AddDays(1)
	if priority == PriorityA {
		last = r.Last().AddDays(r.recoveryDays())
	}
	if stop+1 < len(s.races) {
		last = min(last, s.races[stop+1].Date-1)
	}
	return last
}
