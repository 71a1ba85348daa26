package storage

import (
	"cmp"
	"context"
	"encoding/json"
	"slices"
	"strings"
)

// table is one that holds what is a person's. Which ones do is read from the
// schema, so that a new table is exported and erased without being named here.
type table struct {
	name    string
	sql     string   // as it was made
	columns []column // in their order
	parent  *table   // nil for athlete and for tables that go by a person's key
	link    string   // column that names the parent's row, or the person's key; empty for athlete
	to      string   // column of the parent
	depth   int
}

type column struct {
	name   string
	pk     int    // place in the primary key; 0: none
	refers string // table of a foreign key; empty: none
	to     string // column of that table
	dies   bool   // with the row that it refers to
}

// keyColumns hold the key of a person, whatever clubs they ride for.
var keyColumns = []string{"owner", "person", "person_key"}

// impersonal are the tables that hold nothing of a person.
var impersonal = []string{"club", "clock", "changes", "goose_db_version"}

// personal reads which tables hold what is a person's, parents first.
func personal(ctx context.Context, q queryer) ([]*table, error) {
	all, err := list(ctx, q, func(t *table, scan func(...any) error) error { return scan(&t.name, &t.sql) },
		`SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`)
	if err != nil {
		return nil, err
	}
	for i := range all {
		all[i].columns, err = list(ctx, q, func(c *column, scan func(...any) error) error { return scan(&c.name, &c.pk, &c.refers, &c.to, &c.dies) },
			`SELECT c.name, c.pk, coalesce(f."table", ''), coalesce(f."to", ''), coalesce(f.on_delete = 'CASCADE', 0)
			FROM pragma_table_info(?1) c LEFT JOIN pragma_foreign_key_list(?1) f ON f."from" = c.name ORDER BY c.cid`, all[i].name)
		if err != nil {
			return nil, err
		}
	}
	var found []*table
	for grown := true; grown; {
		grown = false
		for i := range all {
			if t := &all[i]; !slices.Contains(found, t) && t.place(found) {
				found, grown = append(found, t), true
			}
		}
	}
	slices.SortFunc(found, func(a, b *table) int { return cmp.Or(cmp.Compare(a.depth, b.depth), cmp.Compare(a.name, b.name)) })
	return found, nil
}

// place finds how the table hangs on what is known to be personal.
func (t *table) place(known []*table) bool {
	switch t.name {
	case "athlete":
		return true
	case "person":
		t.link = "key"
		return true
	}
	for _, c := range t.columns {
		if slices.Contains(keyColumns, c.name) && c.refers == "" {
			t.link = c.name
		}
		if c.name == "athlete_id" {
			t.parent, t.link, t.to = tableNamed(known, "athlete"), c.name, "id"
			break // nearer than what else the row belongs to
		}
		parent := tableNamed(known, c.refers)
		if parent != nil && c.dies && t.parent == nil {
			t.parent, t.link, t.to = parent, c.name, cmp.Or(c.to, "id")
		}
	}
	if t.parent != nil {
		t.depth = t.parent.depth + 1
	}
	return t.parent != nil || t.link != "" && !t.has("athlete_id")
}

func tableNamed(all []*table, name string) *table {
	for _, t := range all {
		if t.name == name {
			return t
		}
	}
	return nil
}

func (t *table) has(name string) bool {
	return slices.ContainsFunc(t.columns, func(c column) bool { return c.name == name })
}

// byKey reports a table whose rows are found by a person's key.
func (t *table) byKey() bool { return t.parent == nil && t.link != "" }

// owned is the condition for the rows of people: ?1 are numbers of athletes, ?2
// keys, both as JSON.
func (t *table) owned() string {
	switch {
	case t.byKey():
		return t.link + ` IN (SELECT value FROM json_each(?2))`
	case t.parent == nil:
		return `id IN (SELECT value FROM json_each(?1))`
	}
	return t.link + ` IN (SELECT ` + t.to + ` FROM ` + t.parent.name + ` WHERE ` + t.parent.owned() + `)`
}

// isFlag reports a column that is only 0 or 1, isJSON one that holds JSON.
func (t *table) isFlag(column string) bool {
	return strings.Contains(t.sql, "CHECK ("+column+" IN (0, 1))")
}

func (t *table) isJSON(column string) bool { return strings.Contains(t.sql, "json_valid("+column+")") }

// jsonList is a list as a query takes it.
func jsonList[T any](values []T) string {
	if values == nil {
		return "[]"
	}
	text, err := json.Marshal(values)
	if err != nil {
		panic(err) // numbers and texts
	}
	return string(text)
}
