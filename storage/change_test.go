package storage

import (
	"context"
	"testing"
)

// A write that goes around the transaction of a change would wait for the change,
// and the change for the write: it fails at once, and nothing of the change is kept.
func TestWritesInsideAChangeUseItsTx(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "Ines")
	race := raceOn(t, "Hill Loop", "2026-06-14")
	for what, do := range map[string]func(tx *DB) error{
		"a write": func(*DB) error { return db.NoteTick(ctx, db.Now()) },
		"a change": func(*DB) error {
			return db.Change(ctx, func(tx *DB) error { return tx.NoteTick(ctx, db.Now()) })
		},
		"a write behind one of the change's own": func(tx *DB) error {
			if err := tx.NoteTick(ctx, db.Now()); err != nil {
				return err
			}
			_, err := db.EnsureClub(ctx, NameKey("away"), "away", "UTC")
			return err
		},
	} {
		err := db.Change(ctx, func(tx *DB) error {
			if _, _, err := tx.AddRace(ctx, rider.ID, race.Registered, race); err != nil {
				t.Fatal(err)
			}
			return do(tx)
		})
		wantError(t, err, errInside)
		if facts := must(db.Facts(ctx, rider.ID)); len(facts.Races) != 0 {
			t.Errorf("%s: %d races are kept", what, len(facts.Races))
		}
	}
	// Behind it all goes on, inside and beside a change.
	done := make(chan error, 1)
	err := db.Change(ctx, func(tx *DB) error {
		go func() { done <- db.NoteTick(ctx, db.Now()) }() // another goroutine waits its turn
		_, _, err := tx.AddRace(ctx, rider.ID, race.Registered, race)
		return err
	})
	wantError(t, err, nil)
	wantError(t, <-done, nil)
	if facts := must(db.Facts(ctx, rider.ID)); len(facts.Races) != 1 {
		t.Errorf("%d races are kept, want one", len(facts.Races))
	}
}
