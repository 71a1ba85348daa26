package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// LookThrough looks for damage before anything is written to the database at path, and changes
// nothing. A file that is not there, is empty or is held by another program has none; that of
// another program is told of. Where ctx ends first, its error comes back.
func LookThrough(ctx context.Context, path string) (err error) {
	if info, err := os.Stat(path); err != nil || info.Size() == 0 {
		return nil // Open makes it, or says why it cannot
	}
	db, _, newest, err := openToLook(ctx, path)
	if err == nil {
		defer closeAfter(&err, db)
		err = lookAtOnce(ctx, db.reader, newest)
	}
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case isBusy(err):
		return nil // Open waits for longer
	case err != nil:
		return fmt.Errorf("open database %s: %w", path, explain(err))
	}
	return nil
}

// lookAtOnce sees one state of the file, while another program may bring it up to date.
func lookAtOnce(ctx context.Context, db *sql.DB, newest int64) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // nothing was written
	have, err := schemaVersion(ctx, tx)
	if err != nil {
		return err
	}
	if have > 0 && have <= newest {
		err = lacks(ctx, tx, have)
	}
	if err == nil {
		err = rootFault(ctx, tx)
	}
	if err == nil {
		err = checkForeignKeys(ctx, tx)
	}
	if err == nil {
		err = wholeFault(ctx, tx) // which takes longest
	}
	return ofSchema(err)
}

// wholeFault is damage of pages, and indexes that contradict their tables.
func wholeFault(ctx context.Context, q queryer) error {
	var verdict string
	err := q.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&verdict)
	if err == nil && verdict != "ok" {
		err = unreadable("%s", oneSpace(verdict))
	}
	return err
}

// lacks is the part of its schema that a database has lost.
func lacks(ctx context.Context, q queryer, schema int64) error {
	missing, err := missingParts(ctx, q, schema)
	if err == nil && len(missing) > 0 {
		err = unreadable("missing: %s", missing[0])
	}
	return err
}

// oneSpace puts on one line what SQLite says on several.
func oneSpace(text string) string { return strings.Join(strings.Fields(text), " ") }

// Damaged reports a fault after which a backup is to be put back.
func Damaged(err error) bool { return errors.Is(err, ErrDamaged) || errors.Is(err, errNoDatabase) }

// NewestBackup is the newest backup of the database at path, of the folders in which musette
// has made some: "" where there is none.
func NewestBackup(path string) (newest string) {
	var last time.Time
	for _, folder := range BackupFolders(path) {
		for _, name := range folder.Files {
			if at, ok := madeAt(path, filepath.Base(name)); ok && at.After(last) {
				newest, last = name, at
			}
		}
	}
	return newest
}

// backupMade tells when a backup of a database was made, by its name.
func backupMade(path string, e fs.DirEntry) (at time.Time, ok bool) {
	at, ok = madeAt(path, e.Name())
	return at, ok && e.Type().IsRegular()
}

func madeAt(path, name string) (at time.Time, ok bool) {
	stamp, ok := strings.CutPrefix(strings.TrimSuffix(name, ".db"), backupBase(path))
	at, err := time.Parse(backupStamp, stamp)
	return at, ok && err == nil
}

// partsOf are the parts that a database has with that schema.
func partsOf(ctx context.Context, schema int64) (names []string, err error) {
	fresh, err := sql.Open("sqlite3", ":memory:")
	if err != nil {
		return nil, err
	}
	fresh.SetMaxOpenConns(1) // each connection has a memory of its own
	defer func() { err = errors.Join(err, fresh.Close()) }()
	steps, _, err := stepsOf(fresh, embedded())
	if err == nil {
		_, err = steps.UpTo(ctx, schema)
	}
	if err != nil {
		return nil, err
	}
	return parts(ctx, fresh)
}
