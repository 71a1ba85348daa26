package races_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// held is a rider with a plan message whose buttons stay open.
func held(t *testing.T) (*bottest.Talk, say.Reply) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"` + bottest.InesWeek + `"`)
	return k, k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
}

// A race that is renamed or moved keeps the buttons of messages that are open.
func TestButtonsFollowTheirRace(t *testing.T) {
	k, reply := held(t)
	k.OK(`/race change race:"Hill Loop" name:"Mill Tour"`)
	if got := k.Press(reply, "Show plan"); got.Err != nil || got.Race != "Mill Tour" {
		t.Errorf("renamed: %s", got.Text())
	}
	k.OK(`/race change race:"Mill Tour" date:2026-07-05`)
	if got := k.Press(reply, "Show plan"); got.Err != nil || got.Date.String() != "2026-07-05" {
		t.Errorf("moved: %s", got.Text())
	}
}

// Another race that takes the old name and date is not the button's race.
func TestButtonsDoNotTakeAnotherRace(t *testing.T) {
	k, reply := held(t)
	k.OK(`/race change race:"Hill Loop" name:"Mill Tour" date:2026-07-05`, `/race add name:"Hill Loop" date:2026-06-28 priority:C`)
	if got := k.Press(reply, "Show plan"); got.Race != "Mill Tour" {
		t.Errorf("shows %s", got.Text())
	}
	k.OK(`/race remove race:"Mill Tour 2026-07-05"`)
	if got := k.Press(reply, "Show plan"); got.Err == nil || !strings.Contains(got.Text(), "not in your calendar any more. You have Hill Loop (2026-06-28)") {
		t.Errorf("of a race that is gone: %s", got.Text())
	}
}

// Two races of one name, and two on one day, each have their buttons.
func TestButtonsTellRacesApart(t *testing.T) {
	k, first := held(t)
	later := k.OK(`/race add name:"Hill Loop" date:2026-08-30 priority:A hours:3h30`)
	second := k.OK(`/race add name:"Dawn Mile" date:2026-08-30 priority:C hours:1h start:07:00`)
	for reply, want := range map[*say.Reply]string{&first: "Hill Loop 2026-06-28", &later: "Hill Loop 2026-08-30", &second: "Dawn Mile 2026-08-30"} {
		if got := k.Press(*reply, "Show plan"); got.Race+" "+got.Date.String() != want {
			t.Errorf("shows %s %s, want %s", got.Race, got.Date, want)
		}
	}
	undo := k.OK(`/race change race:"Hill Loop 2026-08-30" start:09:00`)
	k.OK(`/race change race:"Hill Loop 2026-08-30" date:2026-09-06`)
	if got := k.Undo(undo); got.Date.String() != "2026-09-06" {
		t.Errorf("undone at %s: %s", got.Date, got.Text())
	}
}

// Buttons of old messages name the race.
func TestOldButtonsAreUnderstood(t *testing.T) {
	k, _ := held(t)
	old := map[string]string{"race": "Hill Loop 2026-06-28"}
	if got := k.Ask("plan show", old, ""); got.Err != nil || got.Race != "Hill Loop" {
		t.Errorf("%s", got.Text())
	}
	k.OK(`/race change race:"Hill Loop" name:"Mill Tour"`)
	if got := k.Ask("plan show", old, ""); got.Err == nil || !strings.Contains(got.Text(), "You have Mill Tour (2026-06-28)") {
		t.Errorf("%s", got.Text())
	}
}

// Who joins from an open message joins the race under its new name, and not one
// that took its place.
func TestJoinFollowsTheRace(t *testing.T) {
	k, reply := held(t)
	message := say.Reply{Buttons: reply.Sent[0].Buttons}
	k.OK(`/race change race:"Hill Loop" name:"Mill Tour"`, `/race add name:"Hill Loop" date:2026-06-28 priority:C`)
	k.As("Greta")
	got := k.Press(k.Press(message, message.Buttons[0].Label), "B race")
	if got.Err != nil || got.Race != "Mill Tour" {
		t.Errorf("joins %s", got.Text())
	}
	if got := k.Press(message, message.Buttons[0].Label); got.Err == nil || !strings.Contains(got.Text(), "in your calendar already") {
		t.Errorf("twice: %s", got.Text())
	}
	k.As("Ines")
	k.OK(`/race remove race:"Mill Tour"`)
	k.As("Otto")
	if got := k.Press(message, message.Buttons[0].Label); got.Err == nil || !strings.Contains(got.Text(), "any more") {
		t.Errorf("of a race that is gone: %s", got.Text())
	}
}

// No race is called like the number that buttons carry.
func TestNumbersAreNoNames(t *testing.T) {
	k, _ := held(t)
	k.Refused(`/race add name:#1 date:2026-07-12 priority:C`, "name")
	k.Refused(`/race change race:"Hill Loop" name:#1`, "name")
}
