package storage

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
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
		return nil, explain(ofSchema(err))
	}
	faults = slices.DeleteFunc(faults, func(s string) bool { return s == "ok" })
	newest, err := schemaVersion(ctx, db.reader) // it was opened for that
	if err != nil {
		return nil, explain(ofSchema(err))
	}
	missing, err := missingParts(ctx, db.reader, newest)
	if err != nil {
		return nil, explain(ofSchema(err))
	}
	if len(missing) > 0 {
		faults = append(faults, "missing: "+strings.Join(missing[:min(len(missing), maxFaults)], ", "))
	}
	if len(faults) > 0 {
		return faults, nil
	}
	err = rootFault(ctx, db.reader)
	if err == nil {
		err = checkForeignKeys(ctx, db.reader)
	}
	if err != nil {
		if fault, ok := errors.AsType[*fileFault](err); ok {
			err = fault.cause
		}
		faults = append(faults, err.Error())
	}
	return faults, nil
}

// missingParts names what a database made again with a schema has and this one lacks.
func missingParts(ctx context.Context, q queryer, schema int64) (missing []string, err error) {
	want, err := partsOf(ctx, schema)
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

// parts names all tables, indexes, triggers and columns; a table comes before its columns.
func parts(ctx context.Context, q queryer) ([]string, error) {
	return list(ctx, q, func(s *string, scan func(...any) error) error { return scan(s) },
		`SELECT type || ' ' || name AS part FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'
		 UNION ALL
		 SELECT 'column ' || t.name || '.' || c.name FROM sqlite_schema t, pragma_table_info(t.name) c WHERE t.type = 'table'
		 ORDER BY part DESC`)
}
