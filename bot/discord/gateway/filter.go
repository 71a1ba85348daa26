package gateway

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"strconv"
	"time"
)

// Opcodes of the gateway.
// Source: https://discord.com/developers/docs/topics/opcodes-and-status-codes#gateway-gateway-opcodes
const (
	opDispatch  = 0
	opHeartbeat = 1
	opIdentify  = 2
	opResume    = 6
	opReconnect = 7
	opInvalid   = 9
	opHello     = 10
	opAck       = 11
)

// The interval between heartbeats is believed only in these bounds: discordgo panics at 0.
const (
	minInterval = 10 * time.Millisecond
	maxInterval = 10 * time.Minute
)

// maxHeader bounds the answer to the upgrade, in bytes.
const maxHeader = 64 << 10

// dispatchType is the type that discordgo sees on every dispatch. It must be one that
// discordgo does not know, so that it only notes the sequence number.
const dispatchType = "MUSETTE"

// filter turns the bytes that the server sends into those that discordgo may see. It lets
// the answer to the upgrade through, then only pings, HELLO, heartbeats and empty dispatches,
// each as one whole frame that it writes itself: nothing else can reach discordgo, which
// deadlocks on op 7 while opening and panics on odd JSON. Everything else becomes a note.
type filter struct {
	in  []byte // not understood yet
	out []byte // released

	upgraded bool
	parts    assembler
	hello    bool
	given    int   // messages released
	seq      int64 // of the last dispatch
}

// note is what one message of the server means to us.
type note struct {
	hello    time.Duration // HELLO, with the interval between heartbeats
	ack      bool
	ready    bool // READY or RESUMED, also an event
	seq      int64
	session  string // of READY
	resumeAt string // of READY
	event    *Event
}

// next takes the next message out of in. more is false when the rest of in is
// incomplete; a cause ends the connection.
func (f *filter) next() (n note, more bool, end *cause) {
	if !f.upgraded {
		more, end = f.upgrade()
		return note{}, more, end
	}
	fr, size, err := parseFrame(f.in, false)
	if err != nil {
		return note{}, false, lost("%v", err)
	}
	if size == 0 {
		return note{}, false, nil
	}
	defer f.drop(size)
	switch {
	case fr.opcode == opClose:
		return note{}, false, closeFrame(fr.payload)
	case fr.opcode == opPing:
		f.out = appendFrame(f.out, opPing, fr.payload, nil)
		return note{}, true, nil
	case fr.opcode == opPong:
		return note{}, true, nil
	}
	msg, done, err := f.parts.add(fr)
	if err != nil {
		return note{}, false, lost("%v", err)
	}
	if !done {
		return note{}, true, nil
	}
	n, end = f.message(msg)
	return n, end == nil, end
}

func closeFrame(payload []byte) *cause {
	if len(payload) < 2 {
		return lost("closed by Discord without a code")
	}
	return closedWith(int(binary.BigEndian.Uint16(payload)))
}

// drop forgets the first n bytes of in, and a big buffer once it is empty.
func (f *filter) drop(n int) {
	f.in = f.in[n:]
	if len(f.in) == 0 {
		f.in = nil
	}
}

// upgrade releases the answer to the HTTP request.
func (f *filter) upgrade() (more bool, end *cause) {
	size := bytes.Index(f.in, []byte("\r\n\r\n"))
	if size < 0 {
		if len(f.in) > maxHeader {
			return false, lost("the answer to the upgrade is too long")
		}
		return false, nil
	}
	size += 4
	head := f.in[:size]
	f.out = append(f.out, head...)
	f.drop(size)
	var status int
	if fields := bytes.Fields(head); len(fields) > 1 {
		status, _ = strconv.Atoi(string(fields[1]))
	}
	if status != 101 {
		return false, lost("the gateway answered with HTTP status %d", status)
	}
	f.upgraded = true
	return true, nil
}

// packet is the envelope of every message.
type packet struct {
	Op   int             `json:"op"`
	Seq  int64           `json:"s"`
	Type string          `json:"t"`
	Data json.RawMessage `json:"d"`
}

func (f *filter) message(msg frame) (note, *cause) {
	if msg.opcode != opText {
		return note{}, lost("a compressed message came, though none was asked for")
	}
	var p packet
	if err := json.Unmarshal(msg.payload, &p); err != nil {
		return note{}, lost("a message is not the JSON that was expected")
	}
	switch {
	case p.Op == opReconnect:
		return note{}, lost("Discord asked for a reconnect")
	case p.Op == opInvalid:
		alive := string(bytes.TrimSpace(p.Data)) == "true"
		return note{}, &cause{text: "Discord declared the session invalid", resume: alive, slow: !alive}
	case p.Op == opHello && !f.hello:
		return f.greet(p)
	case !f.hello:
		return note{}, lost("the first message is not HELLO")
	case p.Op == opHeartbeat:
		f.release(`{"op":1}`)
	case p.Op == opAck && f.given > 1: // earlier, discordgo would lock itself out
		f.release(`{"op":11}`)
		return note{ack: true}, nil
	case p.Op == opDispatch && p.Type != "":
		return f.dispatch(p)
	}
	return note{}, nil
}

func (f *filter) greet(p packet) (note, *cause) {
	var d struct {
		Interval int64 `json:"heartbeat_interval"` // ms
	}
	err := json.Unmarshal(p.Data, &d)
	every := time.Duration(d.Interval) * time.Millisecond
	if err != nil || d.Interval > maxInterval.Milliseconds() || every < minInterval {
		return note{}, lost("HELLO has no usable interval between heartbeats")
	}
	f.hello = true
	f.release(fmt.Sprintf(`{"op":10,"d":{"heartbeat_interval":%d}}`, d.Interval))
	return note{hello: every}, nil
}

func (f *filter) dispatch(p packet) (note, *cause) {
	if p.Seq > 0 {
		f.seq = p.Seq
	}
	n := note{seq: f.seq, event: &Event{Type: p.Type, Data: p.Data}}
	switch p.Type {
	case "READY":
		var d struct {
			Session  string `json:"session_id"`
			ResumeAt string `json:"resume_gateway_url"`
		}
		if json.Unmarshal(p.Data, &d) != nil {
			return note{}, lost("READY is not the JSON that was expected")
		}
		n.ready, n.session, n.resumeAt = true, d.Session, d.ResumeAt
	case "RESUMED":
		n.ready = true
	}
	f.release(fmt.Sprintf(`{"op":0,"s":%d,"t":%q,"d":null}`, f.seq, dispatchType))
	return n, nil
}

func (f *filter) release(text string) {
	f.given++
	f.out = appendFrame(f.out, opText, []byte(text), nil)
}
