package planner

import (
	"errors"
	"strings"
	"testing"
)

func TestCheckMove(t *testing.T) {
	f := ines(t, goal(t, "Gorge Circuit", "2026-06-28"))
	f.Limits = []Limit{{Date: mustDate(t, "2026-06-20"), Minutes: 40}}
	f.Absences = []Absence{{From: mustDate(t, "2026-06-05"), To: mustDate(t, "2026-06-05"), Travel: true}}
	today := mustDate(t, "2026-06-01")
	tests := []struct {
		name, from, to string
		refused        string // part of the refusal; empty where the swap is fine
	}{
		{"easy days", "2026-06-03", "2026-06-06", ""},
		{"a hard day to a day between easy ones", "2026-06-02", "2026-06-03", ""},
		{"day off", "2026-06-02", "2026-06-04", "day off"},
		{"race day", "2026-06-27", "2026-06-28", "race day"},
		{"two hard days", "2026-06-02", "2026-06-06", "another hard day"},
		{"hard on D-2", "2026-06-24", "2026-06-26", "before Gorge Circuit"},
		{"hard on D-1", "2026-06-24", "2026-06-27", "before Gorge Circuit"},
		{"no room", "2026-06-21", "2026-06-20", "only 40 minutes"},
		{"hard on a travel day", "2026-06-02", "2026-06-05", "2026"},
		{"same day", "2026-06-02", "2026-06-02", "same day"},
		{"past", "2026-05-30", "2026-06-02", "past"},
		{"hard in recovery days", "2026-07-05", "2026-06-30", "recovery day"},
	}
	for _, tt := range tests {
		_, err := f.CheckMove(today, mustDate(t, tt.from), mustDate(t, tt.to))
		var in *InputError
		switch {
		case tt.refused == "" && err != nil:
			t.Errorf("%s: refused: %v", tt.name, err)
		case tt.refused != "" && (!errors.As(err, &in) || !strings.Contains(in.Msg, tt.refused) || in.Field == ""):
			t.Errorf("%s: got %v, want a refusal with a field that says %q", tt.name, err, tt.refused)
		}
	}
	if len(f.Moves) != 0 {
		t.Errorf("the check stored %v", f.Moves)
	}
}

// A swap exchanges the planned sessions; one that a new race makes unsafe is left out with a warning.
func TestMovesAreApplied(t *testing.T) {
	f := ines(t)
	today := mustDate(t, "2026-06-01")
	f.Moves = []Move{{From: mustDate(t, "2026-06-02"), To: mustDate(t, "2026-06-03")}}
	p := Derive(today, f)
	for date, want := range map[string]string{"2026-06-02": "tue / endurance 105", "2026-06-03": "wed / intervals 90 5x3min"} {
		if got := dayLine(t, p, date); got != want {
			t.Errorf("%s: got %q, want %q", date, got, want)
		}
		if d, _ := p.Day(mustDate(t, date)); len(d.Why()) == 0 || d.Why()[0].Rule != "day.moved" {
			t.Errorf("%s: reasons %v, want day.moved", date, d.Why())
		}
	}
	f.Races = []Race{goal(t, "Gorge Circuit", "2026-06-05")}
	p = Derive(today, f)
	if !hasWarning(p, "day.moved", "Wed 3 Jun") {
		t.Errorf("warnings: got %v, want that the swap is left out", p.Warnings)
	}
	if d, _ := p.Day(mustDate(t, "2026-06-03")); d.IsHard() {
		t.Errorf("D-2 is hard: %q", line(d))
	}
}
