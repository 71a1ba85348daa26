package storage

import (
	"context"
	"fmt"
	"strings"
)

// factTable is how a table of riders' facts is read. Its rows have an athlete_id.
type factTable[T any] struct {
	name, columns, order string
	scan                 func(*T, func(...any) error) error
}

// of lists a rider's rows; which is a further condition, that begins with AND.
func (t *factTable[T]) of(ctx context.Context, q queryer, athlete AthleteID, which string, args ...any) ([]T, error) {
	return list(ctx, q, t.scan, `SELECT `+t.columns+` FROM `+t.name+` WHERE athlete_id = ?`+which+` ORDER BY `+t.order, concat([]any{athlete}, args)...)
}

// ofAll hands over the rows of all riders of a list, those of each in their order.
func (t *factTable[T]) ofAll(ctx context.Context, q queryer, who riders, which string, take func(AthleteID, T), args ...any) error {
	return eachRow(ctx, q, t.scan, take, t.query(which), concat([]any{who}, args)...)
}

func (t *factTable[T]) query(which string) string {
	return `SELECT athlete_id, ` + t.columns + ` FROM ` + t.name + ` WHERE ` + ofRiders + which + ` ORDER BY ` + t.order
}

// riders is a list of riders as queries take it, the condition ofRiders.
type riders string

const ofRiders = `athlete_id IN (SELECT value FROM json_each(?1))`

// listOf lists riders.
func listOf(ids []AthleteID) riders {
	return riders(strings.ReplaceAll(fmt.Sprint(ids), " ", ","))
}

// eachRow hands over the rows of a query whose first column is the rider.
func eachRow[T any](ctx context.Context, q queryer, scan func(*T, func(...any) error) error, take func(AthleteID, T), query string, args ...any) error {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	var id AthleteID
	var into []any // used again for each row
	columns := func(rest ...any) error {
		into = append(append(into[:0], &id), rest...)
		return rows.Scan(into...)
	}
	for rows.Next() {
		var row T
		if err := scan(&row, columns); err != nil {
			return err
		}
		take(id, row)
	}
	return rows.Err()
}
