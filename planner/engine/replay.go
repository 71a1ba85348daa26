package engine

import (
	"slices"

	"musette/planner"
)

// Plans are made anew on each date on which something was told or taken back,
// from what was known then; days that are over stay as they were shown. A stage
// is one such planning.
type stage struct {
	on    planner.Date // beforeAll for what was known before everything
	need  planner.Date // first day before it whose shown sessions matter
	facts *planner.Facts
}

const beforeAll = planner.Date(-1 << 30)

// How far around a date a race's days can reach.
const (
	daysAfter   = 16 // recovery and return
	daysBeforeB = 5
)

// shown is a day as it was shown.
type shown struct {
	sessions []planner.Session
	phase    planner.Phase
	race     *planner.Race
	why      []note
	planned  []planner.Session // of a logged day, what was shown before
}

// history is what later stages must respect.
type history struct {
	first  planner.Date
	days   []shown
	next   shown // what the stage before showed for the day of this one
	tapers []heldTaper
	fixed  []fixedDay
}

// heldTaper is a taper that began before a stage: its start, length and factor stay.
type heldTaper struct {
	race    raceKey
	n, cut  int
	toldCut bool
	block   bool
	lambda  float64
	wanted  int
	why     planner.LengthReason
	days    []heldDay // by days before the race
}

type heldDay struct {
	hard, opener, rest, dropped bool
	set                         hardSet
	lo, hi, minutes             int
}

type raceKey struct {
	id   int64
	name string
	date planner.Date
}

func keyOf(r *planner.Race) raceKey { return raceKey{r.ID, r.Name, r.Date} }

// fixedDay is a day that was set by hand: a pin or half of a swap.
type fixedDay struct {
	date     planner.Date
	sessions []planner.Session
	move     planner.Move // zero for a pin
}

// stages are the plannings that decide what is shown today, the earliest first.
func stages(f *planner.Facts, today planner.Date) []stage {
	dates := f.ToldDates(today)
	longest := longestTold(f)
	at := func(j int) stage {
		s := stage{on: beforeAll, need: beforeAll}
		if j > 0 {
			s.on = dates[j-1]
		}
		s.facts = f.KnownOn(max(s.on, 0))
		if j > 0 {
			s.need = needed(s.facts, longest, s.on)
		}
		return s
	}
	j := len(dates)
	list := []stage{at(j)}
	need := list[0].need
	for j > 0 && need < list[len(list)-1].on {
		j--
		s := at(j)
		list = append(list, s)
		need = min(need, s.need)
		if s.on <= need {
			if s.need >= s.on {
				break
			}
			need = s.need
		}
	}
	slices.Reverse(list)
	return list
}

// longestTold is the longest taper that the rider ever asked for, 0 for none.
func longestTold(f *planner.Facts) int {
	n := f.Taper.Days
	for _, t := range f.OldTaper {
		n = max(n, t.Days)
	}
	for i := range f.Races {
		n = max(n, f.Races[i].TaperDays)
	}
	return n
}

// needed is the first day of the taper, recovery, illness or swap that holds the
// day before e or e itself; e where none does.
func needed(f *planner.Facts, longest int, e planner.Date) planner.Date {
	need := e
	hold := func(from, to planner.Date) {
		if from <= e && to >= e-1 {
			need = min(need, from, e-1)
		}
	}
	for i := range f.Races {
		r := &f.Races[i]
		before := daysBeforeB
		if r.Priority == planner.PriorityA {
			before = max(longest, blockDays) // also of a taper that began under other facts
		}
		hold(r.Date.AddDays(-before), r.Last().AddDays(returnDays(f, r)+1))
	}
	for _, ill := range f.Troubles() {
		last := ill.To
		switch {
		case !ill.Cleared.IsZero():
			last = ill.Cleared
		case last.IsZero():
			last = e
		}
		hold(ill.From, last.AddDays(freeAfterIll+mostReturn+halfReach))
	}
	for _, m := range f.Moves {
		if max(m.From, m.To) >= e && m.On < e {
			need = min(need, max(m.On, 0))
		}
	}
	return need
}
