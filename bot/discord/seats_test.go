package discord

import (
	"context"
	"testing"
	"time"
)

// Who waits for Discord leaves the seat to others and takes one again afterwards.
func TestSeats(t *testing.T) {
	room := make(seats, 1)
	other := func() (sat bool) {
		ctx, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
		defer cancel()
		return room.sit(ctx, func(context.Context) {})
	}
	sat := room.sit(t.Context(), func(ctx context.Context) {
		if other() {
			t.Error("two have the one seat")
		}
		stand(ctx, func() {
			if !other() {
				t.Error("no seat while nobody has one")
			}
		})
		if other() {
			t.Error("the seat was not taken again")
		}
	})
	if !sat || !other() {
		t.Error("the seat was not given back")
	}
}
