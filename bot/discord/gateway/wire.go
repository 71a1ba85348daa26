package gateway

import (
	"context"
	"crypto/tls"
	"errors"
	"net"
	"os"
	"sync"
	"time"
)

// ticket is what a RESUME needs.
type ticket struct {
	session string
	url     string // where READY wants the session resumed, "" if it did not say
	seq     int64
}

// watcher hears what happens on a wire. The calls are short and made with the wire locked,
// so that none comes after the wire's end; event is made without the lock.
type watcher interface {
	greeted(resume bool) // an IDENTIFY or a RESUME goes out now
	ready(resumed bool)
	acked()
	event(Event)
}

// wire is the connection given to discordgo. It ends itself, and with it whatever discordgo
// waits for, when the server is silent, asks for something that discordgo does wrong, or breaks
// the protocol. The socket is then closed without a close frame, which keeps the session alive.
type wire struct {
	pace   Pace
	watch  watcher
	resume *ticket // nil for a fresh session
	dialer net.Dialer
	tls    *tls.Config
	ctx    context.Context // of the dialling
	cancel context.CancelFunc
	ended  chan struct{}

	filter filter // only the reading goroutine
	chunk  []byte // likewise

	mu       sync.Mutex
	tcp      net.Conn // nil until dialled
	raw      net.Conn // tcp or TLS over it
	until    time.Time
	late     string // the cause when until has passed
	window   time.Duration
	readyAt  time.Time
	leaving  bool
	identity []byte // what discordgo wrote of its IDENTIFY, while that is to become a RESUME
	swap     bool
	have     ticket
	why      *cause
}

func newWire(ctx context.Context, pace Pace, watch watcher, resume *ticket, conf *tls.Config) *wire {
	w := &wire{
		pace: pace, watch: watch, resume: resume, tls: conf,
		ended: make(chan struct{}),
		chunk: make([]byte, 8<<10),
		until: time.Now().Add(pace.Hello),
		late:  "no HELLO in time",
	}
	if resume != nil {
		w.have = *resume
		w.filter.seq = resume.seq
	}
	w.ctx, w.cancel = context.WithDeadline(ctx, w.until)
	return w
}

// end closes the socket for the first cause given; later ones are ignored.
func (w *wire) end(why *cause) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.why != nil {
		return
	}
	w.why = why
	w.cancel()
	if w.tcp != nil {
		_ = w.tcp.Close() // not the TLS one: it could wait for a dead peer
	}
	close(w.ended)
}

// leave says goodbye with a close frame, which ends the session, and gives the server a
// moment to close first.
func (w *wire) leave() {
	w.mu.Lock()
	ok := w.why == nil && !w.readyAt.IsZero()
	if ok {
		w.leaving = true
		w.until = time.Now().Add(w.pace.Goodbye)
		_ = w.raw.SetReadDeadline(w.until)
	}
	w.mu.Unlock()
	if ok {
		_, _ = w.send(appendFrame(nil, opClose, []byte{1000 >> 8, 1000 & 0xff}, newKey()))
		select {
		case <-w.ended:
		case <-time.After(w.pace.Goodbye):
		}
	}
	w.end(stopped)
}

// outcome is valid once the wire has ended: why, since when it was ready (zero: never), and
// the session as it was then (nil if there was none).
func (w *wire) outcome() (why *cause, readyAt time.Time, t *ticket) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.have.session != "" {
		have := w.have
		t = &have
	}
	return w.why, w.readyAt, t
}

// Read gives discordgo what the filter released.
func (w *wire) Read(p []byte) (int, error) {
	for len(w.filter.out) == 0 {
		if err := w.fill(); err != nil {
			return 0, err
		}
	}
	n := copy(p, w.filter.out)
	w.filter.out = w.filter.out[n:]
	return n, nil
}

func (w *wire) fill() error {
	w.mu.Lock()
	if w.why != nil {
		w.mu.Unlock()
		return net.ErrClosed
	}
	err := w.raw.SetReadDeadline(w.until)
	raw, late := w.raw, w.late
	w.mu.Unlock()
	n := 0
	if err == nil {
		n, err = raw.Read(w.chunk)
	}
	w.filter.in = append(w.filter.in, w.chunk[:n]...)
	w.work()
	switch {
	case errors.Is(err, os.ErrDeadlineExceeded):
		w.end(lost("%s", late))
	case err != nil:
		w.end(lost("the connection dropped: %v", err))
	}
	return nil
}

// work goes through the messages that have come whole. An event is either counted and handed
// on, or neither, so that a RESUME brings exactly the missing ones.
func (w *wire) work() {
	for {
		n, more, end := w.filter.next()
		if end != nil {
			w.end(end)
			return
		}
		if !more {
			return
		}
		if !w.learn(n) {
			return
		}
		if n.event != nil {
			w.watch.event(*n.event)
		}
	}
}

// learn is false when the wire has ended meanwhile.
func (w *wire) learn(n note) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.why != nil {
		return false
	}
	now := time.Now()
	switch {
	case n.hello > 0:
		w.window = ackWindow(n.hello, w.pace.AckMax)
		w.swap = w.resume != nil
		w.extend(now.Add(w.pace.Ready), "neither READY nor RESUMED in time")
		w.watch.greeted(w.swap)
	case n.ack && !w.readyAt.IsZero():
		w.extend(now.Add(w.window), "no heartbeat acknowledged in time")
		w.watch.acked()
	case n.event != nil:
		w.have.seq = n.seq
	}
	if n.session != "" {
		w.have = ticket{session: n.session, url: n.resumeAt, seq: n.seq}
	}
	if n.ready && w.readyAt.IsZero() {
		w.readyAt = now
		w.extend(now.Add(w.window), "no heartbeat acknowledged in time")
		w.watch.ready(n.session == "" && w.resume != nil)
	}
	return true
}

func (w *wire) extend(until time.Time, late string) {
	if !w.leaving {
		w.until, w.late = until, late
	}
}

// ackWindow is how long no acknowledgement is bearable: a lost one shows before the next
// but one is due. limit never cuts into the interval itself.
func ackWindow(interval, limit time.Duration) time.Duration {
	return min(interval*9/5, max(limit, interval*5/4))
}

// Close is discordgo giving up; if the wire has not ended yet, nothing was wrong with the session.
func (w *wire) Close() error {
	w.end(lost("discordgo closed the connection"))
	return nil
}

// LocalAddr is the socket's.
func (w *wire) LocalAddr() net.Addr { return w.tcp.LocalAddr() }

// RemoteAddr is the socket's.
func (w *wire) RemoteAddr() net.Addr { return w.tcp.RemoteAddr() }

// SetDeadline does nothing: the wire has deadlines of its own.
func (w *wire) SetDeadline(time.Time) error { return nil }

// SetReadDeadline does nothing, see SetDeadline.
func (w *wire) SetReadDeadline(time.Time) error { return nil }

// SetWriteDeadline does nothing, see SetDeadline.
func (w *wire) SetWriteDeadline(time.Time) error { return nil }
