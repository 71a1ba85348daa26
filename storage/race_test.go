package storage

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"musette/planner"
)

func TestAddRace(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	first := mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))

	t.Run("OK beside others", func(t *testing.T) {
		mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-14"))
		mustAddRace(t, db, me, raceOn(t, "Town Sprint", "2026-06-13"))
		mustAddRace(t, db, other, raceOn(t, "Hill Loop", "2026-06-13"))
	})
	t.Run("ErrExists", func(t *testing.T) {
		_, _, err := db.AddRace(ctx, me, today, raceOn(t, "Hill Loop", "2026-06-13"))
		wantError(t, err, ErrExists)
		if got, want := err.Error(), `add race of rider 1 on 2026-06-13: exists already`; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		_, _, err = db.AddRace(ctx, me, today, raceOn(t, "HILL loop", "2026-06-13"))
		wantError(t, err, ErrExists)
	})
	t.Run("letters beyond ASCII", func(t *testing.T) {
		mustAddRace(t, db, me, raceOn(t, "Österrunde", "2026-06-13"))
		_, _, err := db.AddRace(ctx, me, today, raceOn(t, "ÖSTERRUNDE", "2026-06-13"))
		wantError(t, err, ErrExists)
	})
	t.Run("past", func(t *testing.T) {
		late := raceOn(t, "Too Late", "2026-04-30")
		_, _, err := db.AddRace(ctx, me, today, late)
		wantError(t, err, ErrPast)
		if got := len(must(db.Races(ctx, me))); got != 4 {
			t.Errorf("%d races, want 4: a refused one stays", got)
		}
	})
	t.Run("number is never used twice", func(t *testing.T) {
		last := mustAddRace(t, db, me, raceOn(t, "Last Lap", "2026-09-13"))
		if err := db.RemoveRace(ctx, me, today, last.ID); err != nil {
			t.Fatal(err)
		}
		if again := mustAddRace(t, db, me, raceOn(t, "Last Lap", "2026-09-20")); again.ID <= last.ID || last.ID <= first.ID {
			t.Errorf("got number %d after %d was removed", again.ID, last.ID)
		}
		wantError(t, db.RemoveRace(ctx, me, today, last.ID), ErrNotFound)
	})
}

func TestRemovedRaceComesBack(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	me, other := rider.ID, mustAthlete(t, db, "home", "other").ID
	was := raceOn(t, "Hill Loop", "2026-06-13")
	was.Priority, was.Hours, was.Place = planner.PriorityB, 3.33, "Mill Bridge"
	first := mustAddRace(t, db, me, was)
	wantError(t, db.RemoveRace(ctx, other, today, first.ID), ErrNotFound)
	if err := db.RemoveRace(ctx, me, today, first.ID); err != nil {
		t.Fatal(err)
	}
	for name, left := range map[string]int{"races": len(must(db.Races(ctx, me))), "club": len(must(db.ClubRaces(ctx, rider.Club))), "facts": len(must(db.Facts(ctx, me)).Races)} {
		if left != 0 {
			t.Errorf("%s: a removed race is read", name)
		}
	}
	_, _, err := db.ChangeRace(ctx, me, today, first.ID, func(*planner.Race) error { return nil })
	wantError(t, err, ErrNotFound)

	again, late := was, day(t, "2026-06-20") // after race day
	again.Name, again.Hours = "HILL LOOP", 200.0/60
	_, _, err = db.AddRace(ctx, other, late, again)
	wantError(t, err, ErrPast) // another rider's
	back, revived, err := db.AddRace(ctx, me, late, again)
	if err != nil {
		t.Fatal(err)
	}
	want := first
	want.Name, want.On = again.Name, late
	if diff := cmp.Diff(want, back); diff != "" || !revived {
		t.Errorf("revived %v (-want +got):\n%s", revived, diff)
	}
	if diff := cmp.Diff([]Race{want}, must(db.Races(ctx, me))); diff != "" {
		t.Errorf("races (-want +got):\n%s", diff)
	}

	if err := db.RemoveRace(ctx, me, late, first.ID); err != nil {
		t.Fatal(err)
	}
	again.Priority, again.Registered, again.Place = planner.PriorityA, late+1, ""
	if got := mustAddRace(t, db, me, again); got.Registered != today || got.On != late+1 || got.Place != "" || got.ID != first.ID {
		t.Errorf("a race that matters more came back as %+v, want it registered on %s without a place", got, today)
	}
}

func TestChangeRace(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me := mustAthlete(t, db, "home", "me").ID
	race := mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))
	neighbour := mustAddRace(t, db, me, raceOn(t, "Town Sprint", "2026-06-14"))

	told := planner.Race{
		Name: "HILL LOOP", Date: day(t, "2026-06-20"), Priority: planner.PriorityC, Hours: 48, Kind: "stage race", Days: 28,
		Start: "09:05", Emphasis: planner.Important, Place: "Mill Bridge", TaperDays: 28,
	}
	want := Race{ID: race.ID, Race: told}
	want.Race.ID, want.Registered, want.On = int64(race.ID), today, today+2 // which a change cannot touch
	before, after, err := db.ChangeRace(ctx, me, today+2, race.ID, func(r *planner.Race) error { *r = told; return nil })
	if err != nil || before != race || after != want {
		t.Errorf("got %+v, %+v, %v", before, after, err)
	}
	change := func(id RaceID, f func(*planner.Race)) error {
		_, _, err := db.ChangeRace(ctx, me, today+3, id, func(r *planner.Race) error { f(r); return nil })
		return err
	}
	wantError(t, change(race.ID, func(r *planner.Race) { r.Name, r.Date = "town sprint", neighbour.Date }), ErrExists)
	wantInputError(t, change(race.ID, func(r *planner.Race) { r.Hours = 49 }), "hours")
	wantInputError(t, change(race.ID, func(r *planner.Race) { r.TaperDays = 29 }), "taper")
	wantError(t, change(99, func(*planner.Race) {}), ErrNotFound)
	refusal := errors.New("no")
	_, _, err = db.ChangeRace(ctx, me, today+3, race.ID, func(r *planner.Race) error { r.Name = "lost"; return refusal })
	wantError(t, err, refusal)

	if diff := cmp.Diff([]Race{neighbour, want}, must(db.Races(ctx, me))); diff != "" {
		t.Errorf("races (-want +got):\n%s", diff)
	}
}

func TestClubRaces(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me, ana, far := mustAthlete(t, db, "home", "me"), mustAthlete(t, db, "home", "Ana"), mustAthlete(t, db, "away", "me")
	later := mustAddRace(t, db, me.ID, raceOn(t, "Hill Loop", "2026-06-13"))
	sooner := mustAddRace(t, db, ana.ID, raceOn(t, "Town Sprint", "2026-05-30"))
	same := mustAddRace(t, db, ana.ID, raceOn(t, "Hill Loop", "2026-06-13"))
	mustAddRace(t, db, far.ID, raceOn(t, "Far Tour", "2026-06-13"))

	want := []ClubRace{{"Ana", ana.ID, sooner}, {"Ana", ana.ID, same}, {"me", me.ID, later}}
	if diff := cmp.Diff(want, must(db.ClubRaces(ctx, me.Club))); diff != "" {
		t.Errorf("races of the club (-want +got):\n%s", diff)
	}
}
