package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"regexp"
)

// indexWhere is from which word on an index of a part of a table says what it leaves out.
var indexWhere = regexp.MustCompile(`(?i)\bWHERE\b`)

// rootFault is an index whose first page is a page of a table. The checks of SQLite pass over
// it while the table is empty, and then each use of the index fails. So each one is used once.
func rootFault(ctx context.Context, q queryer) error {
	type index struct{ name, table, made string }
	all, err := list(ctx, q, func(i *index, scan func(...any) error) error { return scan(&i.name, &i.table, &i.made) },
		`SELECT name, tbl_name, coalesce(sql, '') FROM sqlite_schema WHERE type = 'index' AND rootpage > 0`)
	if err != nil {
		return err
	}
	for _, i := range all {
		only := ""
		if at := indexWhere.FindStringIndex(i.made); at != nil {
			only = i.made[at[0]:]
		}
		var one int
		err := q.QueryRowContext(ctx, fmt.Sprintf(`SELECT 1 FROM "%s" INDEXED BY "%s" %s LIMIT 1`, i.table, i.name, only)).Scan(&one)
		switch {
		case err == nil, errors.Is(err, sql.ErrNoRows), isMisfit(err): // no index of ours, which can all be used
		case Damaged(explain(err)):
			return unreadable("index %s cannot be read: %w", i.name, err)
		default:
			return err
		}
	}
	return nil
}
