package main

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/pressly/goose/v3"

	"musette/bot/discord/discordtest"
)

// makeOlder puts a database with the schema before the newest, and the same rows,
// in place of one: as the musette before would have left it.
func makeOlder(t *testing.T, path string) {
	t.Helper()
	older := filepath.Join(t.TempDir(), "older.db")
	db, err := sql.Open("sqlite3", "file:"+older)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	steps, err := goose.NewProvider(goose.DialectSQLite3, db, os.DirFS("../../storage/migrations"), goose.WithDisableGlobalRegistry(true))
	if err != nil {
		t.Fatal(err)
	}
	sources := steps.ListSources()
	if _, err := steps.UpTo(t.Context(), sources[len(sources)-2].Version); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(older, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`ATTACH ? AS newer`, path); err != nil {
		t.Fatal(err)
	}
	for _, table := range column(t, db, `SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> 'goose_db_version'`) {
		shared := strings.Join(column(t, db, `SELECT o.name FROM pragma_table_info('`+table+`', 'main') o JOIN pragma_table_info('`+table+`', 'newer') n USING (name)`), ", ")
		if _, err := db.Exec(`INSERT OR REPLACE INTO main.` + table + ` (` + shared + `) SELECT ` + shared + ` FROM newer.` + table); err != nil {
			t.Fatalf("%s: %v", table, err)
		}
	}
	if err := errors.Join(db.Close(), os.Rename(older, path), os.Remove(path+"-wal"), os.Remove(path+"-shm")); err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
}

// column lists a query of one column.
func column(t *testing.T, db *sql.DB, query string) (all []string) {
	t.Helper()
	rows, err := db.Query(query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			t.Fatal(err)
		}
		all = append(all, s)
	}
	return all
}

// An upgrade in the middle of a batch of reminders, stop, migrate and start, loses
// none and doubles none.
func TestUpgradeLosesNoReminder(t *testing.T) {
	const riders = 400 // more than are claimed at once
	k := &killDrill{log: io.Discard, folder: t.TempDir()}
	k.program = builtMusette(t)
	k.double = discordtest.New(discordtest.Options{KeepRequests: -1, OnRequest: k.see})
	defer k.double.Close()
	k.double.Fail(discordtest.Rule{Method: "POST", Path: killPost, Times: -1, Delay: killDelay})
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
	defer cancel()
	if err := k.fill(ctx, riders); err != nil {
		t.Fatal(err)
	}
	makeOlder(t, k.database())
	var log bytes.Buffer
	k.log = &log
	before, err := k.start()
	if err != nil {
		t.Fatal(err)
	}
	if err := k.waitPosts(ctx, 0, time.Minute); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(before.Process.Signal(syscall.SIGTERM), before.Wait()); err != nil {
		t.Fatalf("the stop: %v\n%s", err, log.String())
	}
	arrived := k.arrived()
	if arrived == 0 || arrived == riders {
		t.Fatalf("%d were sent before the upgrade, want some", arrived)
	}
	makeOlder(t, k.database()) // what ran up to here was the older musette
	if err := k.finish(ctx); err != nil {
		t.Fatalf("%v\n%s", err, log.String())
	}
	if copies, _ := filepath.Glob(k.database() + ".schema-*.backup"); len(copies) == 0 {
		t.Error("nothing was migrated")
	}
	if err := k.report(io.Discard, arrived, 0); err != nil {
		t.Errorf("%v\n%s", err, log.String())
	}
}
