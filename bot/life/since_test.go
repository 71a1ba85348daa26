package life_test

import (
	"testing"

	"musette/bot/bottest"
)

// What is told in a plain line offers the command with the first day, where it says
// which, and with the part that hurts.
func TestSinceWhenInAPlainLine(t *testing.T) {
	k := withWeek(t) // Tuesday 2 June
	for line, want := range map[string]string{
		"I have had a fever since yesterday":       "I am ill: /tell sick since:2026-06-01 symptoms:fever",
		"fever since sunday, may I race on sunday": "I am ill: /tell sick since:2026-05-31 symptoms:fever",
		"ill since 30 May with a cough":            "I am ill: /tell sick since:2026-05-30 symptoms:cough",
		"I've had a head cold for two days":        "I am ill: /tell sick since:2026-05-31 symptoms:\"head cold\"",
		"flu for a week now":                       "I am ill: /tell sick since:2026-05-26 symptoms:unwell",
		"threw up last night":                      "I am ill: /tell sick since:2026-06-01 symptoms:unwell",
		"fever last night and still this morning":  "I am ill: /tell sick symptoms:fever\n",
		"I have a fever":                           "I am ill: /tell sick symptoms:fever\n",
		"fever since next sunday":                  "I am ill: /tell sick symptoms:fever\n",
		"my knee hurts since the weekend saturday": "I am injured: /tell injured what:knee",
		"my knee hurts since saturday":             "I am injured: /tell injured since:2026-05-30 what:knee",
	} {
		reply := k.Say(line)
		bottest.Wants(t, reply, want)
		if len(k.Facts().Ill) != 0 {
			t.Fatalf("%s: stored before the press", line)
		}
	}
	k.Press(k.Say("I have had a fever since yesterday"), "I am ill")
	wantIlls(t, k, "ill 2026-06-01 open rest fever")
}
