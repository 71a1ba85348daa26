package desk_test

import (
	"strings"
	"testing"

	"musette/bot/desk"
	"musette/planner"
	"musette/storage"
)

func TestFindRace(t *testing.T) {
	today := planner.NewDate(2026, 6, 1)
	race := func(id storage.RaceID, name string, date planner.Date) storage.Race {
		return storage.Race{ID: id, Race: planner.Race{Name: name, Date: date, Days: 1}}
	}
	races := []storage.Race{
		race(1, "Hill Loop", today.AddDays(-30)), race(2, "Hill Loop", today.AddDays(12)),
		race(3, "Heron Valley Road Race", today.AddDays(20)), race(4, "Quarry Crit", today.AddDays(27)),
		race(5, "Quarry Crit", today.AddDays(34)), race(6, "!!!", today.AddDays(40)),
		{ID: 7, Race: planner.Race{Name: "Tour of Pellow", Date: today.AddDays(50), Days: 3}},
		race(8, "Old Mill", today.AddDays(-10)),
	}
	for _, tc := range []struct {
		text  string
		id    storage.RaceID
		whole bool // its whole name or its date: enough to remove it
	}{
		{"Hill Loop", 2, true}, {"hill-loop", 2, false}, {"hill", 2, false}, {"loop hill", 2, false}, {"Hill Loop 2026-05-02", 1, true},
		{"heron road", 3, false}, {"her", 3, false}, {"2026-06-21", 3, true}, {"21 June", 3, true}, {"next", 2, false},
		{"Quarry Crit 2026-07-05", 5, true}, {"quarry 2026-06-28", 4, false}, {"!!!", 6, true},
		{"2026-07-23", 7, false}, {"2026-07-21", 7, true}, {"HILL LOOP", 2, true}, {"pellow", 7, false}, {"mill", 8, false}, {"old mill", 8, true},
		{"hil loop", 2, false}, {"hyll loop", 2, false}, {"hill lopo", 2, false}, {"heron valey road race", 3, false},
	} {
		got, err := desk.FindRace(races, tc.text, today)
		if err != nil || got.ID != tc.id || desk.NamedExactly(got, tc.text, today) != tc.whole {
			t.Errorf("%q: got race %d, %v; want %d, whole %v", tc.text, got.ID, err, tc.id, tc.whole)
		}
	}
	for text, want := range map[string]string{
		"quarry": "Quarry Crit (2026-06-28) or Quarry Crit (2026-07-05)", "quary crit": `race:"Quarry Crit 2026-06-28"`,
		"h": "Hill Loop (2026-06-13) or Heron Valley", "zebra crossing": "none of your races is like", "": "none of your races",
	} {
		got, err := desk.FindRace(races, text, today)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), "race: ") {
			t.Errorf("%q: got race %d, %v; want ...%s...", text, got.ID, err, want)
		}
	}
	if _, err := desk.FindRace(nil, "x", today); err == nil || !strings.Contains(err.Error(), "/race add") {
		t.Errorf("no races: got %v, want how to add one", err)
	}
}

func TestFindZone(t *testing.T) {
	for text, want := range map[string]string{
		"Europe/Lisbon": "Europe/Lisbon", "europe/lisbon": "Europe/Lisbon", "lisbon": "Europe/Lisbon", "new york": "America/New_York",
		"buenos aires": "America/Argentina/Buenos_Aires", "utc": "UTC", "Etc/GMT+2": "Etc/GMT+2",
	} {
		if got, err := desk.FindZone(text); err != nil || got != want {
			t.Errorf("%q: got %q, %v; want %q", text, got, err, want)
		}
	}
	for text, want := range map[string]string{"Europe/Lisbom": "Did you mean Europe/Lisbon?", "Local": "For example", "../etc": "For example", "xx": "For example"} {
		if got, err := desk.FindZone(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %q, %v; want ...%s...", text, got, err, want)
		}
	}
}
