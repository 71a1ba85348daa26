package bot_test

import (
	"reflect"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// Where the transport asks, nothing is removed before the button.
func TestRemovingAsksFirst(t *testing.T) {
	for name, race := range map[string]string{"ordinary": "Hill Loop", "longest": strings.Repeat("Loop ", 39) + "Lopes", "with a date": "Cup 2026-06-14", "signs": "!?!", "quoted": `The "Old" \ Loop`} {
		k := bottest.NewTalk(t)
		k.OnPlatform("9", "1")
		k.OK("/week share week:\"" + bottest.InesWeek + "\"")
		k.Ask("race add", map[string]string{"name": race, "date": "2026-06-28", "priority": "A"}, "")
		k.Who.Ask = true
		before := k.Facts()
		reply := k.Ask("race remove", map[string]string{"race": race}, "")
		if reply.Err != nil || reply.Race != race || !reply.Private || len(reply.Sent) != 0 {
			t.Fatalf("%s: %+v", name, reply)
		}
		bottest.Wants(t, reply, "Take "+race+" on Sunday 28 June 2026 out of your calendar?", "Nothing has changed yet.")
		if got := k.Facts(); !bottest.SameFacts(got, before) {
			t.Errorf("%s: asking changed %+v to %+v", name, before.Races, got.Races)
		}
		if len(reply.Buttons) != 2 || !reply.Buttons[0].Danger || reply.Buttons[0].Label != "Remove it" || !reflect.DeepEqual(reply.Buttons[1], say.Button{Label: "Keep it"}) {
			t.Fatalf("%s: buttons %+v", name, reply.Buttons)
		}
		done := k.Press(reply, "Remove it")
		if done.Err != nil || len(k.Facts().Races) != 0 {
			t.Fatalf("%s: %s; left %+v", name, done.Text(), k.Facts().Races)
		}
		bottest.Wants(t, done, race+" on Sunday 28 June 2026 is out of your calendar.", "What changes in your plan:")
		after := k.Facts()
		again := k.Press(reply, "Remove it") // an old message stays there
		if again.Err == nil || again.Err.Field != "race" || strings.Contains(again.Text(), "\n") || strings.Contains(again.Text(), "reference") || !bottest.SameFacts(k.Facts(), after) {
			t.Errorf("%s: pressed again: %q", name, again.Text())
		}
		k.Undo(done)
		if got := k.Facts(); !bottest.SameFacts(got, before) {
			t.Errorf("%s: came back as %+v, was %+v", name, got.Races, before.Races)
		}
	}
}

// A button that asked about a race removes no other one in its place.
func TestOldQuestionRemovesNothingElse(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Ask = true
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A`, `/race add name:"Hill Loops" date:2026-07-05 priority:C`)
	reply := k.OK(`/race remove race:"Hill Loop"`)
	k.OK(`/race change race:"Hill Loop" date:2026-07-12`)
	before := k.Facts()
	if again := k.Press(reply, "Remove it"); again.Err == nil || !bottest.SameFacts(k.Facts(), before) {
		t.Errorf("the race has another date: %s, left %+v", again.Text(), k.Facts().Races)
	}
	k.OK(`/race change race:"Hill Loop" name:"Town Lap"`)
	before = k.Facts()
	if again := k.Press(reply, "Remove it"); again.Err == nil || !bottest.SameFacts(k.Facts(), before) {
		t.Errorf("the race has another name: %s, left %+v", again.Text(), k.Facts().Races)
	}
}

// Asking comes after all that is refused, and only before what takes away.
func TestAskingRefusesAsBefore(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Ask = true
	k.Refused("/race remove race:Hill", "race")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A`, `/race add name:"Mill" date:2026-06-10 priority:C`, `/race add name:"Mill" date:2026-07-10 priority:C`)
	k.Refused("/race remove race:hil", "race")
	k.Refused("/race remove race:Mill", "race")
	if got := len(k.Facts().Races); got != 3 {
		t.Errorf("%d races stored, want 3: adding needs no question", got)
	}
	k.As("Tomas")
	k.Refused(`/race remove race:"Hill Loop"`, "race")
}
