package care_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner/care"
)

// builtOn are the hands that the tables and the model learn from, unread those
// that nobody read who built them.
var (
	builtOn = []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38}
	unread  = map[int]tally{
		31: {danger: count{lines: 55, stopped: 36, asked: 17, missed: 2}, near: count{lines: 55, stopped: 0, asked: 15, missed: 40}},
		32: {danger: count{lines: 55, stopped: 42, asked: 12, missed: 1}, near: count{lines: 55, stopped: 1, asked: 12, missed: 42}},
		33: {danger: count{lines: 55, stopped: 44, asked: 10, missed: 1}, near: count{lines: 55, stopped: 2, asked: 11, missed: 42}},
		34: {danger: count{lines: 55, stopped: 40, asked: 14, missed: 1}, near: count{lines: 55, stopped: 0, asked: 16, missed: 39}},
		35: {danger: count{lines: 55, stopped: 36, asked: 19, missed: 0}, near: count{lines: 55, stopped: 0, asked: 9, missed: 46}},
		36: {danger: count{lines: 55, stopped: 40, asked: 15, missed: 0}, near: count{lines: 55, stopped: 1, asked: 12, missed: 42}},
		37: {danger: count{lines: 55, stopped: 41, asked: 12, missed: 2}, near: count{lines: 55, stopped: 0, asked: 7, missed: 48}},
		38: {danger: count{lines: 55, stopped: 40, asked: 15, missed: 0}, near: count{lines: 55, stopped: 0, asked: 17, missed: 38}},
		39: {danger: count{lines: 55, stopped: 37, asked: 18, missed: 0}, near: count{lines: 55, stopped: 1, asked: 5, missed: 49}},
		40: {danger: count{lines: 55, stopped: 45, asked: 9, missed: 1}, near: count{lines: 55, stopped: 0, asked: 7, missed: 48}},
	}
)

// leveled is the last hand that gave its lines levels.
const leveled = 8

// line is what somebody wrote: its level or kind, its language, its text.
type line struct{ label, lang, text string }

// lines are what one person wrote who had not seen the program.
func lines(t *testing.T, hand int, kind string) (out []line) {
	t.Helper()
	raw, err := os.ReadFile(fmt.Sprintf("../../testdata/care/hand-%d-%s.tsv", hand, kind))
	if err != nil {
		t.Fatal(err)
	}
	for row := range strings.Lines(string(raw)) {
		if f := strings.SplitN(strings.TrimRight(row, "\r\n"), "\t", 3); len(f) == 3 {
			out = append(out, line{f[0], f[1], f[2]})
		}
	}
	if len(out) < 50 {
		t.Fatalf("hand %d wrote only %d lines of %s", hand, len(out), kind)
	}
	return out
}

// otherwise are lines that the table of levels puts elsewhere than their writer did.
var otherwise = map[string]care.Level{
	"wacked my head on a branch on the gravel ride, seeing double a bit":                 care.Emergency, // seeing double after a knock
	"only alowing myself 900 cals a day till the hill climb, feel faint but its working": care.Emergency, // faint comes first
	"ribs bruised from the fall, sore as hell when i breathe hard on the bike":           care.Doctor,    // a rib that hurts in breathing may be broken
}

// count is how lines are read.
type count struct{ lines, stopped, asked, missed int }

func (c *count) add(v care.Verdict) {
	c.lines++
	switch v {
	case care.Stop:
		c.stopped++
	case care.Ask:
		c.asked++
	default:
		c.missed++
	}
}

// tally is how a hand is read.
type tally struct {
	danger, near count
	level        int // lines that have the level of their writer
}

func counted(t *testing.T, hand int) (c tally) {
	t.Helper()
	for _, l := range lines(t, hand, "stop") {
		f := care.Read(l.text)
		c.danger.add(f.Verdict)
		if want, ok := otherwise[l.text]; f.Level.String() == l.label || ok && f.Level == want {
			c.level++
		}
	}
	for _, l := range lines(t, hand, "near") {
		c.near.add(care.Read(l.text).Verdict)
	}
	return c
}

func TestHandsThatItWasBuiltOn(t *testing.T) {
	for i, hand := range builtOn {
		if i%rounds.Every(1) > 0 {
			continue
		}
		c := counted(t, hand)
		if c.danger.missed > 0 || hand <= leveled && c.level*100 < c.danger.lines*97 || c.near.stopped > 0 || c.near.asked*6 > c.near.lines {
			t.Errorf("hand %d: %+v", hand, c)
		}
	}
}

// The language is the one in which it was told.
func TestLanguages(t *testing.T) {
	wrong, all := 0, 0
	for i, hand := range builtOn {
		if i%rounds.Every(1) > 0 {
			continue
		}
		for _, l := range lines(t, hand, "stop") {
			all++
			if f := care.Read(l.text); l.lang != "-" && f.Lang.String() != l.lang {
				wrong++
				t.Logf("%s, told in %s: %s", f.Lang, l.lang, l.text)
			}
		}
	}
	if wrong*100 > all {
		t.Errorf("%d languages of %d are wrong", wrong, all)
	}
}

// Variants of each class of words that once were read wrongly, in both directions.
func TestClasses(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/care/classes.tsv")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for row := range strings.Lines(string(raw)) {
		f := strings.SplitN(strings.TrimRight(row, "\r\n"), "\t", 3)
		if n++; care.Read(f[2]).Verdict.String() != f[1] {
			t.Errorf("%s: %q: %s, want %s", f[0], f[2], care.Read(f[2]).Verdict, f[1])
		}
	}
	if n < 2000 {
		t.Errorf("only %d variants", n)
	}
}

// The first count of the unread hands is held.
func TestHandsThatItHadNotSeen(t *testing.T) {
	for hand, first := range unread {
		if c := counted(t, hand); c.danger.missed > first.danger.missed || c.near.stopped > first.near.stopped || c.near.asked > first.near.asked {
			t.Errorf("hand %d: %+v, first %+v", hand, c, first)
		}
	}
}
