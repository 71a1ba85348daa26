package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// A backup may hold people who were erased since for so many days.
const (
	KeepBackupDays = 30
	KeepBackups    = KeepBackupDays * 24 * time.Hour
)

// backupStamp is the instant in the name of a backup, in UTC.
const backupStamp = "2006-01-02T150405Z"

// Backup copies the database at path into a new file of a folder while others go
// on writing, looks through the copy and returns its name. The list of those who
// were erased goes along, so that the folder alone is enough to restore.
func Backup(ctx context.Context, path, folder string, now time.Time) (name string, err error) {
	from, have, newest, err := openToLook(ctx, path) // of an older musette too, before a newer one brings it up to date
	if err != nil {
		return "", fmt.Errorf("open database %s: %w", path, err)
	}
	defer func() { err = errors.Join(err, from.Close()) }()
	if have == 0 || have > newest {
		return "", fmt.Errorf("open database %s: %w", path, &SchemaError{Have: have, Newest: newest})
	}
	temp, err := os.CreateTemp(folder, ".musette-backup-*")
	if err != nil {
		return "", err
	}
	defer os.Remove(temp.Name()) // gone already when all went well
	defer temp.Close()
	if err := copyOnline(ctx, from.reader, temp.Name()); err != nil {
		if errors.Is(explain(err), ErrFull) { // not on the disk of the database
			err = fmt.Errorf("no space is left in %s. Free some, then try again", folder)
		}
		return "", fmt.Errorf("copy %s: %w", path, explain(err))
	}
	if _, err := checkCopy(ctx, lookDSN(temp.Name())); err != nil {
		return "", fmt.Errorf("the copy of %s is not whole: %w", path, err)
	}
	if err := temp.Sync(); err != nil {
		return "", err
	}
	name = filepath.Join(folder, backupBase(path)+now.UTC().Format(backupStamp)+".db")
	if err := os.Rename(temp.Name(), name); err != nil {
		return "", err
	}
	if err := putList(path, folder); err != nil {
		return name, err
	}
	_ = noteFolder(path, folder) // where that cannot be written, erasures come here with the next backup
	return name, syncFolder(folder)
}

// backupBase begins the names of a database's backups.
func backupBase(path string) string {
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base)) + "-"
}

// copyOnline copies by SQLite's own backup interface.
func copyOnline(ctx context.Context, from *sql.DB, to string) (err error) {
	target, err := sql.Open("sqlite3", copyDSN(to, nil))
	if err != nil {
		return err
	}
	target.SetMaxOpenConns(1)
	defer closeAfter(&err, target)
	source, err := from.Conn(ctx)
	if err != nil {
		return err
	}
	defer closeAfter(&err, source)
	goal, err := target.Conn(ctx)
	if err != nil {
		return err
	}
	defer closeAfter(&err, goal)
	err = source.Raw(func(s any) error {
		return goal.Raw(func(g any) error {
			return copyPages(ctx, g, s)
		})
	})
	if err == nil {
		// The copy is one file, which needs no log beside it to be read.
		_, err = goal.ExecContext(ctx, `PRAGMA journal_mode = DELETE`)
	}
	return err
}

// closeAfter closes what was worked with. What befell the work says more than what befalls closing then.
func closeAfter(err *error, c io.Closer) {
	if failed := c.Close(); *err == nil {
		*err = failed
	}
}

// checkCopy looks through a copy that nobody has open, and tells its schema. Where SQLite may
// not write to it, it passes over values that no column may have.
func checkCopy(ctx context.Context, dsn string) (version int64, err error) {
	db, err := sql.Open("sqlite3", dsn)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	if version, err = schemaVersion(ctx, db); err != nil {
		return 0, explain(err)
	}
	if version == 0 {
		return 0, errNotOurs
	}
	if err = wholeFault(ctx, db); err == nil {
		err = rootFault(ctx, db)
	}
	if err != nil {
		return 0, explain(ofSchema(err))
	}
	_, newest, err := stepsOf(db, embedded())
	switch {
	case err != nil:
		return 0, err
	case version > newest:
		return 0, &SchemaError{Have: version, Newest: newest}
	}
	if err = lacks(ctx, db, version); err == nil {
		err = checkForeignKeys(ctx, db)
	}
	return version, explain(ofSchema(err))
}

// ExpireBackups deletes the backups of a database in a folder: all but the newest
// ones of a number, and all that are older than KeepBackups. It returns what it deleted.
// One from the future was made while the clock ran ahead: it is none of the newest, and
// as old as its file.
func ExpireBackups(path, folder string, keep int, now time.Time) (gone []string, err error) {
	entries, err := os.ReadDir(folder) // in the order of names, which is that of time
	if err != nil {
		return nil, err
	}
	var names, old []string
	var made []time.Time
	for _, e := range entries {
		at, ok := backupMade(path, e)
		switch name := filepath.Join(folder, e.Name()); {
		case !ok:
		case at.After(now):
			if info, err := e.Info(); err == nil && now.Sub(info.ModTime()) > KeepBackups {
				old = append(old, name)
			}
		default:
			names, made = append(names, name), append(made, at)
		}
	}
	for i, name := range names {
		if i < len(names)-keep || now.Sub(made[i]) > KeepBackups {
			old = append(old, name)
		}
	}
	for _, name := range old {
		if err := os.Remove(name); err != nil {
			return gone, err
		}
		gone = append(gone, name)
	}
	return gone, syncFolder(folder)
}
