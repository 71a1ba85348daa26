package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"musette/planner"
)

var update = flag.Bool("update", false, "write generated files anew")

const (
	readmeFile   = "../../README.md"
	sessionStart = "<!-- session -->\n```\n"
	sessionEnd   = "```\n<!-- end of session -->\n"
)

// The session that the README shows; the program supplies the answers.
var readmeLines = []string{
	`/week share week:"mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"`,
	`/race add name:"Hill Loop" date:28 June priority:A hours:3h30 start:10:30`,
	`/plan show`,
	`/ride tomorrow`,
	`/plan why 23 June`,
	`/tell limit day:26 June minutes:20`,
}

// TestReadmeSessionIsFresh holds the README's example session to what the program says.
func TestReadmeSessionIsFresh(t *testing.T) {
	db := filepath.Join(t.TempDir(), "readme.db")
	var session strings.Builder
	for _, line := range readmeLines {
		var out, faults bytes.Buffer
		args := []string{"chat", "--db", db, "--club", "Marrow Vale Wheelers", "--as", "Ines", "--zone", "Europe/Lisbon", "--now", "2026-06-12T08:00"}
		if code := run(context.Background(), args, nil, strings.NewReader(line+"\n"), &out, &faults); code != exitDone || faults.Len() > 0 {
			t.Fatalf("%s: exit %d, %s", line, code, faults.String())
		}
		session.WriteString("> " + line + "\n" + strings.TrimRight(out.String(), "\n") + "\n\n")
	}
	want := strings.TrimRight(session.String(), "\n") + "\n"

	page, err := os.ReadFile(readmeFile)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(page), sessionStart)
	got, after, ok2 := strings.Cut(rest, sessionEnd)
	if !ok || !ok2 {
		t.Fatal("README.md has no place for the session")
	}
	if *update {
		if err := os.WriteFile(readmeFile, []byte(before+sessionStart+want+sessionEnd+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("README.md is stale. Run go test ./cmd/musette -run TestReadmeSessionIsFresh -update\ngot:\n%s\nwant:\n%s", got, want)
	}
}

const (
	rulesFile = "../../docs/rules.md"
	weekStart = "<!-- example week -->\n"
	weekEnd   = "<!-- end of example week -->\n"
)

// exampleFile is the rider of the example week.
const exampleFile = `{"today":"2026-06-12","week":{"mon":"recovery 40min","tue":"intervals 1h30 5x3min","wed":"endurance 1h45","thu":"off",
	"fri":"endurance 1h15","sat":"long 3h","sun":"intervals 2h 4x8min"},"races":[{"name":"Hill Loop","date":"2026-06-28","priority":"A","hours":3.5}]}`

// TestRulesExampleIsFresh holds the example week of docs/rules.md to what the program plans.
func TestRulesExampleIsFresh(t *testing.T) {
	want := exampleWeek(t)
	if n := strings.Count(want, "\n| "); n != 9 {
		t.Fatalf("%d rows:\n%s", n, want)
	}
	page, err := os.ReadFile(rulesFile)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(page), weekStart)
	got, after, ok2 := strings.Cut(rest, weekEnd)
	if !ok || !ok2 {
		t.Fatal("docs/rules.md has no place for the example week")
	}
	if *update {
		if err := os.WriteFile(rulesFile, []byte(before+weekStart+want+weekEnd+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("docs/rules.md is stale. Run go test ./cmd/musette -run RulesExample -update\ngot:\n%s\nwant:\n%s", got, want)
	}
}

// exampleWeek is the last week before the race as a table.
func exampleWeek(t *testing.T) string {
	var out, faults bytes.Buffer
	if code := run(t.Context(), []string{"plan", "-", "--json"}, nil, strings.NewReader(exampleFile), &out, &faults); code != exitDone {
		t.Fatalf("exit %d, %s", code, faults.String())
	}
	type session struct {
		Kind, Sets string
		Minutes    int
	}
	var plan struct {
		Days []struct {
			Date            string
			Usual, Sessions []session
			Why             []struct{ Rule, Text string }
		}
	}
	if err := json.Unmarshal(out.Bytes(), &plan); err != nil {
		t.Fatal(err)
	}
	label := func(list []session) string {
		if list[0].Minutes == 0 {
			return "rest"
		}
		return strings.TrimSpace(list[0].Kind + " " + planner.Duration(list[0].Minutes) + " " + list[0].Sets)
	}
	var table strings.Builder
	table.WriteString("\n| day | usually | planned | why |\n|---|---|---|---|\n")
	for _, d := range plan.Days {
		date, err := planner.ParseISODate(d.Date)
		if err != nil {
			t.Fatal(err)
		}
		if d.Date < "2026-06-21" || d.Date > "2026-06-28" {
			continue
		}
		why := "as usual"
		if len(d.Why) > 0 {
			why = d.Why[0].Text + " `" + d.Why[0].Rule + "`"
		}
		fmt.Fprintf(&table, "| %s | %s | %s | %s |\n", date.Short(), label(d.Usual), label(d.Sessions), why)
	}
	return table.String() + "\n"
}
