package storage

import (
	"context"
	"errors"
	"testing"

	"musette/planner"
)

// demote makes all races of a list B races, registered as they were.
func demote(races []Race, taper *planner.Taper) error {
	for i := range races {
		races[i].Priority = planner.PriorityB
	}
	taper.Days = 10
	return nil
}

func TestChangeSeason(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))
	mustAddRace(t, db, me, raceOn(t, "Mill", "2026-07-13"))
	gone := mustAddRace(t, db, me, raceOn(t, "Gone", "2026-08-13"))
	mustAddRace(t, db, other, raceOn(t, "Mill", "2026-07-13"))
	if err := db.RemoveRace(ctx, me, today, gone.ID); err != nil {
		t.Fatal(err)
	}
	was, theirs := must(db.Facts(ctx, me)), must(db.Facts(ctx, other))

	if err := db.ChangeSeason(ctx, me, today, demote); err != nil {
		t.Fatal(err)
	}
	want := *was
	want.Races, want.Taper = nil, planner.Taper{Days: 10, Told: planner.Told{On: today}}
	want.OldTaper = []planner.Taper{{Told: planner.Told{Withdrawn: today}}}
	for _, r := range was.Races {
		r.Priority = planner.PriorityB
		want.Races = append(want.Races, r)
	}
	wantFacts(t, db, me, &want) // a race that was removed stays so
	wantFacts(t, db, other, theirs)

	back := func(races []Race, taper *planner.Taper) error {
		for i := range races {
			races[i].Priority = planner.PriorityA
			races[i].ID = 0 // a number is not for changing
		}
		taper.Days = 0
		return nil
	}
	if err := db.ChangeSeason(ctx, me, today, back); err != nil {
		t.Fatal(err)
	}
	wantFacts(t, db, me, was)
}

// A change is kept whole or not at all.
func TestChangeSeasonHoldsTogether(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me := mustAthlete(t, db, "home", "me").ID
	mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))
	mustAddRace(t, db, me, raceOn(t, "Mill", "2026-07-13"))
	was := must(db.Facts(ctx, me))
	broken := errors.New("broken")
	for name, tc := range map[string]struct {
		spoil func(races []Race, taper *planner.Taper) error
		check func(error)
	}{
		"its own error":   {func([]Race, *planner.Taper) error { return broken }, func(err error) { wantError(t, err, broken) }},
		"a taper too far": {func(_ []Race, taper *planner.Taper) error { taper.Days = 29; return nil }, func(err error) { wantInputError(t, err, "days") }},
		"a bad last race": {func(races []Race, _ *planner.Taper) error { races[1].Days = 0; return nil }, func(err error) { wantInputError(t, err, "days") }},
		"one name twice": {func(races []Race, _ *planner.Taper) error {
			races[1].Name, races[1].Date = races[0].Name, races[0].Date
			return nil
		}, func(err error) { wantError(t, err, ErrExists) }},
	} {
		err := db.ChangeSeason(ctx, me, today, func(races []Race, taper *planner.Taper) error {
			return errors.Join(demote(races, taper), tc.spoil(races, taper))
		})
		if err == nil {
			t.Fatalf("%s: kept", name)
		}
		tc.check(err)
		wantFacts(t, db, me, was)
	}
	wantError(t, db.ChangeSeason(ctx, me+1, today, demote), ErrNotFound)
}
