//go:build cgo

package storage

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"syscall"
	"time"

	"github.com/mattn/go-sqlite3"
)

// explain names the error kind behind what the driver reports.
func explain(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return ErrNotFound
	}
	if errors.Is(err, syscall.ENOSPC) && !errors.Is(err, ErrFull) {
		return &fileFault{ErrFull, err}
	}
	var fault sqlite3.Error
	if !errors.As(err, &fault) {
		return err
	}
	switch fault.ExtendedCode {
	case sqlite3.ErrConstraintUnique, sqlite3.ErrConstraintPrimaryKey:
		return ErrExists
	case sqlite3.ErrConstraintForeignKey:
		return ErrNotFound // the club or rider that the row belongs to
	}
	if fault.Code == sqlite3.ErrNotADB || strings.HasPrefix(fault.Error(), "unsupported file format") {
		return errNoDatabase
	}
	kind := kindOf(fault)
	if kind == nil || errors.Is(err, kind) {
		return err
	}
	return &fileFault{kind, err}
}

// kindOf tells what befell the file, nil where the fault is not the file's.
func kindOf(fault sqlite3.Error) error {
	switch fault.Code {
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return ErrBusy
	case sqlite3.ErrFull:
		return ErrFull
	case sqlite3.ErrReadonly, sqlite3.ErrCantOpen, sqlite3.ErrPerm:
		return ErrReadOnly
	case sqlite3.ErrCorrupt:
		return ErrDamaged
	case sqlite3.ErrError:
		if strings.HasPrefix(fault.Error(), "no such table") { // another program has dropped it
			return ErrDamaged
		}
	case sqlite3.ErrIoErr:
		// The file that writers and readers share is made before anything is written.
		if fault.SystemErrno == syscall.ENOSPC || fault.SystemErrno == syscall.EDQUOT {
			return ErrFull
		}
		return ErrDisk
	}
	return nil
}

// isBusy reports whether another program held the file for too long.
func isBusy(err error) bool {
	var fault sqlite3.Error
	return errors.As(err, &fault) && fault.Code == sqlite3.ErrBusy
}

// isMisfit reports a query that does not fit the tables that are there.
func isMisfit(err error) bool {
	var fault sqlite3.Error
	return errors.As(err, &fault) && fault.Code == sqlite3.ErrError
}

// ofSchema is a fault of statements that fit each database of ours: where they do not fit,
// what the file says of its tables is damaged.
func ofSchema(err error) error {
	if isMisfit(err) {
		return &fileFault{ErrDamaged, err}
	}
	return err
}

// copyPages copies by SQLite's backup interface from one of the driver's connections
// to another, all pages in one go: in write-ahead mode that keeps nobody from writing.
func copyPages(ctx context.Context, goal, source any) error {
	to, from := goal.(*sqlite3.SQLiteConn), source.(*sqlite3.SQLiteConn)
	for began := time.Now(); ; {
		b, err := to.Backup("main", from, "main")
		if err != nil {
			return err
		}
		done, err := b.Step(-1)
		closing := b.Finish() // says the same once more where the step failed
		switch {
		case err == nil && done:
			return closing
		case err != nil && !isBusy(err):
			return err
		case ctx.Err() != nil:
			return ctx.Err()
		case time.Since(began) > writePatience:
			return ErrBusy
		}
		time.Sleep(busyPause)
	}
}
