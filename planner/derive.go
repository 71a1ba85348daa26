package planner

import "slices"

// Horizon of a derivation, in days.
const (
	quietDays   = 14  // shown when no race is to come
	pastReach   = 150 // how far back a race can still matter
	leadDays    = MaxTaperDays + 14
	maxRecovery = 7
)

// Derive plans every day from today to the day after the last race's last
// recovery day, or 14 days when no race is to come. It is a pure function of
// the facts: a planned day is the same whichever day it is asked on.
func Derive(today Date, f *Facts) *Plan { return DeriveUntil(today, 0, f) }

// DeriveUntil is Derive that reaches until the given date at least.
func DeriveUntil(today, until Date, f *Facts) *Plan {
	end := max(planEnd(today, relevantRaces(today, f.Races)), until)
	c := f.planned(today, end)
	c.applyMoves()
	stopped := c.applyIllness()
	c.applyDone()
	if !stopped {
		c.audit(today)
	}
	c.plan.Days = make([]Day, today.DaysUntil(end)+1)
	for i := range c.plan.Days {
		c.plan.Days[i] = c.at(today.AddDays(i)).Day
	}
	return c.plan
}

// planned lays out the calendar and plans its races and blocks, before moves,
// illness and the log are laid over it. It reaches as far back as any race's
// window, so that today decides nothing.
func (f *Facts) planned(today, end Date) *calendar {
	races := relevantRaces(today, f.Races)
	first, last := today, end
	for _, r := range races {
		first = min(first, r.Date.AddDays(-leadDays))
		last = max(last, r.Last().AddDays(maxRecovery+1))
	}
	c := newCalendar(first, last, f)
	c.plan.Today = today
	c.ride(today, races)
	c.windows = c.claimWindows(today)
	c.planBlocks()
	for i := range c.windows {
		c.planWindow(&c.windows[i])
	}
	c.planRecoveries()
	c.planHalfTapers()
	c.planThrough()
	c.applyDayFacts()
	return c
}

// relevantRaces copies the races that can still matter, by date, then right.
func relevantRaces(today Date, all []Race) []*Race {
	copied := make([]Race, 0, len(all))
	for _, r := range all {
		if r.Last() >= today.AddDays(-pastReach) {
			copied = append(copied, r)
		}
	}
	slices.SortStableFunc(copied, func(a, b Race) int {
		if a.Date != b.Date {
			return int(a.Date - b.Date)
		}
		return int(a.Priority) - int(b.Priority)
	})
	races := make([]*Race, len(copied))
	for i := range copied {
		races[i] = &copied[i]
	}
	return races
}

// planEnd is the last day of the plan.
func planEnd(today Date, races []*Race) Date {
	end, toCome := today.AddDays(quietDays-1), false
	for _, r := range races {
		if r.Last() >= today {
			toCome = true
		}
	}
	if !toCome {
		return end
	}
	end = today
	for _, r := range races {
		after := 1
		if r.Priority == PriorityA {
			after = r.recoveryDays()
		}
		end = max(end, r.Last().AddDays(after+1))
	}
	return end
}
