package storage

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"
)

// exportVersion is that of the structure that Export writes.
const exportVersion = 1

// Export is all that is stored of a person, in all clubs, as JSON: what was
// withdrawn too, with its dates, and what coaches wrote. Rows are as in
// docs/data-model.md, under the names of their tables, without the numbers that
// only the database needs. ErrNotFound when nothing is stored.
func (db *DB) Export(ctx context.Context, w Whose) ([]byte, error) {
	var all object
	err := db.read(ctx, func(tx *sql.Tx) (err error) {
		all, err = export(ctx, tx, w, db.Now())
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("export a person: %w", err)
	}
	var out bytes.Buffer
	write := json.NewEncoder(&out)
	write.SetEscapeHTML(false)
	write.SetIndent("", "  ")
	if err := write.Encode(all); err != nil {
		return nil, fmt.Errorf("export a person: %w", err)
	}
	return out.Bytes(), nil
}

func export(ctx context.Context, q queryer, w Whose, now time.Time) (object, error) {
	tables, err := personal(ctx, q)
	if err != nil {
		return nil, err
	}
	riders, err := ridersOf(ctx, q, w)
	if err != nil {
		return nil, err
	}
	e := exporter{q, tables}
	clubs := []object{}
	athlete := tableNamed(tables, "athlete")
	for _, r := range riders {
		club, err := clubByID(ctx, q, r.Club)
		if err != nil {
			return nil, err
		}
		found, err := e.rows(ctx, athlete, "id", r.ID)
		if err != nil {
			return nil, err
		}
		clubs = append(clubs, append(object{{"club", club.Name}, {"club_key", club.Key.text}, {"club_zone", club.Zone}}, found[0].without("club")...))
	}
	all := object{{"musette_export", exportVersion}, {"exported", now.UTC().Format(time.RFC3339)}, {"key", w.Key.text}, {"clubs", clubs}}
	something := len(riders) > 0
	for _, t := range tables {
		if !t.byKey() {
			continue
		}
		found, err := e.rows(ctx, t, t.link, w.keyText())
		if err != nil {
			return nil, err
		}
		something = something || len(found) > 0
		all = append(all, member{t.name, found})
	}
	if !something {
		return nil, ErrNotFound
	}
	return all, nil
}

// object is a JSON object that keeps its order.
type object []member

type member struct {
	name  string
	value any
}

func (o object) without(name string) object {
	return slices.DeleteFunc(o, func(m member) bool { return m.name == name })
}

// MarshalJSON implements json.Marshaler.
func (o object) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	write := json.NewEncoder(&out)
	write.SetEscapeHTML(false)
	out.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			out.WriteByte(',')
		}
		if err := write.Encode(m.name); err != nil {
			return nil, err
		}
		out.WriteByte(':')
		if err := write.Encode(m.value); err != nil {
			return nil, err
		}
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// exporter reads rows of whatever tables there are.
type exporter struct {
	q      queryer
	tables []*table
}

// rows are the rows of a table that have a value in a column, each with the rows
// that hang on it.
func (e exporter) rows(ctx context.Context, t *table, where string, value any) ([]object, error) {
	order := "rowid"
	if strings.Contains(t.sql, "WITHOUT ROWID") {
		order = t.primaryKey()
	}
	type raw []any
	found, err := list(ctx, e.q, func(r *raw, scan func(...any) error) error {
		*r = make(raw, len(t.columns))
		to := make([]any, len(t.columns))
		for i := range to {
			to[i] = &(*r)[i]
		}
		return scan(to...)
	}, `SELECT `+strings.Join(t.columnNames(), ", ")+` FROM `+t.name+` WHERE `+where+` = ? ORDER BY `+order, value)
	if err != nil {
		return nil, err
	}
	out := make([]object, 0, len(found))
	for _, r := range found {
		row, err := e.row(ctx, t, r)
		if err != nil {
			return nil, err
		}
		out = append(out, row)
	}
	return out, nil
}

// row words a row, and adds the tables that hang on it.
func (e exporter) row(ctx context.Context, t *table, values []any) (object, error) {
	row := object{}
	for i, c := range t.columns {
		m, err := e.member(ctx, t, c, values[i])
		if err != nil {
			return nil, err
		}
		if m.name != "" {
			row = append(row, m)
		}
	}
	for _, child := range e.tables {
		if child.parent != t {
			continue
		}
		at := slices.IndexFunc(t.columns, func(c column) bool { return c.name == child.to })
		rows, err := e.rows(ctx, child, child.link, values[at])
		if err != nil {
			return nil, err
		}
		row = append(row, member{child.name, rows})
	}
	return row, nil
}

// member is a column as people read it; without a name where it says nothing.
func (e exporter) member(ctx context.Context, t *table, c column, value any) (member, error) {
	name, instantly := strings.CutSuffix(c.name, "_ms")
	number, isNumber := value.(int64)
	switch {
	case c.name == t.link && !t.byKey(), c.name == "folded", c.name == "id":
		return member{}, nil
	case c.refers != "":
		return e.reference(ctx, t, c, value)
	case instantly && isNumber:
		return member{name, time.UnixMilli(number).UTC().Format(time.RFC3339Nano)}, nil
	case isNumber && t.isFlag(c.name):
		return member{c.name, number != 0}, nil
	case value != nil && t.isJSON(c.name):
		return member{c.name, json.RawMessage(fmt.Sprint(value))}, nil
	case c.name == "from_date" || c.name == "to_date" || c.name == "left_date":
		name = strings.TrimSuffix(c.name, "_date")
	}
	return member{name, value}, nil
}

// reference names the row that a column refers to, where it has a name.
func (e exporter) reference(ctx context.Context, t *table, c column, value any) (member, error) {
	if value == nil {
		return member{strings.TrimSuffix(c.name, "_id"), nil}, nil
	}
	named, err := list(ctx, e.q, func(s *string, scan func(...any) error) error { return scan(s) }, `SELECT name FROM pragma_table_info(?)`, c.refers)
	if err != nil || !slices.Contains(named, "name") {
		return member{}, err
	}
	to := c.to
	if to == "" {
		to = "id"
	}
	var name string
	err = e.q.QueryRowContext(ctx, `SELECT name FROM `+c.refers+` WHERE `+to+` = ?`, value).Scan(&name)
	return member{strings.TrimSuffix(c.name, "_id"), name}, err
}

func (t *table) columnNames() []string {
	names := make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = `"` + c.name + `"`
	}
	return names
}

// primaryKey is what a table without row numbers is sorted by.
func (t *table) primaryKey() string {
	var names []string
	for _, c := range t.columns {
		if c.pk > 0 {
			names = append(names, c.name)
		}
	}
	return strings.Join(names, ", ")
}
