package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
)

// A symptom that is back after a knock to the head holds training back again until the doctor's word, and the steps
// begin anew; a cold, a flu or a sore knee does not, nor does any symptom weeks later (consensus on concussion in
// sport 2022: symptoms that return are seen by a professional again; the two weeks are our choice).
func TestHeadSymptomsReturn(t *testing.T) {
	cleared := func(t *testing.T, now string) *bottest.Talk {
		k := bottest.NewTalk(t)
		k.OK(`/week share week:"` + bottest.InesWeek + `"`)
		stopped(t, k, "I banged my head", planner.LevelHead)
		k.OK("/tell well cleared:yes")
		k.Who.Now = bottest.At(now)
		return k
	}
	for _, line := range []string{"headache is back", "my head hurts again after the ride", "/tell sick symptoms:headache", `/tell sick symptoms:"fever, headache"`,
		"/tell sick", `/done minutes:45 note:"rode with a headache again"`, "I have been throwing up since the ride"} {
		k := cleared(t, "2026-06-04T08:00:00Z")
		reply := stopped(t, k, line, planner.LevelHead)
		bottest.Wants(t, reply, "see the doctor again before you ride")
		if strings.HasPrefix(line, "/done") && len(k.Facts().Done) != 1 {
			t.Errorf("%s: the ride is lost", line)
		}
		bottest.Wants(t, k.OK("/ride"), "no training")
		k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
		bottest.Wants(t, k.OK("/tell well cleared:yes"), "20, 30, 40, 45, 60 minutes easy. No hard riding before day 7")
	}
	k := cleared(t, "2026-06-04T08:00:00Z") // a graver sign too
	stopped(t, k, "I am dizzy and have a bad headache", planner.LevelHead)
	if got := heldFor(k); got != "emergency head" {
		t.Errorf("held for %s", got)
	}
	for line, now := range map[string]string{"/tell sick symptoms:fever": "2026-06-04T08:00:00Z", "I have a fever since this morning": "2026-06-04T08:00:00Z",
		`/tell sick symptoms:"head cold"`: "2026-06-04T08:00:00Z", "/tell injured what:knee": "2026-06-04T08:00:00Z", "/tell sick symptoms:headache": "2026-06-16T08:00:00Z"} {
		k := cleared(t, now)
		k.Say(line)
		if got := heldFor(k); got != "" {
			t.Errorf("%s on %s: held for %s", line, now, got)
		}
	}
}

// However soon a doctor clears a rider after a knock to the head, that day and the next one are rest (consensus on
// concussion in sport 2022: no return on the same day, a day or two of rest first).
func TestRestAfterAKnock(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"` + bottest.InesWeek + `"`)
	stopped(t, k, "I banged my head", planner.LevelHead)
	bottest.Wants(t, k.OK("/tell well cleared:yes"), "\nWed 3 Jun, you ride again: recovery 20min.")
	for day, want := range map[string]string{"2026-06-01": "rest.", "2026-06-02": "rest.\nWhy: After a knock on the head you rest that day and the next one, even when a doctor has cleared you.",
		"2026-06-03": "recovery 20min.", "2026-06-08": "recovery 40min.", "2026-06-09": "intervals"} {
		bottest.Wants(t, k.OK("/ride "+day), want)
	}
}
