package storage

import (
	"context"
	"slices"
	"testing"

	"musette/planner"
)

// rode are the minutes of a day's rides.
func rode(t *testing.T, db *DB, rider AthleteID, day planner.Date) (minutes []int) {
	t.Helper()
	for _, r := range must(db.Entries(context.Background(), rider, day)) {
		minutes = append(minutes, r.Minutes)
	}
	return minutes
}

func TestRidesOfADayAddUp(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	ride := func(minutes int, rpe float64, note string) Ride {
		return Ride{Ride: planner.Ride{Date: today, Minutes: minutes, RPE: rpe}, Note: note}
	}
	step := func(name string, err error, want ...int) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got := rode(t, db, rider, today); !slices.Equal(got, want) {
			t.Fatalf("%s: rides of %v minutes, want %v", name, got, want)
		}
	}
	step("first", db.AddRide(ctx, rider, today, ride(60, 4, "out")), 60)
	step("second", db.AddRide(ctx, rider, today, ride(30, 7, "")), 60, 30)
	want := Ride{Ride: planner.Ride{Date: today, Minutes: 90, RPE: 5, Told: planner.Told{On: today}}, Note: "out"}
	if got := must(db.Rides(ctx, rider, today)); len(got) != 1 || got[0] != want {
		t.Errorf("the day is %+v, want %+v", got, want)
	}
	if facts := must(db.Facts(ctx, rider)); len(facts.Done) != 2 {
		t.Errorf("facts have %+v, want two rides", facts.Done)
	}
	step("corrected", db.PutRide(ctx, rider, today+1, 2, ride(45, 0, "home")), 60, 45)
	if facts := must(db.Facts(ctx, rider)); len(facts.KnownOn(today).Done) != 2 || facts.KnownOn(today).Done[1].Minutes != 30 || facts.KnownOn(today + 1).Done[1].Minutes != 45 {
		t.Errorf("versions are %+v", facts.Done)
	}
	step("third", db.AddRide(ctx, rider, today+1, ride(20, 0, "")), 60, 45, 20)
	step("the last was none", db.RemoveEntry(ctx, rider, today+1, today, 3), 60, 45)
	step("missed", db.AddRide(ctx, rider, today+1, ride(0, 0, "")), 0)
	step("ridden after all", db.AddRide(ctx, rider, today+1, ride(50, 0, "")), 50)
	step("one more", db.AddRide(ctx, rider, today+1, ride(10, 0, "")), 50, 10)
	step("all anew", db.SetRide(ctx, rider, today+1, ride(60, 4, "")), 60)
	step("second again", db.AddRide(ctx, rider, today+1, ride(30, 7, "")), 60, 30)
	if facts := must(db.Facts(ctx, rider)); len(facts.Done) != 2 || facts.Done[1].On != today || !facts.Done[1].Withdrawn.IsZero() {
		t.Errorf("all is as it was first, yet versions are %+v", facts.Done)
	}
	step("gone", db.RemoveRide(ctx, rider, today+2, today))
	wantError(t, db.RemoveRide(ctx, rider, today+2, today), ErrNotFound)
	wantError(t, db.RemoveEntry(ctx, rider, today+2, today, 1), ErrNotFound)
	if wordsLeft(t, db, "ride", "note") != 0 {
		t.Error("withdrawn rides keep notes")
	}
}

func TestADayHasOnlySoManyRides(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	ride := func(minutes int) Ride { return Ride{Ride: planner.Ride{Date: today, Minutes: minutes}} }
	for range MostRides {
		if err := db.AddRide(ctx, rider, today, ride(5)); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.AddRide(ctx, rider, today, ride(5)); err == nil {
		t.Error("one ride too many is taken")
	}
	if err := db.PutRide(ctx, rider, today, MostRides, ride(minutesPerDay-5*(MostRides-1))); err != nil {
		t.Error(err)
	}
	if err := db.PutRide(ctx, rider, today, MostRides, ride(minutesPerDay-5*(MostRides-1)+1)); err == nil {
		t.Error("more than a day is taken")
	}
	if err := db.AddRide(ctx, rider, today, ride(-1)); err == nil {
		t.Error("less than nothing is taken")
	}
}
