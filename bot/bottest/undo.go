package bottest

import (
	"musette/bot/say"
)

// Undo presses the button Undo of a reply.
func (k *Talk) Undo(r say.Reply) say.Reply {
	k.T.Helper()
	if len(r.Buttons) != 1 || r.Buttons[0].Label != "Undo" {
		k.T.Fatalf("no undo in %v:\n%s", r.Buttons, r.Text())
	}
	reply := k.Press(r, "Undo")
	if reply.Err != nil {
		k.T.Fatalf("undo of %s: %s", r.Text(), reply.Text())
	}
	return reply
}
