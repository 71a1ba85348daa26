package season

import (
	"musette/planner"
)

// How far a change of a race's priority that is told today reaches: the days of the A
// races beside it can change, and days from today on, which are planned anew. What lies
// further off leaves these days alone.
const (
	changeReach = 45 // days that can change
	raceReach   = 90 // days around in which races matter for these
)

// reach is the days that a choice can change: around some races, and from today on.
type reach struct {
	all                bool
	today, first, last planner.Date
}

// around is the reach of a change of some races.
func (s *season) around(races []*planner.Race) reach {
	out := reach{today: s.today, all: len(races) == 0}
	for i, r := range races {
		if i == 0 || r.Date < out.first {
			out.first = r.Date
		}
		out.last = max(out.last, r.Last())
	}
	return out
}

// near reports days that lie within so many days of the races or of today.
func (a *reach) near(first, last planner.Date, days int) bool {
	return a.all || last >= a.first.AddDays(-days) && first <= a.last.AddDays(days) || last >= a.today.AddDays(-days) && first <= a.today.AddDays(days)
}

// changes reports a day that can change.
func (a *reach) changes(d planner.Date) bool { return a.near(d, d, changeReach) }

// of is the facts without races that are too far off to matter, and which of the known
// races are left.
func (a *reach) of(f, known *planner.Facts) (near *planner.Facts, kept []int) {
	for i := range known.Races {
		if r := &known.Races[i]; a.near(r.Date, r.Last(), raceReach) {
			kept = append(kept, i)
		}
	}
	out := *f
	out.Races = make([]planner.Race, 0, len(f.Races))
	for _, r := range f.Races {
		if a.near(r.Date, r.Last(), raceReach) {
			out.Races = append(out.Races, r)
		}
	}
	return &out, kept
}
