package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest/rounds"
)

// mostScreenLines is how long the first answer to a command may be.
const mostScreenLines = 25

const screensHead = `# How long the answers are

Made by a test from ` + "`testdata/screens.txt`" + `; do not edit. Each command was given in this order to a new database, from 1 June 2026 on. "Before" is the program before its
answers were made for a phone. A dash means that the command did not exist then. A line that a phone breaks counts once. No first answer is longer than %d lines; the whole plan is behind a button.

| command | lines before | now | characters before | now |
|---|---|---|---|---|
`

// TestScreens counts the lines and characters of answers and compares the page of them.
func TestScreens(t *testing.T) {
	rounds.Skip(t, "docs/answers-length.md")
	data, err := os.ReadFile("../../testdata/screens.txt")
	if err != nil {
		t.Fatal(err)
	}
	var before [][]string
	var input strings.Builder
	for line := range strings.Lines(string(data)) {
		row := strings.SplitN(strings.TrimSpace(line), " ", 3)
		before = append(before, row)
		line, _ := strings.CutSuffix(row[2], " "+kindOf(row[2]))
		input.WriteString(line + "\n")
	}
	var out, faults bytes.Buffer
	args := []string{"chat", "--db", filepath.Join(t.TempDir(), "screens.db"), "--as", "Ines", "--zone", "Europe/Lisbon", "--now", "2026-06-01T08:00", "--json"}
	if code := run(t.Context(), args, nil, strings.NewReader(input.String()), &out, &faults); code != exitDone {
		t.Fatalf("exit %d: %s", code, faults.String())
	}
	var page strings.Builder
	fmt.Fprintf(&page, screensHead, mostScreenLines)
	answers := json.NewDecoder(&out)
	for _, row := range before {
		var a struct {
			OK   bool
			Text string
			Sent []struct{ Kind, Text string }
		}
		if err := answers.Decode(&a); err != nil || !a.OK {
			t.Fatalf("%s: %v, %s", row[2], err, a.Text)
		}
		kind := kindOf(row[2])
		for _, m := range a.Sent {
			if m.Kind == kind {
				a.Text = m.Text
			}
		}
		lines := strings.Count(a.Text, "\n") + 1
		if lines > mostScreenLines && !strings.HasSuffix(row[2], " days:all") {
			t.Errorf("%s: %d lines", row[2], lines)
		}
		if kind != "" {
			fmt.Fprintf(&page, "| a %s, sent by itself | %s | %d | %s | %d |\n", kind, row[0], lines, row[1], utf8.RuneCountInString(a.Text))
		} else if strings.HasSuffix(row[2], " days:all") {
			fmt.Fprintf(&page, "| `/plan show days:all`, the whole plan | %s | %d | %s | %d |\n", row[0], lines, row[1], utf8.RuneCountInString(a.Text))
		} else if command, is := strings.CutPrefix(row[2], "/"); is {
			name, _, _ := strings.Cut(command, ":")
			if words := strings.Fields(name); len(words) > 1 && name != command { // the last word is an option
				name = strings.Join(words[:len(words)-1], " ")
			}
			fmt.Fprintf(&page, "| `/%s` | %s | %d | %s | %d |\n", name, row[0], lines, row[1], utf8.RuneCountInString(a.Text))
		}
	}
	const file = "../../docs/answers-length.md"
	if *update {
		if err := os.WriteFile(file, []byte(page.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	stored, err := os.ReadFile(file)
	if err != nil || !near(string(stored), page.String()) {
		t.Errorf("%s is stale (%v); run go test ./cmd/musette -run Screens -update", file, err)
	}
}

// kindOf is the kind of message that a :tick of the list is looked at for, "" for other lines.
func kindOf(line string) string {
	kind, _ := strings.CutPrefix(line, ":tick ")
	if kind == line {
		return ""
	}
	return kind
}

// near reports two pages of the same words whose numbers differ by a fifth at most,
// or by three: a word more in an answer makes no page stale.
func near(a, b string) bool {
	x, y := strings.Fields(a), strings.Fields(b)
	return slices.EqualFunc(x, y, func(x, y string) bool {
		m, err := strconv.Atoi(x)
		n, other := strconv.Atoi(y)
		if err != nil || other != nil {
			return x == y
		}
		return max(m, n)-min(m, n) <= max(3, m/5)
	})
}
