package planfile

import (
	"reflect"
	"strings"
	"testing"

	"musette/planner"
)

// read reads a file without faults.
func read(t *testing.T, in string) *planner.Facts {
	t.Helper()
	_, f, faults := Read([]byte(in))
	if len(faults) > 0 {
		t.Fatalf("got faults %v, want none", faults)
	}
	return f
}

// told is when something was entered and withdrawn, "" for neither.
func told(t *testing.T, on, withdrawn string) (out planner.Told) {
	t.Helper()
	for text, d := range map[string]*planner.Date{on: &out.On, withdrawn: &out.Withdrawn} {
		if text != "" {
			*d = mustDate(t, text)
		}
	}
	return out
}

const threeVersions = `{"today": "2026-05-04", "week": {}, "races": [
 {"id": "loop", "name": "Hill Loop", "date": "2026-05-23", "priority": "C", "registered": "2026-04-01", "withdrawn": "2026-04-10"},
 {"name": "Mill", "date": "2026-05-30", "priority": "B"},
 {"id": "loop", "name": "Hill Loop", "date": "2026-05-24", "priority": "A", "registered": "2026-04-20"},
 {"id": 7, "name": "Quarry", "date": "2026-06-30", "priority": "A", "withdrawn": "2026-05-01"},
 {"id": "loop", "name": "Hill Loop", "date": "2026-05-24", "priority": "B", "registered": "2026-04-10", "withdrawn": "2026-04-20"},
 {"id": "7", "name": "Quarry", "date": "2026-06-30", "priority": "B", "registered": "2026-05-01"}]}`

// Entries of one id are versions of one race, which is registered when the first was told.
func TestVersionsOfARace(t *testing.T) {
	type version struct {
		ID         int64
		Priority   planner.Priority
		Registered planner.Date
		Told       planner.Told
	}
	var got []version
	f := read(t, threeVersions)
	for _, r := range f.Races {
		got = append(got, version{r.ID, r.Priority, r.Registered, r.Told})
	}
	april := mustDate(t, "2026-04-01")
	want := []version{
		{1, planner.PriorityC, april, told(t, "2026-04-01", "2026-04-10")}, {2, planner.PriorityB, 0, planner.Told{}}, {1, planner.PriorityA, april, told(t, "2026-04-20", "")},
		{4, planner.PriorityA, 0, told(t, "", "2026-05-01")}, {1, planner.PriorityB, april, told(t, "2026-04-10", "2026-04-20")}, {4, planner.PriorityB, 0, told(t, "2026-05-01", "")},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	for day, want := range map[string]string{"2026-03-01": "Mill B, Quarry A", "2026-04-05": "Hill Loop C, Mill B, Quarry A", "2026-04-10": "Mill B, Quarry A, Hill Loop B", "2026-05-04": "Mill B, Hill Loop A, Quarry B"} {
		var names []string
		for _, r := range f.KnownOn(mustDate(t, day)).Races {
			names = append(names, r.Name+" "+r.Priority.String())
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("on %s %s are known, want %s", day, got, want)
		}
	}
}

// Two versions that hold on one day are a fault, and so are two races of one name and date.
func TestVersionsThatHoldAtOnce(t *testing.T) {
	races := func(entries ...string) string {
		for i, e := range entries {
			entries[i] = `{"name": "Hill Loop", "date": "2026-05-23", "priority": "A"` + e + `}`
		}
		return file(`"races": [` + strings.Join(entries, ", ") + `]`)
	}
	for name, tc := range map[string]struct{ in, want string }{
		"the older one stands":           {races(`, "id": 1`, `, "id": 1, "registered": "2026-05-02"`), "races[1].id"},
		"the younger one comes first":    {races(`, "id": 1, "registered": "2026-05-02"`, `, "id": 1`), "races[1].id"},
		"a day too long":                 {races(`, "id": 1, "withdrawn": "2026-05-03"`, `, "id": 1, "registered": "2026-05-02"`), "races[1].id"},
		"one inside another":             {races(`, "id": 1, "withdrawn": "2026-05-03"`, `, "id": 1, "registered": "2026-05-01", "withdrawn": "2026-05-02"`, `, "id": 1, "registered": "2026-05-02"`), "races[1].id races[2].id"},
		"one after the other":            {races(`, "id": 1, "withdrawn": "2026-05-03"`, `, "id": 1, "registered": "2026-05-03"`), ""},
		"one never held":                 {races(`, "id": 1, "registered": "2026-05-02", "withdrawn": "2026-05-02"`, `, "id": 1, "registered": "2026-05-01"`), ""},
		"without ids, at once":           {races(``, `, "registered": "2026-05-03"`), "races[1].name"},
		"without ids, one after another": {races(`, "withdrawn": "2026-05-03"`, `, "registered": "2026-05-03"`), ""},
		"two ids, at once":               {races(`, "id": 1`, `, "id": 2`), "races[1].name"},
		"three at once":                  {races(``, ``, ``), "races[1].name races[2].name"},
	} {
		_, _, faults := Read([]byte(tc.in))
		var got []string
		for _, f := range faults {
			got = append(got, f.Field)
			checkMessage(t, f)
		}
		if strings.Join(got, " ") != tc.want {
			t.Errorf("%s: got %v, want faults of %q", name, faults, tc.want)
		}
	}
}

const twoStates = `{"today": "2026-05-04", "week": {}, "races": [], "taper": [
 {"told": "2026-05-03", "days": "auto", "openers": "D-2"}, {"days": 10, "cut": 45}, {"told": "2026-05-01", "pattern": "second"}, {"told": "2026-05-03", "cut": 60}]}`

// A later state replaces the settings that it names.
func TestStatesOfTheTaper(t *testing.T) {
	f := read(t, twoStates)
	old := []planner.Taper{
		{Days: 10, Cut: 45, Told: told(t, "", "2026-05-01")},
		{Days: 10, Cut: 45, Pattern: planner.EverySecondDay, Told: told(t, "2026-05-01", "2026-05-03")},
	}
	now := planner.Taper{Cut: 60, Pattern: planner.EverySecondDay, OpenersD2: true, Told: told(t, "2026-05-03", "")}
	if f.Taper != now || !reflect.DeepEqual(f.OldTaper, old) {
		t.Errorf("got  %+v after %+v\nwant %+v after %+v", f.Taper, f.OldTaper, now, old)
	}
	only := read(t, file(`"taper": {"days": 7, "told": "2026-05-02"}`))
	if want := (planner.Taper{Days: 7, Told: told(t, "2026-05-02", "")}); only.Taper != want || only.OldTaper != nil {
		t.Errorf("got %+v after %+v, want %+v", only.Taper, only.OldTaper, want)
	}
	if got := only.KnownOn(mustDate(t, "2026-05-01")).Taper; got != (planner.Taper{}) {
		t.Errorf("before the first was told %+v held, want the defaults", got)
	}
}

const threeWeeks = `{"today": "2026-05-04", "races": [], "week": [
 {"mon": "easy 40", "tue": "hard 1h", "sat": "long 3h"},
 {"told": "2026-05-01", "from": "2026-06-01", "tue": "rest"},
 {"told": "2026-05-02", "tue": "group 2h"},
 {"told": "2026-05-03", "from": "2026-06-01", "sat": "busy"},
 {"told": "2026-05-03", "from": "2026-06-01", "sun": "1h"}]}`

// A week told later replaces the days that it names, from its date on.
func TestWeeksToldLater(t *testing.T) {
	var got []string
	for _, w := range read(t, threeWeeks).Weeks {
		from := "always"
		if !w.From.IsZero() {
			from = w.From.String()
		}
		got = append(got, from+": "+w.Week.String())
		switch {
		case len(got) == 3 && w.Told != told(t, "2026-05-01", "2026-05-03"), len(got) == 4 && w.Told != told(t, "2026-05-03", ""):
			t.Errorf("week %d was told %+v", len(got), w.Told)
		}
	}
	want := []string{
		"always: mon recovery 40min; tue intervals 1h; wed rest; thu rest; fri rest; sat long 3h; sun rest",
		"2026-05-02: mon recovery 40min; tue group 2h; wed rest; thu rest; fri rest; sat long 3h; sun rest",
		"2026-06-01: mon recovery 40min; tue rest; wed rest; thu rest; fri rest; sat long 3h; sun rest",
		"2026-06-01: mon recovery 40min; tue rest; wed rest; thu rest; fri rest; sat busy; sun endurance 1h",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A correction of a ride may stand beside what it corrects; only what stands counts in the day.
func TestCorrectedRide(t *testing.T) {
	f := read(t, file(`"done": [{"date": "2026-05-02", "minutes": 1000, "withdrawn": "2026-05-03"}, {"date": "2026-05-02", "minutes": 1000, "told": "2026-05-03"}]`))
	for day, want := range map[string]planner.Told{"2026-05-02": told(t, "2026-05-02", "2026-05-03"), "2026-05-04": told(t, "2026-05-03", "")} {
		if got := f.KnownOn(mustDate(t, day)).Done; len(got) != 1 || got[0].Told != want {
			t.Errorf("on %s %+v is known, want the ride told %+v", day, got, want)
		}
	}
}

// Two weeks take turns from the week of the date from which they hold.
func TestTwoWeeksInTurn(t *testing.T) {
	_, f, faults := Read([]byte(`{"today":"2026-06-01","week":{"tue":"endurance 1h","from":"2026-06-03","second":{"wednesday":"endurance 2h"}},"races":[]}`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for day, want := range map[planner.Date]int{planner.NewDate(2026, 6, 2): 60, planner.NewDate(2026, 6, 9): 0, planner.NewDate(2026, 6, 10): 120, planner.NewDate(2026, 6, 16): 60, planner.NewDate(2026, 6, 17): 0} {
		if got := f.WeekOn(day)[day.Weekday()].RideMinutes(); got != want {
			t.Errorf("%s: %d min, want %d", day, got, want)
		}
	}
	for text, want := range map[string]string{
		`{"second":{"wed":5}}`:                                             `week.second.wed`,
		`{"from":"2026-06-03","second":{"second":{}}}`:                     `week.second.second`,
		`{"from":"2026-06-03","second":{"wed":"bananas"}}`:                 `week.second.wed`,
		`{"from":"2026-06-03","second":"wed endurance 2h"}`:                `week.second`,
		`{"from":"2026-06-03","second":{"wed":"rest","wednesday":"busy"}}`: `week.second.wednesday`,
	} {
		_, _, faults := Read([]byte(`{"today":"2026-06-01","week":` + text + `,"races":[]}`))
		if len(faults) != 1 || faults[0].Field != want || !strings.Contains(faults[0].Msg, "xample") {
			t.Errorf("%s: %v, want a fault of %s", text, faults, want)
		}
	}
}

// A race that is off counts for nothing, one that was given up ends on that day.
func TestRaceStatus(t *testing.T) {
	race := func(more string) string {
		return `{"today":"2026-06-01","week":{"tue":"endurance 1h"},"races":[{"name":"X","date":"2026-06-14","priority":"A","days":3` + more + `}]}`
	}
	for more, want := range map[string]int{``: 3, `,"status":"planned"`: 3, `,"status":"finished"`: 3, `,"status":"cancelled"`: 0, `,"status":"postponed"`: 0, `,"status":"not-started"`: 0,
		`,"status":"gave-up"`: 1, `,"status":"gave-up","ended":"2026-06-15"`: 2} {
		today, f, faults := Read([]byte(race(more)))
		if len(faults) > 0 {
			t.Fatal(more, faults)
		}
		days := 0
		for _, r := range f.KnownOn(today).Races {
			days += r.Days
		}
		if days != want {
			t.Errorf("%s: %d days, want %d", more, days, want)
		}
	}
	for more, want := range map[string]string{`,"status":"lost"`: "races[0].status", `,"ended":"2026-06-14"`: "races[0].ended", `,"status":"gave-up","ended":"2026-06-17"`: "races[0].ended"} {
		if _, _, faults := Read([]byte(race(more))); len(faults) != 1 || faults[0].Field != want {
			t.Errorf("%s: %v", more, faults)
		}
	}
}

// What races have taught comes in versions, and the usual length is a wish of its own.
func TestLearned(t *testing.T) {
	f := read(t, `{"today": "2026-05-04", "week": {}, "races": [], "taper": [{"days": 10}, {"days": "usual", "told": "2026-05-02"}],
		"learned": [{"races": 5, "low": 70, "mid": 80, "high": 90, "withdrawn": "2026-05-01"}, {"races": 6, "low": 110, "mid": 125, "high": 140, "told": "2026-05-01"}]}`)
	want := []planner.Taught{{Races: 5, Low: 70, Mid: 80, High: 90, Told: told(t, "", "2026-05-01")}, {Races: 6, Low: 110, Mid: 125, High: 140, Told: told(t, "2026-05-01", "")}}
	if !reflect.DeepEqual(f.Taught, want) {
		t.Errorf("got %+v, want %+v", f.Taught, want)
	}
	if !f.Taper.Usual || f.Taper.Days != 0 || len(f.OldTaper) != 1 || f.OldTaper[0].Days != 10 || f.OldTaper[0].Usual {
		t.Errorf("got %+v after %+v", f.Taper, f.OldTaper)
	}
	for entry, field := range map[string]string{
		`"races": 2, "low": 70, "mid": 80, "high": 90`: "learned[0].races", `"races": 6, "low": 90, "mid": 80, "high": 95`: "learned[0].mid", `"races": 6, "low": 70, "mid": 80`: "learned[0].high",
		`"races": 6, "low": 0, "mid": 80, "high": 90`: "learned[0].low", `"races": 6, "low": 70, "mid": 80, "high": 90, "told": "2026-05-05"`: "learned[0].told",
	} {
		if _, _, faults := Read([]byte(`{"today": "2026-05-04", "week": {}, "races": [], "learned": [{` + entry + `}]}`)); len(faults) != 1 || faults[0].Field != field {
			t.Errorf("%s: got %v, want a fault of %s", entry, faults, field)
		}
	}
}
