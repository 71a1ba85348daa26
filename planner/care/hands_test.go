package care_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"musette/planner/care"
)

type told struct{ label, lang, text string }

func hand(t *testing.T, n int, kind string) (out []told) {
	t.Helper()
	raw, err := os.ReadFile(fmt.Sprintf("../../testdata/care/hand-%d-%s.tsv", n, kind))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(raw)) {
		f := strings.SplitN(strings.TrimRight(line, "\r\n"), "\t", 3)
		if len(f) == 3 {
			out = append(out, told{f[0], f[1], f[2]})
		}
	}
	return out
}

func TestDev(t *testing.T) {
	n, found, level, lang := 0, 0, 0, 0
	for i := 1; i <= 4; i++ {
		for _, x := range hand(t, i, "stop") {
			n++
			f := care.Read(x.text)
			if f.Verdict != care.Nothing {
				found++
			}
			if f.Level.String() == x.label {
				level++
			} else {
				t.Logf("STOP %d %s %s: got %v %v %v | %s", i, x.label, x.lang, f.Verdict, f.Level, f.Lang, x.text)
			}
			if f.Verdict == care.Ask {
				t.Logf("SASK %d %s %s: got %v %v %v | %s", i, x.label, x.lang, f.Verdict, f.Level, f.Lang, x.text)
			}
			if f.Lang.String() == x.lang {
				lang++
			} else {
				t.Logf("LANG %d %s %s: got %v %v %v | %s", i, x.label, x.lang, f.Verdict, f.Level, f.Lang, x.text)
			}
		}
	}
	m, stop, ask := 0, 0, 0
	for i := 1; i <= 4; i++ {
		for _, x := range hand(t, i, "near") {
			m++
			f := care.Read(x.text)
			switch f.Verdict {
			case care.Stop:
				stop++
				t.Logf("NSTOP %d %s %s: got %v %v | %s", i, x.label, x.lang, f.Level, f.Lang, x.text)
			case care.Ask:
				ask++
				t.Logf("NASK %d %s %s: got %v %v | %s", i, x.label, x.lang, f.Level, f.Lang, x.text)
			}
		}
	}
	t.Logf("stop n=%d found=%d level=%d lang=%d; near n=%d stop=%d ask=%d", n, found, level, lang, m, stop, ask)
}
