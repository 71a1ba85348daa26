package engine_test

import (
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/words"
)

// What a rider's races have taught settles the length of a taper that has not begun, below what the
// rider told, from the day on which it was learned.
func TestOwnLength(t *testing.T) {
	race := day0 + 40
	plan := func(today planner.Date, change func(f *planner.Facts)) *engine.Taper {
		t.Helper()
		f := raceFacts(t, 40)
		if change != nil {
			change(f)
		}
		p := engine.Derive(today, f)
		return &p.Tapers[0]
	}
	learned := func(low, mid, high int, on planner.Date) func(f *planner.Facts) {
		return func(f *planner.Facts) {
			f.Taught = []planner.Taught{{Races: 6, Low: low, Mid: mid, High: high, Told: planner.Told{On: on}}}
		}
	}
	usual := plan(day0, nil).Days
	longer := learned(115, 133, 150, day0)
	for what, c := range map[string]struct {
		today planner.Date
		facts func(f *planner.Facts)
		days  int
		why   planner.LengthReason
	}{
		"surely longer":           {day0 + 1, longer, (usual*133 + 50) / 100, planner.LengthOwn},
		"not surely longer":       {day0 + 1, learned(90, 133, 150, day0), usual, planner.LengthTable},
		"surely shorter":          {day0 + 1, learned(30, 40, 50, day0), 5, planner.LengthOwn},
		"before it was learned":   {day0 + 1, learned(115, 133, 150, day0+2), usual, planner.LengthTable},
		"learned in the taper":    {race - 2, learned(115, 133, 150, race-3), usual, planner.LengthTable},
		"learned late":            {race - 2, learned(180, 200, 220, race-11), 11, planner.LengthOwn},
		"the usual one is wanted": {day0 + 1, func(f *planner.Facts) { longer(f); f.Taper.Usual = true }, usual, planner.LengthTable},
		"another one is told":     {day0 + 1, func(f *planner.Facts) { longer(f); f.Taper.Days = 8 }, 8, planner.LengthTold},
		"told of the race":        {day0 + 1, func(f *planner.Facts) { longer(f); f.Races[0].TaperDays = 7 }, 7, planner.LengthTold},
		"another A race is close": {day0 + 1, func(f *planner.Facts) {
			longer(f)
			other := f.Races[0]
			other.ID, other.Name, other.Date = 9, "Other", race+20
			f.Races = append(f.Races, other)
		}, 10, planner.LengthClose},
	} {
		if got := plan(c.today, c.facts); got.Days != c.days || got.Length != c.why {
			t.Errorf("%s: %d days for reason %d, want %d for %d (usual %d)", what, got.Days, got.Length, c.days, c.why, usual)
		}
	}
	taper := plan(day0+1, longer)
	if got, want := words.WhyLength(taper).Text, "Your last 6 races say 12 days suit you: 10 to 14 days fit them, and the usual 9 do not."; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Days on which an illness left no ride come back when the rider is well, also where
// the illness was entered after the taper had begun.
func TestReturnsInsideATaper(t *testing.T) {
	today, f, faults := planfile.Read([]byte(`{"today": "2027-05-17", "week": {"mon": "recovery 40min", "tue": "intervals 1h30 5x3min", "wed": "endurance 1h45", "thu": "off", "fri": "endurance 1h15", "sat": "long 3h", "sun": "intervals 2h 4x8min"},
		"races": [{"name": "Hill", "date": "2027-05-23", "priority": "A", "hours": 3, "registered": "2027-04-01"}],
		"sick": [{"from": "2027-05-15", "symptoms": ["fever"], "told": "2027-05-16", "withdrawn": "2027-05-17"}, {"from": "2027-05-15", "to": "2027-05-16", "symptoms": ["fever"], "told": "2027-05-17"}]}`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	rides := 0
	for _, d := range engine.Derive(today, f).Days {
		if d.Date > today+1 && d.Date < f.Races[0].Date-1 && riddenOf(d.Sessions).minutes > 0 {
			rides++
		}
	}
	if rides < 2 {
		t.Errorf("%d easy rides between the illness and the eve", rides)
	}
}
