package asked_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/asked"
)

// line is a line of the corpus: the topics that it has, the day and the race that
// it means, each "-" for none and "?" where nobody said, and what was written.
type line struct {
	hand   string
	topics []asked.Topic
	date   string
	race   string
	text   string
	known  asked.Known
}

// hand reads the lines of one writer.
func hand(t testing.TB, file string) (out []line) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	name := strings.TrimSuffix(filepath.Base(file), ".tsv")
	var known asked.Known
	for row := range strings.Lines(string(text)) {
		row = strings.TrimSuffix(row, "\n")
		if head, ok := strings.CutPrefix(row, "# "); ok {
			known = world(t, head)
			continue
		}
		f := strings.Split(row, "\t")
		if len(f) != 4 {
			t.Fatalf("%s: %q has %d columns", file, row, len(f))
		}
		l := line{hand: name, date: f[1], race: f[2], text: f[3], known: known}
		for _, topic := range strings.Split(f[0], "+") {
			if !slices.Contains(asked.Topics, asked.Topic(topic)) {
				t.Fatalf("%s: no topic %s", file, topic)
			}
			l.topics = append(l.topics, asked.Topic(topic))
		}
		out = append(out, l)
	}
	return out
}

var aRace = regexp.MustCompile(`^(.+) ([ABC]) (\d{4}-\d\d-\d\d)$`)

// world reads what the head of a file says: today, riders and races.
func world(t testing.TB, head string) asked.Known {
	var k asked.Known
	for _, part := range strings.Split(head, "; ") {
		key, rest, _ := strings.Cut(part, " ")
		switch key {
		case "today":
			k.Today = day(t, rest)
		case "riders":
			k.Riders = strings.Split(rest, ", ")
		case "races":
			for _, r := range strings.Split(rest, ", ") {
				m := aRace.FindStringSubmatch(r)
				if m == nil {
					t.Fatalf("no race: %s", r)
				}
				priority, err := planner.ParsePriority(m[2])
				if err != nil {
					t.Fatal(err)
				}
				k.Races = append(k.Races, planner.Race{Name: m[1], Priority: priority, Date: day(t, m[3]), Days: 1})
			}
		}
	}
	return k
}

func day(t testing.TB, text string) planner.Date {
	d, err := planner.ParseISODate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// hands are the lines of all writers whose files fit a pattern.
func hands(t testing.TB, pattern string) (out []line) {
	t.Helper()
	files, err := filepath.Glob("../../testdata/asked/" + pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines: %v", err)
	}
	for _, file := range files {
		out = append(out, hand(t, file)...)
	}
	return out
}
