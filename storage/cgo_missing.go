//go:build !cgo

package storage

import (
	"context"
	"database/sql/driver"
)

// Without cgo the SQLite driver would build and then fail at its first query.
// This line stops the build instead, and its text is what people read.
const _ int = "musette needs cgo: install gcc and libc6-dev, set CGO_ENABLED=1 and build again"

// These stand in for driver.go and connect.go, so that the line above is the only complaint.
func explain(err error) error  { return err }
func isBusy(error) bool        { return false }
func isMisfit(error) bool      { return false }
func ofSchema(err error) error { return err }

func plain(string) driver.Connector            { return nil }
func (written) noting(string) driver.Connector { return nil }

func copyPages(context.Context, any, any) error { return nil }
