package care_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest/notice"
	"musette/planner/care"
)

var cross = flag.Bool("cross", false, "read each hand with what the others teach; takes minutes")

// said is a line that teaches, by its writer.
type said struct {
	care.Sample
	hand string
	near bool // it looks like danger
}

// column reads a file of lines with columns.
func column(t testing.TB, file string, n int) (out [][]string) {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for row := range strings.Lines(string(raw)) {
		if f := strings.SplitN(strings.TrimRight(row, "\r\n"), "\t", n); len(f) == n {
			out = append(out, f)
		}
	}
	return out
}

// teaching are the lines that the model learns from.
func teaching(t testing.TB) (out []said) {
	add := func(hand, text string, danger, near, talk bool) {
		out = append(out, said{care.Sample{Text: text, Danger: danger, Talk: talk}, hand, near})
	}
	leveled := map[string]bool{"emergency": true, "head": true, "doctor": true, "rest": true}
	for _, hand := range append(readHands(), "taught") {
		for _, kind := range []string{"stop", "near"} {
			for _, f := range column(t, "../../testdata/care/"+hand+"-"+kind+".tsv", 3) {
				add(hand, f[2], kind == "stop", kind == "near", f[0] == "talk")
				if kind == "stop" && leveled[f[0]] {
					s := &out[len(out)-1]
					s.Leveled, s.Urgent = true, f[0] == "emergency" || otherwise[f[2]] == care.Emergency
				}
			}
		}
	}
	for _, f := range column(t, "../../testdata/care/classes.tsv", 3) {
		if f[1] != "ask" || f[0] != "plain" {
			add("classes", f[2], f[1] != "nothing", false, f[1] != "nothing" && care.Tables(f[2]).Level == care.Talk)
		}
	}
	for _, file := range append(slices.Clone(askers), "more-1.tsv", "more-2.tsv") {
		for _, f := range column(t, "../../testdata/asked/"+file, 4) {
			switch topic, _, _ := strings.Cut(f[0], "+"); topic {
			case "sick", "injury", "medicine":
			default:
				add(file, f[3], topic == "red-flag", false, false)
			}
		}
	}
	return out
}

func readHands() (out []string) {
	for _, i := range builtOn {
		out = append(out, fmt.Sprintf("hand-%d", i))
	}
	return out
}

// askers are the writers of plain lines. As many are left out as hands.
var askers = []string{"hand-1.tsv", "hand-2.tsv", "hand-3.tsv", "hand-4.tsv", "hand-5.tsv", "hand-6.tsv", "hand-7.tsv", "hand-8.tsv", "hand-9.tsv", "hand-10.tsv", "hand-11.tsv", "hand-12.tsv", "hand-13.tsv", "hand-14.tsv", "hand-15.tsv", "hand-16.tsv", "hand-17.tsv", "hand-18.tsv", "hand-19.tsv", "hand-20.tsv", "hand-21.tsv", "hand-22.tsv", "hand-23.tsv", "hand-24.tsv", "hand-25.tsv", "hand-26.tsv", "hand-27.tsv", "hand-28.tsv"}

// leftOut is how many hands are left out at a time.
const leftOut = 4

// Hands' lines are read with what the model learns of the others.
func TestCross(t *testing.T) {
	if !*cross {
		notice.Skip(t, "how well hands' lines are read with what the others teach, which takes minutes: go test ./planner/care -run %s -cross", t.Name())
	}
	all := teaching(t)
	hands := readHands()
	var near, danger, plain count
	for at := 0; at < len(hands); at += leftOut {
		out := hands[at:min(at+leftOut, len(hands))]
		asking := askers[min(at, len(askers)):min(at+leftOut, len(askers))]
		var learn []care.Sample
		for _, s := range all {
			if !slices.Contains(out, s.hand) && !slices.Contains(asking, s.hand) {
				learn = append(learn, s.Sample)
			}
		}
		back := care.Learn(care.Train(learn))
		for _, s := range all {
			switch {
			case slices.Contains(out, s.hand) && s.Danger:
				danger.add(care.Read(s.Text).Verdict)
			case slices.Contains(out, s.hand):
				near.add(care.Read(s.Text).Verdict)
			case slices.Contains(asking, s.hand) && !s.Danger:
				plain.add(care.Read(s.Text).Verdict)
			}
		}
		back()
	}
	t.Logf("danger %+v, near misses %+v, plain lines %+v", danger, near, plain)
	// Asking at a tenth of the near misses: docs/rules.md says why it is not a twentieth.
	if danger.missed*50 > danger.lines || near.stopped*100 > near.lines || near.asked*10 > near.lines || plain.stopped*100 > plain.lines || plain.asked*40 > plain.lines {
		t.Error("worse than docs/rules.md says")
	}
}
