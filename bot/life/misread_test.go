package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
)

// heldFor are the levels of the stops that stand.
func heldFor(k *bottest.Talk) string {
	var list []string
	for _, h := range k.Facts().Holds {
		if h.Cleared.IsZero() {
			list = append(list, h.Level.String())
		}
	}
	return strings.Join(list, " ")
}

// A line that tells of two stops is answered by one press, which is taken back by one.
func TestTwoStopsOfOneLine(t *testing.T) {
	k := withWeek(t)
	stop := k.Say("i crashed, hit my head and passed out")
	if heldFor(k) != "emergency head" {
		t.Fatalf("held for %q:\n%s", heldFor(k), stop.Text())
	}
	before := k.Stored()
	back := k.Press(stop, "You misread me")
	bottest.Wants(t, back, "Your plan is back.")
	if heldFor(k) != "" {
		t.Fatalf("held for %q", heldFor(k))
	}
	again := k.Press(back, "Undo")
	bottest.Wants(t, again, "held back again, since Tue 2 Jun", "112")
	if !sameStored(before, k.Stored()) {
		t.Errorf("undone: %+v", k.Facts().Holds)
	}
	cleared := k.Press(again, "A doctor has cleared me")
	bottest.Wants(t, cleared, "20, 30, 40, 45, 60 minutes easy")
	k.Press(cleared, "Not cleared after all")
	if !sameStored(before, k.Stored()) {
		t.Errorf("not cleared after all: %+v", k.Facts().Holds)
	}
}

// Of stops that stand, told one by one, one that was misread leaves the others; which
// is asked where it is not named.
func TestWhichWasMisread(t *testing.T) {
	k := withWeek(t)
	stopped(t, k, "I banged my head", planner.LevelHead)
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	faint := stopped(t, k, "i fainted on the stairs", planner.LevelEmergency)
	which := k.OK("/tell well cleared:not-that")
	bottest.Wants(t, which, "a sign of an emergency, entered on Thu 4 Jun, and for a knock to the head, entered on Tue 2 Jun. Which did I misread?")
	if len(which.Buttons) != 3 || heldFor(k) != "head emergency" {
		t.Errorf("%d buttons, held for %q", len(which.Buttons), heldFor(k))
	}
	before := k.Stored()
	reply := k.Press(faint, "You misread me")
	bottest.Wants(t, reply, "Training stays held back for a knock to the head, entered on Tue 2 Jun.")
	k.Press(reply, "Undo")
	if !sameStored(before, k.Stored()) {
		t.Errorf("undone: %+v", k.Facts().Holds)
	}
	k.Press(which, "Both")
	if heldFor(k) != "" {
		t.Errorf("held for %q", heldFor(k))
	}
	bottest.Wants(t, k.OK("/tell well cleared:not-that"), "Nothing is held back")
}

// A stop on the day of a doctor's word is another one: where it was misread the word and
// the steps after a knock to the head stay.
func TestStopOnTheDayOfClearance(t *testing.T) {
	k := withWeek(t)
	stopped(t, k, "I banged my head", planner.LevelHead)
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	k.OK("/tell well cleared:yes")
	before, ride := k.Stored(), k.OK("/ride tomorrow").Text()
	reply := stopped(t, k, "I banged my head again this morning", planner.LevelHead)
	bottest.Wants(t, k.OK("/plan show"), "since Thu 4 Jun")
	k.Press(reply, "You misread me")
	if !sameStored(before, k.Stored()) || k.OK("/ride tomorrow").Text() != ride {
		t.Errorf("the doctor's word is gone: %+v\n%s", k.Facts().Holds, k.OK("/ride tomorrow").Text())
	}
	bottest.Wants(t, k.Say("/tell well cleared:not-yet"), "held back again, since Tue 2 Jun")
}

// Still ill is an answer to the question how one is, and which of two is over is not asked then.
func TestStillIllOfTwo(t *testing.T) {
	k := withWeek(t)
	k.OK("/tell sick symptoms:fever", "/tell injured what:knee")
	bottest.Wants(t, k.OK("/tell well cleared:not-yet"), "you are still ill")
	bottest.Wants(t, k.OK("/tell well cleared:not-yet of:injury"), "you are still injured")
	bottest.Wants(t, k.OK("/tell well"), "Which is over")
	k.Say("i have chest pain")
	bottest.Wants(t, k.OK("/tell well of:emergency"), "Training stays held back until a doctor has cleared you.")
	wantIlls(t, k, "ill 2026-06-02 open rest fever", "injured 2026-06-02 open rest knee")
}

// Who writes that a doctor has cleared them while training is held back is asked to say so
// by the command; nothing ends by the line alone.
func TestClearedInWords(t *testing.T) {
	k := withWeek(t)
	stopped(t, k, "I have chest pain", planner.LevelEmergency)
	for _, line := range []string{"my doctor cleared me", "got the all clear from the hospital", "the gp says I can ride again", "doc signed me off as fit"} {
		reply := k.Say(line)
		bottest.Wants(t, reply, "A doctor has cleared me: /tell well cleared:yes")
		if heldFor(k) != "emergency" {
			t.Errorf("%s, and %q is held: %s", line, heldFor(k), reply.Text())
		}
	}
	for _, line := range []string{"the doctor has not cleared me", "what if the doctor cleared me", "weather is clear tomorrow"} {
		if text := k.Say(line).Text(); strings.Contains(text, "If a doctor has cleared you, say so by the button") {
			t.Errorf("%s: %s", line, text)
		}
	}
	bottest.Wants(t, k.OK("/tell well cleared:yes day:yesterday"), "I count it from today on")
}

// Who is ill or hurt and writes that they are well is offered the command, and while
// training is held back the doctor's word is asked for.
func TestWellInWords(t *testing.T) {
	k := withWeek(t)
	k.OK("/tell sick symptoms:fever since:yesterday")
	for _, line := range []string{"I'm well now", "i feel better", "feeling fine again!", "all good now", "I am well"} {
		bottest.Wants(t, k.Say(line), "Good to hear.", "/tell well")
	}
	for _, line := range []string{"i'm not well", "when am i well enough to ride", "i feel no better"} {
		if text := k.Say(line).Text(); strings.Contains(text, "Good to hear") {
			t.Errorf("%s: %s", line, text)
		}
	}
	k.OK("/tell injured what:knee since:yesterday")
	k.Press(k.OK("/tell well day:today"), "The injury")
	wantIlls(t, k, "ill 2026-06-01 open rest fever", "injured 2026-06-01 2026-06-01 rest knee")
	k.Say("i have chest pain")
	bottest.Wants(t, k.Say("i feel better"), "Training stays held back until a doctor has cleared you.")
}

// An illness is not lost behind a part of the body that hurts as well.
func TestIllAndHurt(t *testing.T) {
	k := withWeek(t)
	k.Say("felt dizzy and puked after the ride, also my knee is sore")
	wantIlls(t, k, "ill 2026-06-02 open rest unwell+knee")
	k = withWeek(t)
	k.Say("my knee hurts when i pedal, and it is worse on climbs")
	wantIlls(t, k, "injured 2026-06-02 open rest knee")
}

// Who writes that they were misread is shown the answers, and nothing ends by the line.
func TestMisreadInWords(t *testing.T) {
	k := withWeek(t)
	stopped(t, k, "i fell off my bike and cant remember the last 10 minutes", planner.LevelHead)
	for _, line := range []string{"no that was my brother", "i was joking", "you misread me there", "that wasn't me"} {
		bottest.Wants(t, k.Say(line), "If I misread you", "You misread me: /tell well cleared:not-that")
		if heldFor(k) == "" {
			t.Fatalf("%s ends it", line)
		}
	}
}
