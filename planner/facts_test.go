package planner

import (
	"reflect"
	"testing"
)

func TestToldKnownOn(t *testing.T) {
	for _, tc := range []struct {
		name          string
		on, withdrawn Date
		known         [4]bool // on days 9, 10, 11 and 12
	}{
		{"before everything", 0, 0, [4]bool{true, true, true, true}},
		{"told on 10", 10, 0, [4]bool{false, true, true, true}},
		{"withdrawn on 11", 0, 11, [4]bool{true, true, false, false}},
		{"told on 10, withdrawn on 12", 10, 12, [4]bool{false, true, true, false}},
		{"told and withdrawn on one day", 11, 11, [4]bool{}},
	} {
		for i, want := range tc.known {
			if got := (Told{tc.on, tc.withdrawn}).KnownOn(Date(9 + i)); got != want {
				t.Errorf("%s: known on day %d is %v, want %v", tc.name, 9+i, got, want)
			}
		}
	}
}

// mondays is a week with one ride of so many hours.
func mondays(hours int16) (w Week) {
	w[Monday].Sessions = []Session{{Kind: Endurance, Effort: Steady, Minutes: 60 * hours}}
	return w
}

// versions are facts of each kind that are known on days 100 to 109 and others
// that take their place from 110 on.
func versions(t *testing.T) *Facts {
	old, now := Told{On: 100, Withdrawn: 110}, Told{On: 110}
	return &Facts{
		Weeks: []DatedWeek{{From: 100, Week: mondays(1), Told: old}, {From: 100, Week: mondays(2), Told: now}, {From: 200, Week: mondays(3), Told: Told{On: 120}}},
		Races: []Race{
			{ID: 1, Name: "Hill Loop", Date: 150, Priority: PriorityB, Days: 1, Registered: 100, Told: old},
			{ID: 1, Name: "Hill Loop", Date: 151, Priority: PriorityA, Days: 1, Registered: 100, Told: now},
			{ID: 2, Name: "Gone", Date: 160, Days: 1, Registered: 100, Told: old},
			{Name: "Mill", Date: 170, Days: 1},
			{Name: "Quarry", Date: 180, Days: 1},
		},
		Taper:    Taper{Days: 10, Told: now},
		OldTaper: []Taper{{Cut: 30, Told: Told{On: 90, Withdrawn: 100}}, {Cut: 40, Told: old}},
		Blocks:   []Block{{From: 111, To: 120, Percent: 10, Told: old}, {From: 111, To: 120, Percent: 20, Told: now}},
		Absences: []Absence{{From: 111, To: 112, Told: old}, {From: 111, To: 112, Travel: true, Told: now}},
		Limits:   []Limit{{Date: 111, Minutes: 30, Told: old}, {Date: 111, Minutes: 60, Told: now}},
		Ill:      []Illness{{From: 101, Told: old}, {From: 101, To: 105, Told: now}},
		Done:     []Ride{{Date: 99, Minutes: 60, Told: old}, {Date: 99, Minutes: 70, Told: now}},
		Results:  []Result{{Race: "Mill", Feeling: 7}},
		Moves:    []Move{{From: 111, To: 112, Told: old}, {From: 111, To: 113, Told: now}},
		Pins:     []Pin{{Date: 111, Session: RestSession, Told: old}, {Date: 112, Session: RestSession, Told: now}},
	}
}

func TestKnownOn(t *testing.T) {
	f := versions(t)
	before, untouched := versions(t), versions(t)
	before.Weeks, before.Races = before.Weeks[:1], []Race{before.Races[0], before.Races[2], before.Races[3], before.Races[4]}
	before.Taper, before.OldTaper = before.OldTaper[1], nil
	before.Blocks, before.Absences, before.Limits, before.Ill = before.Blocks[:1], before.Absences[:1], before.Limits[:1], before.Ill[:1]
	before.Done, before.Moves, before.Pins = before.Done[:1], before.Moves[:1], before.Pins[:1]

	after := versions(t)
	after.Weeks, after.Races = after.Weeks[1:2], []Race{after.Races[1], after.Races[3], after.Races[4]}
	after.OldTaper = nil
	after.Blocks, after.Absences, after.Limits, after.Ill = after.Blocks[1:], after.Absences[1:], after.Limits[1:], after.Ill[1:]
	after.Done, after.Moves, after.Pins = after.Done[1:], after.Moves[1:], after.Pins[1:]

	for e, want := range map[Date]*Facts{100: before, 109: before, 110: after, 119: after} {
		got := f.KnownOn(e)
		if !reflect.DeepEqual(got, want) {
			t.Errorf("on day %d\n%+v\nwant\n%+v", e, got, want)
		}
		if again := got.KnownOn(e); !reflect.DeepEqual(again, want) {
			t.Errorf("what is known on day %d changes when asked again", e)
		}
	}
	if !reflect.DeepEqual(f, untouched) {
		t.Error("asking changes the facts")
	}
	if got := f.KnownOn(130).Weeks; len(got) != 2 || got[1].From != 200 {
		t.Errorf("the week told for later is not known: %v", got)
	}
}

// Before everything the defaults hold, and the first week stands for how the rider rode.
func TestKnownOnBeforeEverything(t *testing.T) {
	f := versions(t)
	got := f.KnownOn(80)
	want := &Facts{Weeks: f.Weeks[:1], Races: f.Races[3:], Results: f.Results}
	for _, empty := range []any{&got.Blocks, &got.Absences, &got.Limits, &got.Ill, &got.Done, &got.Moves, &got.Pins} {
		if v := reflect.ValueOf(empty).Elem(); v.Len() == 0 {
			v.SetZero()
		}
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	if got := new(Facts).KnownOn(80); !reflect.DeepEqual(got, new(Facts)) {
		t.Errorf("of nothing %+v is known", got)
	}
	if got := f.KnownOn(95).Taper; got.Cut != 30 {
		t.Errorf("got taper %+v, want the first one", got)
	}
}

// Versions of a race that stand at once count as the one that was entered last.
func TestKnownOnKeepsTheLastVersion(t *testing.T) {
	f := &Facts{Races: []Race{{ID: 7, Name: "new", Told: Told{On: 20}}, {ID: 7, Name: "old", Told: Told{On: 10}}, {ID: 7, Name: "same day", Told: Told{On: 20}}, {ID: 8, Name: "other"}}}
	for e, want := range map[Date][]string{5: {"other"}, 15: {"old", "other"}, 25: {"new", "other"}} {
		var got []string
		for _, r := range f.KnownOn(e).Races {
			got = append(got, r.Name)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("on day %d: %v, want %v", e, got, want)
		}
	}
}

func TestUndated(t *testing.T) {
	f := versions(t).KnownOn(115)
	bare := f.Undated()
	if !reflect.DeepEqual(bare.KnownOn(50), bare) {
		t.Error("facts without dates are not known from the start")
	}
	if bare.Blocks[0].Percent != 20 || bare.Taper.Days != 10 || bare.Races[0].Date != 151 || f.Blocks[0].On != 110 {
		t.Errorf("got %+v, of %+v", bare, f)
	}
}
