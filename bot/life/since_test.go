package life_test

import "testing"

// What is told in a plain line is entered with its first day, where it says which, and
// with the part that hurts; one press takes it back.
func TestSinceWhenInAPlainLine(t *testing.T) {
	k := withWeek(t) // Tuesday 2 June
	for line, want := range map[string]string{
		"I have had a fever since yesterday":       "ill 2026-06-01 open rest fever",
		"fever since sunday, may I race on sunday": "ill 2026-05-31 open rest fever",
		"ill since 30 May with a cough":            "ill 2026-05-30 open rest cough",
		"I've had a head cold for two days":        "ill 2026-05-31 open easy head cold",
		"flu for a week now":                       "ill 2026-05-26 open rest unwell",
		"threw up last night":                      "ill 2026-06-01 open rest unwell",
		"fever last night and still this morning":  "ill 2026-06-02 open rest fever",
		"I have a fever":                           "ill 2026-06-02 open rest fever",
		"fever since next sunday":                  "ill 2026-06-02 open rest fever",
		"my knee hurts since the weekend saturday": "injured 2026-06-02 open rest knee",
		"my knee hurts since saturday":             "injured 2026-05-30 open rest knee",
	} {
		reply := k.Say(line)
		wantIlls(t, k, want)
		k.Press(reply, reply.Buttons[0].Label)
		wantIlls(t, k)
	}
}
