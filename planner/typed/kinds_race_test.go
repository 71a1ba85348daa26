package typed_test

import (
	"testing"

	"musette/planner/typed"
)

// A misspelt kind of race is mended, and other words stay as they are.
func TestRaceKind(t *testing.T) {
	for text, want := range map[string]string{
		"critrium": "criterium", "Criterum": "criterium", "critirum": "criterium", "kriterium": "criterium", "creterium": "criterium", "criterm": "criterium", "grvel": "gravel", "gravle race": "gravel race",
		"time trail": "time trial", "timetrial": "time trial", "roadrace": "road race", "stge race": "stge race", "enduranse": "endurance", "cyclocros": "cyclocross", "team time trail": "team time trial",
		"criterium": "criterium", "Road race": "Road race", "state championship": "state championship", "trail": "trail", "crit": "crit", "charity ride": "charity ride", "evening league": "evening league",
		"night ride": "night ride", "hills": "hills", "century": "century", "TT": "TT", "Rennen": "Rennen", "": "",
	} {
		if have := typed.RaceKind(text); have != want {
			t.Errorf("%q is read as %q", text, have)
		}
	}
}

// A text that tells of a race may name its kind.
func TestRaceKindIn(t *testing.T) {
	for _, tc := range []struct {
		text, kind string
		mended     bool
	}{
		{"got a critrium on 20 june called canal loop", "criterium", true},
		{"the canal crit on 20 june", "criterium", false},
		{"Canal Criterium, 20 June", "criterium", false},
		{"a time trail on sunday", "time trial", true},
		{"a roadrace on sunday", "road race", true},
		{"I have a race on sunday, no idea what", "", false},
		{"a race in the state of the critics", "", false},
		{"Grave Hill Race", "", false},
		{"gravel race on 3 july", "gravel", false},
	} {
		if kind, mended := typed.RaceKindIn(tc.text); kind != tc.kind || mended != tc.mended {
			t.Errorf("%q: %q %v", tc.text, kind, mended)
		}
	}
}
