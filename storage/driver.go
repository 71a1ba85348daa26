//go:build cgo

package storage

import (
	"database/sql"
	"errors"

	"github.com/mattn/go-sqlite3"
)

// explain names the error kind behind what the driver reports.
func explain(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return ErrNotFound
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
	if fault.Code == sqlite3.ErrNotADB {
		return errNotOurs
	}
	return err
}

// isBusy reports whether another program held the file for too long.
func isBusy(err error) bool {
	var fault sqlite3.Error
	return errors.As(err, &fault) && fault.Code == sqlite3.ErrBusy
}
