package learn

import (
	"testing"

	"musette/planner"
)

// No race went worse from the planned length up to what is proposed.
func TestNextIsNothingWorse(t *testing.T) {
	race := func(days, legs, compared int, told bool) Race {
		return Race{Days: days, Change: planned(days), Legs: legs, Compared: compared, ComparedTold: told}
	}
	for _, c := range []struct {
		tried Race
		n     int
		want  bool
	}{{race(12, 5, -1, true), 13, true}, {race(12, 5, -1, true), 11, true}, {race(13, 5, -1, true), 11, false}, {race(12, 5, -1, true), 6, false},
		{race(6, 5, -1, true), 6, true}, {race(12, 5, 0, false), 13, true}, {race(12, 8, 0, false), 13, false}, {race(0, 5, -1, true), 5, false}} {
		l := Rough([]Race{race(9, 8, 1, true), race(9, 8, 0, true), c.tried})
		if got := l.wentWorse(9, c.n); got != c.want {
			t.Errorf("%d days after %+v: %v", c.n, c.tried, got)
		}
	}
}

// What is proposed lies in the range that the races leave, and teaches more than the planned length.
func TestNextStaysWithinTheRange(t *testing.T) {
	form := func(days int) ([]float64, bool) { return plannedForms()[days], true }
	change := func(days int) ([]float64, bool) { return planned(days), true }
	other := 0
	for _, races := range [][]Race{nil, {{Days: 9, Change: planned(9), Legs: 7}}, {{Days: 12, Change: planned(12), Legs: 7}, {Days: 7, Change: planned(7), Legs: 7}},
		{{Days: 12, Change: planned(12), Legs: 5, Compared: -1, ComparedTold: true}, {Days: 7, Change: planned(7), Legs: 8}}} {
		l := Rough(races)
		for table := 6; table <= 12; table++ {
			own := l.Length(table)
			next := l.next(table, own, form)
			if next.Days == table {
				continue
			}
			other++
			if base, _ := form(table); next.Days < own.Low || next.Days > own.High || next.Costs > mostCost || next.Teaches <= l.teaches(base) {
				t.Errorf("%d races, %d days: %+v of %+v", len(races), table, next, own)
			}
			if got := l.Next(table, own, change); got != next {
				t.Errorf("%d races, %d days: by loads %+v, by their forms %+v", len(races), table, got, next)
			}
			narrow := planner.OwnLength{Low: table - 1, High: table + 1}
			if got := l.next(table, narrow, form); got.Days != table {
				t.Errorf("%d races, %d days: %+v of %+v", len(races), table, got, narrow)
			}
		}
	}
	if other == 0 {
		t.Error("nothing is ever proposed")
	}
	if none := Rough(nil).Next(9, planner.OwnLength{Low: 6, High: 12}, func(int) ([]float64, bool) { return nil, false }); none != (Next{Days: 9}) {
		t.Errorf("no length fits: %+v", none)
	}
}
