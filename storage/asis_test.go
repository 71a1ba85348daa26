package storage

import (
	"context"
	"crypto/sha256"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// folderOf is the names in a file's folder and what is in the file.
func folderOf(t *testing.T, path string) (names []string, sum [32]byte) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return names, sha256.Sum256(data)
}

// Looking changes nothing, with the file at rest and while another program writes.
func TestOpenAsIsOnlyLooks(t *testing.T) {
	ctx := context.Background()
	path, rider := olderDatabase(t)
	names, sum := folderOf(t, path)
	look := func(races int) {
		t.Helper()
		db, err := OpenAsIs(ctx, path)
		if err != nil {
			t.Fatal(err)
		}
		if got := must(db.Races(ctx, rider)); len(got) != races {
			t.Errorf("got races %v, want %d", got, races)
		}
		if _, err := db.EnsureClub(ctx, NameKey("other"), "other", "UTC"); err == nil {
			t.Error("a club was written")
		}
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
	look(1)
	if gotNames, gotSum := folderOf(t, path); !slices.Equal(gotNames, names) || gotSum != sum {
		t.Errorf("the folder had %v, now %v; the file is the same: %v", names, gotNames, gotSum == sum)
	}
	serving := mustOpen(t, path)
	mustAddRace(t, serving, rider, raceOn(t, "Town Sprint", "2026-07-11"))
	look(2)
	mustAddRace(t, serving, rider, raceOn(t, "Far Tour", "2026-08-01"))
	look(3)
}

func TestOpenAsIsRefusesOtherSchemas(t *testing.T) {
	ctx := context.Background()
	newer, _ := olderDatabase(t)
	db, err := open(ctx, newer, synced, withStep(t, "CREATE TABLE later (id INTEGER) STRICT;"))
	if err == nil {
		err = db.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	empty := filepath.Join(t.TempDir(), "empty.db")
	if err := makePrivate(empty); err != nil {
		t.Fatal(err)
	}
	for path, have := range map[string]int64{databaseOfSchemaOne(t): 1, newer: newestSchema + 1, empty: 0} {
		names, sum := folderOf(t, path)
		db, err := OpenAsIs(ctx, path)
		if err == nil {
			db.Close()
		}
		if other, ok := errors.AsType[*SchemaError](err); !ok || *other != (SchemaError{have, newestSchema}) {
			t.Errorf("schema %d: got error %v", have, err)
		}
		if gotNames, gotSum := folderOf(t, path); !slices.Equal(gotNames, names) || gotSum != sum {
			t.Errorf("schema %d: the folder had %v, now %v; the file is the same: %v", have, names, gotNames, gotSum == sum)
		}
	}
	missing := filepath.Join(t.TempDir(), "none.db")
	for path, want := range map[string]error{foreignDatabase(t): errNotOurs, missing: os.ErrNotExist} {
		if _, err := OpenAsIs(ctx, path); !errors.Is(err, want) {
			t.Errorf("%s: got error %v, want %v", path, err, want)
		}
	}
	if _, err := os.Stat(missing); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the missing file was made: %v", err)
	}
}
