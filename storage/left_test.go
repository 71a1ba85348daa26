package storage

import (
	"context"
	"testing"
	"time"
)

func TestRidersWhoLeft(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	gone, stays := mustAthlete(t, db, "home", "Ann"), mustAthlete(t, db, "home", "Ines")
	for _, a := range []Athlete{gone, stays} {
		mustAddRace(t, db, a.ID, raceOn(t, "Hill Loop", "2026-06-13"))
		must(db.UpdateSettings(ctx, a.ID, today, func(s *Settings) error { s.Remind = Reminders{Mode: RemindAlways, At: "06:30"}; return nil }))
	}
	hidden := func(want int) {
		t.Helper()
		lists := map[string]int{"riders": len(must(db.Athletes(ctx, gone.Club))), "races": len(must(db.ClubRaces(ctx, gone.Club))),
			"reminders": len(must(db.ToRemind(ctx, RemindTime{"Europe/Lisbon", "06:30"}, today, time.Now())))}
		for name, got := range lists {
			if got != want {
				t.Errorf("%d %s, want %d", got, name, want)
			}
		}
		if got := must(db.AllAthletes(ctx, gone.Club)); len(got) != 2 {
			t.Errorf("%d riders to look up, want 2", len(got))
		}
	}
	hidden(2)
	for _, day := range []int{0, 5} { // what is known already stays
		if err := db.MarkLeft(ctx, gone.ID, today.AddDays(day)); err != nil {
			t.Fatal(err)
		}
	}
	hidden(1)
	if got := athleteNow(t, db, gone.ID).Left; got != today {
		t.Errorf("left on %s, want %s", got, today)
	}
	if err := db.MarkBack(ctx, gone.ID); err != nil {
		t.Fatal(err)
	}
	hidden(2)
	wantError(t, db.MarkLeft(ctx, 99, today), ErrNotFound)
	wantError(t, db.MarkBack(ctx, 99), ErrNotFound)
}

// Who left is erased in that club alone, on the 30th day.
func TestEraseLeft(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	key := PlatformKey("discord", "4242")
	var riders []Athlete
	for _, id := range []string{"1", "2"} {
		riders = append(riders, must(db.EnsureAthlete(ctx, mustClub(t, db, id).ID, key, "Ines")))
	}
	if err := db.KeepChannel(ctx, key, "66551"); err != nil {
		t.Fatal(err)
	}
	if err := db.MarkLeft(ctx, riders[0].ID, today); err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{0, 1, 0} {
		day := 29 + i
		if got := must(db.EraseLeft(ctx, today.AddDays(day))); got != want {
			t.Errorf("day %d: %d erased, want %d", day, got, want)
		}
	}
	_, err := db.Athlete(ctx, riders[0].ID)
	wantError(t, err, ErrNotFound)
	if got := must(db.Riders(ctx, Whose{Key: key})); len(got) != 1 || got[0].ID != riders[1].ID || must(db.FindPerson(ctx, key)).Channel != "66551" {
		t.Errorf("left are %+v", got)
	}
	if err := db.MarkLeft(ctx, riders[1].ID, today); err != nil {
		t.Fatal(err)
	}
	must(db.EraseLeft(ctx, today.AddDays(40)))
	if got := must(db.FindPerson(ctx, key)); got != (Person{}) {
		t.Errorf("of somebody in no club is left %+v", got)
	}
}

func TestRidersNamed(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	ines := mustAthlete(t, db, "home", "Ines")
	mustAthlete(t, db, "away", "Ines")
	club := mustClub(t, db, "1")
	for _, id := range []string{"8", "9"} {
		must(db.EnsureAthlete(ctx, club.ID, PlatformKey("discord", id), "Ann  Smith"))
	}
	if got := must(db.RidersNamed(ctx, "HOME", "ines")); len(got) != 1 || got[0].ID != ines.ID || got[0].Whose() != (Whose{ines.Key, ines.Club}) {
		t.Errorf("got %+v", got)
	}
	if got := must(db.RidersNamed(ctx, "club 1", "ann smith")); len(got) != 2 || got[0].Whose() != (Whose{Key: PlatformKey("discord", "8")}) {
		t.Errorf("got %+v", got)
	}
	if got := must(db.RidersNamed(ctx, "club 1", "ines")); len(got) != 0 {
		t.Errorf("got %+v", got)
	}
}
