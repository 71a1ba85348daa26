package care_test

import (
	"testing"

	"musette/planner/care"
)

// An illness of a few days ago that is over holds nobody back, and is known as one.
func TestIllnessThatIsOver(t *testing.T) {
	for _, text := range []string{
		"Stomach was off yesterday, fine now, what do I ride?",
		"stomach was off yesterday but i'm fine now, what do i ride",
		"My stomach was bad on Tuesday, all good now. Can I do the intervals?",
		"had an upset stomach at the weekend, gone now",
		"I was sick on Monday but I am well again, what is tomorrow's ride?",
		"felt rough yesterday, right as rain today. Session?",
		"had the runs on sunday, all sorted now, whats tomorrow",
		"threw up on monday night, fine since tuesday, do I ride tomorrow",
		"had a tummy bug last week. 100% now. when does my taper start",
		"had a fever last week, over it now, what do I ride",
		"was poorly on sunday, well again since tuesday",
		"i felt ill on saturday but now i feel well, what do i ride today",
	} {
		if f := care.Read(text); f.Verdict != care.Nothing || !f.Over {
			t.Errorf("%q: %+v", text, f)
		}
	}
}

// What is not over, too near, or graver is found as it was.
func TestIllnessThatIsNotOver(t *testing.T) {
	for _, text := range []string{
		"threw up twice last night, better now",
		"fever yesterday, gone today, ride?",
		"stomach was off yesterday, better but not right yet, what do I ride?",
		"stomach was off yesterday, fine now, but my chest feels tight",
		"was sick on monday, fine now, but dizzy when i stand",
		"had the trots since sunday, ok now i think",
		"sick on monday, fine now, still a bit weak",
		"i made myself sick on sunday, fine now",
		"fainted yesterday, stomach was off, fine now",
		"had flu since monday, good now, hit my head yesterday though",
		"stomach pain yesterday, rock hard, fine now",
	} {
		if f := care.Read(text); f.Verdict == care.Nothing || f.Over {
			t.Errorf("%q: %+v", text, f)
		}
	}
	for _, hand := range builtOn {
		for _, l := range lines(t, hand, "stop") {
			if care.Read(l.text).Over {
				t.Errorf("hand %d: over: %s", hand, l.text)
			}
		}
	}
}
