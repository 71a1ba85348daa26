package storage

import (
	"context"
	"errors"
	"testing"

	"musette/planner"
)

func TestWeeksInTurn(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	late := mustWeek(t, "tue 2h")
	both := planner.DatedWeek{From: today, Week: mustWeek(t, "mon 1h"), Second: &late}
	one := planner.DatedWeek{From: today, Week: both.Week}
	for i, w := range []planner.DatedWeek{one, both} {
		if err := db.SetWeek(ctx, rider, today.AddDays(i), w); err != nil {
			t.Fatal(err)
		}
	}
	one.Told, both.Told = planner.Told{On: today, Withdrawn: today + 1}, planner.Told{On: today + 1}
	if diff := diff([]planner.DatedWeek{one, both}, must(db.Facts(ctx, rider)).Weeks); diff != "" {
		t.Errorf("weeks (-want +got):\n%s", diff)
	}
}

func TestWithdrawWeek(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	set := func(from planner.Date) {
		t.Helper()
		if err := db.SetWeek(ctx, rider, today, planner.DatedWeek{From: from, Week: mustWeek(t, "mon 1h")}); err != nil {
			t.Fatal(err)
		}
	}
	set(today + 20)
	var refused *planner.InputError
	if err := db.WithdrawWeek(ctx, rider, today+1, today+20); !errors.As(err, &refused) || refused.Field != "from" {
		t.Errorf("the only week: %v", err)
	}
	set(today)
	wantError(t, db.WithdrawWeek(ctx, rider, today+1, today), ErrPast)
	wantError(t, db.WithdrawWeek(ctx, rider, today+1, today+19), ErrNotFound)
	wantError(t, db.WithdrawWeek(ctx, rider, today+20, today+20), ErrPast)
	if err := db.WithdrawWeek(ctx, rider, today+1, today+20); err != nil {
		t.Fatal(err)
	}
	if got, all := must(db.Weeks(ctx, rider)), must(db.Facts(ctx, rider)).Weeks; len(got) != 1 || got[0].From != today || len(all) != 2 {
		t.Errorf("left are %v of %v", got, all)
	}
}

// Weeks of the same words share nothing, however often they are read.
func TestWeeksOfTheSameWordsShareNothing(t *testing.T) {
	a, err := parsed("tue intervals 1h30 5x3min; sat long 3h")
	b, again := parsed("tue intervals 1h30 5x3min; sat long 3h")
	if err != nil || again != nil {
		t.Fatal(err, again)
	}
	a[planner.Tuesday].Sessions[0].Minutes = 1
	if got := must(parsed("tue intervals 1h30 5x3min; sat long 3h")); got[planner.Tuesday].Sessions[0].Minutes != 90 || b[planner.Tuesday].Sessions[0].Minutes != 90 {
		t.Errorf("%v and %v", b, got)
	}
}
