package storage

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

func embedded() fs.FS {
	sub, err := fs.Sub(migrationFiles, "migrations")
	if err != nil {
		panic(err) // the folder is compiled in
	}
	return sub
}

// migrate brings the file at path to the newest schema that this program knows.
// Each step is all or nothing.
func migrate(ctx context.Context, path string, disk disk, migrations fs.FS) (err error) {
	db, err := sql.Open("sqlite3", migrationDSN(path, disk))
	if err != nil {
		return err
	}
	db.SetMaxOpenConns(1)
	defer func() { err = errors.Join(err, db.Close()) }()

	have, err := schemaVersion(ctx, db)
	if err != nil {
		return explain(err)
	}
	steps, newest, err := stepsOf(db, migrations)
	if err != nil {
		return err
	}
	if have > newest {
		return &SchemaError{Have: have, Newest: newest}
	}
	if 0 < have && have < newest {
		if err := backup(ctx, db, path, have); err != nil {
			return fmt.Errorf("copy before migration: %w", fileFaultOf(err))
		}
	}
	if err := climb(ctx, db, steps, have, newest); err != nil {
		return fmt.Errorf("migrate from schema %d to %d: %w", have, newest, fileFaultOf(err))
	}
	return checkForeignKeys(ctx, db)
}

// stepsOf are the migrations, and the last one's number. SQLite takes a file as it
// is: goose would read each line with four megabytes at hand.
func stepsOf(db *sql.DB, migrations fs.FS) (steps *goose.Provider, newest int64, err error) {
	names, err := fs.Glob(migrations, "*.sql")
	if err != nil {
		return nil, 0, err
	}
	files := make([]*goose.Migration, len(names))
	for i, name := range names {
		version, err := goose.NumericComponent(name)
		if err != nil {
			return nil, 0, err
		}
		files[i] = goose.NewGoMigration(version, &goose.GoFunc{RunTx: func(ctx context.Context, tx *sql.Tx) error {
			text, err := fs.ReadFile(migrations, name)
			if err == nil {
				_, err = tx.ExecContext(ctx, string(text))
			}
			return err
		}}, nil)
	}
	steps, err = goose.NewProvider(goose.DialectSQLite3, db, nil, goose.WithDisableGlobalRegistry(true), goose.WithGoMigrations(files...))
	if err != nil {
		return nil, 0, err
	}
	sources := steps.ListSources()
	return steps, sources[len(sources)-1].Version, nil
}

// climb applies the steps that are missing. A step fails where another program
// took it first; as long as the schema rises, there is something to go on with.
func climb(ctx context.Context, db *sql.DB, steps *goose.Provider, have, newest int64) error {
	for have < newest {
		_, failure := steps.Up(ctx)
		now, err := schemaVersion(ctx, db)
		if err != nil {
			return errors.Join(failure, err)
		}
		if now == have {
			return failure
		}
		have = now
	}
	return nil
}

// schemaVersion is the number of the last migration applied, 0 for an empty file.
func schemaVersion(ctx context.Context, q queryer) (int64, error) {
	var tables, versioned, ours, foreign int
	err := q.QueryRowContext(ctx, `SELECT count(*), count(*) FILTER (WHERE name = 'goose_db_version'),
		count(*) FILTER (WHERE name IN ('athlete', 'club', 'day_limit', 'ride', 'taught', 'week')),
		count(*) FILTER (WHERE type = 'table' AND name <> 'goose_db_version' AND name NOT LIKE 'sqlite_%')
		FROM sqlite_schema`).Scan(&tables, &versioned, &ours, &foreign)
	switch {
	case err != nil || tables == 0:
		return 0, err
	case versioned == 0 && ours >= 4: // no other program has so many of these names
		return 0, &fileFault{ErrDamaged, errors.New("its table goose_db_version is missing")}
	case versioned == 0, ours == 0 && foreign > 0: // goose keeps that table for other programs too
		return 0, errNotOurs
	}
	var version int64
	err = q.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version WHERE is_applied`).Scan(&version)
	switch {
	case err == nil && version == 0 && ours >= 4:
		err = &fileFault{ErrDamaged, errors.New("its table goose_db_version is empty")}
	case isMisfit(err) && ours >= 4:
		err = &fileFault{ErrDamaged, err}
	}
	return version, err
}

// backupName is where the copy of a database with that schema goes.
func backupName(path string, version int64) string {
	return fmt.Sprintf("%s.schema-%d.backup", path, version)
}

// backup copies the database beside itself, whole and on the disk before it returns.
func backup(ctx context.Context, db *sql.DB, path string, version int64) error {
	temp, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".copy-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name()) // gone already when all went well
	defer temp.Close()
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, temp.Name()); err != nil {
		return err
	}
	copied, err := copiedVersion(ctx, temp.Name())
	if err != nil || copied != version {
		return err // another program migrated meanwhile, and made the copy
	}
	if err := errors.Join(temp.Sync(), keepOwner(temp.Name(), path)); err != nil {
		return err
	}
	if err := os.Rename(temp.Name(), backupName(path, version)); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

func copiedVersion(ctx context.Context, path string) (version int64, err error) {
	db, err := sql.Open("sqlite3", "file:"+escapePath(path)+"?mode=ro&immutable=1")
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return schemaVersion(ctx, db)
}

func syncFolder(path string) error {
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}

// checkForeignKeys reports the first row that belongs to a row that is gone.
func checkForeignKeys(ctx context.Context, q queryer) error {
	var table, parent string
	err := q.QueryRowContext(ctx, `SELECT "table", parent FROM pragma_foreign_key_check LIMIT 1`).Scan(&table, &parent)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return nil
	case err != nil:
		return explain(err)
	}
	return unreadable("table %s points at rows of %s that are gone", table, parent)
}
