package storage

import (
	"errors"
	"slices"
	"testing"

	"musette/planner"
)

// Days of heavy legs are told once, taken back, and forgotten when they are old.
func TestHeavyLegs(t *testing.T) {
	db, ctx := newTestDB(t), t.Context()
	rider, other := mustAthlete(t, db, "Road Club", "Ana").ID, mustAthlete(t, db, "Road Club", "Rui").ID
	today := day(t, "2026-06-01")
	told := func(day planner.Date, now planner.Date) bool { return must(db.AddHeavyLegs(ctx, rider, now, day)) }
	if !told(today, today) || told(today, today) || !told(today-1, today) {
		t.Error("a day is new once")
	}
	if got := must(db.HeavyLegs(ctx, rider, today-1)); !slices.Equal(got, []planner.Date{today - 1, today}) {
		t.Errorf("got %v", got)
	}
	if got := must(db.HeavyLegs(ctx, other, 0)); len(got) != 0 {
		t.Errorf("another rider has %v", got)
	}
	if err := db.RemoveHeavyLegs(ctx, other, today); !errors.Is(err, ErrNotFound) {
		t.Errorf("another rider's: %v", err)
	}
	if err := db.RemoveHeavyLegs(ctx, rider, today); err != nil {
		t.Error(err)
	}
	told(today+keepHeavy, today+keepHeavy)
	if got := must(db.HeavyLegs(ctx, rider, today-100)); !slices.Equal(got, []planner.Date{today + keepHeavy}) {
		t.Errorf("old days stay: %v", got)
	}
}
