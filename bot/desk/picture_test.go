package desk_test

import (
	"context"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/picture"
	"musette/bot/say"
)

// Whose picture has no turn in time gets the answer alone, which says so, and whose
// request ends meanwhile does not wait for it.
func TestDrawingIsBounded(t *testing.T) {
	k := bottest.NewTalk(t)
	var taken []func()
	for range picture.AtOnce {
		done, err := picture.Turn(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		taken = append(taken, done)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan say.Reply)
	go func() {
		var reply say.Reply
		k.Base.Attach(ctx, &reply, "plan.png", func() (picture.Picture, error) { return picture.Picture{}, nil })
		done <- reply
	}()
	cancel()
	if reply := <-done; len(reply.Files) != 0 || !strings.Contains(k.Log.String(), "picture left out") {
		t.Errorf("%d files; log:\n%s", len(reply.Files), k.Log)
	}
	var late say.Reply
	k.Base.Attach(t.Context(), &late, "plan.png", func() (picture.Picture, error) { return picture.Picture{}, nil })
	if len(late.Files) != 0 || !strings.Contains(late.Text(), "many are being drawn just now") {
		t.Errorf("%d files: %s", len(late.Files), late.Text())
	}
	for _, give := range taken {
		give()
	}
	var reply say.Reply
	if k.Base.Attach(t.Context(), &reply, "plan.png", nil); len(reply.Files) != 1 {
		t.Errorf("%d files once there is room", len(reply.Files))
	}
}
