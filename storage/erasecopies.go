package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
)

// cleanCopies erases those on the list from the copies that migrations left
// beside the database. A copy that a migration never finished is deleted.
func cleanCopies(ctx context.Context, path string, list *forgotten) error {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return err
	}
	base := filepath.Base(path)
	for _, e := range entries {
		name := filepath.Join(filepath.Dir(path), e.Name())
		switch {
		case strings.HasPrefix(e.Name(), base+".copy-"):
			err = os.Remove(name)
		case strings.HasPrefix(e.Name(), base+".schema-") && strings.HasSuffix(e.Name(), ".backup"):
			err = cleanCopy(ctx, path, name, list)
		}
		if err != nil {
			return fmt.Errorf("erase from %s: %w. Mend or delete that file", name, err)
		}
	}
	return nil
}

// cleanCopy puts a copy without those on the list in place of one with them.
func cleanCopy(ctx context.Context, path, name string, list *forgotten) (err error) {
	held, err := anyIn(ctx, name, list)
	if err != nil || !held {
		return err
	}
	temp, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".copy-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name()) // gone already when all went well
	defer temp.Close()
	if err := rewrite(ctx, name, temp.Name(), list); err != nil {
		return err
	}
	if err := errors.Join(temp.Sync(), keepOwner(temp.Name(), name)); err != nil {
		return err
	}
	if err := os.Rename(temp.Name(), name); err != nil {
		return err
	}
	for _, left := range []string{"-wal", "-shm", "-journal"} { // of somebody who looked into it
		if err := os.Remove(name + left); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return syncFolder(filepath.Dir(path))
}

// anyIn reports whether anybody on the list is in a copy.
func anyIn(ctx context.Context, name string, list *forgotten) (there bool, err error) {
	db, err := sql.Open("sqlite3", copyDSN(name, url.Values{"_query_only": {"on"}}))
	if err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	gone, err := find(ctx, db, list)
	if err != nil {
		return false, err
	}
	return gone.any(), nil
}

// rewrite copies a copy and takes those on the list out of the new one.
func rewrite(ctx context.Context, from, to string, list *forgotten) (err error) {
	old, err := sql.Open("sqlite3", copyDSN(from, url.Values{"mode": {"ro"}}))
	if err != nil {
		return err
	}
	_, err = old.ExecContext(ctx, `VACUUM INTO ?`, to)
	if err := errors.Join(err, old.Close()); err != nil {
		return err
	}
	// Without a journal on the disk: the new copy is nobody's yet.
	db, err := sql.Open("sqlite3", copyDSN(to, url.Values{"_journal_mode": {"MEMORY"}, "_secure_delete": {"on"}}))
	if err != nil {
		return err
	}
	db.SetMaxOpenConns(1)
	defer func() { err = errors.Join(err, db.Close()) }()
	err = transact(ctx, db, func(tx *sql.Tx) error {
		gone, err := find(ctx, tx, list)
		if err != nil {
			return err
		}
		return gone.remove(ctx, tx)
	})
	if err == nil {
		_, err = db.ExecContext(ctx, `VACUUM`)
	}
	return err
}

func copyDSN(path string, more url.Values) string {
	options := url.Values{"mode": {"rw"}, "_busy_timeout": {"2000"}}
	for key, value := range more {
		options[key] = value
	}
	return "file:" + escapePath(path) + "?" + options.Encode()
}
