package storage

import (
	"context"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

// noon is the middle of a day of 2026 in UTC.
func noon(t testing.TB, date string) time.Time {
	t.Helper()
	day(t, date)
	return fixedNow(date + "T12:00:00Z")()
}

// wordsLeft counts the rows of a table that are withdrawn and keep words.
func wordsLeft(t *testing.T, db *DB, table, column string) (n int) {
	t.Helper()
	if err := db.reader.QueryRow(`SELECT count(*) FROM ` + table + ` WHERE withdrawn IS NOT NULL AND ` + column + ` <> ''`).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

func TestIllnessIsToldEndedAndTakenBack(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	ill := planner.Illness{From: day(t, "2026-05-04"), Level: planner.LevelRest, Symptoms: []string{"fever", "body aches"}}
	id := must(db.AddIllness(ctx, rider, noon(t, "2026-05-04"), ill))
	ill.Told = on(t, "2026-05-04")
	if diff := diff([]Illness{{id, ill}}, must(db.Illnesses(ctx, rider))); diff != "" {
		t.Fatalf("told (-want +got):\n%s", diff)
	}
	before, after, err := db.EndIllness(ctx, rider, noon(t, "2026-05-07"), id, day(t, "2026-05-07"))
	if err != nil {
		t.Fatal(err)
	}
	ended := ill
	ended.To, ended.Told = day(t, "2026-05-06"), on(t, "2026-05-07")
	if diff := diff([]Illness{{id, ill}, {after.ID, ended}}, []Illness{before, after}); diff != "" || after.ID == id {
		t.Errorf("well again (-want +got):\n%s", diff)
	}
	open := ill
	open.Withdrawn, open.Symptoms = day(t, "2026-05-07"), nil // what was withdrawn keeps no words
	wantIll(t, db, rider, open, ended)

	// Ill again on the same day is as if the end had never been told.
	if got := must(db.AddIllness(ctx, rider, noon(t, "2026-05-07"), planner.Illness{From: ill.From, Level: ill.Level, Symptoms: ill.Symptoms})); got != id {
		t.Errorf("still ill has the number %d, want %d", got, id)
	}
	wantIll(t, db, rider, ill)

	// An injury from the same day is another matter.
	hurt := planner.Illness{From: ill.From, To: ill.From, Level: planner.LevelEasy, Injury: true}
	knee := must(db.AddIllness(ctx, rider, noon(t, "2026-05-08"), hurt))
	hurt.Told = on(t, "2026-05-08")
	wantIll(t, db, rider, ill, hurt)
	for _, id := range []IllnessID{id, knee} {
		if err := db.RemoveIllness(ctx, rider, noon(t, "2026-05-09"), id); err != nil {
			t.Fatal(err)
		}
		wantError(t, db.RemoveIllness(ctx, rider, noon(t, "2026-05-09"), id), ErrNotFound)
	}
	ill.Withdrawn, hurt.Withdrawn, ill.Symptoms = day(t, "2026-05-09"), day(t, "2026-05-09"), nil
	wantIll(t, db, rider, ill, hurt)
	if got := must(db.Illnesses(ctx, rider)); len(got) != 0 || wordsLeft(t, db, "illness", "symptoms") != 0 {
		t.Errorf("taken back, yet %v stand, or words are left", got)
	}
}

func wantIll(t *testing.T, db *DB, rider AthleteID, want ...planner.Illness) {
	t.Helper()
	if diff := diff(want, must(db.Facts(context.Background(), rider)).Ill); diff != "" {
		t.Errorf("illnesses of rider %d (-want +got):\n%s", rider, diff)
	}
}

// Health is of the person: what is entered for one club holds in all, each with the
// day that it is there, and so it does for a club that is joined later.
func TestIllnessIsOfThePerson(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	home, other := mustAthlete(t, db, "home", "Ines"), mustAthlete(t, db, "home", "Tom")
	east := must(db.EnsureClub(ctx, NameKey("east"), "east", "Asia/Tokyo"))
	away := must(db.EnsureAthlete(ctx, east.ID, NameKey("Ines"), "Ines"))
	late := fixedNow("2026-05-04T20:00:00Z")() // the next day in Tokyo
	ill := planner.Illness{From: day(t, "2026-05-04"), Level: planner.LevelRest, Symptoms: []string{"fever"}}
	must(db.AddIllness(ctx, home.ID, late, ill))
	ill.Told = on(t, "2026-05-04")
	wantIll(t, db, home.ID, ill)
	wantIll(t, db, other.ID)
	ill.Told = on(t, "2026-05-05")
	wantIll(t, db, away.ID, ill)
	club := must(db.EnsureClub(ctx, NameKey("third"), "third", "Europe/Lisbon"))
	third := must(db.EnsureAthlete(ctx, club.ID, NameKey("ines"), "ines"))
	must(db.EnsureAthlete(ctx, club.ID, NameKey("ines"), "ines"))
	ill.Told = on(t, "2026-05-04")
	wantIll(t, db, third.ID, ill)

	if _, _, err := db.EndIllness(ctx, away.ID, noon(t, "2026-05-07"), must(db.Illnesses(ctx, away.ID))[0].ID, day(t, "2026-05-07")); err != nil {
		t.Fatal(err)
	}
	for _, rider := range []AthleteID{home.ID, away.ID, third.ID} {
		if got := must(db.Illnesses(ctx, rider)); len(got) != 1 || got[0].To != day(t, "2026-05-06") || got[0].Symptoms[0] != "fever" {
			t.Errorf("rider %d: %+v, want well since 7 May", rider, got)
		}
	}
	id := must(db.Illnesses(ctx, home.ID))[0].ID
	wantError(t, db.RemoveIllness(ctx, other.ID, noon(t, "2026-05-08"), id), ErrNotFound)
	if err := db.RemoveIllness(ctx, home.ID, noon(t, "2026-05-08"), id); err != nil {
		t.Fatal(err)
	}
	for _, rider := range []AthleteID{home.ID, away.ID, third.ID} {
		if got := must(db.Illnesses(ctx, rider)); len(got) != 0 {
			t.Errorf("rider %d: %+v stands", rider, got)
		}
	}
}

// What is wrong is refused and changes nothing.
func TestWrongIllnesses(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider, at := mustAthlete(t, db, "home", "me").ID, noon(t, "2026-05-04")
	id := must(db.AddIllness(ctx, rider, at, planner.Illness{From: today, Level: planner.LevelEasy}))
	add := func(ill planner.Illness) error { return second(db.AddIllness(ctx, rider, at, ill)) }
	end := func(rider AthleteID, well planner.Date) error { return third(db.EndIllness(ctx, rider, at, id, well)) }
	for name, err := range map[string]error{
		"no level":           add(planner.Illness{From: today + 1}),
		"a level that holds": add(planner.Illness{From: today + 1, Level: planner.LevelDoctor}),
		"ends before":        add(planner.Illness{From: today + 1, To: today, Level: planner.LevelRest}),
		"two lines":          add(planner.Illness{From: today + 1, Level: planner.LevelRest, Symptoms: []string{"a\nb"}}),
		"long words":         add(planner.Illness{From: today + 1, Level: planner.LevelRest, Symptoms: []string{strings.Repeat("ü", 201)}}),
		"well at once":       end(rider, today),
		"another's":          end(rider+1, today+3),
		"nobody's":           second(db.AddIllness(ctx, rider+1, at, planner.Illness{From: today, Level: planner.LevelEasy})),
	} {
		if err == nil {
			t.Errorf("%s: taken", name)
		}
	}
	if got := must(db.Illnesses(ctx, rider)); len(got) != 1 || !got[0].To.IsZero() || got[0].Level != planner.LevelEasy {
		t.Errorf("refused changes left %+v", got)
	}
	if err := add(planner.Illness{From: today + 1, Level: planner.LevelRest, Symptoms: []string{strings.Repeat("ü", 200)}}); err != nil {
		t.Error(err)
	}
}
