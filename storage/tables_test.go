package storage

import (
	"context"
	"encoding/json"
	"errors"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// A new table is taken along by the schema alone, or named as one that holds
// nothing of a person.
func TestEveryTableIsErasedOrImpersonal(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	tables := must(personal(ctx, db.reader))
	all := must(list(ctx, db.reader, func(s *string, scan func(...any) error) error { return scan(s) },
		`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`))
	for _, name := range all {
		if (tableNamed(tables, name) != nil) == slices.Contains(impersonal, name) {
			t.Errorf("table %s is neither erased nor impersonal, or both. Give it athlete_id, a foreign key that cascades, or person_key; or name it in impersonal", name)
		}
	}
	for _, name := range impersonal {
		if !slices.Contains(all, name) {
			t.Errorf("there is no table %s", name)
		}
	}
}

// Text that people write goes when a version is withdrawn: the schema insists, or
// the column is one of those that plans of past days are named by.
func TestWithdrawnVersionsHaveNoFreeText(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	stay := []string{"race.name", "race.kind", "past_race.name", "past_race.kind", "race.place"} // place: emptied by RemoveRace
	free := regexp.MustCompile(`(?m)^\s*(\w+)\s+TEXT[^\n]*length\(\w+\) <= 200[^\n]*$`)
	seen := 0
	for _, table := range must(personal(ctx, db.reader)) {
		if !table.has("withdrawn") {
			continue
		}
		for _, found := range free.FindAllStringSubmatch(table.sql, -1) {
			seen++
			if !strings.Contains(found[0], "withdrawn IS NULL") && !slices.Contains(stay, table.name+"."+found[1]) {
				t.Errorf("%s.%s may keep words in a withdrawn version", table.name, found[1])
			}
		}
	}
	if seen < len(stay)+1 {
		t.Errorf("only %d columns of free text were found", seen)
	}
	path, _, _ := lives(t)
	left := mustOpen(t, path)
	var texts int
	if err := left.reader.QueryRow(`SELECT (SELECT count(*) FROM race WHERE withdrawn IS NOT NULL AND place <> '')
		+ (SELECT count(*) FROM result JOIN race ON race.id = race_id WHERE withdrawn IS NOT NULL AND result.result || note <> '')
		+ (SELECT count(*) FROM ride WHERE withdrawn IS NOT NULL AND note <> '')`).Scan(&texts); err != nil || texts != 0 {
		t.Errorf("%d withdrawn rows keep words, %v", texts, err)
	}
}

// newTables is what a later migration may bring.
const newTables = `
CREATE TABLE scribble (id INTEGER PRIMARY KEY, athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE, text TEXT NOT NULL, told TEXT, withdrawn TEXT) STRICT;
CREATE TABLE scrap (scribble_id INTEGER NOT NULL REFERENCES scribble (id) ON DELETE CASCADE, "order" TEXT NOT NULL) STRICT;
CREATE TABLE told_off (person_key TEXT PRIMARY KEY, level TEXT NOT NULL) STRICT, WITHOUT ROWID;
`

func TestNewTablesAreTakenAlong(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "musette.db")
	db, err := open(ctx, path, synced, withStep(t, newTables))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	club := mustClub(t, db, "1")
	rider := must(db.EnsureAthlete(ctx, club.ID, PlatformKey("discord", "4242"), "Quendolin"))
	if _, err := db.writer.Exec(`INSERT INTO scribble VALUES (7, ?, 'soggy hands', '2026-05-01', '2026-05-02');
		INSERT INTO scrap VALUES (7, 'numb toes'); INSERT INTO told_off VALUES ('discord:4242', 'Kelpbridge'), ('discord:1', 'easy');`, rider.ID); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Clubs []struct {
			Scribble []struct {
				Text, Told, Withdrawn string
				Scrap                 []struct{ Order string }
			}
		}
		Told_off []struct{ Level string }
	}
	data := must(db.Export(ctx, rider.Whose()))
	if err := json.Unmarshal(data, &got); err != nil || len(got.Clubs) != 1 || len(got.Clubs[0].Scribble) != 1 || got.Clubs[0].Scribble[0].Withdrawn != "2026-05-02" ||
		got.Clubs[0].Scribble[0].Scrap[0].Order != "numb toes" || len(got.Told_off) != 1 || got.Told_off[0].Level != "Kelpbridge" {
		t.Errorf("%v, %s", err, data)
	}
	if _, err := db.Erase(ctx, rider.Whose()); err != nil {
		t.Fatal(err)
	}
	wantNoBytes(t, path)
	var left int
	if err := db.reader.QueryRow(`SELECT (SELECT count(*) FROM scribble) + (SELECT count(*) FROM scrap) + (SELECT count(*) FROM told_off)`).Scan(&left); err != nil || left != 1 {
		t.Errorf("%d rows are left, %v; want the bystander's", left, err)
	}
	if _, err := db.Export(ctx, rider.Whose()); !errors.Is(err, ErrNotFound) {
		t.Errorf("after the erasure: %v", err)
	}
}
