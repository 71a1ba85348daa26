package storage

import (
	"context"
	"database/sql"
	"errors"
	"strings"

	"musette/planner"
)

// versions is a table of facts that keeps what riders told before. Rows with the
// same key are versions of one fact, of which one stands at most; notes are what
// people wrote beside it, which go when a version is withdrawn.
type versions struct {
	table               string
	key, content, notes []string
}

// fact is a row's values, in the order of the columns.
type fact struct{ key, content, notes []any }

// Which versions a list holds.
const (
	everything = ""
	standing   = " AND withdrawn IS NULL"
)

// keep makes a fact stand from the rider's today on. What stood before is
// withdrawn today; what was told today only is replaced, and what was withdrawn
// today stands again as if nothing had been. It returns the row's number.
func (v *versions) keep(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, f fact) (int64, error) {
	was, err := v.stands(ctx, tx, athlete, today, f)
	if err != nil {
		return 0, err
	}
	switch {
	case was.same:
		return was.id, v.annotate(ctx, tx, was.id, f)
	case was.fresh:
		_, err = tx.ExecContext(ctx, `DELETE FROM `+v.table+` WHERE id = ?`, was.id)
	case was.id != 0:
		_, err = tx.ExecContext(ctx, `UPDATE `+v.table+v.withdrawing()+` WHERE id = ?`, today.String(), was.id)
	}
	if err != nil {
		return 0, err
	}
	id, err := v.revive(ctx, tx, athlete, today, f)
	if err == nil {
		return id, v.annotate(ctx, tx, id, f)
	}
	if !errors.Is(err, sql.ErrNoRows) {
		return 0, err
	}
	if !was.fresh {
		was.id = 0
	}
	columns := concat([]string{"id", "athlete_id", "told"}, v.key, v.content, v.notes)
	values := concat([]any{nullable(was.id), athlete, today.String()}, f.key, f.content, f.notes)
	err = tx.QueryRowContext(ctx, `INSERT INTO `+v.table+` (`+strings.Join(columns, ", ")+`) VALUES (?`+strings.Repeat(", ?", len(values)-1)+`) RETURNING id`, values...).Scan(&id)
	return id, err
}

// now is the row of a fact that stands; its number is 0 where there is none.
type now struct {
	id    int64
	same  bool // its content is the one asked for
	fresh bool // it was told today: nothing was planned from it before
}

func (v *versions) stands(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, f fact) (row now, err error) {
	where, args := match(v.key, f.key)
	same, wanted := match(v.content, f.content)
	err = tx.QueryRowContext(ctx, `SELECT id, (1`+same+`), coalesce(told >= ?, 0) FROM `+v.table+` WHERE athlete_id = ?`+where+standing,
		concat(wanted, []any{today.String(), athlete}, args)...).Scan(&row.id, &row.same, &row.fresh)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return row, err
}

// revive brings back the version with that content that was withdrawn today.
func (v *versions) revive(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, f fact) (id int64, err error) {
	where, args := match(concat(v.key, v.content), concat(f.key, f.content))
	err = tx.QueryRowContext(ctx, `UPDATE `+v.table+` SET withdrawn = NULL WHERE id = (
		SELECT max(id) FROM `+v.table+` WHERE athlete_id = ?`+where+` AND withdrawn >= ?) RETURNING id`,
		concat([]any{athlete}, args, []any{today.String()})...).Scan(&id)
	return id, err
}

// annotate writes a row's notes anew.
func (v *versions) annotate(ctx context.Context, tx *sql.Tx, id int64, f fact) error {
	for i, column := range v.notes {
		if _, err := tx.ExecContext(ctx, `UPDATE `+v.table+` SET `+column+` = ? WHERE id = ?`, f.notes[i], id); err != nil {
			return err
		}
	}
	return nil
}

// withdraw takes back what stands under a key; ErrNotFound where nothing does.
func (v *versions) withdraw(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, key ...any) error {
	where, args := match(v.key, key)
	return v.withdrawWhere(ctx, tx, athlete, today, where, args...)
}

// withdrawID takes back a row that stands. The rider is part of the condition,
// so that nobody takes back what is another's.
func (v *versions) withdrawID(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, id int64) error {
	return v.withdrawWhere(ctx, tx, athlete, today, ` AND id = ?`, id)
}

func (v *versions) withdrawWhere(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, where string, args ...any) error {
	fresh := hit(tx.ExecContext(ctx, `DELETE FROM `+v.table+` WHERE athlete_id = ?`+where+standing+` AND told >= ?`, concat([]any{athlete}, args, []any{today.String()})...))
	if !errors.Is(fresh, ErrNotFound) {
		return fresh
	}
	return hit(tx.ExecContext(ctx, `UPDATE `+v.table+v.withdrawing()+` WHERE athlete_id = ?`+where+standing, concat([]any{today.String(), athlete}, args)...))
}

// withdrawing sets the date of withdrawal and leaves out what people wrote.
func (v *versions) withdrawing() string {
	set := ` SET withdrawn = ?`
	for _, column := range v.notes {
		set += `, ` + column + ` = ''`
	}
	return set
}

// match is a condition that columns have these values, NULL being a value too.
func match(columns []string, values []any) (string, []any) {
	where := ""
	for _, column := range columns {
		where += ` AND ` + column + ` IS ?`
	}
	return where, values
}

// concat is a new list of all.
func concat[T any](lists ...[]T) (all []T) {
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

// nullable is a value to be written, NULL for none.
func nullable[T comparable](v T) any {
	if v == *new(T) {
		return nil
	}
	return v
}

// told reads the columns told and withdrawn.
func told(t *planner.Told) (on, withdrawn *optionalDate) {
	return (*optionalDate)(&t.On), (*optionalDate)(&t.Withdrawn)
}
