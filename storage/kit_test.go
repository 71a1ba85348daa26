package storage

import (
	"context"
	"maps"
	"slices"
	"testing"

	"musette/planner"
)

func TestKit(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	for _, want := range [][]KitItem{{{"gloves", true}, {"lights", false}}, {{"lights", false}}, nil} {
		if err := db.SetKit(ctx, me, want); err != nil {
			t.Fatal(err)
		}
		if got := must(db.Kit(ctx, me)); !slices.Equal(got, want) {
			t.Errorf("kit %v, want %v", got, want)
		}
		if got := must(db.Kit(ctx, other)); len(got) != 0 {
			t.Errorf("the other's kit %v", got)
		}
	}
	if err := db.SetKit(ctx, me, []KitItem{{"", false}}); err == nil {
		t.Error("an item without a name is kept")
	}
}

// An entry's sequence never falls, and rises where its state is another than the one given before. Entries that
// are not given out again are kept until they are four weeks over.
func TestGiveEntries(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	day := planner.NewDate(2026, 6, 10)
	entry := func(uid, state string, sequence int) GivenEntry { return GivenEntry{uid, state, sequence, day, day} }
	for i, step := range []struct {
		today planner.Date
		give  []GivenEntry
		want  map[string]int
		kept  int
	}{
		{day, []GivenEntry{entry("a", "one", 0), entry("b", "one", 2)}, map[string]int{"a": 0, "b": 2}, 2},
		{day, []GivenEntry{entry("a", "two", 1), entry("b", "one", 2)}, map[string]int{"a": 1, "b": 2}, 2},
		{day, []GivenEntry{entry("a", "one", 0), entry("b", "one", 3)}, map[string]int{"a": 2, "b": 3}, 2}, // a is undone
		{day, []GivenEntry{entry("a", "one", 0), entry("b", "one", 1)}, map[string]int{"a": 2, "b": 3}, 2},
		{day, []GivenEntry{entry("a", "one", 7)}, map[string]int{"a": 7}, 2},
		{day.AddDays(28), []GivenEntry{entry("b", "two", 0)}, map[string]int{"b": 4}, 2}, // not forgotten yet
		{day.AddDays(29), nil, map[string]int{}, 0},
	} {
		if got := must(db.GiveEntries(ctx, me, step.today, step.give)); !maps.Equal(got, step.want) {
			t.Errorf("step %d: %v, want %v", i, got, step.want)
		}
		if kept := must(db.GivenEntries(ctx, me, step.today)); len(kept) != step.kept {
			t.Errorf("step %d: kept %+v", i, kept)
		}
		if others := must(db.GivenEntries(ctx, other, step.today)); len(others) != 0 {
			t.Errorf("step %d: the other's %+v", i, others)
		}
	}
	if rows := must(givenEntries(ctx, db.reader, me, "")); len(rows) != 0 {
		t.Errorf("four weeks later %+v", rows)
	}
}

// The rows go with their rider.
func TestErasedEntries(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	who, day := mustAthlete(t, db, "home", "me"), planner.NewDate(2026, 6, 10)
	me := who.ID
	must(db.GiveEntries(ctx, me, day, []GivenEntry{{"a", "one", 0, day, day.AddDays(1)}}))
	if got := must(db.GivenEntries(ctx, me, day)); !slices.Equal(got, []GivenEntry{{"a", "one", 0, day, day.AddDays(1)}}) {
		t.Errorf("kept %+v", got)
	}
	must(db.Erase(ctx, who.Whose()))
	if rows := must(givenEntries(ctx, db.reader, me, "")); len(rows) != 0 {
		t.Errorf("erased, yet %+v", rows)
	}
}

// A race that is joined starts at the instant that the other rider told: in the race's zone, or in that rider's where
// it is another.
func TestJoinedRacesKeepTheirZone(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	owner, me := mustAthlete(t, db, "home", "owner"), mustAthlete(t, db, "home", "me")
	for i, zones := range []struct{ race, owner, mine, want string }{
		{"Europe/Madrid", "", "", "Europe/Madrid"}, {"", "Asia/Tokyo", "", "Asia/Tokyo"}, {"", "", "", ""}, {"", "Asia/Tokyo", "Asia/Tokyo", ""}, {"Europe/Madrid", "Asia/Tokyo", "", "Europe/Madrid"},
	} {
		for id, zone := range map[AthleteID]string{owner.ID: zones.owner, me.ID: zones.mine} {
			if _, err := db.UpdateSettings(ctx, id, today, func(s *Settings) error { s.Zone = zone; return nil }); err != nil {
				t.Fatal(err)
			}
		}
		race := raceOn(t, "Race "+string(rune('a'+i)), "2026-06-13")
		race.Start = "10:30"
		theirs := mustAddRace(t, db, owner.ID, race)
		if zones.race != "" {
			if err := db.SetRaceDay(ctx, owner.ID, theirs.ID, RaceDay{Zone: zones.race}); err != nil {
				t.Fatal(err)
			}
		}
		joined, err := db.JoinRace(ctx, me.ID, today, theirs.ID, planner.PriorityB)
		if err != nil {
			t.Fatal(err)
		}
		if got := must(db.RaceDay(ctx, me.ID, joined.ID)).Zone; got != zones.want || joined.Zone != zones.want {
			t.Errorf("%+v: zone %q and %q", zones, got, joined.Zone)
		}
	}
}
