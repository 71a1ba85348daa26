package asked_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/planner/asked"
)

// corpus are the lines of the hands in testdata/asked: every fourth is held out.
func corpus(t testing.TB) (train, held []asked.Line) {
	t.Helper()
	for i, l := range lines(t, "hand-*.txt") {
		if i%4 == 3 {
			held = append(held, l)
		} else {
			train = append(train, l)
		}
	}
	return train, held
}

// lines are those of files, each under its topic.
func lines(t testing.TB, pattern string) (out []asked.Line) {
	t.Helper()
	files, err := filepath.Glob("../../testdata/asked/" + pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		topic := asked.Topic("")
		for line := range strings.Lines(string(text)) {
			if line = strings.TrimSpace(line); strings.HasPrefix(line, "[") {
				if topic = asked.Topic(strings.Trim(line, "[]")); !slices.Contains(asked.Topics, topic) {
					t.Fatalf("%s: no topic %s", file, topic)
				}
				continue
			}
			out = append(out, asked.Line{Topic: topic, Text: line})
		}
	}
	return out
}

// score counts lines that are right at once, asked about rightly, asked about
// wrongly, and wrong.
type score struct{ right, offered, lost, wrong int }

func (s score) n() int { return s.right + s.offered + s.lost + s.wrong }

func count(lines []asked.Line, report func(asked.Line, asked.Part)) (all score, by map[asked.Topic]score) {
	by = map[asked.Topic]score{}
	for _, l := range lines {
		m := asked.Read(l.Text, asked.SampleKnown())
		var p asked.Part
		if len(m.Parts) > 0 {
			p = m.Parts[0]
		}
		s := by[l.Topic]
		switch {
		case len(p.Offers) == 0 && slices.ContainsFunc(m.Parts, func(p asked.Part) bool { return p.Topic == l.Topic }):
			s.right++
			all.right++
		case slices.Contains(p.Offers, l.Topic):
			s.offered++
			all.offered++
			report(l, p)
		case len(p.Offers) > 0:
			s.lost++
			all.lost++
			report(l, p)
		default:
			s.wrong++
			all.wrong++
			report(l, p)
		}
		by[l.Topic] = s
	}
	return all, by
}

// The lines that were held out of training, and those that were written after the
// rules, are read as well as is said here.
func TestHeldOutLines(t *testing.T) {
	_, held := corpus(t)
	for _, set := range []struct {
		name         string
		lines        []asked.Line
		right, wrong int // per cent: at least, at most
	}{{"held out", held, 80, 10}} {
		t.Run(set.name, func(t *testing.T) {
			all, by := count(set.lines, func(l asked.Line, p asked.Part) {
				t.Logf("%s: %q read as %s %.2f %v", l.Topic, l.Text, p.Topic, p.Confidence, p.Offers)
			})
			for _, topic := range asked.Topics {
				if s := by[topic]; s.n() > 0 {
					t.Logf("%-13s n=%d right %d, offered %d, offered wrongly %d, wrong %d", topic, s.n(), s.right, s.offered, s.lost, s.wrong)
				}
			}
			t.Logf("all n=%d right %d, offered %d, offered wrongly %d, wrong %d", all.n(), all.right, all.offered, all.lost, all.wrong)
			if all.n() < 100 || 100*all.right < set.right*all.n() || 100*all.wrong > set.wrong*all.n() {
				t.Errorf("of %d lines %d are right and %d wrong", all.n(), all.right, all.wrong)
			}
		})
	}
}
