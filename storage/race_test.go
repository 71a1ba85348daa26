package storage

import (
	"context"
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
		_, err := db.AddRace(ctx, me, raceOn(t, "Hill Loop", "2026-06-13"))
		wantError(t, err, ErrExists)
		if got, want := err.Error(), `add race of rider 1 on 2026-06-13: exists already`; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		_, err = db.AddRace(ctx, me, raceOn(t, "HILL loop", "2026-06-13"))
		wantError(t, err, ErrExists)
	})
	t.Run("number is never used twice", func(t *testing.T) {
		last := mustAddRace(t, db, me, raceOn(t, "Last Lap", "2026-09-13"))
		if err := db.RemoveRace(ctx, me, last.ID); err != nil {
			t.Fatal(err)
		}
		again := mustAddRace(t, db, me, raceOn(t, "Last Lap", "2026-09-13"))
		if again.ID <= last.ID || last.ID <= first.ID {
			t.Errorf("got number %d after %d was removed", again.ID, last.ID)
		}
		wantError(t, db.RemoveRace(ctx, me, last.ID), ErrNotFound)
	})
}

func TestRaceIsRegisteredOnTheRidersDay(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-05-01T23:30:00Z")
	rider := mustAthlete(t, db, "home", "me").ID // Lisbon: half past midnight in summer
	race := planner.Race{Name: "Hill Loop", Date: day(t, "2026-06-13"), Days: 1}
	if got, want := mustAddRace(t, db, rider, race).Registered, day(t, "2026-05-02"); got != want {
		t.Errorf("got %s by the club's zone, want %s", got, want)
	}
	_, err := db.UpdateSettings(ctx, rider, func(s *Settings) error { s.Zone = "America/New_York"; return nil })
	if err != nil {
		t.Fatal(err)
	}
	race.Name = "Town Sprint"
	if got, want := mustAddRace(t, db, rider, race).Registered, day(t, "2026-05-01"); got != want {
		t.Errorf("got %s by the rider's zone, want %s", got, want)
	}
}

func TestChangeRace(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	me := mustAthlete(t, db, "home", "me").ID
	race := mustAddRace(t, db, me, raceOn(t, "Hill Loop", "2026-06-13"))
	neighbour := mustAddRace(t, db, me, raceOn(t, "Town Sprint", "2026-06-14"))

	want := Race{ID: race.ID, Race: planner.Race{
		Name: "HILL LOOP", Date: day(t, "2026-06-20"), Priority: planner.PriorityC, Hours: 48, Kind: "stage race", Days: 28,
		Start: "09:05", Emphasis: planner.Important, Place: "Mill Bridge", Registered: day(t, "2026-05-03"),
	}}
	if err := db.ChangeRace(ctx, me, want); err != nil {
		t.Fatal(err)
	}
	clash := want
	clash.Name, clash.Date = "town sprint", neighbour.Date
	wantError(t, db.ChangeRace(ctx, me, clash), ErrExists)
	wrong := want
	wrong.Hours = 49
	wantInputError(t, db.ChangeRace(ctx, me, wrong), "hours")
	missing := want
	missing.ID = 99
	wantError(t, db.ChangeRace(ctx, me, missing), ErrNotFound)

	got := must(db.Races(ctx, me))
	if diff := cmp.Diff([]Race{neighbour, want}, got); diff != "" {
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

	want := []ClubRace{{"Ana", sooner}, {"Ana", same}, {"me", later}}
	if diff := cmp.Diff(want, must(db.ClubRaces(ctx, me.Club))); diff != "" {
		t.Errorf("races of the club (-want +got):\n%s", diff)
	}
}
