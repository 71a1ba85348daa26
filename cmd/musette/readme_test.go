package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
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
