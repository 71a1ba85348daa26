package typed

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

// handWas is what happened to a line that somebody typed.
type handWas int

const (
	readRightly handWas = iota
	refusedIt
	readWrongly
)

// handLine is a line of a corpus: which field, what was typed, what was meant. "ask"
// is a text that leaves open what is meant, and that the program must ask back.
type handLine struct{ field, text, meant string }

func readHand(t *testing.T, path string) []handLine {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []handLine
	for in := bufio.NewScanner(f); in.Scan(); {
		cells := strings.Split(in.Text(), "\t")
		if len(cells) != 3 {
			t.Fatalf("%s: %d cells in %q", path, len(cells), in.Text())
		}
		out = append(out, handLine{cells[0], cells[1], cells[2]})
	}
	return out
}

// handToday is the day on which all lines were typed.
var handToday = planner.NewDate(2026, time.June, 3)

// understood is what the program reads in a line, in the words of the corpus.
func (l handLine) understood() (string, error) {
	switch l.field {
	case "date":
		d, err := DateComing(l.text, handToday)
		return d.String(), err
	case "past":
		d, err := DateBack(l.text, handToday)
		return d.String(), err
	case "minutes":
		m, err := Minutes(l.text)
		return fmt.Sprint(m), err
	case "hours":
		h, err := Hours(l.text, 1)
		return fmt.Sprintf("%.0f", h*60), err
	case "start":
		return Start(l.text)
	}
	w, err := Week(l.text)
	days := 0
	out := ""
	for i := range w {
		if p := w[i]; p.Busy || len(p.Sessions) > 0 {
			days++
			out += inCells(p)
		}
	}
	if days == 0 {
		out = "rest - -"
	}
	return out, err
}

// inCells is a day as kind, minutes and repetitions of each session.
func inCells(p planner.WeekdayPlan) string {
	if p.Busy {
		return "busy - -"
	}
	var parts []string
	for _, s := range p.Sessions {
		sets := s.Sets.String()
		if sets == "" {
			sets = "-"
		}
		parts = append(parts, fmt.Sprintf("%s %d %s", s.Kind, s.Minutes, sets))
	}
	return strings.Join(parts, " + ")
}

// was judges a line. A session whose length was not typed is right where it is asked for.
func (l handLine) was() (handWas, error) {
	got, err := l.understood()
	lacksLength := l.field == "week" && strings.Contains(l.meant, " - -") && !strings.HasPrefix(l.meant, "rest") && !strings.HasPrefix(l.meant, "busy")
	switch {
	case err != nil && (l.meant == "ask" || lacksLength && strings.Contains(err.Error(), "needs a length")), err == nil && got == l.meant:
		return readRightly, err
	case err != nil:
		return refusedIt, err
	}
	return readWrongly, fmt.Errorf("it is read as %s", got)
}

// otherwise are lines that the program reads in another way than was meant, with the reason.
var otherwise = map[handLine]string{
	{"date", "next sunday", "ask"}: "2026-06-14: another Sunday lies before it, so it is the one of the next week, and the answer says its date",
	{"date", "next fri", "ask"}:    "2026-06-12: as next sunday",
	{"date", "next sat", "ask"}:    "2026-06-13: as next sunday",
	{"date", "wednesday", "ask"}:   "2026-06-10: typed on a Wednesday it is the coming one, and the answer says its date",
}

// hint is how a refusal says what to write instead.
var hint = regexp.MustCompile(`(Write|[Ff]or example|like) .*[0-9a-z]`)

// These lines were written by six people who had not seen the program. The parsers were
// made with the first four lists at hand, the last two were counted once they were done:
// 160 of 176 were read rightly. The two lists after them, of odd spellings, are by one of us:
// 118 of 156 were read when they were first counted, then 127 of 136. The ninth is by another
// of us: 196 of 207 were read when it was first counted. The tenth too: 226 of 251 were read as its writer had
// labelled them, 13 otherwise, of which 2 were wrong and 11 labels were. None may be read
// wrongly, nine in ten are read, and the others are refused with what to write instead.
func TestWhatPeopleTyped(t *testing.T) {
	kinds := map[string]int{}
	for hand := 1; hand <= 10; hand++ {
		lines := readHand(t, fmt.Sprintf("../../testdata/typed/hand-%d.tsv", hand))
		right := 0
		for _, l := range lines {
			kinds[l.field]++
			was, err := l.was()
			if _, known := otherwise[l]; known && was == readWrongly {
				was, err = readRightly, nil
			}
			if was == readRightly {
				right++
			}
			if was == readWrongly {
				t.Errorf("hand %d: %s %q means %s: %v", hand, l.field, l.text, l.meant, err)
			}
			if fault := (*planner.InputError)(nil); was == refusedIt && (!errors.As(err, &fault) || !hint.MatchString(fault.Msg)) {
				t.Errorf("hand %d: %s %q is refused without a hint: %v", hand, l.field, l.text, err)
			}
		}
		if right*10 < len(lines)*9 {
			t.Errorf("hand %d: %d of %d lines are read, want nine in ten", hand, right, len(lines))
		}
	}
	if dates, lengths := kinds["date"]+kinds["past"], kinds["minutes"]+kinds["hours"]; dates < 80 || lengths < 40 || kinds["week"] < 60 {
		t.Errorf("%d dates, %d lengths, %d weeks", dates, lengths, kinds["week"])
	}
}
