package discord

import (
	"context"
	"sync"
	"time"
)

// seats bound how much is worked out at once. Whoever waits for Discord gives up the seat
// meanwhile, so that no slow answer of Discord takes a seat from others.
type seats chan struct{}

// seatKey is under which a context holds the seats of which it has one.
type seatKey struct{}

// take takes a seat if there is one just now.
func (s seats) take() bool {
	select {
	case s <- struct{}{}:
		return true
	default:
		return false
	}
}

// await takes a seat as soon as there is one. It reports false where ctx ends before.
func (s seats) await(ctx context.Context) bool {
	select {
	case s <- struct{}{}:
		return true
	case <-ctx.Done():
		return false
	}
}

func (s seats) leave() { <-s }

// on is the context of work that has a seat.
func (s seats) on(ctx context.Context) context.Context { return context.WithValue(ctx, seatKey{}, s) }

// sit does work as soon as there is a seat. It reports false where ctx ends before.
func (s seats) sit(ctx context.Context, work func(context.Context)) bool {
	if !s.await(ctx) {
		return false
	}
	defer s.leave()
	work(s.on(ctx))
	return true
}

// stand waits for something, without the seat if there is one.
func stand(ctx context.Context, wait func()) {
	if s, ok := ctx.Value(seatKey{}).(seats); ok {
		s.leave()
		defer func() { s <- struct{}{} }()
	}
	wait()
}

// deferrals are the requests for time that are under way. Meanwhile what was deferred
// waits: each of them needs a little of the processor within three seconds, and work
// would take it from them.
type deferrals struct {
	mu    sync.Mutex
	open  int
	ended chan struct{} // closed when none is left
}

func (d *deferrals) begin() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.open++; d.open == 1 {
		d.ended = make(chan struct{})
	}
}

func (d *deferrals) end() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.open--; d.open == 0 {
		close(d.ended)
	}
}

// none reports that none is under way.
func (d *deferrals) none() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.open == 0
}

// wait waits until none is under way, so long at most.
func (d *deferrals) wait(ctx context.Context, most time.Duration) {
	d.mu.Lock()
	open, ended := d.open, d.ended
	d.mu.Unlock()
	if open == 0 {
		return
	}
	timer := time.NewTimer(most)
	defer timer.Stop()
	select {
	case <-ended:
	case <-timer.C:
	case <-ctx.Done():
	}
}
