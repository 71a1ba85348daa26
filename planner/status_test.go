package planner

import "testing"

func TestBecame(t *testing.T) {
	race := Race{Name: "Tour", Date: 20000, Days: 5}
	for on, want := range map[Date]Date{19000: 20000, 20000: 20000, 20003: 20003, 20004: 20004, 20099: 20004} {
		r := race
		if r.Became(GaveUp, on); r.Ended != want || r.Validate() != nil {
			t.Errorf("given up on %d it ends on %d, want %d", on, r.Ended, want)
		}
		if r.Became(NotStarted, on); !r.Ended.IsZero() || r.Validate() != nil || r.Status.Counts() {
			t.Errorf("not started it is %+v", r)
		}
	}
	for _, wrong := range []Race{{Status: GaveUp}, {Status: GaveUp, Ended: 19999}, {Status: GaveUp, Ended: 20005}, {Status: Finished, Ended: 20001}} {
		wrong.Name, wrong.Date, wrong.Days = race.Name, race.Date, race.Days
		if wrong.Validate() == nil {
			t.Errorf("%s with the day %d is taken", wrong.Status, wrong.Ended)
		}
	}
}
