package season

import (
	"testing"

	"musette/planner/engine"
)

// What was logged counts in place of what was assumed: each ride with its rating, one
// without by the rating of the planned ride, a missed day with nothing.
func TestLoggedLoadsReplaceAssumedOnes(t *testing.T) {
	tuesday := firstDay + 1
	for name, tc := range map[string]struct {
		rides [][2]float64 // minutes and rating
		want  float64
	}{
		"nothing logged": {nil, 90 * 7},
		"harder":         {[][2]float64{{90, 9}}, 90 * 9},
		"two rides":      {[][2]float64{{55, 8}, {40, 0}}, 55*8 + 40*7},
		"missed":         {[][2]float64{{0, 0}}, 0},
	} {
		f := facts(t, mixedWeek)
		for _, r := range tc.rides {
			f.Done = append(f.Done, rode(tuesday, int(r[0]), r[1]))
		}
		known := newRider(f.KnownOn(tuesday))
		day, _ := engine.DeriveUntil(tuesday, tuesday, facts(t, mixedWeek)).Day(tuesday)
		if got := known.ridden(day); got != tc.want {
			t.Errorf("%s: a load of %g, want %g", name, got, tc.want)
		}
	}
}
