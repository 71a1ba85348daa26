package storage

import (
	"context"
	"testing"

	"musette/planner"
)

func TestRaceDay(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	race := mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))
	want := func(athlete AthleteID, want RaceDay) {
		t.Helper()
		if got := must(db.RaceDay(ctx, athlete, race.ID)); got != want {
			t.Errorf("rider %d: %+v, want %+v", athlete, got, want)
		}
	}
	want(me, RaceDay{})
	for _, told := range []RaceDay{{Travel: 45, Way: true, Zone: "Europe/Madrid"}, {Way: true, Zone: "Europe/Madrid"}, {Zone: "Europe/Madrid"}} {
		if err := db.SetRaceDay(ctx, me, race.ID, told); err != nil {
			t.Fatal(err)
		}
		want(me, told)
		want(other, RaceDay{})
	}
	wantError(t, db.SetRaceDay(ctx, other, race.ID, RaceDay{Travel: 5, Way: true}), ErrNotFound)

	// Races are read with their zone, through a change and when they come back.
	if _, after, err := db.ChangeRace(ctx, me, today+1, race.ID, func(r *planner.Race) error { r.Start = "10:30"; return nil }); err != nil || after.Zone != "Europe/Madrid" {
		t.Errorf("changed: %+v, %v", after, err)
	}
	if err := db.RemoveRace(ctx, me, today+2, race.ID); err != nil {
		t.Fatal(err)
	}
	wantError(t, db.SetRaceDay(ctx, me, race.ID, RaceDay{}), ErrNotFound)
	if back, revived, err := db.AddRace(ctx, me, today+3, raceOn(t, "Hill Loop", "2026-06-13")); err != nil || !revived || back.Zone != "Europe/Madrid" {
		t.Errorf("back: %+v, %v, %v", back, revived, err)
	}
	facts := must(db.Facts(ctx, me)).KnownOn(today + 3)
	if len(facts.Races) != 1 || facts.Races[0].Zone != "Europe/Madrid" {
		t.Errorf("facts: %+v", facts.Races)
	}
}

// The way to a place is asked once: the next race there has it too.
func TestTravelIsThatToThePlace(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	at := func(athlete AthleteID, name, date, place string) RaceID {
		race := raceOn(t, name, date)
		race.Place = place
		return mustAddRace(t, db, athlete, race).ID
	}
	first, again, elsewhere, theirs := at(me, "One", "2026-06-13", "Market Square"), at(me, "Two", "2026-06-20", "market square"), at(me, "Three", "2026-06-27", ""), at(other, "One", "2026-06-13", "Market Square")
	if err := db.SetRaceDay(ctx, me, first, RaceDay{Travel: 45, Way: true}); err != nil {
		t.Fatal(err)
	}
	if got := must(db.RaceDay(ctx, me, again)); got != (RaceDay{Travel: 45, Way: true}) {
		t.Errorf("at the same place: %+v", got)
	}
	for athlete, race := range map[AthleteID]RaceID{me: elsewhere, other: theirs} {
		if got := must(db.RaceDay(ctx, athlete, race)); got != (RaceDay{}) {
			t.Errorf("race %d: %+v", race, got)
		}
	}
	if err := db.SetRaceDay(ctx, me, again, RaceDay{Travel: 30, Way: true, Zone: "Europe/Madrid"}); err != nil {
		t.Fatal(err)
	}
	if got := must(db.RaceDay(ctx, me, again)); got != (RaceDay{Travel: 30, Way: true, Zone: "Europe/Madrid"}) {
		t.Errorf("told anew: %+v", got)
	}
}
