package discord

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"musette/bot/discord/discordtest"
	"musette/bot/post"
)

// gate sends the first message once it is opened, and the others after it.
type gate struct {
	*App
	begun, open chan struct{}
	once        sync.Once
}

func (g *gate) Send(ctx context.Context, m post.Message) error {
	g.once.Do(func() { close(g.begun); <-g.open })
	return g.App.Send(ctx, m)
}

// Who stops or pauses reminders, takes another way, erases everything or has to stop
// training while a batch goes out gets none of it any more; the others get theirs.
func TestStopReachesTheBatch(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.crowd(7)
	name := func(i int) string { return fmt.Sprintf("Rider %d", i) }
	for i := range 7 {
		s.tapering(name(i))
		s.give(s.in(name(i)), "me set", "remind", "always 06:30")
	}
	g := &gate{App: s.app, begun: make(chan struct{}), open: make(chan struct{})}
	slow := post.New(post.Config{DB: s.db, Bot: lookedUp{s.app}, Sender: g, Now: s.now, AtOnce: 1})
	s.clock.Store(start.AddDate(0, 0, 1).Add(-90 * 60e9).Unix()) // Tuesday, 06:30 in Lisbon
	ended := make(chan error, 1)
	go func() { ended <- slow.Tick(s.within(), s.now()) }()
	<-g.begun
	s.shows(s.give(s.in(name(1)), "me set", "remind", "off"), "You get no reminders")
	s.give(s.in(name(2)), "me set", "pause", "3")
	s.give(s.in(name(3)), "me set", "remind-by", "ride")
	s.shows(s.give(s.in(name(4)), "tell sick", "symptoms", "chest pain"), "emergency number")
	s.shows(s.press(s.in(name(5)), s.give(s.in(name(5)), "me erase"), "Erase everything"), "is erased")
	close(g.open)
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{1, 0, 0, 0, 0, 0, 1} {
		if got := len(s.written(name(i))); got != want {
			t.Errorf("%s got %d messages, want %d", name(i), got, want)
		}
	}
}
