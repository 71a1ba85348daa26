package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"time"
)

// Restored tells what a restoration did.
type Restored struct {
	Riders   int       // who were erased after the backup and are erased from it again
	LastTick time.Time // when the bot of the backup last looked for what is owed; zero: never
	Aside    string    // where the database is that was there before, if one was
}

// Restore puts a backup in place of the database at path. It refuses one that
// a bot or another program has open, and a backup that is damaged; then all stays
// as it is. Those who were erased since the backup was made stay erased.
func Restore(ctx context.Context, backup, path string, now time.Time) (done Restored, err error) {
	if _, err := os.Stat(backup); err != nil {
		return done, err
	}
	_, missing := os.Stat(path)
	if missing == nil {
		if err := checkPlace(path); err != nil {
			return done, fmt.Errorf("database %s: %w", path, err)
		}
		if err := foreignAt(ctx, path); err != nil {
			return done, fmt.Errorf("%s: %w", path, err)
		}
		lock, err := LockServing(ctx, path)
		if err != nil {
			return done, err
		}
		defer func() { err = errors.Join(err, lock.Release()) }()
	} else if !errors.Is(missing, fs.ErrNotExist) {
		return done, fmt.Errorf("database %s: %w", path, noAccess(path, missing))
	}
	version, err := checkCopy(ctx, copyDSN(backup, url.Values{"mode": {"ro"}})) // it stays as it is
	if err != nil {
		return done, ofBackup(backup, err)
	}
	temp, err := os.CreateTemp(filepath.Dir(path), ".musette-restore-*")
	if err != nil {
		return done, fmt.Errorf("database %s: %w", path, noAccess(path, err))
	}
	defer removeAll(temp.Name(), version)
	defer temp.Close()
	if done, err = prepareCopy(ctx, backup, temp.Name(), path, version, now); err != nil {
		return done, fmt.Errorf("make ready the backup %s: %w", backup, explain(ofSchema(err)))
	}
	if _, err := checkCopy(ctx, lookDSN(temp.Name())); err != nil {
		return done, ofBackup(backup, err)
	}
	if err := errors.Join(temp.Sync(), keepOwner(temp.Name(), path)); err != nil {
		return done, err
	}
	takeBack, err := takeList(backup, path)
	if err != nil {
		return done, err
	}
	if missing == nil {
		if done.Aside, err = setAside(ctx, path, now); err != nil {
			return done, errors.Join(err, takeBack())
		}
	}
	if err := os.Rename(temp.Name(), path); err != nil {
		if done.Aside != "" {
			err = errors.Join(err, os.Rename(done.Aside, path))
		}
		return done, errors.Join(err, takeBack())
	}
	if folder := filepath.Dir(backup); filepath.Clean(listIn(folder, path)) != filepath.Clean(path) && FindLists(backup, path).InFolder != "" {
		_ = noteFolder(path, folder) // who is erased from now on must not be back from there either
	}
	return done, syncFolder(filepath.Dir(path))
}

// ofBackup says what is wrong with a backup. What mends a database, to put a backup back, does
// not mend that.
func ofBackup(backup string, err error) error {
	cause := err
	if fault, ok := errors.AsType[*fileFault](err); ok {
		cause = fault.cause
	}
	switch {
	case errors.Is(err, ErrDamaged):
		return fmt.Errorf("backup %s: %w", backup, &fileFault{errBadBackup, cause})
	case Foreign(err):
		return fmt.Errorf("backup %s: %w", backup, errNoBackup)
	}
	return fmt.Errorf("backup %s: %w", backup, err)
}

var (
	errBadBackup = errors.New("it is damaged, so nothing has changed. Name another backup")
	errNoBackup  = errors.New("it is not a musette database, or its beginning is damaged, so nothing has changed. Name another file")
)

// foreignAt refuses a file of another program, which nobody wants replaced. A file that
// is no database at all may be ours with a damaged beginning, if it is made of pages.
func foreignAt(ctx context.Context, path string) error {
	const leastPage = 512
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	db, err := sql.Open("sqlite3", lookDSN(path))
	if err != nil {
		return err
	}
	_, err = schemaVersion(ctx, db)
	if err := db.Close(); err != nil {
		return err
	}
	if Foreign(err) || Foreign(explain(err)) && info.Size()%leastPage != 0 {
		return errNotOurs
	}
	return nil // what else is wrong with it, the backup mends
}

// prepareCopy writes a backup anew, brings it to this program's schema, takes out
// who was erased, and notes when it was put back.
func prepareCopy(ctx context.Context, backup, temp, path string, version int64, now time.Time) (done Restored, err error) {
	lists, err := listsFor(backup, path)
	if err != nil {
		return done, err
	}
	if err := rewrite(ctx, backup, temp, &forgotten{}); err != nil {
		return done, err
	}
	if err := migrate(ctx, temp, synced, embedded()); err != nil {
		return done, err
	}
	if err := os.Remove(backupName(temp, version)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return done, err // the backup itself is the copy from before
	}
	db, err := openPool(ctx, plain(writerDSN(temp, synced)), synced, 1, false)
	if err != nil {
		return done, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	err = transact(ctx, db, func(tx *sql.Tx) error {
		done.Riders = 0
		for _, who := range lists {
			gone, err := find(ctx, tx, who)
			if err != nil {
				return err
			}
			done.Riders += len(gone.riders)
			if err := gone.remove(ctx, tx); err != nil {
				return err
			}
		}
		return noteRestored(ctx, tx, now, &done)
	})
	if err != nil {
		return done, err
	}
	_, err = db.ExecContext(ctx, `VACUUM`)
	if err == nil {
		_, err = db.ExecContext(ctx, `PRAGMA journal_mode = DELETE`) // no log of its own may be left behind
	}
	return done, err
}

// firstReach is how far before its first tick a bot looks for what is owed.
const firstReach = 48 * time.Hour

// noteRestored notes from when to when the backup does not know what was sent. One
// that was made before the end of the bot's first tick has no time of a tick, and
// what was sent since may be of the days that the first tick looks at.
func noteRestored(ctx context.Context, tx *sql.Tx, now time.Time, done *Restored) error {
	err := tx.QueryRowContext(ctx, `SELECT tick_ms FROM clock WHERE id = 1`).Scan(instant{&done.LastTick})
	if errors.Is(err, sql.ErrNoRows) {
		_, err = tx.ExecContext(ctx, `INSERT INTO clock (id, tick_ms, restored_from_ms, restored_ms) SELECT 1, 0, coalesce(max(claimed_ms), ?), ? FROM post`,
			now.Add(-firstReach).UnixMilli(), now.UnixMilli())
		return err
	}
	if err == nil {
		_, err = tx.ExecContext(ctx, `UPDATE clock SET restored_from_ms = coalesce(min(restored_from_ms, tick_ms), tick_ms), restored_ms = ? WHERE id = 1`, now.UnixMilli())
	}
	return err
}

// removeAll removes a file that was worked on, where it is still there, and what SQLite and
// a migration left beside it.
func removeAll(temp string, version int64) {
	for _, name := range []string{temp, temp + "-wal", temp + "-shm", temp + "-journal", backupName(temp, version)} {
		_ = os.Remove(name)
	}
}

// takeList gives a database without a list of those who were erased that of the backup's
// folder; takeBack undoes that.
func takeList(backup, path string) (takeBack func() error, err error) {
	if _, err := os.Stat(forgottenName(path)); !errors.Is(err, fs.ErrNotExist) {
		return func() error { return nil }, err
	}
	takeBack = func() error {
		if err := os.Remove(forgottenName(path)); !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return nil
	}
	if err := copyForgotten(listIn(filepath.Dir(backup), path), path); err != nil {
		return nil, errors.Join(err, takeBack())
	}
	return takeBack, nil
}

// listsFor are the lists of those who were erased, of the database and of the
// backup's folder.
func listsFor(backup, path string) (lists []*forgotten, err error) {
	beside := listIn(filepath.Dir(backup), path)
	for _, name := range []string{path, beside} {
		who, err := loadForgotten(name)
		if err != nil {
			return nil, err
		}
		if len(who.until) > 0 {
			lists = append(lists, who)
		}
	}
	return lists, nil
}

// copyForgotten copies the list of those who were erased, where there is one.
func copyForgotten(from, to string) error {
	if filepath.Clean(from) == filepath.Clean(to) {
		return nil
	}
	data, err := os.ReadFile(forgottenName(from))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := putFile(forgottenName(to), data, 0o600); err != nil {
		return err
	}
	return keepOwner(forgottenName(to), to)
}

// setAside folds the log of a database into its file and renames it. Erasures
// reach it there, as the copies that migrations leave; not a damaged one.
func setAside(ctx context.Context, path string, now time.Time) (aside string, err error) {
	db, err := sql.Open("sqlite3", lookDSN(path))
	if err != nil {
		return "", err
	}
	var mode string
	err = errors.Join(db.QueryRowContext(ctx, `PRAGMA journal_mode = DELETE`).Scan(&mode), db.Close())
	if isBusy(err) {
		return "", fmt.Errorf("%s: %w", path, explain(err))
	}
	aside = fmt.Sprintf("%s.schema-0-replaced-%s.backup", path, now.UTC().Format(backupStamp))
	if err == nil {
		_, err = checkCopy(ctx, lookDSN(path))
	}
	if err != nil {
		aside = fmt.Sprintf("%s.damaged-%s", path, now.UTC().Format(backupStamp))
	}
	if err := os.Rename(path, aside); err != nil {
		return "", err
	}
	for _, end := range []string{"-wal", "-shm"} {
		if err := os.Rename(path+end, aside+end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return aside, err
		}
	}
	return aside, nil
}

// PutBack tells when a backup was put in place of this database, and up to when
// the backup knows what was sent; zero: never.
func (db *DB) PutBack(ctx context.Context) (from, at time.Time, err error) {
	err = db.source().QueryRowContext(ctx, `SELECT restored_from_ms, restored_ms FROM clock WHERE id = 1 AND restored_ms IS NOT NULL`).Scan(instant{&from}, instant{&at})
	if errors.Is(err, sql.ErrNoRows) {
		return time.Time{}, time.Time{}, nil
	}
	if err != nil {
		return from, at, fmt.Errorf("when a backup was put back: %w", explain(err))
	}
	return from, at, nil
}
