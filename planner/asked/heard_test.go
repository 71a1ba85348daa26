package asked_test

import (
	"testing"

	"musette/planner/asked"
)

// What dictation has written for other words is put back, and what was written rightly stays.
func TestDictatedWords(t *testing.T) {
	k := sampleKnown(t)
	for text, want := range map[string]string{
		"who is in a tape her":                        "who is in a taper",
		"what does our pea ee six mean":               "what does rpe six mean",
		"how many ours do i have left this weak":      "how many hours do i have left this week",
		"how much car bow hydrate before the race":    "how much carbohydrate before the race",
		"can i take pair a seat a mole":               "can i take paracetamol",
		"what race is necks for me":                   "what race is next for me",
		"when do i drop the waits":                    "when do i drop the weights",
		"how long do i worm up":                       "how long do i warm up",
		"send me the i see s file":                    "send me the ics file",
		"my saddle saw is worse":                      "my saddle sore is worse",
		"is that aloud":                               "is that allowed",
		"what do i ride tomorrow an how hard is it":   "what do i ride tomorrow and how hard is it",
		"ibuprofen one hour before a race":            "ibuprofen one hour before a race",
		"recovery or training after the crit":         "recovery or training after the crit",
		"can i print it like for a calendar i like":   "can i print it like for a calendar i like",
		"should i dig a hole first":                   "should i dig a hole first",
		"the crit or am i racing tired":               "the crit or am i racing tired",
		"my legs make a weak impression":              "my legs make a weak impression",
		"can i wait for the group and see what is on": "can i wait for the group and see what is on",
	} {
		m := asked.Read(text, k)
		have := ""
		for i := range m.Parts {
			if i > 0 {
				have += " and "
			}
			have += m.Parts[i].Mended()
		}
		if have != want {
			t.Errorf("%s: read as %q", text, have)
		}
	}
}

// Names that dictation has taken apart are found.
func TestDictatedNames(t *testing.T) {
	k := sampleKnown(t)
	k.Riders = []string{"Tomas", "Ines"}
	for text, want := range map[string]string{"what has toe mass done this week": "Tomas", "how is toe mass doing": "Tomas", "i do not want to miss a ride": "", "can i go to mass on sunday": ""} {
		if p := asked.Read(text, k).Parts[0]; p.Rider != want {
			t.Errorf("%s: rider %q", text, p.Rider)
		}
	}
}
