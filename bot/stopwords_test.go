package bot_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/say"
)

// A plain line gets stop words where training is held back by them, and nowhere else:
// what decides both is one function, for lines that tell of danger and for near misses.
func TestStopWordsHold(t *testing.T) {
	var stop, near struct{ lines, stopped, asked, forOthers int }
	for hand := 25; hand <= 30; hand++ {
		for _, kind := range []string{"stop", "near"} {
			raw, err := os.ReadFile(fmt.Sprintf("../testdata/care/hand-%d-%s.tsv", hand, kind))
			if err != nil {
				t.Fatal(err)
			}
			k := bottest.NewTalk(t)
			k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
			i := 0
			for row := range strings.Lines(string(raw)) {
				f := strings.SplitN(strings.TrimRight(row, "\r\n"), "\t", 3)
				if i++; len(f) < 3 || i%rounds.Every(1) > 0 {
					continue
				}
				reply := k.Say(f[2])
				first, _, _ := strings.Cut(reply.Text(), "\n")
				if reply.Topic == say.TopicRedFlag && len(reply.Buttons) == 0 {
					continue // words of its own, for who may harm themselves: the plan stays
				}
				told, holds := strings.Contains(first, "112"), held(k) // in any language
				count := &stop
				if kind == "near" {
					count = &near
				}
				count.lines++
				if !holds && strings.HasPrefix(first, "! If somebody needs help now") {
					count.forOthers++ // whom to call for somebody else holds nothing of the writer's back
					continue
				}
				if told != holds || holds && reply.Topic != say.TopicRedFlag {
					t.Errorf("%q: stop words %v, held %v, topic %s:\n%s", f[2], told, holds, reply.Topic, reply.Text())
				}
				switch {
				case told && strings.HasPrefix(first, "! "):
					count.stopped++
				case told:
					count.asked++
				}
				ends(k, reply)
			}
		}
	}
	if stop.forOthers > 0 || near.forOthers > near.lines/100 {
		t.Errorf("whom to call for others: %d lines of danger, %d near misses", stop.forOthers, near.forOthers)
	}
	t.Logf("danger %+v, near misses %+v", stop, near)
}

// ends takes back what a line has entered: what is held for a knock to the head besides
// is asked about once more.
func ends(k *bottest.Talk, reply say.Reply) {
	for _, b := range reply.Buttons {
		switch b.Label {
		case "No, I do not", "You misread me", "I am not ill", "I am not injured":
			if reply = k.Press(reply, b.Label); held(k) {
				k.Press(reply, "You misread me")
			}
			return
		}
	}
}
