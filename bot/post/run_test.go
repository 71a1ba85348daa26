package post

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"musette/storage"
)

// bubble is a house where time is told by the test: it begins at midnight UTC on
// 1 January 2000 and passes only when all wait.
type bubble struct {
	*house
	room *room
	time func() time.Time // of the Poster
	log  bytes.Buffer

	elsewhere func(context.Context) (time.Time, bool)
}

func inBubble(t *testing.T, f func(*testing.T, *bubble)) {
	synctest.Test(t, func(t *testing.T) {
		b := &bubble{house: newHouse(t, &clock{}), time: time.Now}
		b.db.Now = time.Now
		b.room = newRoom(b.clock)
		f(t, b)
		if strings.Contains(b.log.String(), "secret") {
			t.Errorf("the log tells: %s", b.log.String())
		}
	})
}

// run starts a Poster; stop ends it and tells how long that took.
func (b *bubble) run(t *testing.T, s Sender) (stop func() time.Duration) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan time.Time, 1)
	p := New(Config{DB: b.db, Bot: words{}, Sender: s, Now: b.time, Elsewhere: b.elsewhere, Log: slog.New(slog.NewTextHandler(&b.log, nil))})
	go func() {
		if err := p.Run(ctx); err != nil {
			t.Error(err)
		}
		ended <- time.Now()
	}()
	return func() time.Duration {
		asked := time.Now()
		cancel()
		return (<-ended).Sub(asked)
	}
}

// riderAt makes a rider who is reminded so many minutes after midnight, UTC.
func (b *bubble) riderAt(t *testing.T, minute int) {
	t.Helper()
	b.set(time.Now())
	club := b.club(t, "1", "UTC")
	noDigest(t, b.house, club)
	b.rider(t, club, fmt.Sprint(11+minute), "", fmt.Sprintf("00:%02d", minute))
}

// bubbleRoom is a Sender that tells the time by the bubble's clock.
type bubbleRoom struct {
	*room
	hold func(ctx context.Context, m Message) error
}

func (r bubbleRoom) Send(ctx context.Context, m Message) error {
	if r.hold != nil {
		if err := r.hold(ctx, m); err != nil {
			return err
		}
	}
	r.set(time.Now())
	return r.room.Send(ctx, m)
}

func TestRunTicksEachMinute(t *testing.T) {
	inBubble(t, func(t *testing.T, b *bubble) {
		for _, minute := range []int{0, 1, 5, 6} {
			b.riderAt(t, minute)
		}
		time.Sleep(10 * time.Second)
		stop := b.run(t, bubbleRoom{room: b.room})
		synctest.Wait()
		wantSeen(t, "at once", b.room.take(), "reminder 11 2000-01-01")
		time.Sleep(5 * time.Minute)
		synctest.Wait()
		seen := b.room.take()
		wantSeen(t, "five minutes", seen, "reminder 12 2000-01-01", "reminder 16 2000-01-01")
		for _, s := range seen {
			if s.at.Second() != 0 {
				t.Errorf("%+v is not on its minute", s)
			}
		}
		if took := stop(); took != 0 {
			t.Errorf("took %v to end with nothing to do", took)
		}
		time.Sleep(5 * time.Minute)
		wantSeen(t, "after the end", b.room.take())
	})
}

// A tick that takes long delays what comes, but runs alone and loses nothing.
func TestRunSkipsWhileBusy(t *testing.T) {
	inBubble(t, func(t *testing.T, b *bubble) {
		for _, minute := range []int{1, 2, 3, 4} {
			b.riderAt(t, minute)
		}
		var mu sync.Mutex
		busy, most := 0, 0
		slow := bubbleRoom{room: b.room, hold: func(ctx context.Context, _ Message) error {
			mu.Lock()
			busy++
			most = max(most, busy)
			mu.Unlock()
			time.Sleep(50 * time.Second)
			mu.Lock()
			busy--
			mu.Unlock()
			return nil
		}}
		slowest := slow.hold
		slow.hold = func(ctx context.Context, m Message) error { // the first takes two minutes in two tries
			if m.Athlete.ID == 1 && m.Post.Tries == 0 {
				<-ctx.Done()
				return ctx.Err()
			}
			return slowest(ctx, m)
		}
		stop := b.run(t, slow)
		time.Sleep(8 * time.Minute)
		stop()
		wantSeen(t, "all", b.room.take(), "reminder 12 2000-01-01", "reminder 13 2000-01-01", "reminder 14 2000-01-01", "reminder 15 2000-01-01")
		if most > 2 {
			t.Errorf("%d sends at once, want one tick at a time", most)
		}
		if !strings.Contains(b.log.String(), "skipped") {
			t.Error("no tick was skipped")
		}
	})
}

// A panic in a tick is logged without what it says, and the next tick comes.
func TestRunSurvivesPanics(t *testing.T) {
	inBubble(t, func(t *testing.T, b *bubble) {
		b.riderAt(t, 3)
		calls := 0
		b.time = func() time.Time {
			if calls++; calls == 2 { // the tick of the first minute
				panic("a secret")
			}
			return time.Now()
		}
		stop := b.run(t, bubbleRoom{room: b.room})
		time.Sleep(5 * time.Minute)
		stop()
		wantSeen(t, "after the panic", b.room.take(), "reminder 14 2000-01-01")
		if log := b.log.String(); !strings.Contains(log, "what=panic") || !strings.Contains(log, "run.go") {
			t.Errorf("the log does not tell where it happened: %s", log)
		}
	})
}

// What has begun when Run is told to end is finished; what takes for ever is cut off.
func TestRunEnds(t *testing.T) {
	for _, tc := range []struct {
		what      string
		send      time.Duration // 0: until it is cut off
		took      time.Duration
		delivered bool
	}{{"a send under way", 10 * time.Second, 5 * time.Second, true}, {"a send that hangs", 0, grace, false}} {
		inBubble(t, func(t *testing.T, b *bubble) {
			b.riderAt(t, 1)
			stop := b.run(t, bubbleRoom{room: b.room, hold: func(ctx context.Context, _ Message) error {
				if tc.send > 0 {
					time.Sleep(tc.send)
					return ctx.Err()
				}
				<-ctx.Done()
				return errors.Join(errWeather, ctx.Err())
			}})
			time.Sleep(time.Minute + 5*time.Second)
			if took := stop(); took != tc.took {
				t.Errorf("%s: took %v, want %v", tc.what, took, tc.took)
			}
			if got := len(b.room.take()) == 1; got != tc.delivered {
				t.Errorf("%s: delivered %t", tc.what, got)
			}
			post := b.posts(t, 1)[0]
			if sent := post.State == storage.PostSent; sent != tc.delivered || post.Tries != 1 {
				t.Errorf("%s: recorded %+v", tc.what, post)
			}
		})
	}
}
