package storage

import (
	"context"
	"testing"

	"musette/planner"
)

func wantHeld(t *testing.T, db *DB, rider AthleteID, want ...planner.Hold) {
	t.Helper()
	if diff := diff(want, must(db.Facts(context.Background(), rider)).Holds); diff != "" {
		t.Errorf("holds of rider %d (-want +got):\n%s", rider, diff)
	}
}

func TestHoldIsOfThePerson(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	home, other := mustAthlete(t, db, "home", "Ines").ID, mustAthlete(t, db, "home", "Tom").ID
	east := must(db.EnsureClub(ctx, NameKey("east"), "east", "Asia/Tokyo"))
	away := must(db.EnsureAthlete(ctx, east.ID, NameKey("Ines"), "Ines")).ID
	late := fixedNow("2026-05-04T20:00:00Z")() // the next day in Tokyo
	for range 2 {                              // told twice is told once
		if err := db.AddHold(ctx, home, late, planner.LevelHead); err != nil {
			t.Fatal(err)
		}
	}
	monday := planner.Hold{Date: day(t, "2026-05-04"), Level: planner.LevelHead, Told: on(t, "2026-05-04")}
	tuesday := planner.Hold{Date: day(t, "2026-05-05"), Level: planner.LevelHead, Told: on(t, "2026-05-05")}
	wantHeld(t, db, home, monday)
	wantHeld(t, db, away, tuesday)
	wantHeld(t, db, other)
	club := must(db.EnsureClub(ctx, NameKey("third"), "third", "UTC"))
	joined := must(db.EnsureAthlete(ctx, club.ID, NameKey("ines"), "ines")).ID
	wantHeld(t, db, joined, monday)

	// An illness that is taken back ends no hold.
	ill := must(db.AddIllness(ctx, home, late, planner.Illness{From: monday.Date, Level: planner.LevelRest}))
	if err := db.RemoveIllness(ctx, home, late, ill); err != nil {
		t.Fatal(err)
	}
	wantHeld(t, db, home, monday)

	if err := db.ClearHolds(ctx, away, noon(t, "2026-05-08")); err != nil {
		t.Fatal(err)
	}
	cleared := planner.Hold{Date: monday.Date, Level: planner.LevelHead, Cleared: day(t, "2026-05-08"), Told: on(t, "2026-05-08")}
	monday.Withdrawn = cleared.Cleared
	wantHeld(t, db, home, monday, cleared)
	wantHeld(t, db, joined, monday, cleared)
	if got := must(db.Holds(ctx, away)); len(got) != 1 || got[0] != (Hold{tuesday.Date, planner.LevelHead, HoldCleared, cleared.Cleared}) {
		t.Errorf("the hold of the other club is %+v", got)
	}
	wantError(t, db.ClearHolds(ctx, home, noon(t, "2026-05-09")), ErrNotFound)
	later := must(db.EnsureClub(ctx, NameKey("fourth"), "fourth", "UTC"))
	wantHeld(t, db, must(db.EnsureAthlete(ctx, later.ID, NameKey("ines"), "ines")).ID, monday, cleared)
}

func TestHoldThatWasNone(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	add := func(date string, level planner.Level) {
		t.Helper()
		if err := db.AddHold(ctx, rider, noon(t, date), level); err != nil {
			t.Fatal(err)
		}
	}
	deny := func(date string, level planner.Level) {
		t.Helper()
		if err := db.DenyHold(ctx, rider, noon(t, date), level); err != nil {
			t.Fatal(err)
		}
	}
	add("2026-05-04", planner.LevelEmergency)
	deny("2026-05-04", planner.LevelEmergency)
	wantHeld(t, db, rider) // on its own day: as if nothing had been
	add("2026-05-04", planner.LevelEmergency)
	add("2026-05-05", planner.LevelDoctor)
	first := planner.Hold{Date: day(t, "2026-05-04"), Level: planner.LevelEmergency, Told: on(t, "2026-05-04")}
	other := planner.Hold{Date: day(t, "2026-05-05"), Level: planner.LevelDoctor, Told: on(t, "2026-05-05")}
	wantHeld(t, db, rider, first, other)
	deny("2026-05-06", planner.LevelEmergency) // the other one stands
	ended := first
	ended.Withdrawn = day(t, "2026-05-06")
	wantHeld(t, db, rider, ended, other)
	wantError(t, db.DenyHold(ctx, rider, noon(t, "2026-05-06"), planner.LevelEmergency), ErrNotFound)
	wantError(t, db.DenyHold(ctx, rider+1, noon(t, "2026-05-06"), planner.LevelDoctor), ErrNotFound)
	reopen := func(date string, how HoldEnd, levels ...planner.Level) error {
		return db.ReopenHolds(ctx, rider, noon(t, date), how, levels...)
	}
	wantError(t, reopen("2026-05-06", HoldCleared, planner.LevelEmergency), ErrNotFound)
	wantError(t, reopen("2026-05-07", HoldNotThat, planner.LevelEmergency), ErrNotFound)
	if err := reopen("2026-05-06", HoldNotThat, planner.LevelEmergency, planner.LevelHead); err != nil { // on the day of its end
		t.Fatal(err)
	}
	wantHeld(t, db, rider, first, other)
	if err := db.ClearHolds(ctx, rider, noon(t, "2026-05-07")); err != nil {
		t.Fatal(err)
	}
	add("2026-05-09", planner.LevelEmergency) // a new one
	if got := must(db.Holds(ctx, rider)); len(got) != 4 || got[3] != (Hold{Date: day(t, "2026-05-09"), Level: planner.LevelEmergency}) {
		t.Errorf("holds are %+v, want three that ended and one that stands", got)
	}
	// One that is told on the day of a doctor's word is another: the word stays, whatever becomes of it.
	if err := db.ClearHolds(ctx, rider, noon(t, "2026-05-12")); err != nil {
		t.Fatal(err)
	}
	cleared := must(db.Facts(ctx, rider)).Holds
	add("2026-05-12", planner.LevelEmergency)
	wantError(t, reopen("2026-05-12", HoldCleared, planner.LevelEmergency), ErrNotFound) // one of that level stands
	deny("2026-05-12", planner.LevelEmergency)
	wantHeld(t, db, rider, cleared...)
	for name, err := range map[string]error{
		"a level that does not hold": db.AddHold(ctx, rider, noon(t, "2026-05-09"), planner.LevelRest),
		"a rider who is not there":   db.AddHold(ctx, 99, noon(t, "2026-05-09"), planner.LevelHead),
	} {
		if err == nil {
			t.Errorf("%s: held", name)
		}
	}
}
