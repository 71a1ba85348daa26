package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// Heavy legs change nothing by themselves; the easier form is one press away.
func TestTired(t *testing.T) {
	k := withWeek(t)
	before := k.Facts()
	reply := k.OK("/tell tired")
	bottest.Wants(t, reply, "Today, Tue 2 Jun: intervals 1h30, 5x3min hard. Nothing changes unless you say so.", "Easier: recovery 30min. It costs one hard session")
	if !bottest.SameFacts(before, k.Facts()) {
		t.Error("something is stored")
	}
	taken := k.Press(reply, "Take the easier form")
	bottest.Wants(t, taken, "at most 30min")
	k.Undo(taken)
	bottest.Wants(t, k.OK("/done", "/tell tired"), "Heavy legs on Tue 2 Jun: the day is over")
	bottest.Wants(t, k.OK("/tell tired day:yesterday"), "Heavy legs on Mon 1 Jun")
	k.Refused("/tell tired day:tomorrow", "day")
	k.Say("I have chest pain")
	if held := k.OK("/tell tired"); strings.Contains(held.Text(), "Easier") || len(held.Buttons) != 3 {
		t.Errorf("held:\n%s", held.Text())
	}
}
