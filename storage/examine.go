package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// maxFaults is how many faults of one kind are worth telling.
const maxFaults = 3

// Examine looks for damage: pages that contradict each other, tables, columns,
// indexes and triggers that are gone, rows whose riders or clubs are gone. Each
// fault is a sentence. It reads the whole file and changes nothing.
func (db *DB) Examine(ctx context.Context) (faults []string, err error) {
	faults, err = list(ctx, db.reader, func(s *string, scan func(...any) error) error { return scan(s) },
		fmt.Sprintf(`PRAGMA integrity_check(%d)`, maxFaults))
	if err != nil {
		return nil, explain(err)
	}
	faults = slices.DeleteFunc(faults, func(s string) bool { return s == "ok" })
	missing, err := missingParts(ctx, db.reader)
	if err != nil {
		return nil, explain(err)
	}
	if len(missing) > 0 {
		faults = append(faults, "missing: "+strings.Join(missing[:min(len(missing), maxFaults)], ", "))
	}
	if len(faults) > 0 {
		return faults, nil
	}
	if err := checkForeignKeys(ctx, db.reader); err != nil {
		faults = append(faults, err.Error())
	}
	return faults, nil
}

// missingParts names what a database made again has and this one lacks.
func missingParts(ctx context.Context, q queryer) (missing []string, err error) {
	want, err := partsOfANewOne()
	if err != nil {
		return nil, fmt.Errorf("make the schema to compare with: %w", err)
	}
	have, err := parts(ctx, q)
	if err != nil {
		return nil, err
	}
	for _, part := range want {
		if !slices.Contains(have, part) {
			missing = append(missing, part)
		}
	}
	return missing, nil
}

// partsOfANewOne are the parts of the newest schema. They stay as they are while
// the program runs.
var partsOfANewOne = sync.OnceValues(func() (names []string, err error) {
	ctx := context.Background()
	fresh, err := sql.Open("sqlite3", ":memory:")
	if err != nil {
		return nil, err
	}
	fresh.SetMaxOpenConns(1) // each connection has a memory of its own
	defer func() { err = errors.Join(err, fresh.Close()) }()
	steps, newest, err := stepsOf(fresh, embedded())
	if err == nil {
		err = climb(ctx, fresh, steps, 0, newest)
	}
	if err != nil {
		return nil, err
	}
	return parts(ctx, fresh)
})

// parts names all tables, indexes, triggers and columns; a table comes before its columns.
func parts(ctx context.Context, q queryer) ([]string, error) {
	return list(ctx, q, func(s *string, scan func(...any) error) error { return scan(s) },
		`SELECT type || ' ' || name AS part FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'
		 UNION ALL
		 SELECT 'column ' || t.name || '.' || c.name FROM sqlite_schema t, pragma_table_info(t.name) c WHERE t.type = 'table'
		 ORDER BY part DESC`)
}
