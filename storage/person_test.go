package storage

import (
	"context"
	"errors"
	"testing"
	"time"
)

func TestPerson(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	club, other := mustClub(t, db, "1"), mustClub(t, db, "2")
	key, bystander := PlatformKey("discord", "10"), PlatformKey("discord", "11")
	db.Now = fixedNow("2026-06-01T10:00:00.25+02:00")
	refused := time.Date(2026, 6, 1, 8, 0, 0, 250e6, time.UTC)
	if got := must(db.FindPerson(ctx, key)); got != (Person{}) {
		t.Errorf("nothing is known, got %+v", got)
	}
	for i, tc := range []struct {
		change func() error
		want   Person
	}{
		{func() error { return db.ForgetRefusal(ctx, key) }, Person{}},
		{func() error { return db.ChooseClub(ctx, key, club.ID) }, Person{Club: club.ID}},
		{func() error { return db.KeepChannel(ctx, key, "77") }, Person{Club: club.ID, Channel: "77"}},
		{func() error { return db.NoteRefusal(ctx, key) }, Person{Club: club.ID, Channel: "77", Refused: refused}},
		{func() error { return db.ChooseClub(ctx, key, other.ID) }, Person{Club: other.ID, Channel: "77", Refused: refused}},
		{func() error { return db.KeepChannel(ctx, key, "") }, Person{Club: other.ID, Refused: refused}},
		{func() error { return db.ForgetRefusal(ctx, key) }, Person{Club: other.ID, Told: true}},
		{func() error { return db.NoteRefusal(ctx, key) }, Person{Club: other.ID, Told: true}},
		{func() error { return db.NoteReached(ctx, key) }, Person{Club: other.ID}},
		{func() error { return db.NoteRefusal(ctx, key) }, Person{Club: other.ID, Refused: refused}},
	} {
		err := tc.change()
		if got := must(db.FindPerson(ctx, key)); err != nil || got != tc.want {
			t.Errorf("step %d: %+v, %v; want %+v", i, got, err, tc.want)
		}
	}
	if got := must(db.FindPerson(ctx, bystander)); got != (Person{}) {
		t.Errorf("of a bystander is known %+v", got)
	}
	wantError(t, db.ChooseClub(ctx, key, 99), ErrNotFound)
	for _, first := range []func() error{
		func() error { return db.KeepChannel(ctx, PlatformKey("discord", "12"), "78") },
		func() error { return db.NoteRefusal(ctx, PlatformKey("discord", "13")) },
	} {
		if err := first(); err != nil {
			t.Error(err)
		}
	}
	if got, want := must(db.FindPerson(ctx, PlatformKey("discord", "13"))), (Person{Refused: refused}); got != want {
		t.Errorf("first told of a refusal: %+v, want %+v", got, want)
	}
	if err := db.NoteRefusal(ctx, Key{}); err == nil {
		t.Error("something is kept of nobody")
	}
}

func TestClubsOf(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	one, two, three := mustClub(t, db, "1"), mustClub(t, db, "2"), mustClub(t, db, "3")
	key := PlatformKey("discord", "10")
	for _, club := range []Club{three, one} {
		must(db.EnsureAthlete(ctx, club.ID, key, "Ana"))
	}
	must(db.EnsureAthlete(ctx, two.ID, NameKey("Ana"), "Ana"))
	if diff := diff([]Club{one, three}, must(db.ClubsOf(ctx, key))); diff != "" {
		t.Errorf("clubs (-want +got):\n%s", diff)
	}
	if err := db.LeaveClub(ctx, one.Key); err != nil {
		t.Fatal(err)
	}
	if diff := diff([]Club{three}, must(db.ClubsOf(ctx, key))); diff != "" {
		t.Errorf("clubs without the one that left (-want +got):\n%s", diff)
	}
	if got := must(db.ClubsOf(ctx, PlatformKey("discord", "11"))); len(got) != 0 {
		t.Errorf("clubs of nobody: %v", got)
	}
}

func TestButtons(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	start := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	buttons := map[string]Button{
		"old":   {Command: "race add", Options: map[string]string{"name": `The "Old" Loop; ü 🚲`, "place": "a\nb\\"}},
		"plain": {Owner: PlatformKey("discord", "10"), Command: "ride"}, "empty": {Options: map[string]string{}},
	}
	for i, id := range []string{"old", "plain", "empty"} {
		db.Now = func() time.Time { return start.Add(time.Duration(i) * time.Hour) }
		if err := db.SaveButton(ctx, id, buttons[id]); err != nil {
			t.Fatal(err)
		}
	}
	for id, want := range buttons {
		if diff := diff(want, must(db.FindButton(ctx, id))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", id, diff)
		}
	}
	wantError(t, db.SaveButton(ctx, "plain", Button{Command: "help"}), ErrExists)
	if err := errors.Join(db.EraseButtons(ctx, start), db.EraseButtons(ctx, start.Add(time.Hour))); err != nil {
		t.Fatal(err)
	}
	_, err := db.FindButton(ctx, "old")
	wantError(t, err, ErrNotFound)
	if got := must(db.FindButton(ctx, "plain")); got.Command != "ride" {
		t.Errorf("a button of the instant itself is %+v", got)
	}
	if err := db.SaveButton(ctx, "", Button{}); err == nil {
		t.Error("a button without an id is kept")
	}
}
