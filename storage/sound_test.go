package storage

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot/bottest/rounds"
)

// Whichever page of a database is written over, it is found before anything is written to it.
func TestEachPageIsLookedThrough(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path, _ := olderDatabase(t)
	mustOpen(t, path).Close()
	if err := LookThrough(ctx, path); err != nil {
		t.Fatalf("a whole one: %v", err)
	}
	const size = 4096
	whole := must(os.ReadFile(path))
	for page := 0; page < len(whole)/size; page += rounds.Every(1) {
		for name, rest := range map[string][]byte{"zeros": make([]byte, size), "letters": bytes.Repeat([]byte("x"), size)} {
			spoilt := bytes.Clone(whole)
			copy(spoilt[(page+1)*size-len(rest):], rest)
			if err := os.WriteFile(path, spoilt, 0o600); err != nil {
				t.Fatal(err)
			}
			err := LookThrough(ctx, path)
			if !Damaged(err) || !strings.Contains(err.Error(), "put back a backup, see musette restore --help") || strings.Contains(err.Error(), "\n") {
				t.Errorf("page %d, %s: got %v", page+1, name, err)
			}
			if now := must(os.ReadFile(path)); !bytes.Equal(now, spoilt) {
				t.Errorf("page %d, %s: the file was written to", page+1, name)
			}
		}
	}
}

// Whichever number of the header is written over, the database opens or the fault says what to do.
// Source: https://sqlite.org/fileformat2.html#the_database_header
func TestEachNumberOfTheHeader(t *testing.T) {
	ctx := context.Background()
	path, _ := olderDatabase(t)
	mustOpen(t, path).Close()
	whole := must(os.ReadFile(path))
	for _, at := range []int{15, 16, 18, 19, 20, 21, 22, 23, 27, 31, 35, 39, 43, 47, 51, 55, 59, 63, 67, 71} { // their last bytes
		spoilt := bytes.Clone(whole)
		spoilt[at] = 9
		if err := os.WriteFile(path, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := LookThrough(ctx, path); err != nil && !Damaged(err) {
			t.Errorf("byte %d: %v", at, err)
		}
	}
}

// An index of an empty table that begins with a page of a table is found by the first look
// and by a whole examination, and no copy of it becomes a backup.
func TestEachIndexBeginsAsOne(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path, _ := olderDatabase(t)
	mustOpen(t, path).Close()
	alter(t, path, `PRAGMA foreign_keys = off`, `DELETE FROM athlete`, `DELETE FROM club`, `DELETE FROM post`, `DELETE FROM race`, `DELETE FROM week`, `PRAGMA wal_checkpoint(TRUNCATE)`)
	db, _, _, err := openToLook(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	type root struct {
		name, table string
		page        int
	}
	roots := must(list(ctx, db.reader, func(r *root, scan func(...any) error) error { return scan(&r.name, &r.table, &r.page) },
		`SELECT i.name, t.name, i.rootpage FROM sqlite_schema i JOIN sqlite_schema t ON t.name = i.tbl_name AND t.type = 'table' WHERE i.type = 'index' ORDER BY i.name`))
	if err := rootFault(ctx, db.reader); err != nil {
		t.Errorf("of a whole one: %v", err)
	}
	db.Close()
	const size = 4096
	whole := must(os.ReadFile(path))
	emptyTable := append([]byte{0x0d, 0, 0, 0, 0, size >> 8, 0, 0}, make([]byte, size-8)...) // https://sqlite.org/fileformat2.html#b_tree_pages
	for i, r := range roots {
		if rounds.Left(i) {
			continue
		}
		spoilt := bytes.Clone(whole)
		copy(spoilt[(r.page-1)*size:], emptyTable)
		if err := os.WriteFile(path, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := LookThrough(ctx, path); !Damaged(err) || !strings.Contains(err.Error(), "put back a backup, see musette restore --help") {
			t.Errorf("%s: got %v", r.name, err)
		}
		if got := examined(t, path); got == "" {
			t.Errorf("%s: the examination finds nothing", r.name)
		}
		if _, err := checkCopy(ctx, lookDSN(path)); !Damaged(err) {
			t.Errorf("%s: of a copy: got %v", r.name, err)
		}
	}
	if len(roots) < 30 {
		t.Errorf("only %d indexes are there", len(roots))
	}
}

// Whichever table is gone is missed, in a database of today and in an older one.
func TestEachTableIsMissed(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path, _ := olderDatabase(t)
	mustOpen(t, path).Close()
	for _, path := range []string{path, databaseOfSchemaOne(t)} {
		if err := LookThrough(ctx, path); err != nil {
			t.Fatalf("a whole one: %v", err)
		}
		whole := must(os.ReadFile(path))
		db, _, _, err := openToLook(ctx, path)
		if err != nil {
			t.Fatal(err)
		}
		all := must(parts(ctx, db.reader))
		db.Close()
		for i, part := range all {
			table, found := strings.CutPrefix(part, "table ")
			if !found || rounds.Left(i) {
				continue
			}
			if err := os.WriteFile(path, whole, 0o600); err != nil {
				t.Fatal(err)
			}
			alter(t, path, `PRAGMA foreign_keys = off`, `DROP TABLE "`+table+`"`)
			if err := LookThrough(ctx, path); !Damaged(err) {
				t.Errorf("%s is gone: got %v", table, err)
			}
		}
	}
}

// What is no damage, or cannot be looked through in time, is not called damaged.
func TestNotDamaged(t *testing.T) {
	ctx := context.Background()
	empty, missing := filepath.Join(t.TempDir(), "empty.db"), filepath.Join(t.TempDir(), "missing.db")
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{empty, missing} {
		if err := LookThrough(ctx, path); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
	if err := LookThrough(ctx, foreignDatabase(t)); Damaged(err) || !Foreign(err) {
		t.Errorf("another program's: %v", err)
	}
	path, _ := olderDatabase(t)
	late, cancel := context.WithDeadline(ctx, time.Now())
	defer cancel()
	if err := LookThrough(late, path); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("without time: %v", err)
	}
}

// The newest backup is found in all folders that are known.
func TestNewestBackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "musette.db")
	if got := NewestBackup(path); got != "" {
		t.Errorf("of none: %s", got)
	}
	beside, far := filepath.Join(filepath.Dir(path), "backups"), t.TempDir()
	newest := filepath.Join(far, "musette-2026-05-27T031500Z.db")
	err := os.Mkdir(beside, 0o700)
	for _, name := range []string{newest, filepath.Join(beside, "musette-2026-05-26T031500Z.db"), filepath.Join(far, "other-2026-05-28T031500Z.db")} {
		err = errors.Join(err, os.WriteFile(name, nil, 0o600))
	}
	if err := errors.Join(err, noteFolder(path, far)); err != nil {
		t.Fatal(err)
	}
	if got := NewestBackup(path); got != newest {
		t.Errorf("got %s, want %s", got, newest)
	}
}

// A database that is brought up to date meanwhile is not called damaged.
func TestLookThroughWhileClimbing(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	for range 5 {
		path := databaseOfSchemaOne(t)
		done := make(chan error, 1)
		go func() {
			db, err := Open(ctx, path)
			if err == nil {
				err = db.Close()
			}
			done <- err
		}()
		for looking := true; looking; {
			select {
			case err := <-done:
				if err != nil {
					t.Fatal(err)
				}
				looking = false
			default:
				if err := LookThrough(ctx, path); err != nil {
					t.Error(err)
				}
			}
		}
	}
}
