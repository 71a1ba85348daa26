package storage

import (
	"context"
	"strings"
	"testing"
	"unicode"
)

func TestFoldAgreesWithEqualFold(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if next := unicode.SimpleFold(r); next != r && Fold(string(r)) != Fold(string(next)) {
			t.Fatalf("%q and %q fold apart", r, next)
		}
	}
	for _, tc := range []struct {
		a, b string
		same bool
	}{
		{"Ann Smith", "ANN smith", true}, {"Žofia Ångström", "žOFIA ÅNGSTRÖM", true}, {"Σίσυφος", "ΣΊΣΥΦΟΣ", true}, {" Ann  Smith ", "Ann Smith", true},
		{"Ann", "Anne", false}, {"a", "á", false}, {"", "a", false},
	} {
		if got := Fold(tc.a) == Fold(tc.b); got != tc.same {
			t.Errorf("%q and %q: same %v, want %v", tc.a, tc.b, got, tc.same)
		}
		if words := strings.Join(strings.Fields(tc.a), " "); tc.a == words && Fold(tc.a) != Fold(tc.b) && strings.EqualFold(tc.a, tc.b) {
			t.Errorf("%q and %q are apart", tc.a, tc.b)
		}
	}
}

// Names in other capitals find who is there already; nobody comes twice.
func TestNamesIgnoreCase(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	_, err := db.FindClub(ctx, NameKey("Löwen"))
	wantError(t, err, ErrNotFound)
	club := must(db.EnsureClub(ctx, NameKey("Löwen"), "Löwen", "Europe/Lisbon"))
	_, err = db.FindAthlete(ctx, club.ID, NameKey("Žofia"))
	wantError(t, err, ErrNotFound)
	rider := must(db.EnsureAthlete(ctx, club.ID, NameKey("Žofia"), "Žofia"))
	for _, name := range []string{"LÖWEN", "löwen", "Löwen"} {
		if must(db.FindClub(ctx, NameKey(name))) != club || must(db.EnsureClub(ctx, NameKey(name), name, "UTC")) != club {
			t.Errorf("%s is another club than Löwen", name)
		}
	}
	for _, name := range []string{"ŽOFIA", "žofia"} {
		if must(db.FindAthlete(ctx, club.ID, NameKey(name))) != rider || must(db.EnsureAthlete(ctx, club.ID, NameKey(name), name)) != rider {
			t.Errorf("%s is another rider than Žofia", name)
		}
	}
	for _, table := range []string{"club", "athlete"} {
		var rows int
		if err := db.reader.QueryRow(`SELECT count(*) FROM ` + table).Scan(&rows); err != nil || rows != 1 {
			t.Errorf("%s: %d rows and error %v, want 1", table, rows, err)
		}
	}
}
