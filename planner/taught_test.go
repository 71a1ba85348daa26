package planner_test

import (
	"testing"

	"musette/planner"
)

// What races have taught settles a length only where its range leaves out the usual one, within 5 to 14 days.
func TestTaughtLength(t *testing.T) {
	for _, c := range []struct {
		races, low, mid, high, usual int
		want                         planner.OwnLength
	}{
		{6, 80, 100, 130, 9, planner.OwnLength{Days: 9, Low: 7, High: 12}},
		{6, 115, 133, 150, 9, planner.OwnLength{Days: 12, Low: 10, High: 14, Decides: true}},
		{6, 104, 133, 150, 9, planner.OwnLength{Days: 12, Low: 9, High: 14}},
		{6, 200, 300, 400, 12, planner.OwnLength{Days: 14, Low: 14, High: 14, Decides: true}},
		{6, 20, 30, 60, 6, planner.OwnLength{Days: 5, Low: 5, High: 5, Decides: true}},
		{6, 50, 60, 80, 12, planner.OwnLength{Days: 7, Low: 6, High: 10, Decides: true}},
		{2, 50, 60, 80, 12, planner.OwnLength{Days: 7, Low: 6, High: 10}},
	} {
		taught := planner.Taught{Races: c.races, Low: c.low, Mid: c.mid, High: c.high}
		if got := taught.Length(c.usual); got != c.want {
			t.Errorf("%+v of %d days: %+v, want %+v", taught, c.usual, got, c.want)
		}
	}
	for field, bad := range map[string]planner.Taught{"races": {Races: 2, Low: 1, Mid: 1, High: 1}, "percent": {Races: 3, Low: 90, Mid: 80, High: 100}} {
		if fault, ok := bad.Validate().(*planner.InputError); !ok || fault.Field != field {
			t.Errorf("%+v: %v", bad, fault)
		}
	}
	if (planner.Taper{Days: 8, Usual: true}).Validate() == nil {
		t.Error("a told length and the usual one are both wanted")
	}
}
