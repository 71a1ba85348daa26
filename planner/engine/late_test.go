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

// What falls out of a taper are rides that were missed or that the rider cannot ride: no
// day that is free anyway, none of an illness, no race. A ride that was missed is no room.
func TestLostDaysOfATaper(t *testing.T) {
	f := raceFacts(t, 16)
	race := f.Races[0].Date
	f.Weeks[0].Week = week(t, "tue intervals 1h30 5x4min; wed endurance 1h30; thu intervals 1h15 8x2min; sat group 2h; sun long 3h")
	start := engine.Derive(day0, f).Tapers[0].From
	var want []planner.Date
	for d := start; d < start+4; d++ {
		f.Absences = append(f.Absences, planner.Absence{From: d, To: d})
		if rides := f.WeekOn(d)[d.Weekday()].Sessions; len(rides) > 0 && rides[0].Kind.IsRide() {
			want = append(want, d)
		}
	}
	got := engine.Derive(day0, f).Tapers[0]
	if !reflect.DeepEqual(got.Lost, want) || got.AwayRides != len(want) || len(want) < 2 || len(want) > 3 {
		t.Errorf("lost %v, %d of them away, want %v", got.Lost, got.AwayRides, want)
	}
	f.Ill = []planner.Illness{{From: start + 1, To: start + 1, Level: planner.LevelRest}}
	for _, d := range engine.Derive(start, f).Tapers[0].Lost {
		if d == start+1 {
			t.Errorf("%s is lost, a day of illness", d)
		}
	}
	f.Ill, f.Absences = nil, nil
	last := start
	for d := start; d < race; d++ {
		if day, _ := engine.Derive(d, f).Day(d); day.IsHard() {
			f.Done, last = append(f.Done, planner.Ride{Date: d, Told: planner.Told{On: d}}), d
		}
	}
	if p := engine.Derive(last, f); warned(p, engine.WarnHardMissed) == nil || warned(p, engine.WarnNoTouch) != nil || len(p.Tapers[0].Lost) != len(f.Done) {
		t.Errorf("all %d hard days missed: %+v, lost %v", len(f.Done), p.Warnings, p.Tapers[0].Lost)
	}
}
