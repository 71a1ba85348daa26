package storage

import (
	"context"
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/typed"
)

func session(t *testing.T, text string) planner.Session {
	t.Helper()
	s, err := typed.Session(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestPins(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider, coach := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "coach")
	stranger := mustAthlete(t, db, "away", "coach").ID
	hard := planner.Pin{Date: today + 3, Session: session(t, "intervals 1h 3x3min")}
	easy := planner.Pin{Date: today + 3, Session: session(t, "rest")}
	for _, err := range []error{db.SetPin(ctx, rider, coach.ID, today, hard), db.SetPin(ctx, rider, coach.ID, today+1, easy)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	wantError(t, db.SetPin(ctx, rider, stranger, today, hard), ErrNotFound)
	hard.Told, easy.Told = planner.Told{On: today, Withdrawn: today + 1}, planner.Told{On: today + 1}
	if diff := diff([]planner.Pin{hard, easy}, must(db.Facts(ctx, rider)).Pins); diff != "" {
		t.Errorf("versions (-want +got):\n%s", diff)
	}
	if diff := diff([]Pin{{easy, coach.ID}}, must(db.Pins(ctx, rider))); diff != "" {
		t.Errorf("what stands (-want +got):\n%s", diff)
	}
	if _, err := db.writer.Exec(`DELETE FROM athlete WHERE id = ?`, coach.ID); err != nil {
		t.Fatal(err)
	}
	if diff := diff([]Pin{{easy, 0}}, must(db.Pins(ctx, rider))); diff != "" {
		t.Errorf("without its coach (-want +got):\n%s", diff)
	}
	wantError(t, db.RemovePin(ctx, rider, today+2, today+4), ErrNotFound)
	if err := db.RemovePin(ctx, rider, today+2, today+3); err != nil || len(must(db.Pins(ctx, rider))) != 0 || len(must(db.Facts(ctx, rider)).Pins) != 2 {
		t.Errorf("let go of: %v", err)
	}
}

func TestCoachNotes(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-05-01T08:00:00Z")
	me, tom, coach := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "Tom").ID, mustAthlete(t, db, "home", "coach").ID
	stranger := mustAthlete(t, db, "away", "me").ID
	if err := db.AddCoachNote(ctx, coach, today+1, "Stay in the group", me, tom); err != nil {
		t.Fatal(err)
	}
	if err := db.AddCoachNote(ctx, coach, today, "Drink", me); err != nil {
		t.Fatal(err)
	}
	wantError(t, db.AddCoachNote(ctx, coach, today, "Well done", me, stranger), ErrNotFound)
	for _, text := range []string{"", "  ", strings.Repeat("ü", 201)} {
		if err := db.AddCoachNote(ctx, coach, today, text, me); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
	want := []CoachNote{{2 + 1, today, "Drink", coach, db.Now()}, {1, today + 1, "Stay in the group", coach, db.Now()}}
	if diff := diff(want, must(db.CoachNotes(ctx, me, today, today+1))); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	if got := must(db.CoachNotes(ctx, me, today+1, today+9)); len(got) != 1 {
		t.Errorf("from tomorrow: %v", got)
	}
	wantError(t, db.RemoveCoachNote(ctx, tom, 1), ErrNotFound)
	if err := db.RemoveCoachNote(ctx, me, 1); err != nil || len(must(db.CoachNotes(ctx, me, today, today+9))) != 1 || len(must(db.CoachNotes(ctx, tom, today, today+9))) != 1 {
		t.Errorf("deleted: %v", err)
	}
}
