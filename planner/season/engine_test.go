package season

import (
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// A trial of the planned length without a cut of its own is the plan, whatever happens to the rider before it begins.
func TestEngineTrialOfThePlanIsThePlan(t *testing.T) {
	for name, change := range happenings(t) {
		f := facts(t, mixedWeek, raceOn(200, planner.PriorityA))
		change(f)
		race := f.Races[0].Date
		for _, today := range []planner.Date{firstDay, race - 30} {
			p := engine.Derive(today, f)
			taper := taperOf(p, "Race 200")
			other := engine.DeriveTrial(today, race, f, engine.Trial{Race: taper.Race, Days: taper.Days})
			for d := race - 28; d < race; d++ {
				a, b := p.Known(d), other.Known(d)
				if a != nil && b != nil && !slices.Equal(a.Sessions, b.Sessions) {
					t.Errorf("%s, asked on D-%d: D-%d is %v, in a trial of the same %d days %v", name, today.DaysUntil(race), d.DaysUntil(race), label(a), taper.Days, label(b))
				}
			}
		}
	}
}

func label(d *engine.Day) string {
	text := ""
	for _, s := range d.Sessions {
		text += s.Label() + " "
	}
	return text
}

// A rider may take back a long told length, or tell a shorter one, while that taper is on.
func TestEngineShortensAnOpenTaper(t *testing.T) {
	forEach(t, 2, func(i int) {
		f := facts(t, mixedWeek, raceOn(200, planner.PriorityA))
		today := f.Races[0].Date - 6
		f.OldTaper = []planner.Taper{{Days: 28, Told: planner.Told{Withdrawn: today}}}
		f.Taper = planner.Taper{Days: 7 * i, Told: planner.Told{On: today}}
		if p := engine.Derive(today, f); len(p.Tapers) != 1 {
			t.Errorf("28 days, on D-6 %d were told: tapers %+v", 7*i, p.Tapers)
		}
	})
}

// Days on which a race to come makes the plan look back at an A race that is over, but not at its whole taper.
func TestEnginePlansBetweenRaces(t *testing.T) {
	f := facts(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(128, planner.PriorityC))
	forEach(t, 29, func(i int) {
		if p := engine.Derive(firstDay.AddDays(100+i), f); len(p.Days) == 0 {
			t.Errorf("%d days after the first race: no days", i)
		}
	})
}
