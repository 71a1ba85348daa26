package engine_test

import (
	"reflect"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

// Days of which illness is told later stay as they were shown, but nothing of them counts
// as ridden: not in the figures of a taper, and no hard session of theirs keeps another
// away. What was logged of them counts.
func TestIllnessToldLate(t *testing.T) {
	// An illness of D-9 and D-8 is told on D-7.
	f := raceFacts(t, 16) // a Tuesday race
	race := f.Races[0].Date
	before := engine.Derive(race-7, f)
	f.Ill = []planner.Illness{{From: race - 9, To: race - 8, Level: planner.LevelRest, Told: planner.Told{On: race - 7}}}
	after := engine.Derive(race-7, f)
	lost := 0
	for d := race - 9; d <= race-8; d++ {
		x, y := before.Known(d), after.Known(d)
		if !reflect.DeepEqual(x.Sessions, y.Sessions) {
			t.Errorf("%s was shown as %v and is %v", d, x.Sessions, y.Sessions)
		}
		lost += x.Minutes()
	}
	if lost == 0 {
		t.Fatal("nothing was planned")
	}
	planned, rides := 0, 0
	for d := after.Tapers[0].From; d < race; d++ {
		if day := after.Known(d); day.Minutes() > 0 && !f.IllOn(d) {
			planned, rides = planned+day.Minutes(), rides+1
		}
	}
	if got := after.Tapers[0]; got.PlanMinutes != planned || got.PlanRides != rides {
		t.Errorf("%d minutes in %d rides count, want %d in %d", got.PlanMinutes, got.PlanRides, planned, rides)
	}
	f.Done = []planner.Ride{{Date: race - 8, Minutes: 50, Told: planner.Told{On: race - 8}}}
	if got := engine.Derive(race-7, f).Tapers[0]; got.PlanMinutes != planned+50 {
		t.Errorf("with a ride of 50 minutes %d count, want %d", got.PlanMinutes, planned+50)
	}
	f.Done, f.Ill[0].Withdrawn = nil, race-6
	if got, want := engine.Derive(race-6, f).Tapers[0].PlanMinutes, planned+lost; got < want {
		t.Errorf("taken back, %d minutes count, want %d and more", got, want)
	}
}

// Of a race that is weeks away nobody knows while an illness or an injury goes on whether
// it may be started; of one that is near it is known.
func TestRaceFarAwayWhileHurt(t *testing.T) {
	for ahead, want := range map[int]engine.Code{2: engine.WarnDoNotStart, 3: engine.WarnDoNotStart, 4: engine.WarnStartOpen, 20: engine.WarnStartOpen, 40: engine.NoReason} {
		f := raceFacts(t, ahead)
		f.Ill = []planner.Illness{{From: day0, Level: planner.LevelRest, Injury: true, Told: planner.Told{On: day0}}}
		p := engine.Derive(day0, f)
		for _, code := range []engine.Code{engine.WarnDoNotStart, engine.WarnStartOpen} {
			if w := warned(p, code); (w != nil) != (code == want) || code == engine.WarnStartOpen && w != nil && (w.M != ahead || w.Day != f.Races[0].Date-3) {
				t.Errorf("%d days ahead: %s is %+v", ahead, code, w)
			}
		}
		why := engine.WhyIllRace
		if ahead > 3 {
			why = engine.WhyIllOpen
		}
		if d, _ := p.Day(day0.AddDays(ahead)); d.Causes[0].Code != why || d.Minutes() > 0 {
			t.Errorf("%d days ahead: %+v", ahead, d.Causes)
		}
	}
}

// The name of a race among the symptoms of a plan file holds nothing back.
func TestRaceNameIsNoSymptom(t *testing.T) {
	for symptom, held := range map[string]bool{"heart attack 100": false, "heart attack": true, "passed out on heart attack 100": true} {
		f := raceFacts(t, 16)
		f.Races[0].Name = "Heart Attack 100"
		f.Ill = []planner.Illness{{From: day0, To: day0 + 1, Symptoms: []string{symptom}, Told: planner.Told{On: day0}}}
		if p := engine.Derive(day0+2, f); p.Held != held {
			t.Errorf("%s: held %v", symptom, p.Held)
		}
	}
}
