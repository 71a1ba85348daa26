package raceday_test

import (
	"testing"
	"time"

	"musette/planner"
	"musette/planner/raceday"
)

func TestCount(t *testing.T) {
	for name, tc := range map[string]struct {
		race                      planner.Race
		way                       raceday.Way
		early                     bool
		wake, meal, leave, arrive int
		warmUp                    int
		packed                    bool
	}{
		"a road race":            {planner.Race{Hours: 2}, raceday.Way{Minutes: 30, Known: true}, false, 210, 180, 105, 75, 15, false},
		"the way is not known":   {planner.Race{Hours: 2}, raceday.Way{}, false, 210, 180, -1, 75, 15, false},
		"next door":              {planner.Race{Hours: 2}, raceday.Way{Known: true}, false, 210, 180, 75, 75, 15, false},
		"an hour":                {planner.Race{Hours: 1}, raceday.Way{}, false, 210, 180, -1, 85, 25, false},
		"a time trial":           {planner.Race{Hours: 2, Kind: "Time Trial"}, raceday.Way{}, false, 210, 180, -1, 80, 25, false},
		"all day":                {planner.Race{Hours: 9}, raceday.Way{}, false, 210, 180, -1, 70, 10, false},
		"early":                  {planner.Race{Hours: 2}, raceday.Way{}, true, 150, 120, -1, 75, 15, false},
		"early and a way":        {planner.Race{Hours: 2}, raceday.Way{Minutes: 58, Known: true}, true, 195, 165, 135, 75, 15, false},
		"the longest way to eat": {planner.Race{Hours: 2}, raceday.Way{Minutes: 135, Known: true}, false, 270, 240, 210, 75, 15, false},
		"the meal is on the way": {planner.Race{Hours: 2}, raceday.Way{Minutes: 136, Known: true}, false, 260, 180, 215, 75, 15, true},
		"a day's way":            {planner.Race{Hours: 2}, raceday.Way{Minutes: 1440, Known: true}, true, 1560, 120, 1515, 75, 15, true},
	} {
		t.Run(name, func(t *testing.T) {
			tc.race.Days = 1
			c := raceday.Count(&tc.race, tc.way, tc.early)
			for step, want := range map[raceday.Step]int{raceday.Wake: tc.wake, raceday.Meal: tc.meal, raceday.Leave: tc.leave, raceday.Arrive: tc.arrive, raceday.Start: 0} {
				got := -1
				for _, m := range c.Moments {
					if m.Step == step {
						got = m.Lead
					}
				}
				if got != want {
					t.Errorf("step %d: %d minutes before, want %d", step, got, want)
				}
			}
			if c.WarmUp != tc.warmUp || c.Packed != tc.packed {
				t.Errorf("warm-up %d, packed %v", c.WarmUp, c.Packed)
			}
			for i, m := range c.Moments[1:] {
				if m.Lead > c.Moments[i].Lead {
					t.Errorf("%v: not in order", c.Moments)
				}
			}
		})
	}
}

func TestFuel(t *testing.T) {
	for minutes, want := range map[int]raceday.Fuel{
		44: {}, 45: {Rinse: true}, 75: {Rinse: true}, 76: {Low: 30, High: 60}, 150: {Low: 30, High: 60}, 151: {Low: 30, High: 90, Mixed: true},
	} {
		if got := raceday.FuelOf(minutes); got != want {
			t.Errorf("%d min: %+v, want %+v", minutes, got, want)
		}
	}
	if raceday.Loads(90) || !raceday.Loads(91) {
		t.Error("carbohydrate is loaded for more than 90 minutes")
	}
}

func TestStartInZones(t *testing.T) {
	for _, tc := range []struct{ zone, date, start, want, shift string }{
		{"Europe/Lisbon", "2026-06-28", "10:30", "2026-06-28T10:30:00+01:00", ""},
		{"Europe/Madrid", "2026-03-29", "09:00", "2026-03-29T09:00:00+02:00", "1h0m0s"}, // clocks went on at two
		{"Europe/Madrid", "2026-03-29", "02:30", "2026-03-29T03:30:00+02:00", "1h0m0s"}, // jumped over
		{"Europe/Madrid", "2026-03-29", "01:30", "2026-03-29T01:30:00+01:00", ""},
		{"Europe/Madrid", "2026-10-25", "02:30", "2026-10-25T02:30:00+02:00", ""}, // comes twice
		{"Europe/Madrid", "2026-10-25", "08:00", "2026-10-25T08:00:00+01:00", "-1h0m0s"},
		{"Australia/Lord_Howe", "2026-10-04", "09:00", "2026-10-04T09:00:00+11:00", "30m0s"},
		{"America/Havana", "2026-03-08", "00:30", "2026-03-08T01:30:00-04:00", "1h0m0s"}, // the day begins at one
		{"UTC", "2026-12-31", "00:05", "2026-12-31T00:05:00Z", ""},
	} {
		zone, err := time.LoadLocation(tc.zone)
		if err != nil {
			t.Fatal(err)
		}
		date, err := planner.ParseISODate(tc.date)
		if err != nil {
			t.Fatal(err)
		}
		start, ok := raceday.StartIn(&planner.Race{Date: date, Start: tc.start}, zone)
		if got := start.Format(time.RFC3339); !ok || got != tc.want {
			t.Errorf("%s %s in %s: %s, want %s", tc.date, tc.start, tc.zone, got, tc.want)
		}
		shift, ok := raceday.ShiftBefore(start)
		if ok != (tc.shift != "") || ok && shift.By.String() != tc.shift {
			t.Errorf("%s %s in %s: clocks change by %s (%v), want %s", tc.date, tc.start, tc.zone, shift.By, ok, tc.shift)
		}
	}
	if _, ok := raceday.StartIn(&planner.Race{Date: 20000}, time.UTC); ok {
		t.Error("a start that nobody told")
	}
}

func TestEarly(t *testing.T) {
	for clock, want := range map[string]bool{"00:30": false, "02:59": false, "03:00": true, "07:59": true, "08:00": false, "23:00": false} {
		at, err := time.Parse("15:04", clock)
		if err != nil {
			t.Fatal(err)
		}
		if raceday.Early(at) != want {
			t.Errorf("%s: early is %v", clock, !want)
		}
	}
}
