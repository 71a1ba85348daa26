package plain

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
)

// A pattern matches what its expression matches, whatever it looks for first.
func TestPatternsMatch(t *testing.T) {
	for _, tc := range []struct {
		expr string
		one  []string
	}{
		{`(?i)\bweek (?:one|two)\b`, []string{"week "}},
		{`a*b+`, []string{"b"}},
		{`^(?:in|of) (may|june)$`, []string{"in may", "in june", "of may", "of june"}},
		{`(?:ab)?`, nil},
		{`[^a]`, nil},
	} {
		have := slices.Clone(Compile(tc.expr).one())
		slices.Sort(have)
		slices.Sort(tc.one)
		if !slices.Equal(have, tc.one) {
			t.Errorf("%s: looks for %q", tc.expr, have)
		}
	}
	for expr, text := range map[string]string{`(?i)week`: "WEEK", `(?i)kiss`: "\u212aiſs", `(?i)this arvo`: "THIS ARVO", `Race`: "Race", `\d{1,2}/\d`: "on 6/7"} {
		if !Compile(expr).MatchString(text) {
			t.Errorf("%s does not match %s", expr, text)
		}
	}
}

// On what writers wrote patterns match wherever their expressions do.
func TestPatternsOnLines(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/asked/*-[1-9]*.tsv")
	if err != nil || len(files) == 0 {
		t.Fatal("no lines", err)
	}
	var all []*Pattern
	for _, r := range rewritten {
		all = append(all, r.pattern)
	}
	for _, r := range counted {
		all = append(all, r.pattern)
	}
	for _, r := range turned {
		all = append(all, r.pattern)
	}
	all = append(all, bigOrdinal, firstOf, otherOrdinal, earlyOrdinal, monthOrdinal, ordinalsTo, bareOrdinal, dotted, ordinalRange, dashed, leadDashed, spokenDay, spokenBefore, countedWeekdays, overMonths, namedDay)
	matched := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for line := range strings.Lines(string(text)) {
			if n++; n%7 > 0 || rounds.Left(n/7) {
				continue
			}
			for _, p := range all {
				if p.re().MatchString(line) {
					if matched++; !p.may(line) {
						t.Errorf("%s is not tried on %s", p, line)
					}
				}
			}
		}
	}
	if matched < 100 {
		t.Errorf("only %d matches", matched)
	}
}
