package planner

import "slices"

// Horizon of a derivation, in days.
const (
	quietDays   = 14  // shown when no race is to come
	pastReach   = 190 // how far back a race can still matter: historyDays before the longest taper, and its own days
	leadDays    = MaxTaperDays + 14
	maxRecovery = 7
)

// Derive plans every day from today to the day after the last race's last
// recovery day, or 14 days when no race is to come. It is a pure function of
// the facts: a planned day is the same whichever day it is asked on.
func Derive(today Date, f *Facts) *Plan { return DeriveUntil(today, 0, f) }

// DeriveUntil is Derive that reaches until the given date at least.
func DeriveUntil(today, until Date, f *Facts) *Plan {
	p, _ := derive(today, until, f.KnownOn(today))
	return p
}

// derive also tells why the last of the rider's swaps is left out, if it is.
func derive(today, until Date, f *Facts) (*Plan, *InputError) {
	end := max(planEnd(today, relevantRaces(today, f.Races)), until)
	c, stopped, refusal := f.laidOut(today, end, nil)
	if !stopped {
		c.audit(today)
	}
	c.plan.Days = make([]Day, today.DaysUntil(end)+1)
	for i := range c.plan.Days {
		c.plan.Days[i] = c.at(today.AddDays(i)).Day
	}
	return c.plan, refusal
}

// laidOut is the calendar with everything laid over it. stopped tells of symptoms
// that allow no plan. t is nil for a plan.
func (f *Facts) laidOut(today, end Date, t *trial) (c *calendar, stopped bool, refusal *InputError) {
	c = f.planned(today, end, t)
	refusal = c.applyMoves()
	stopped = c.applyIllness()
	c.applyDone()
	return c, stopped, refusal
}

// planned lays out the calendar and plans its races and blocks, before moves,
// illness and the log are laid over it. It reaches as far back as any race's
// window, so that today decides nothing.
func (f *Facts) planned(today, end Date, t *trial) *calendar {
	c := f.sized(today, end, t)
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

// sized lays out the calendar and gives races and tapers their days.
func (f *Facts) sized(today, end Date, t *trial) *calendar {
	all := slices.Clone(f.Races)
	races := relevantRaces(today, all)
	if len(races) < len(all) {
		clipFar(all, races)
	}
	first, last := today, end
	for _, r := range races {
		first = min(first, r.Date.AddDays(-t.lead(r)))
		if r.Last() >= today && t == nil {
			first = min(first, r.Date.AddDays(-MaxTaperDays-historyDays))
		}
		last = max(last, r.Last().AddDays(maxRecovery+1))
	}
	c := newCalendar(first, last, f)
	c.plan.Today, c.plan.facts, c.trial = today, f, t
	c.plan.Races = make([]RaceRole, len(all))
	for i := range all {
		c.plan.Races[i].Race = &all[i]
	}
	c.ride(today, races)
	c.told = c.raced()
	c.windows = c.claimWindows(today)
	return c
}

// relevantRaces points to the races that can matter, by date, then right.
func relevantRaces(today Date, all []Race) []*Race {
	races := make([]*Race, 0, len(all))
	for i := range all {
		if r := &all[i]; r.Last() >= today.AddDays(-pastReach) && r.Date <= today.AddDays(MaxAhead+MaxRaceDays) {
			races = append(races, r)
		}
	}
	sortRaces(races)
	return races
}

// clipFar takes from races that cannot matter today the days that others have, as
// ride does with those that can: the season that they belong to must not depend on today.
func clipFar(all []Race, near []*Race) {
	order := make([]*Race, len(all))
	for i := range all {
		order[i] = &all[i]
	}
	sortRaces(order)
	slices.SortStableFunc(order, func(a, b *Race) int { return int(a.Priority) - int(b.Priority) })
	taken := map[Date]bool{}
	for _, r := range order {
		var first, last Date
		for d := r.Date; d <= r.Last(); d++ {
			if taken[d] {
				continue
			}
			if first.IsZero() {
				first = d
			}
			taken[d], last = true, d
		}
		switch {
		case slices.Contains(near, r):
		case first.IsZero():
			r.Days = 0
		default:
			r.Date, r.Days = first, first.DaysUntil(last)+1
		}
	}
}

// sortRaces orders races by date, then right.
func sortRaces(races []*Race) {
	slices.SortStableFunc(races, func(a, b *Race) int {
		if a.Date != b.Date {
			return int(a.Date - b.Date)
		}
		return int(a.Priority) - int(b.Priority)
	})
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
