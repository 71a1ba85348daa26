package engine_test

import (
	"reflect"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
)

func pinned(t *testing.T, day planner.Date, text string, on planner.Date) planner.Pin {
	t.Helper()
	s, err := typed.Session(text)
	if err != nil {
		t.Fatal(err)
	}
	return planner.Pin{Date: day, Session: s, Told: planner.Told{On: on}}
}

// A pin holds its day, whatever is told later that leaves the day possible, until
// it is let go of.
func TestPinSettlesItsDay(t *testing.T) {
	day := day0 + 8 // a Tuesday four days before the race
	f := raceFacts(t, 12)
	f.Pins = []planner.Pin{pinned(t, day, "endurance 50min", day0+2)}
	want := []planner.Session{f.Pins[0].Session}
	f.Taper = planner.Taper{Cut: 60, Told: planner.Told{On: day0 + 4}}
	f.Limits = []planner.Limit{{Date: day, Minutes: 55, Told: planner.Told{On: day0 + 5}}}
	for _, today := range []planner.Date{day0 + 2, day0 + 5, day} {
		p := engine.Derive(today, f)
		if d, _ := p.Day(day); !reflect.DeepEqual(d.Sessions, want) || warned(p, engine.WarnPinDropped) != nil || d.Causes[0].Code != engine.WhyPinned {
			t.Errorf("on %s: %v, warnings %v", today, d.Sessions, p.Warnings)
		}
	}
	if d, _ := engine.Derive(day0+1, f).Day(day); reflect.DeepEqual(d.Sessions, want) {
		t.Error("pinned before it was told")
	}
	f.Pins[0].Withdrawn = day0 + 6
	if d, _ := engine.Derive(day0+6, f).Day(day); reflect.DeepEqual(d.Sessions, want) {
		t.Error("let go of, yet pinned")
	}
}

// A pin gives way, with a warning, to health, a day that is not possible and a
// second hard day.
func TestPinThatDoesNotFitIsDropped(t *testing.T) {
	day, told := day0+8, planner.Told{On: day0 + 4}
	for name, tc := range map[string]struct {
		tell func(*planner.Facts)
		why  engine.Code
	}{
		"ill": {func(f *planner.Facts) {
			f.Ill = []planner.Illness{{From: day - 1, Level: planner.LevelRest, Told: told}}
		}, engine.WhyIll},
		"coming back": {func(f *planner.Facts) {
			f.Ill = []planner.Illness{{From: day - 5, To: day - 4, Level: planner.LevelRest, Told: told}}
		}, engine.WhyIll},
		"away":    {func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day, To: day, Told: told}} }, engine.WhyAway},
		"no time": {func(f *planner.Facts) { f.Limits = []planner.Limit{{Date: day, Minutes: 30, Told: told}} }, engine.WhyLimit},
		"a hard pin": {func(f *planner.Facts) {
			f.Pins = append([]planner.Pin{pinned(t, day-1, "intervals 1h 4x3min", day0+4)}, f.Pins...)
		}, engine.WhyHardNextHard},
		"a race next": {func(f *planner.Facts) {
			f.Races = append(f.Races, planner.Race{ID: 2, Name: "Crit", Date: day - 1, Days: 1, Hours: 1, Priority: planner.PriorityC, Registered: day0 + 4, Told: told})
		}, engine.WhyHardNextHard},
		"a race day": {func(f *planner.Facts) {
			f.Races = append(f.Races, planner.Race{ID: 2, Name: "Crit", Date: day, Days: 1, Hours: 1, Priority: planner.PriorityC, Registered: day0 + 4, Told: told})
		}, engine.WhyRace},
		"nothing told": {func(*planner.Facts) {}, engine.NoReason},
	} {
		f := raceFacts(t, 12)
		f.Pins = []planner.Pin{pinned(t, day, "intervals 1h 3x3min", day0+2)}
		want := []planner.Session{f.Pins[0].Session}
		tc.tell(f)
		p := engine.Derive(day0+4, f)
		d, _ := p.Day(day)
		got := reflect.DeepEqual(d.Sessions, want)
		w := warned(p, engine.WarnPinDropped)
		if got != (tc.why == engine.NoReason) || (w == nil) != got || w != nil && (w.Day != day || w.Cause.Code != tc.why) {
			t.Errorf("%s: %v, warning %+v", name, d.Sessions, w)
		}
	}
	f := raceFacts(t, 12)
	f.Pins = []planner.Pin{pinned(t, day, "endurance 50min", day0+2)}
	f.Holds = []planner.Hold{{Date: day0 + 4, Level: planner.LevelHead, Told: told}}
	if d, _ := engine.Derive(day0+4, f).Day(day); !isRest(d) {
		t.Errorf("a hold leaves %v", d.Sessions)
	}
}

// What a swap may not do a pin may not either, and what may be pinned holds.
func TestCheckPin(t *testing.T) {
	ill := func(f *planner.Facts) {
		f.Ill = []planner.Illness{{From: day0, Level: planner.LevelRest, Told: planner.Told{On: day0}}}
	}
	for name, tc := range map[string]struct {
		ahead int
		text  string
		tell  func(*planner.Facts)
		ok    bool
	}{
		"easy":                 {8, "endurance 50min", nil, true},
		"hard":                 {8, "intervals 1h 3x3min", nil, true},
		"past":                 {-1, "rest", nil, false},
		"far":                  {planner.MaxAhead + 1, "rest", nil, false},
		"race day":             {12, "rest", nil, false},
		"hard before the race": {11, "intervals 1h 3x3min", nil, false},
		"hard beside usual":    {30, "intervals 1h 3x3min", nil, false}, // a Wednesday
		"easy beside usual":    {30, "endurance 1h", nil, true},
		"ill":                  {8, "endurance 50min", ill, false},
		"away":                 {8, "endurance 50min", func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day0 + 8, To: day0 + 8}} }, false},
		"logged": {0, "endurance 50min", func(f *planner.Facts) {
			f.Done = []planner.Ride{{Date: day0, Minutes: 30, Told: planner.Told{On: day0}}}
		}, false},
	} {
		f := raceFacts(t, 12)
		if tc.tell != nil {
			tc.tell(f)
		}
		pin := pinned(t, day0.AddDays(tc.ahead), tc.text, 0)
		if err := engine.CheckPin(day0, pin, f); (err == nil) != tc.ok {
			t.Errorf("%s: %v", name, err)
		}
		if !tc.ok {
			continue
		}
		pin.On = day0
		f.Pins = []planner.Pin{pin}
		if d, _ := engine.DeriveUntil(day0, pin.Date, f).Day(pin.Date); !reflect.DeepEqual(d.Sessions, []planner.Session{pin.Session}) {
			t.Errorf("%s: the plan has %v", name, d.Sessions)
		}
	}
}
