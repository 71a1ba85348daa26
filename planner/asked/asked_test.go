package asked_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/planner/asked"
)

// corpus are the lines in testdata/asked: every fourth of a topic is held out.
func corpus(t testing.TB) (train, held []asked.Line) {
	t.Helper()
	files, err := filepath.Glob("../../testdata/asked/hand-*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		topic, n := asked.Topic(""), 0
		for line := range strings.Lines(string(text)) {
			line = strings.TrimSpace(line)
			if strings.HasPrefix(line, "[") {
				topic, n = asked.Topic(strings.Trim(line, "[]")), 0
				if !slices.Contains(asked.Topics, topic) {
					t.Fatalf("%s: no topic %s", file, topic)
				}
				continue
			}
			if n++; n%4 == 0 {
				held = append(held, asked.Line{Topic: topic, Text: line})
			} else {
				train = append(train, asked.Line{Topic: topic, Text: line})
			}
		}
	}
	return train, held
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

// The lines that were held out of training are read as well as is said here.
func TestHeldOutLines(t *testing.T) {
	_, held := corpus(t)
	all, by := count(held, func(l asked.Line, p asked.Part) {
		t.Logf("%s: %q read as %s %.2f %v", l.Topic, l.Text, p.Topic, p.Confidence, p.Offers)
	})
	for _, topic := range asked.Topics {
		if s := by[topic]; s.n() > 0 {
			t.Logf("%-13s n=%d right %d, offered %d, offered wrongly %d, wrong %d", topic, s.n(), s.right, s.offered, s.lost, s.wrong)
		}
	}
	t.Log(fmt.Sprintf("all n=%d right %d, offered %d, offered wrongly %d, wrong %d", all.n(), all.right, all.offered, all.lost, all.wrong))
	if all.n() < 150 || 100*all.right < 80*all.n() || 100*all.wrong > 12*all.n() {
		t.Errorf("of %d lines %d are right and %d wrong", all.n(), all.right, all.wrong)
	}
}
