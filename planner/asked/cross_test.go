package asked_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"musette/bot/bottest/notice"
	"musette/bot/bottest/rounds"
	"musette/planner/asked"
)

var (
	folds  = flag.Bool("folds", false, "count each writer's lines with what the others teach; takes minutes")
	report = flag.Bool("report", false, "write the counts into docs/answers.md")
)

const answersPage = "../../docs/answers.md"

// writers are the files of each author whose lines are learned.
var writers = []string{"hand-[12].tsv", "hand-3.tsv", "hand-4.tsv", "hand-5.tsv", "hand-6.tsv", "hand-7.tsv", "hand-8.tsv", "hand-9.tsv", "hand-10.tsv", "hand-11.tsv", "hand-12.tsv", "hand-13.tsv", "hand-14.tsv", "hand-15.tsv", "hand-16.tsv", "hand-17.tsv", "hand-18.tsv", "hand-19.tsv", "hand-20.tsv", "hand-21.tsv", "hand-22.tsv", "hand-23.tsv", "hand-24.tsv", "hand-25.tsv", "hand-26.tsv", "hand-27.tsv", "hand-28.tsv", "hand-29.tsv", "hand-30.tsv", "hand-31.tsv", "hand-32.tsv", "hand-33.tsv", "hand-34.tsv", "hand-35.tsv", "hand-36.tsv", "hand-37.tsv", "hand-38.tsv", "hand-39.tsv", "hand-40.tsv", "hand-41.tsv", "hand-42.tsv", "hand-43.tsv", "hand-44.tsv", "hand-45.tsv", "hand-46.tsv", "hand-47.tsv"}

// counted is how many writers are counted, the last ones, and together how many are left out at a time: so
// many came together. The tables were made with the lines of the others in view.
const (
	counted  = 12
	together = 3
)

// samples are the lines that are learned from: those of one topic.
func samples(lines []line) (out []asked.Sample) {
	for _, l := range lines {
		if len(l.topics) == 1 {
			out = append(out, asked.Sample{Text: l.text, Topic: l.topics[0], Known: l.known})
		}
	}
	return out
}

// counts are tallies in all and by topic.
type counts struct {
	all tally
	by  map[asked.Topic]tally
}

func countAll(lines []line, show func(line, tally)) counts {
	c := counts{by: map[asked.Topic]tally{}}
	for _, l := range lines {
		n := countLine(l)
		c.all = c.all.plus(n)
		if len(l.topics) == 1 {
			c.by[l.topics[0]] = c.by[l.topics[0]].plus(n)
		}
		show(l, n)
	}
	return c
}

func (c counts) plus(d counts) counts {
	out := counts{all: c.all.plus(d.all), by: map[asked.Topic]tally{}}
	for _, t := range asked.Topics {
		out.by[t] = c.by[t].plus(d.by[t])
	}
	return out
}

// table is what docs/answers.md says of counts.
func (c counts) table() string {
	var b strings.Builder
	share := func(n, of int) string {
		return fmt.Sprintf("%d of %d (%.1f %%)", n, of, 100*float64(n)/float64(max(of, 1)))
	}
	a := c.all
	fmt.Fprintf(&b, "| what | count |\n|---|---|\n| topic right at once | %s |\n| right at once or among at most three offers | %s |\n| wrong without asking | %s |\n", share(a.right, a.lines), share(a.right+a.offered, a.lines), share(a.wrong, a.lines))
	fmt.Fprintf(&b, "| day right, of lines that mean one | %s |\n| a day read where none is meant | %s |\n| race right, of lines that mean one | %s |\n", share(a.dateRight, a.dates), share(a.falseDay, a.noDate), share(a.raceRight, a.races))
	fmt.Fprintf(&b, "| danger stopped or asked about | %s |\n| plain lines that stop | %s |\n\n", share(a.stopFound, a.stops), share(a.falseStop, a.plain))
	b.WriteString("| topic | lines | at once | among offers | asked wrongly | wrong |\n|---|---|---|---|---|---|\n")
	for _, t := range asked.Topics {
		n := c.by[t]
		fmt.Fprintf(&b, "| %s | %d | %d | %d | %d | %d |\n", t, n.lines, n.right, n.offered, n.lost, n.wrong)
	}
	return b.String()
}

// Three writers' lines at a time are counted with what the other writers teach.
func TestFolds(t *testing.T) {
	if !*folds {
		notice.Skip(t, "how well writers' lines are read with what the others teach, which takes minutes: go test ./planner/asked -run %s -folds", t.Name())
	}
	var sum counts
	for out := range slices.Chunk(writers[len(writers)-counted:], together) {
		var held, others []line
		for _, w := range writers {
			if slices.Contains(out, w) {
				held = append(held, hands(t, w)...)
			} else {
				others = append(others, hands(t, w)...)
			}
		}
		rest := append(others, unlike(hands(t, "more-[1-3].tsv"), held)...)
		back := asked.Learn(asked.Train(samples(rest)))
		for _, w := range out {
			c := countAll(hands(t, w), func(line, tally) {})
			a := c.all
			t.Logf("%s: of %d lines %d right at once, %d offered, %d asked wrongly, %d wrong; days %d of %d, races %d of %d", w, a.lines, a.right, a.offered, a.lost, a.wrong, a.dateRight, a.dates, a.raceRight, a.races)
			sum = sum.plus(c)
		}
		back()
	}
	t.Log("\n" + sum.table())
	keepReport(t, "folds", sum.table())
}

// The held-out writers are read as docs/answers.md says.
func TestUnread(t *testing.T) {
	rounds.Skip(t, "how well the held-out writers are read")
	if files, _ := filepath.Glob("../../testdata/asked/unread-*.tsv"); len(files) == 0 {
		notice.Skip(t, "how the lines of held-out writers are read, since all writers have been read by now")
	}
	c := countAll(hands(t, "unread-*.tsv"), func(line, tally) {})
	keepReport(t, "unread", c.table())
}

// unlike are lines whose words none of others has.
func unlike(lines, others []line) (out []line) {
	folded := func(s string) string {
		return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ")
	}
	known := map[string]bool{}
	for _, l := range others {
		known[folded(l.text)] = true
	}
	for _, l := range lines {
		if !known[folded(l.text)] {
			out = append(out, l)
		}
	}
	return out
}

// keepReport compares a table with its place in docs/answers.md, or writes it there.
func keepReport(t *testing.T, name, table string) {
	t.Helper()
	text, err := os.ReadFile(answersPage)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(text), "<!-- "+name+" -->\n")
	have, tail, ok2 := strings.Cut(rest, "<!-- end -->")
	if !ok || !ok2 {
		t.Fatalf("docs/answers.md has no place for %s", name)
	}
	if *report {
		if err := os.WriteFile(answersPage, []byte(head+"<!-- "+name+" -->\n"+table+"<!-- end -->"+tail), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if have != table {
		t.Errorf("docs/answers.md says otherwise of %s. Counted:\n%s", name, table)
	}
}

// There are lines enough, of enough writers, for each topic.
func TestCorpus(t *testing.T) {
	all := append(hands(t, "hand-*.tsv"), hands(t, "more-*.tsv")...)
	by := map[asked.Topic]int{}
	for _, l := range all {
		for _, topic := range l.topics {
			by[topic]++
		}
		if strings.TrimSpace(l.text) == "" || l.known.Today == 0 {
			t.Errorf("%s: an empty line, or one before its head", l.hand)
		}
	}
	if len(all) < 2500 {
		t.Errorf("%d lines", len(all))
	}
	for _, topic := range asked.Topics {
		if by[topic] < 80 {
			t.Errorf("%s has %d lines", topic, by[topic])
		}
	}
}
