// Package storagetest opens databases for tests, cheaply.
package storagetest

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"musette/storage"
)

// New opens an empty database in a folder of the test. It is closed with the test.
func New(t testing.TB) *storage.DB {
	t.Helper()
	return Open(t, filepath.Join(t.TempDir(), "test.db"))
}

// Open opens the database at path, a new one where there is none. Nobody waits for
// the disk, and new ones are copies, so that each process migrates once.
// The database is closed with the test; to close it earlier does no harm.
func Open(t testing.TB, path string) *storage.DB {
	t.Helper()
	if _, err := os.Stat(path); os.IsNotExist(err) {
		blank, err := migrated()
		if err == nil {
			err = os.WriteFile(path, blank, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	db, err := storage.OpenUnsynced(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// migrated is the file of an empty database with the newest schema.
var migrated = sync.OnceValues(func() (file []byte, err error) {
	folder, err := os.MkdirTemp("", "musette-blank-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "blank.db")
	db, err := storage.OpenUnsynced(context.Background(), path)
	if err != nil {
		return nil, err
	}
	if err := db.Close(); err != nil {
		return nil, err
	}
	return os.ReadFile(path)
})
