package bot_test

import (
	"testing"

	"musette/bot/bottest"
)

// A transport that asks beforehand whether a command is for somebody looks them up for
// the answer too: the rider's row is read once.
func TestWhoAsksIsLookedUpOnce(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	req := k.Who
	req.Command, req.Options = "ride", map[string]string{}
	if reply, forbidden := k.Bot.Forbids(t.Context(), &req); forbidden {
		t.Fatalf("forbidden: %s", reply.Text())
	}
	found := req.Rider
	if found == nil || !found.Known() {
		t.Fatalf("found %+v", found)
	}
	found.Athlete.Settings.Zone, found.Today = "Asia/Tokyo", found.Today.AddDays(1) // a second look-up would undo it
	reply, err := k.Bot.Handle(t.Context(), req)
	if err != nil || req.Rider != found || reply.Date != found.Today {
		t.Errorf("answered for %s, want %s: %v", reply.Date, found.Today, err)
	}
}
