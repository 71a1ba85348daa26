package engine_test

import (
	"reflect"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
)

// became is the race of raceFacts with what happened to it, told on a day.
func became(f *planner.Facts, s planner.RaceStatus, on planner.Date) {
	next := f.Races[0]
	f.Races[0].Withdrawn = on
	next.Became(s, on)
	next.On = on
	f.Races = append(f.Races, next)
}

// A race that is cancelled or not started counts for nothing from that day on,
// and the days before stay as they were shown.
func TestRaceThatIsNotRidden(t *testing.T) {
	for _, s := range []planner.RaceStatus{planner.Cancelled, planner.NotStarted} {
		for _, on := range []planner.Date{day0 + 8, day0 + 12, day0 + 13} {
			f := raceFacts(t, 12)
			became(f, s, on)
			with, without := engine.Derive(on-1, f), raceFacts(t, 12)
			without.Races = nil
			got, want := engine.DeriveUntil(on, on+20, f), engine.DeriveUntil(on, on+20, without)
			if len(with.Tapers)+len(with.Races) == 0 || len(got.Tapers)+len(got.Races) != 0 {
				t.Fatalf("%s on %s: tapers %v before and %v after", s, on, with.Tapers, got.Tapers)
			}
			for i := range want.Days {
				if !reflect.DeepEqual(got.Days[i].Sessions, want.Days[i].Sessions) {
					t.Errorf("%s on %s: %s has %v, without the race %v", s, on, want.Days[i].Date, got.Days[i].Sessions, want.Days[i].Sessions)
				}
			}
			if race, _ := engine.Derive(min(on-1, day0+12), f).Day(day0 + 12); race.Phase != planner.RaceDay {
				t.Errorf("%s on %s: the day before the race was no race", s, on)
			}
		}
	}
}

// A stage race that is given up ends on that day; the days after recover from it.
func TestStageRaceThatIsGivenUp(t *testing.T) {
	f := raceFacts(t, 12)
	f.Races[0].Days = 5
	became(f, planner.GaveUp, day0+14)
	for today, last := range map[planner.Date]planner.Date{day0 + 13: day0 + 16, day0 + 14: day0 + 14, day0 + 15: day0 + 14} {
		p := engine.Derive(today, f)
		for i := range p.Days {
			d := &p.Days[i]
			if (d.Phase == planner.RaceDay) != (d.Date <= last && d.Date >= day0+12) {
				t.Errorf("on %s: %s is %s", today, d.Date, d.Phase)
			}
		}
		if d, _ := p.Day(last + 1); d.Phase != planner.Recovering {
			t.Errorf("on %s: the day after is %s", today, d.Phase)
		}
	}
}

// Of two A races that are close nothing is warned once the first is over: nobody can change it.
func TestCloseRacesAreWarnedOfAhead(t *testing.T) {
	_, f, faults := planfile.Read([]byte(`{"today":"2027-06-07",` + ownWeek + `,"races":[{"name":"Hill Loop","date":"2027-06-19","priority":"A","hours":2},{"name":"Mill Ride","date":"2027-07-03","priority":"A","hours":2}]}`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for today, warned := range map[planner.Date]bool{planner.NewDate(2027, 6, 12): true, planner.NewDate(2027, 6, 21): false} {
		got := slices.ContainsFunc(engine.Derive(today, f).Warnings, func(w engine.Warning) bool { return w.Code == engine.WarnCloseA })
		if got != warned {
			t.Errorf("%s: %v", today, got)
		}
	}
}
