package season

import (
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// What was planned on days of which illness is told later carries no load: before a race to
// come such a day is no day of the taper, and of a race that is over it teaches a day without training.
func TestIllnessToldLateCarriesNoLoad(t *testing.T) {
	race := raceOn(60, planner.PriorityA)
	f := facts(t, mixedWeek, race)
	f.Ill = []planner.Illness{{From: race.Date - 8, To: race.Date - 6, Level: planner.LevelRest, Told: planner.Told{On: race.Date - 5}}}
	p := engine.Derive(race.Date-5, f)
	r := newRider(f.KnownOn(p.Today))
	change, shown := r.change(p, race.Date, 10), 0
	for u := 6; u <= 8; u++ {
		day := p.Known(race.Date.AddDays(-u))
		shown += day.Minutes()
		if r.ridden(day) != 0 || change[u-1] != 0 {
			t.Errorf("D-%d, shown as %v, has a load of %v and changes %v", u, day.Sessions, r.ridden(day), change[u-1])
		}
	}
	if shown == 0 {
		t.Fatal("nothing was shown on the ill days")
	}
	f.Done = []planner.Ride{{Date: race.Date - 7, Minutes: 30, RPE: 2, Told: planner.Told{On: race.Date - 7}}}
	r = newRider(f.KnownOn(p.Today))
	if got := r.ridden(engine.Derive(race.Date-5, f).Known(race.Date - 7)); got != 60 {
		t.Errorf("a logged ride of an ill day has a load of %v, want 60", got)
	}
	f.Done, f.Ill[0].Told = nil, planner.Told{On: race.Date + 3}
	l := newLookBack(race.Date+4, f)
	f.Results = []planner.Result{{Race: race.Name, Feeling: 5}}
	l.races(race.Date + 4)
	taught := l.change(race.Date, 1)
	for u := 6; u <= 8; u++ {
		if d := race.Date.AddDays(-u); taught[u-1] != -l.usual(d) {
			t.Errorf("D-%d teaches %v, want %v", u, taught[u-1], -l.usual(d))
		}
	}
}
