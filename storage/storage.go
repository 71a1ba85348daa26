// Package storage keeps what clubs and riders told: facts in one SQLite file.
// Plans are never stored; package planner derives them from the facts.
//
// A public method is one transaction; Change makes one of several. Writes go through one connection, so
// they queue instead of failing; reads have a pool of their own.
package storage

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/sys/unix"
)

// readers is how many reads run at once.
const readers = 4

// How long a busy file is tried again, beside SQLite's own two seconds a try.
const (
	openPatience  = 3 * time.Second
	writePatience = 3 * time.Second
	busyPause     = 50 * time.Millisecond
)

// DB is an open database. It is safe for concurrent use.
type DB struct {
	// Now tells the instant kept with new clubs and riders and with removed
	// races. Change it before the first use only.
	Now func() time.Time

	writer *sql.DB
	reader *sql.DB
	tx     *sql.Tx // of Change; nil outside of it

	writing atomic.Uint64 // the goroutine that writes; 0: none
	written written       // by the transaction of the writer; nil: nobody notes it

	path    string
	erasing sync.Mutex // one erasure at a time
	again   int        // riders forgotten at opening
}

// Open opens the database file at path, makes it when missing and brings its
// schema up to date; before that it leaves a copy of an older database beside
// it. It refuses a file made by a newer musette and one that is not musette's.
func Open(ctx context.Context, path string) (*DB, error) { return openPatiently(ctx, path, synced) }

// OpenUnsynced is Open for tests, whose databases need not outlive a loss of
// power: the system writes to the disk when it likes.
func OpenUnsynced(ctx context.Context, path string) (*DB, error) {
	return openPatiently(ctx, path, unsynced)
}

// disk says when what is stored is on the disk, in SQLite's word and in its number.
type disk struct{ word, number string }

var (
	synced   = disk{"FULL", "2"} // before a change is acknowledged
	unsynced = disk{"OFF", "0"}
)

func openPatiently(ctx context.Context, path string, disk disk) (*DB, error) {
	began := time.Now()
	db, err := open(ctx, path, disk, embedded())
	// The busy timeout does not cover the switch to WAL, which programs
	// that open a new file at once fight for.
	for isBusy(err) && ctx.Err() == nil && time.Since(began) < openPatience {
		time.Sleep(100 * time.Millisecond)
		db, err = open(ctx, path, disk, embedded())
	}
	if err != nil {
		return nil, fmt.Errorf("open database %s: %w", path, err)
	}
	return db, nil
}

func open(ctx context.Context, path string, disk disk, migrations fs.FS) (*DB, error) {
	if path == "" {
		return nil, errors.New("the file has no name. For example musette.db")
	}
	path, err := filepath.Abs(Real(path))
	if err != nil {
		return nil, err
	}
	if err := makePrivate(path); err != nil {
		return nil, err
	}
	if err := isOurs(ctx, path); err != nil {
		return nil, err
	}
	if err := migrate(ctx, path, disk, migrations); err != nil {
		return nil, err
	}
	db := &DB{Now: time.Now, path: path, written: written{}}
	if db.writer, err = openPool(ctx, db.written.noting(writerDSN(path, disk)), disk, 1, false); err != nil {
		return nil, err
	}
	if db.reader, err = openPool(ctx, plain(readerDSN(path, disk)), disk, readers, true); err != nil {
		return nil, errors.Join(err, db.writer.Close())
	}
	if err := db.forgetAgain(ctx); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return db, nil
}

// OpenAsIs opens a database to be read only, even while another program writes:
// it makes and migrates nothing, and all that changes something fails. A file
// with the schema of another musette is a *SchemaError.
func OpenAsIs(ctx context.Context, path string) (*DB, error) {
	db, err := openAsIs(ctx, path)
	if err != nil {
		return nil, fmt.Errorf("open database %s: %w", path, err)
	}
	return db, nil
}

func openAsIs(ctx context.Context, path string) (*DB, error) {
	db, have, newest, err := openToLook(ctx, path)
	if err == nil && have != newest {
		err = errors.Join(&SchemaError{Have: have, Newest: newest}, db.Close())
	}
	if err != nil {
		return nil, err
	}
	return db, nil
}

// openToLook opens a database as it is, whatever its schema, and tells that and the newest.
func openToLook(ctx context.Context, path string) (db *DB, have, newest int64, err error) {
	// Nothing is opened and closed besides SQLite: that would drop the locks of
	// this process on the file.
	if err := unix.Access(path, unix.R_OK|unix.W_OK); err != nil { // as serve will need it
		return nil, 0, 0, noAccess(path, err)
	}
	if err := checkPlace(path); err != nil {
		return nil, 0, 0, err
	}
	if path, err = filepath.Abs(Real(path)); err != nil {
		return nil, 0, 0, err
	}
	pool, err := sql.Open("sqlite3", lookDSN(path))
	if err != nil {
		return nil, 0, 0, err
	}
	pool.SetMaxOpenConns(readers)
	pool.SetMaxIdleConns(readers)
	have, err = schemaVersion(ctx, pool)
	if err == nil {
		_, newest, err = stepsOf(pool, embedded())
	}
	if err != nil {
		return nil, 0, 0, errors.Join(explain(err), pool.Close())
	}
	return &DB{Now: time.Now, writer: pool, reader: pool, path: path}, have, newest, nil
}

// Close ends all connections; nothing acknowledged before is lost.
func (db *DB) Close() error {
	// The writer goes last: it may fold the log back into the file.
	return errors.Join(db.reader.Close(), db.writer.Close())
}

// isOurs refuses a file of another program before anything in it is changed, its
// journal mode among it.
func isOurs(ctx context.Context, path string) (err error) {
	look, err := sql.Open("sqlite3", lookDSN(path))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, look.Close()) }()
	_, err = schemaVersion(ctx, look)
	return explain(err)
}

// The driver ignores keys that it does not know, so checkPragmas looks at what they did.
var connectionOptions = url.Values{
	"_journal_mode": {"WAL"},
	"_busy_timeout": {"2000"},
	// What is deleted is overwritten, not only given free.
	"_secure_delete": {"on"},
	// Statements are kept prepared: to prepare one takes as long as to run it.
	"_stmt_cache_size": {"64"},
}

func dsn(path string, disk disk, more url.Values) string {
	options := url.Values{"_synchronous": {disk.word}}
	for _, set := range []url.Values{connectionOptions, more} {
		for key, value := range set {
			options[key] = value
		}
	}
	return "file:" + escapePath(path) + "?" + options.Encode()
}

// escapePath writes an absolute path as part of a file: address.
func escapePath(path string) string { return (&url.URL{Path: path}).EscapedPath() }

func writerDSN(path string, disk disk) string {
	return dsn(path, disk, url.Values{"_foreign_keys": {"on"}, "_txlock": {"immediate"}})
}

func readerDSN(path string, disk disk) string {
	return dsn(path, disk, url.Values{"_foreign_keys": {"on"}, "_query_only": {"on"}, "mode": {"ro"}})
}

// lookDSN asks for no journal, since to set one would change the file.
func lookDSN(path string) string {
	look := url.Values{"_busy_timeout": {"2000"}, "_query_only": {"on"}, "mode": {"rw"}}
	return "file:" + escapePath(path) + "?" + look.Encode()
}

// migrationDSN leaves foreign keys off: with them on, rebuilding a table would delete its children.
func migrationDSN(path string, disk disk) string {
	return dsn(path, disk, url.Values{"_foreign_keys": {"off"}, "_txlock": {"immediate"}})
}

func openPool(ctx context.Context, to driver.Connector, disk disk, size int, readOnly bool) (*sql.DB, error) {
	pool := sql.OpenDB(to)
	pool.SetMaxOpenConns(size)
	pool.SetMaxIdleConns(size)
	if err := checkPragmas(ctx, pool, disk, readOnly); err != nil {
		return nil, errors.Join(explain(err), pool.Close())
	}
	return pool, nil
}

// checkPragmas reports a connection that does not run as the DSN asked.
func checkPragmas(ctx context.Context, q queryer, disk disk, readOnly bool) error {
	queryOnly := "0"
	if readOnly {
		queryOnly = "1"
	}
	for _, pragma := range []struct{ name, want string }{
		{"journal_mode", "wal"},
		{"synchronous", disk.number},
		{"busy_timeout", "2000"},
		{"foreign_keys", "1"},
		{"query_only", queryOnly},
		{"secure_delete", "1"},
	} {
		var got string
		if err := q.QueryRowContext(ctx, "PRAGMA "+pragma.name).Scan(&got); err != nil {
			return fmt.Errorf("pragma %s: %w", pragma.name, err)
		}
		if got != pragma.want {
			return fmt.Errorf("pragma %s is %s, not %s", pragma.name, got, pragma.want)
		}
	}
	return nil
}

// queryer is a pool, a connection or a transaction.
type queryer interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// list collects the rows of a query.
func list[T any](ctx context.Context, q queryer, scan func(*T, func(...any) error) error, query string, args ...any) ([]T, error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []T
	for rows.Next() {
		var row T
		if err := scan(&row, rows.Scan); err != nil {
			return nil, err
		}
		all = append(all, row)
	}
	return all, rows.Err()
}

// hit turns a change that met no row into ErrNotFound.
func hit(result sql.Result, err error) error {
	if err != nil {
		return err
	}
	n, err := result.RowsAffected()
	if err == nil && n == 0 {
		err = ErrNotFound
	}
	return err
}
