//go:build cgo

package storage

import (
	"context"
	"database/sql/driver"

	"github.com/mattn/go-sqlite3"
)

// connector makes connections to one database.
type connector struct {
	driver *sqlite3.SQLiteDriver
	dsn    string
}

func (c connector) Connect(context.Context) (driver.Conn, error) { return c.driver.Open(c.dsn) }
func (c connector) Driver() driver.Driver                        { return c.driver }

// plain makes connections that note nothing.
func plain(dsn string) driver.Connector { return connector{new(sqlite3.SQLiteDriver), dsn} }

// noting makes connections that note what they write.
func (w written) noting(dsn string) driver.Connector {
	return connector{&sqlite3.SQLiteDriver{ConnectHook: func(conn *sqlite3.SQLiteConn) error {
		conn.RegisterUpdateHook(func(_ int, _, table string, _ int64) { w[table] = true })
		return nil
	}}, dsn}
}
