package storage

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// examined is what an examination of a closed database finds.
func examined(t *testing.T, path string) string {
	t.Helper()
	db, err := OpenAsIs(context.Background(), path)
	if err != nil {
		return err.Error()
	}
	defer db.Close()
	faults, err := db.Examine(context.Background())
	if err != nil {
		return err.Error()
	}
	return strings.Join(faults, "\n")
}

// alter does to a closed database what only another program would.
func alter(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
}

func TestExamine(t *testing.T) {
	for name, test := range map[string]struct {
		statements []string
		want       string
	}{
		"whole":          {nil, ""},
		"a table less":   {[]string{`DROP TABLE pin`}, "missing: table pin, "},
		"an index less":  {[]string{`DROP INDEX race_once`}, "missing: index race_once"},
		"a column less":  {[]string{`ALTER TABLE race DROP COLUMN place`}, "missing: column race.place"},
		"rows of nobody": {[]string{`PRAGMA foreign_keys = off`, `DELETE FROM athlete`}, "points at rows of athlete that are gone"},
	} {
		path, _ := olderDatabase(t)
		alter(t, path, test.statements...)
		if got := examined(t, path); test.want == "" && got != "" || !strings.Contains(got, test.want) {
			t.Errorf("%s: got %q, want %q", name, got, test.want)
		}
	}
}

// overwrite changes the first page of a table or index as a disk or another program might.
func overwrite(t *testing.T, path, name string, change func(page []byte)) {
	t.Helper()
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	var number, size int64
	if err := errors.Join(db.QueryRow(`SELECT rootpage FROM sqlite_schema WHERE name = ?`, name).Scan(&number),
		db.QueryRow(`PRAGMA page_size`).Scan(&size), db.Close()); err != nil {
		t.Fatal(err)
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	page := make([]byte, size)
	_, err = file.ReadAt(page, (number-1)*size)
	if err == nil {
		change(page)
		_, err = file.WriteAt(page, (number-1)*size)
	}
	if err := errors.Join(err, file.Close()); err != nil {
		t.Fatal(err)
	}
}

// One letter that is another one in an index is found, too: what is looked up by it would be gone.
func TestDamagedLetterOfAnIndex(t *testing.T) {
	path, _ := olderDatabase(t)
	overwrite(t, path, "race_once", func(page []byte) {
		at := bytes.Index(page, []byte("2026-"))
		if at < 0 {
			t.Fatal("the index has no date")
		}
		page[at+9]++
	})
	if got := examined(t, path); !strings.Contains(got, "missing from index race_once") {
		t.Errorf("got %q", got)
	}
	if err := LookThrough(t.Context(), path); !Damaged(err) || !strings.Contains(err.Error(), "race_once") {
		t.Errorf("before anything is written: %v", err)
	}
}

// A letter of what the file says of its tables is damage with a way out: SQLite itself takes it
// for a function that it does not know.
func TestDamagedLetterOfTheSchema(t *testing.T) {
	path, _ := olderDatabase(t)
	mustOpen(t, path).Close()
	whole := must(os.ReadFile(path))
	spoilt := bytes.ReplaceAll(whole, []byte("coalesce("), []byte("coaMesce("))
	if bytes.Equal(spoilt, whole) {
		t.Fatal("the schema calls no function")
	}
	if err := os.WriteFile(path, spoilt, 0o600); err != nil {
		t.Fatal(err)
	}
	_, ofCopy := checkCopy(t.Context(), lookDSN(path))
	for name, got := range map[string]error{"first look": LookThrough(t.Context(), path), "copy": ofCopy} {
		if !Damaged(got) || !strings.Contains(got.Error(), "coaMesce") {
			t.Errorf("%s: %v", name, got)
		}
	}
	if got := examined(t, path); !strings.Contains(got, "put back a backup") {
		t.Errorf("examined: %q", got)
	}
}

// A value that no musette has stored, and a table that has another column's name, are
// damage with a way out, too.
func TestDamagedValue(t *testing.T) {
	for name, test := range map[string]struct{ statement, says string }{
		"a day":     {`UPDATE race SET date = '2026-27-12'`, "is not a date"},
		"a word":    {`UPDATE race SET status = 'planted'`, "planted is not one of"},
		"a version": {`ALTER TABLE goose_db_version RENAME COLUMN version_id TO version_if`, "no such column: version_id"},
	} {
		path, rider := olderDatabase(t)
		alter(t, path, `PRAGMA ignore_check_constraints = on`, test.statement)
		look, err := OpenAsIs(t.Context(), path)
		if err == nil {
			_, err = look.Races(t.Context(), rider)
			look.Close()
		}
		if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), test.says) || !strings.Contains(err.Error(), "put back a backup") {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// A page of a table that another program wrote over is found, and what reads it
// says that the file is damaged and what mends it.
func TestDamagedPage(t *testing.T) {
	path, rider := olderDatabase(t)
	overwrite(t, path, "race", func(page []byte) { copy(page, strings.Repeat("musette!", len(page)/8)) })
	if got := examined(t, path); got == "" {
		t.Error("the damage is not found")
	}
	look, err := OpenAsIs(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer look.Close()
	if _, err := look.Races(context.Background(), rider); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "put back a backup") {
		t.Errorf("reading tells %v", err)
	}
}

// A file of another program stays as it is, byte by byte.
func TestForeignFileStays(t *testing.T) {
	path := filepath.Join(t.TempDir(), "foreign.db")
	alter(t, path, `CREATE TABLE n (x)`)
	names, sum := folderOf(t, path)
	if _, err := Open(context.Background(), path); !errors.Is(err, errNotOurs) {
		t.Errorf("got %v", err)
	}
	if gotNames, gotSum := folderOf(t, path); gotSum != sum || len(gotNames) != len(names) {
		t.Errorf("the file changed: %v; beside it are %v", gotSum != sum, gotNames)
	}
}

// A musette database without the table of its version is a damaged one, and not taken
// for another program's. One of another program that has such a table, too, is none.
func TestVersionIsMissing(t *testing.T) {
	for deed, lack := range map[string]string{`DROP TABLE goose_db_version`: "missing", `DELETE FROM goose_db_version`: "empty"} {
		path, _ := olderDatabase(t)
		mustOpen(t, path).Close()
		alter(t, path, deed)
		names, sum := folderOf(t, path)
		says := "the database file is damaged. Stop the bot and put back a backup, see musette restore --help (its table goose_db_version is " + lack + ")"
		_, opened := Open(context.Background(), path)
		_, read := OpenAsIs(context.Background(), path)
		_, copied := Backup(context.Background(), path, t.TempDir(), backupTime)
		for what, err := range map[string]error{"opened": opened, "read": read, "copied": copied} {
			if err == nil || !errors.Is(err, ErrDamaged) || Foreign(err) || !strings.Contains(err.Error(), says) {
				t.Errorf("%s: %v, want %q", what, err, says)
			}
		}
		if gotNames, gotSum := folderOf(t, path); gotSum != sum || len(gotNames) != len(names) {
			t.Errorf("the file changed: %v; beside it are %v", gotSum != sum, gotNames)
		}
	}
	other := filepath.Join(t.TempDir(), "other.db")
	alter(t, other, `CREATE TABLE club (x); CREATE TABLE athlete (x); CREATE TABLE race (x)`)
	if _, err := Open(context.Background(), other); !Foreign(err) {
		t.Errorf("another program's: %v", err)
	}
}

// What a database has no room for is refused with words that say so; nothing is
// half stored, and it goes on when there is room again.
func TestFullDatabase(t *testing.T) {
	ctx := context.Background()
	path, rider := olderDatabase(t)
	db := mustOpen(t, path)
	before := must(db.Races(ctx, rider))
	if _, err := db.writer.Exec(`PRAGMA max_page_count = 1`); err != nil { // no page more than it has
		t.Fatal(err)
	}
	var err error
	for i := 0; err == nil && i < 10_000; i++ {
		_, err = db.EnsureClub(ctx, NameKey(fmt.Sprint("club ", i)), strings.Repeat("c", 190), "UTC")
	}
	if !errors.Is(err, ErrFull) || !strings.Contains(err.Error(), "Free some") {
		t.Fatalf("got %v", err)
	}
	if after := must(db.Races(ctx, rider)); len(after) != len(before) {
		t.Errorf("races: %d, before %d", len(after), len(before))
	}
	if _, err := db.writer.Exec(`PRAGMA max_page_count = 1000000`); err != nil {
		t.Fatal(err)
	}
	if _, err := db.EnsureClub(ctx, NameKey("room again"), "room again", "UTC"); err != nil {
		t.Error(err)
	}
}

// The lock is on the file: other names of it, and a file put in its place.
func TestLockIsOnTheFile(t *testing.T) {
	ctx := context.Background()
	path, _ := olderDatabase(t)
	folder := filepath.Dir(path)
	link, far := filepath.Join(folder, "link.db"), filepath.Join(t.TempDir(), "far.db")
	if err := errors.Join(os.Symlink(path, link), os.Symlink(link, far)); err != nil {
		t.Fatal(err)
	}
	first, err := LockServing(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{path, link, far} {
		if _, err := LockServing(ctx, name); !errors.Is(err, ErrServed) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if err := first.Release(); err != nil {
		t.Fatal(err)
	}
	lock, err := LockServing(ctx, far)
	if err != nil {
		t.Fatal(err)
	}
	if err := lock.Release(); err != nil {
		t.Error(err)
	}
}

// A writer that another one keeps out waits longer than SQLite does.
func TestBusyIsTriedAgain(t *testing.T) {
	ctx := context.Background()
	path, _ := olderDatabase(t)
	db := mustOpen(t, path)
	other, err := sql.Open("sqlite3", "file:"+path+"?_txlock=immediate")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	tx, err := other.Begin()
	if err != nil {
		t.Fatal(err)
	}
	const beyondSQLite = 2500 * time.Millisecond // which waits for 2 s
	time.AfterFunc(beyondSQLite, func() { tx.Rollback() })
	if _, err := db.EnsureClub(ctx, NameKey("home2"), "home2", "UTC"); err != nil {
		t.Errorf("a writer gave up: %v", err)
	}
}
