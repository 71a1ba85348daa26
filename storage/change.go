package storage

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"runtime"
	"slices"
	"strconv"
	"time"
)

// Change runs do as one transaction: what its methods read and write is one
// state, all of it kept or nothing. Inside, do uses tx alone: there is one
// writing connection, and a write by another way fails.
func (db *DB) Change(ctx context.Context, do func(tx *DB) error) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		return do(&DB{Now: db.Now, writer: db.writer, reader: db.reader, tx: tx, written: db.written, path: db.path})
	})
}

// source is what single reads ask.
func (db *DB) source() queryer {
	if db.tx != nil {
		return db.tx
	}
	return db.reader
}

// errInside would else be a wait without end: for the writing connection that the
// one who waits holds.
var errInside = errors.New("a write inside a change does not use the change's own tx")

// write runs f in a transaction that holds the write lock from its start, and counts
// the change. Where f uses the DB itself to write, it gets errInside.
func (db *DB) write(ctx context.Context, f func(*sql.Tx) error) error {
	if db.tx != nil {
		return explain(f(db.tx)) // Change counts
	}
	return db.note(ctx, func(tx *sql.Tx) error {
		err := f(tx)
		if err == nil {
			_, err = tx.ExecContext(ctx, `UPDATE changes SET n = n + 1`)
		}
		return err
	})
}

// note is write for what no reminder is made from: posts, buttons and the ways to
// people. It counts no change.
func (db *DB) note(ctx context.Context, f func(*sql.Tx) error) error {
	if db.tx != nil {
		return explain(f(db.tx))
	}
	me := goroutine()
	if db.writing.Load() == me {
		return errInside
	}
	return transact(ctx, db.writer, func(tx *sql.Tx) error {
		db.writing.Store(me)
		defer db.writing.Store(0)
		clear(db.written)
		return f(tx)
	})
}

// goroutine is the number of the running goroutine. Go has no other way to ask for
// it than the head of a stack, "goroutine 7 [running]"; it takes about a microsecond.
func goroutine() uint64 {
	var head [32]byte
	words := bytes.Fields(head[:runtime.Stack(head[:], false)])
	n, err := strconv.ParseUint(string(words[1]), 10, 64)
	if err != nil {
		panic(err) // what Go prints has changed
	}
	return n
}

// read runs f on one consistent state of the database.
func (db *DB) read(ctx context.Context, f func(*sql.Tx) error) error {
	if db.tx != nil {
		return explain(f(db.tx))
	}
	return transact(ctx, db.reader, f)
}

func transact(ctx context.Context, pool *sql.DB, f func(*sql.Tx) error) error {
	tx, err := begin(ctx, pool)
	if err != nil {
		return explain(err)
	}
	defer tx.Rollback() // no effect after Commit
	if err := f(tx); err != nil {
		return explain(err)
	}
	return explain(tx.Commit())
}

// begin waits longer for the write lock than SQLite does: nothing has been done
// yet that would have to be done again.
func begin(ctx context.Context, pool *sql.DB) (*sql.Tx, error) {
	for began := time.Now(); ; {
		tx, err := pool.BeginTx(ctx, nil)
		if err == nil || !isBusy(err) || time.Since(began) > writePatience {
			return tx, err
		}
		select {
		case <-ctx.Done():
			return nil, err
		case <-time.After(busyPause):
		}
	}
}

// written are the tables into which the transaction of the writing connection has
// written so far, also those whose rows go with another's. SQLite does not tell it of
// tables WITHOUT ROWID: facts are in none of those.
type written map[string]bool

// any reports a write into one of some tables.
func (w written) any(tables []string) bool {
	return slices.ContainsFunc(tables, func(table string) bool { return w[table] })
}
