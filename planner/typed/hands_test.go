package typed

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

// handWas is what became of a line that somebody typed.
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
func (l handLine) was() (handWas, string, error) {
	got, err := l.understood()
	var fault *planner.InputError
	meant := strings.ReplaceAll(strings.ReplaceAll(l.meant, "intervals ", "intervals "), " + strength - -", " + strength - -")
	lacks := l.field == "week" && strings.Contains(" + "+meant, " - -") && !strings.HasPrefix(meant, "rest") && !strings.HasPrefix(meant, "busy")
	switch {
	case err != nil && !errors.As(err, &fault):
		return readWrongly, "", err
	case l.meant == "ask" && err != nil, lacks && err != nil && strings.Contains(fault.Msg, "needs a length"), err == nil && got == meant:
		return readRightly, got, err
	case err != nil:
		return refusedIt, "", err
	}
	return readWrongly, got, nil
}

func TestHandsDebug(t *testing.T) {
	for _, n := range strings.Fields(os.Getenv("HANDS")) {
		var c [3]int
		lines := readHand(t, "/tmp/hands/"+n+"/typed.tsv")
		for _, l := range lines {
			was, got, err := l.was()
			c[was]++
			if was != readRightly && os.Getenv("QUIET") == "" {
				fmt.Printf("%s %d %s | %s | %s || got %s err %v\n", n, was, l.field, l.text, l.meant, got, err)
			}
		}
		fmt.Println("hand", n, "n", len(lines), "right", c[0], "refused", c[1], "wrong", c[2])
	}
}
