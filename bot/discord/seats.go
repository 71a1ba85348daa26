package discord

import "context"

// seats bound how much is worked out at once. Who waits for Discord stands up
// meanwhile, so that no slow answer of Discord takes a seat from others.
type seats chan struct{}

// seatKey is under which a context holds the seats of which it has one.
type seatKey struct{}

// sit does work as soon as there is a seat. It reports false where ctx ends before.
func (s seats) sit(ctx context.Context, work func(context.Context)) bool {
	select {
	case s <- struct{}{}:
	case <-ctx.Done():
		return false
	}
	defer func() { <-s }()
	work(context.WithValue(ctx, seatKey{}, s))
	return true
}

// full reports that there is no seat just now.
func (s seats) full() bool { return len(s) == cap(s) }

// stand waits for something, without the seat if there is one.
func stand(ctx context.Context, wait func()) {
	if s, ok := ctx.Value(seatKey{}).(seats); ok {
		<-s
		defer func() { s <- struct{}{} }()
	}
	wait()
}
