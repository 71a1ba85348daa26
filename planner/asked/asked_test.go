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

// Days, races and lengths are found, in the direction of the topic. Today is Monday 1 June 2026.
func TestDaysRacesAndLengths(t *testing.T) {
	for _, tc := range []struct {
		text, from, to, race string
		minutes              int
	}{
		{"what do i ride tommorow", "2026-06-02", "2026-06-02", "", 0},
		{"session for thurs pls", "2026-06-04", "2026-06-04", "", 0},
		{"what is planned on the 13th", "2026-06-13", "2026-06-13", "", 0},
		{"what do i ride in ten days", "2026-06-11", "2026-06-11", "", 0},
		{"what do i ride the day after tomorrow", "2026-06-03", "2026-06-03", "", 0},
		{"plan for next week", "2026-06-08", "2026-06-14", "", 0},
		{"ride this weekend?", "2026-06-06", "2026-06-07", "", 0},
		{"i missed thursday", "2026-05-28", "2026-05-28", "", 0},
		{"rode 2h yesterday", "2026-05-31", "2026-05-31", "", 120},
		{"rode an hour and a half on saturday", "2026-05-30", "2026-05-30", "", 90},
		{"can't ride from 4 to 6 june", "2026-06-04", "2026-06-06", "", 0},
		{"away thursday till sunday", "2026-06-04", "2026-06-07", "", 0},
		{"can't ride friday and saturday", "2026-06-05", "2026-06-06", "", 0},
		{"only 45 min on wednesday", "2026-06-03", "2026-06-03", "", 45},
		{"i can't train monday", "2026-06-08", "2026-06-08", "", 0},
		{"session on 2026-06-20", "2026-06-20", "2026-06-20", "", 0},
		{"may i ride on the 5th of june", "2026-06-05", "2026-06-05", "", 0},
		{"may i ride", "", "", "", 0},
		{"when is hil lop", "", "", "Hill Loop", 0},
		{"when does my taper for Heron Valey start", "", "", "Heron Valley", 0},
		{"when's the crit", "", "", "Quarry Crit", 0},
		{"when is my a race", "", "", "Hill Loop", 0},
		{"plan for my b race", "", "", "Heron Valley", 0},
		{"is there a race", "", "", "", 0},
	} {
		m := asked.Read(tc.text, asked.SampleKnown())
		if len(m.Parts) != 1 {
			t.Errorf("%s: %d parts", tc.text, len(m.Parts))
			continue
		}
		p := m.Parts[0]
		from, to := "", ""
		if a, b, ok := p.Stretch(); ok {
			from, to = a.String(), b.String()
		}
		race := ""
		if p.Race != nil {
			race = p.Race.Name
		}
		if from != tc.from || to != tc.to || race != tc.race || p.Minutes != tc.minutes {
			t.Errorf("%s: from %q to %q, race %q, %d min", tc.text, from, to, race, p.Minutes)
		}
	}
}

// Whatever is written is read without a fault, and what is forced stays so.
func FuzzRead(f *testing.F) {
	train, held := corpus(f)
	for i, l := range append(train, held...) {
		if i%7 == 0 {
			f.Add(l.Text)
		}
	}
	f.Add("\x00\xff🚴 4-6 june 1h30 5x3min 6/7 rpe 99 999%")
	k := asked.SampleKnown()
	f.Fuzz(func(t *testing.T, text string) {
		m := asked.Read(text, k)
		for i := range m.Parts {
			p := &m.Parts[i]
			if !slices.Contains(asked.Topics, p.Topic) || len(p.Offers) > 3 || p.Minutes < 0 || p.RPE > 10 {
				t.Errorf("%q is read as %+v", text, p)
			}
			k := k
			k.Last = p
			asked.Read("and thursday?", k)
			asked.Read("why?", k)
			for _, s := range p.Dates {
				p.Written(s, "2026-06-13")
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	train, held := corpus(b)
	all := append(train, held...)
	k := asked.SampleKnown()
	asked.Read("hello", k)
	for i := 0; b.Loop(); i++ {
		asked.Read(all[i%len(all)].Text, k)
	}
}
