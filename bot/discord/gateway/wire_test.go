package gateway

import (
	"context"
	"net"
	"strings"
	"testing"
	"time"
)

// counted is a watcher that only counts.
type counted struct{ greetings, readies, acks, events int }

func (c *counted) greeted(bool) { c.greetings++ }
func (c *counted) ready(bool)   { c.readies++ }
func (c *counted) acked()       { c.acks++ }
func (c *counted) event(Event)  { c.events++ }

func newTestWire(t *testing.T, pace Pace) (*wire, *counted) {
	c := &counted{}
	w := newWire(context.Background(), pace.Filled(), c, nil, nil)
	t.Cleanup(func() { w.end(stopped) })
	return w, c
}

// TestAfterTheEnd: what was still unread when a wire ended is neither counted nor handed on.
func TestAfterTheEnd(t *testing.T) {
	w, c := newTestWire(t, Pace{})
	w.filter.in = append([]byte(upgraded), text(helloText)...)
	w.filter.in = append(w.filter.in, text(`{"op":0,"s":1,"t":"READY","d":{"session_id":"S"}}`)...)
	w.work()
	w.end(lost("first"))
	w.end(lost("second"))
	w.filter.in = append(text(`{"op":0,"s":2,"t":"LATE"}`), text(`{"op":11}`)...)
	w.work()
	why, readyAt, session := w.outcome()
	if why.text != "first" || readyAt.IsZero() || *session != (ticket{session: "S", seq: 1}) {
		t.Errorf("%+v %v %+v", why, readyAt, session)
	}
	if *c != (counted{greetings: 1, readies: 1, events: 1}) {
		t.Errorf("%+v", *c)
	}
}

// TestSignsOfLife: only acknowledgements put the deadline off.
func TestSignsOfLife(t *testing.T) {
	w, c := newTestWire(t, Pace{})
	w.filter.in = append([]byte(upgraded), text(helloText)...)
	w.filter.in = append(w.filter.in, text(`{"op":0,"s":1,"t":"READY","d":{}}`)...)
	w.work()
	for message, alive := range map[string]bool{`{"op":0,"s":2,"t":"X"}`: false, `{"op":1}`: false, `{"op":11}`: true} {
		old := time.Now()
		w.until = old
		w.filter.in = text(message)
		w.work()
		if moved := w.until.After(old); moved != alive {
			t.Errorf("after %s the deadline moved: %v", message, moved)
		}
	}
	if c.acks != 1 {
		t.Errorf("%d acknowledgements", c.acks)
	}
}

// TestStuckWrite has a peer that reads nothing.
func TestStuckWrite(t *testing.T) {
	w, _ := newTestWire(t, Pace{Write: 10 * time.Millisecond})
	near, far := net.Pipe()
	defer func() { _ = far.Close() }()
	w.attach(near, near)
	if _, err := w.Write([]byte("x")); err == nil {
		t.Fatal("written")
	}
	why, _, _ := w.outcome()
	if why == nil || !why.resume || !strings.HasPrefix(why.text, "writing failed") {
		t.Errorf("%+v", why)
	}
	if _, err := w.Write([]byte("x")); err == nil {
		t.Error("written after the end")
	}
}

// TestResumeInsteadOfIdentify cuts what discordgo writes at every place, with a pong before it.
func TestResumeInsteadOfIdentify(t *testing.T) {
	key := []byte{7, 8, 9, 10}
	wrote := appendFrame(nil, opPong, []byte("p"), key)
	wrote = appendFrame(wrote, opText, []byte(`{"op":2,"d":{"token":"T","intents":1}}`), key)
	wrote = append(wrote, "rest"...)
	for cut := range len(wrote) {
		w, _ := newTestWire(t, Pace{})
		w.resume, w.swap = &ticket{session: "S", seq: 5}, true
		var got []byte
		for _, part := range [][]byte{wrote[:cut], wrote[cut:]} {
			b, err := w.outgoing(part)
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, b...)
		}
		pong, n, err := parseFrame(got, true)
		if err != nil || pong.opcode != opPong || string(pong.payload) != "p" {
			t.Fatalf("cut at %d: %+v, %v", cut, pong, err)
		}
		resume, m, err := parseFrame(got[n:], true)
		if err != nil || string(resume.payload) != `{"d":{"seq":5,"session_id":"S","token":"T"},"op":6}` || string(got[n+m:]) != "rest" {
			t.Fatalf("cut at %d: %q, then %q, %v", cut, resume.payload, got[n+m:], err)
		}
	}
	w, _ := newTestWire(t, Pace{})
	w.resume, w.swap = &ticket{session: "S"}, true
	if _, err := w.Write(appendFrame(nil, opText, []byte(`{"op":3}`), key)); err == nil {
		t.Error("something else than an IDENTIFY went through")
	}
}
