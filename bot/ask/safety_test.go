package ask_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// Whom to call is said for others too, and heat has its caution (ACSM on heat illness, from memory; to call
// and to stay is what first aid teaches, common practice). Nothing is held back for it.
func TestOthersInDangerAndHeat(t *testing.T) {
	k := bottest.NewTalk(t)
	for line, want := range map[string]string{
		"my wife has chest pain":                               "call the emergency number",
		"my teammate passed out on the ride":                   "call the emergency number",
		"a rider collapsed, what do i do":                      "call the emergency number",
		"my friend just crashed and hit his head":              "they must not ride on",
		"how do I ride in the heat?":                           "drink to thirst",
		"it will be 38 degrees on race day, what should I do?": "drink to thirst",
		"is it too hot to race at 38 degrees":                  "for its organiser and local rules",
	} {
		reply := k.Say(line)
		bottest.Wants(t, reply, want)
		if strings.Contains(reply.Text(), "I plan no training") {
			t.Errorf("%q holds training back", line)
		}
	}
	if text := k.Say("my uncle died of a heart attack last year").Text(); strings.Contains(text, "needs help now") {
		t.Error(text)
	}
}
