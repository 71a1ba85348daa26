package ask_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// An illness that is over holds nothing back. What was never told of it can be told now.
func TestIllnessThatIsOver(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon rest; tue intervals 1h; thu hard 1h; sat easy 1h; sun long 3h"`)
	k.OK(`/race add name:"Hill Loop" date:"28 June" priority:A`)
	for _, line := range []string{"Stomach was off yesterday, fine now, what do I ride?", "had the runs on Saturday, all sorted now, what's tomorrow", "was sick on Thursday but I am well again, may I do the intervals?"} {
		reply := asks(k, line, "sick")
		bottest.Wants(t, reply, "Good to hear. Rest until you have been well for two days, then start easily", "Not saved yet.")
		if strings.Contains(reply.Text(), "Is this about you") || strings.Contains(k.OK("/plan show").Text(), "not training") {
			t.Errorf("%q holds back:\n%s", line, reply.Text())
		}
	}
	bottest.Wants(t, asks(k, "cold's gone since Saturday, back to normal, what do I ride tomorrow?", "sick"), "Good to hear. Start easily")
	reply := asks(k, "had a tummy bug last week, 100% now. When does my taper start?", "sick")
	bottest.Wants(t, reply, "Good to hear.", "Your taper for Hill Loop starts on")
	k.Press(reply, "I was ill")
	bottest.Wants(t, k.OK("/tell well"), "Rest until you have had two days without symptoms")
	reply = asks(k, "stomach was off on Saturday, fine now, what do I ride?", "sick")
	bottest.Wants(t, reply, "Good to hear.")
}

// Who told of it before ends it with the button.
func TestIllnessThatWasToldIsOver(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon rest; tue intervals 1h; thu hard 1h; sat easy 1h; sun long 3h"`)
	k.OK("/tell sick symptoms:fever since:yesterday")
	reply := asks(k, "had a fever last week, over it now, what do I ride", "sick")
	bottest.Wants(t, reply, "Good to hear.")
	bottest.Wants(t, k.Press(reply, "I am well again"), "Noted: well")
}
