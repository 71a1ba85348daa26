package plannertest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/planfile"
)

// view is one plan beside the facts that were known on its today.
type view struct {
	today, last planner.Date
	f           *planner.Facts
	byRight     []*planner.Race // all races, the highest right first
	races       []*planner.Race // by date, without those that lose a day to another
	out         *outFile
	days        map[planner.Date]*outDay

	rule  string // of the check that runs
	found []Violation
}

func newView(input, output []byte) (*view, error) {
	today, facts, faults := planfile.Read(input)
	if len(faults) > 0 {
		return nil, fmt.Errorf("input: %w", &faults[0])
	}
	out, err := parseOutput(output)
	if err != nil {
		return nil, err
	}
	v := &view{today: today, f: facts.KnownOn(today), out: out, days: map[planner.Date]*outDay{}, rule: "contract.days"}
	v.last = today.AddDays(len(out.Days) - 1)
	for i := range out.Days {
		v.days[today.AddDays(i)] = &out.Days[i]
	}
	v.placeRaces()
	return v, nil
}

// placeRaces sorts races by their right to a day, and keeps apart those that hold
// all their days: the others are named and not planned for.
func (v *view) placeRaces() {
	for i := range v.f.Races {
		v.byRight = append(v.byRight, &v.f.Races[i])
	}
	slices.SortStableFunc(v.byRight, func(a, b *planner.Race) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), cmp.Compare(a.Date, b.Date))
	})
	for _, r := range v.byRight {
		holds := true
		for d := r.Date; d <= r.Last(); d++ {
			holds = holds && v.raceOn(d) == r
		}
		if holds {
			v.races = append(v.races, r)
		}
	}
	slices.SortStableFunc(v.races, func(a, b *planner.Race) int { return cmp.Compare(a.Date, b.Date) })
}

// raceOn is the race with the highest right to a day, nil for none.
func (v *view) raceOn(d planner.Date) *planner.Race {
	for _, r := range v.byRight {
		if r.Date <= d && d <= r.Last() {
			return r
		}
	}
	return nil
}

func (v *view) usual(d planner.Date) planner.WeekdayPlan { return v.f.WeekOn(d)[d.Weekday()] }

// hardOn tells that the plan has a hard session or a race on d.
func (v *view) hardOn(d planner.Date) bool {
	day := v.days[d]
	return day != nil && hard(day.Sessions)
}

// logged and pinned days are facts, not the plan's choice.
func (v *view) logged(d planner.Date) bool {
	return slices.ContainsFunc(v.f.Done, func(r planner.Ride) bool { return r.Date == d })
}

func (v *view) pinned(d planner.Date) bool {
	return slices.ContainsFunc(v.f.Pins, func(p planner.Pin) bool { return p.Date == d })
}

func (v *view) chosen(d planner.Date) bool {
	return v.raceOn(d) == nil && !v.logged(d) && !v.pinned(d)
}

const noLimit = 24 * 60

func (v *view) limit(d planner.Date) int {
	least := noLimit
	for _, l := range v.f.Limits {
		if l.Date == d {
			least = min(least, l.Minutes)
		}
	}
	return least
}

func (v *view) away(d planner.Date, travel bool) bool {
	return slices.ContainsFunc(v.f.Absences, func(a planner.Absence) bool {
		return a.Travel == travel && a.From <= d && d <= a.To
	})
}

// taper is an entry of the output with its race.
type taper struct {
	*outTaper
	race *planner.Race
	from planner.Date
}

// tapers leaves out those whose race is not known; checkTapers reports them.
func (v *view) tapers() (all []taper) {
	for i := range v.out.Tapers {
		t := &v.out.Tapers[i]
		from, err := planner.ParseISODate(t.From)
		for _, r := range v.byRight {
			if err == nil && r.Name == t.Race && r.Date == from.AddDays(t.Days) {
				all = append(all, taper{t, r, from})
			}
		}
	}
	return all
}

// inTaper tells that d lies in the window of an A race.
func (v *view) inTaper(d planner.Date) bool {
	return slices.ContainsFunc(v.tapers(), func(t taper) bool { return t.from <= d && d < t.race.Date })
}

// whole tells that the window has all its days in the plan, none of them settled by the rider.
func (v *view) whole(t taper) bool {
	for d := t.from; d < t.race.Date; d++ {
		if v.days[d] == nil || !v.chosen(d) {
			return false
		}
	}
	return true
}

// warned tells of a warning that names the race (of any warning where it is nil).
func (v *view) warned(r *planner.Race, codes ...string) bool {
	return slices.ContainsFunc(v.out.Warnings, func(w outWarning) bool {
		return slices.Contains(codes, w.Code) && (r == nil || strings.Contains(w.Text, r.Name))
	})
}
