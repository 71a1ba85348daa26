package coach_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
)

// Words of danger in a coach's note hold the rider's training back, who is told and can
// answer. The note is not kept, and the coach's own plan stays.
func TestDangerInANote(t *testing.T) {
	for text, level := range map[string]planner.Level{
		"Ines fainted on the ride today, rest tomorrow":       planner.LevelEmergency,
		"you had chest pain on sunday, take it easy":          planner.LevelEmergency,
		"she hit her head in the crash, easy only":            planner.LevelHead,
		"chest pain on the climb yesterday, easy till friday": planner.LevelEmergency,
	} {
		k := coached(t)
		reply := k.Say(`/coach note athlete:Ines day:tomorrow text:"` + text + `"`)
		if reply.Err != nil || !strings.HasPrefix(reply.Text(), "! ") || !reply.Private || len(reply.Sent) != 1 || len(reply.Sent[0].Buttons) != 3 {
			t.Fatalf("%s: sent %v\n%s", text, reply.Sent, reply.Text())
		}
		as(k, "Ines")
		if holds := k.Facts().Holds; len(holds) != 1 || holds[0].Level != level {
			t.Errorf("%s: holds %+v", text, holds)
		}
		if shown := k.Say("/ride tomorrow").Text() + k.Say("/plan show").Text(); strings.Contains(shown, "intervals") || strings.Contains(shown, "climb") {
			t.Errorf("%s: goes on or is kept:\n%s", text, shown)
		}
		k.Press(say.Reply{Buttons: reply.Sent[0].Buttons}, "You misread me")
		if holds := k.Facts().Holds; len(holds) != 0 {
			t.Errorf("%s: still held %+v", text, holds)
		}
	}
	k := coached(t)
	for _, text := range []string{"Stay in the group today", "keep the head down into the wind", "no chest pain any more I hear, good", "Heart Attack Hill on sunday, hold back"} {
		bottest.Wants(t, k.OK(`/coach note athlete:Ines day:tomorrow text:"`+text+`"`), "Noted for Ines")
	}
	own := k.Say(`/coach note athlete:Ines day:tomorrow text:"I have chest pain myself"`)
	if own.Topic != say.TopicRedFlag || len(k.Facts().Holds) != 1 {
		t.Errorf("a coach who tells of themselves:\n%s", own.Text())
	}
	as(k, "Ines")
	if holds := k.Facts().Holds; len(holds) != 0 {
		t.Errorf("the rider is held for the coach: %+v", holds)
	}
}
