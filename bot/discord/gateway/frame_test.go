package gateway

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"testing"
	"time"
)

func TestFramesThereAndBack(t *testing.T) {
	for _, size := range []int{0, 1, 125, 126, 1<<16 - 1, 1 << 16, maxMessage} {
		for _, key := range [][]byte{nil, {1, 2, 3, 4}} {
			payload := bytes.Repeat([]byte{'x'}, size)
			b := appendFrame(nil, opText, payload, key)
			for _, cut := range []int{0, 1, len(b) / 2, len(b) - 1} {
				if _, n, err := parseFrame(bytes.Clone(b[:cut]), key != nil); n != 0 || err != nil {
					t.Errorf("size %d cut at %d: %d, %v", size, cut, n, err)
				}
			}
			f, n, err := parseFrame(append(b, 'y'), key != nil)
			if err != nil || n != len(b) || !f.final || f.opcode != opText || !bytes.Equal(f.payload, payload) {
				t.Errorf("size %d masked %v: took %d of %d, %v", size, key != nil, n, len(b), err)
			}
		}
	}
}

func TestBadFrames(t *testing.T) {
	for name, tt := range map[string]struct {
		b    []byte
		want error
	}{
		"compressed":           {[]byte{0xc1, 0}, errFraming},
		"masked by the server": {[]byte{0x81, 0x80, 1, 2, 3, 4}, errFraming},
		"unknown data":         {[]byte{0x83, 0}, errFraming},
		"unknown control":      {[]byte{0x8b, 0}, errFraming},
		"ping in pieces":       {[]byte{0x09, 0}, errFraming},
		"long ping":            {[]byte{0x89, 126, 0, 200}, errFraming},
		"one byte too big":     {[]byte{0x81, 127, 0, 0, 0, 0, 1, 0, 0, 1}, errTooBig},
		"absurdly big":         {[]byte{0x81, 127, 255, 255, 255, 255, 255, 255, 255, 255}, errTooBig},
	} {
		if _, _, err := parseFrame(tt.b, false); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", name, err, tt.want)
		}
	}
}

func TestFragments(t *testing.T) {
	piece := func(final bool, op byte, text string) frame { return frame{final, op, []byte(text)} }
	for name, tt := range map[string]struct {
		in   []frame
		want string
		err  error
	}{
		"one":                {[]frame{piece(true, opText, "abc")}, "abc", nil},
		"three":              {[]frame{piece(false, opText, "a"), piece(false, opContinue, "b"), piece(true, opContinue, "c")}, "abc", nil},
		"no start":           {[]frame{piece(true, opContinue, "a")}, "", errFraming},
		"start in the midst": {[]frame{piece(false, opText, "a"), piece(true, opText, "b")}, "", errFraming},
		"too big together":   {[]frame{piece(false, opText, "a"), {true, opContinue, make([]byte, maxMessage)}}, "", errTooBig},
	} {
		var a assembler
		var got frame
		var err error
		for i, f := range tt.in {
			var done bool
			got, done, err = a.add(f)
			if done != (i == len(tt.in)-1 && tt.err == nil) {
				t.Errorf("%s: done %v after piece %d", name, done, i)
			}
		}
		if !errors.Is(err, tt.err) || err == nil && (string(got.payload) != tt.want || got.opcode != opText) {
			t.Errorf("%s: %q, %v", name, got.payload, err)
		}
	}
}

const upgraded = "HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\n\r\n"

func text(s string) []byte { return appendFrame(nil, opText, []byte(s), nil) }

var helloText = `{"op":10,"d":{"heartbeat_interval":41250}}`

// TestFilter says what of each message discordgo gets to see, and what we make of it.
func TestFilter(t *testing.T) {
	const ready = `{"op":0,"s":1,"t":"READY","d":{"session_id":"S","resume_gateway_url":"wss://r"}}`
	seen := func(seq string) string { return `{"op":0,"s":` + seq + `,"t":"MUSETTE","d":null}` }
	for name, tt := range map[string]struct {
		in   []string
		out  []string // after HELLO
		end  *cause
		last note
	}{
		"ready": {[]string{ready}, []string{seen("1")}, nil,
			note{ready: true, seq: 1, session: "S", resumeAt: "wss://r", event: &Event{"READY", json.RawMessage(`{"session_id":"S","resume_gateway_url":"wss://r"}`)}}},
		"null":              {[]string{`null`}, nil, nil, note{}},
		"array":             {[]string{`[1]`}, nil, lost("a message is not the JSON that was expected"), note{}},
		"half":              {[]string{`{"op":0`}, nil, lost("a message is not the JSON that was expected"), note{}},
		"dispatch of null":  {[]string{`{"op":0,"s":7,"t":"GUILD_CREATE","d":null}`}, []string{seen("7")}, nil, note{seq: 7, event: &Event{"GUILD_CREATE", json.RawMessage("null")}}},
		"no sequence":       {[]string{ready, `{"op":0,"t":"X"}`}, []string{seen("1"), seen("1")}, nil, note{seq: 1, event: &Event{Type: "X"}}},
		"no type":           {[]string{`{"op":0,"s":9}`}, nil, nil, note{}},
		"early ack":         {[]string{`{"op":11}`}, nil, nil, note{}},
		"ack":               {[]string{ready, `{"op":11,"d":{"trace":1}}`}, []string{seen("1"), `{"op":11}`}, nil, note{ack: true}},
		"heartbeat request": {[]string{`{"op":1,"d":null}`}, []string{`{"op":1}`}, nil, note{}},
		"second hello":      {[]string{helloText}, nil, nil, note{}},
		"unknown op":        {[]string{`{"op":99}`}, nil, nil, note{}},
		"reconnect":         {[]string{`{"op":7,"d":null}`}, nil, lost("Discord asked for a reconnect"), note{}},
		"invalid":           {[]string{`{"op":9,"d":false}`}, nil, &cause{text: "Discord declared the session invalid", slow: true}, note{}},
		"invalid, alive":    {[]string{`{"op":9,"d": true}`}, nil, &cause{text: "Discord declared the session invalid", resume: true}, note{}},
		"odd ready":         {[]string{`{"op":0,"s":1,"t":"READY","d":{"session_id":5}}`}, nil, lost("READY is not the JSON that was expected"), note{}},
	} {
		var f filter
		f.in = append([]byte(upgraded), text(helloText)...)
		for _, m := range tt.in {
			f.in = append(f.in, text(m)...)
		}
		notes, end := runAll(&f)
		want := append([]byte(upgraded), text(helloText)...)
		for _, m := range tt.out {
			want = append(want, text(m)...)
		}
		if !bytes.Equal(f.out, want) {
			t.Errorf("%s: released %q, want %q", name, f.out, want)
		}
		if !reflect.DeepEqual(end, tt.end) {
			t.Errorf("%s: end %+v, want %+v", name, end, tt.end)
		}
		if last := notes[len(notes)-1]; end == nil && !reflect.DeepEqual(last, tt.last) {
			t.Errorf("%s: note %+v, want %+v", name, last, tt.last)
		}
	}
}

func TestFilterBeforeHello(t *testing.T) {
	for name, tt := range map[string]struct{ in, want string }{
		"refused":         {"HTTP/1.1 503 Service Unavailable\r\n\r\nbody", "the gateway answered with HTTP status 503"},
		"not HTTP":        {"\r\n\r\n", "the gateway answered with HTTP status 0"},
		"endless header":  {string(make([]byte, maxHeader+1)), "the answer to the upgrade is too long"},
		"dispatch first":  {upgraded + string(text(`{"op":0,"t":"READY","d":{}}`)), "the first message is not HELLO"},
		"no interval":     {upgraded + string(text(`{"op":10,"d":{}}`)), "HELLO has no usable interval between heartbeats"},
		"interval 0":      {upgraded + string(text(`{"op":10,"d":{"heartbeat_interval":0}}`)), "HELLO has no usable interval between heartbeats"},
		"interval absurd": {upgraded + string(text(`{"op":10,"d":{"heartbeat_interval":9223372036854775807}}`)), "HELLO has no usable interval between heartbeats"},
		"binary":          {upgraded + string(appendFrame(nil, opBinary, []byte{0x78, 0x9c}, nil)), "a compressed message came, though none was asked for"},
		"close":           {upgraded + string(appendFrame(nil, opClose, []byte{0x0f, 0xa1}, nil)), "closed by Discord with code 4001"},
		"close, no code":  {upgraded + string(appendFrame(nil, opClose, nil, nil)), "closed by Discord without a code"},
	} {
		f := filter{in: []byte(tt.in)}
		if _, end := runAll(&f); end == nil || end.text != tt.want {
			t.Errorf("%s: %+v, want %q", name, end, tt.want)
		}
	}
}

func runAll(f *filter) (notes []note, end *cause) {
	for {
		n, more, end := f.next()
		if end != nil || !more {
			return notes, end
		}
		notes = append(notes, n)
	}
}

// FuzzFrames cuts a stream anywhere: discordgo must get the same bytes as from the whole, and
// nothing but the four kinds of message that cannot hurt it.
func FuzzFrames(f *testing.F) {
	stream := append(text(helloText), text(`{"op":0,"s":1,"t":"READY","d":{"session_id":"S"}}`)...)
	f.Add(stream, []byte{1, 2, 3})
	f.Add(append(appendFrame(stream, opPing, []byte("p"), nil), text(`{"op":11}`)...), []byte{9})
	f.Add(append(text(helloText), 0x01, 2, '{', '"', 0x89, 0, 0x80, 6, 'o', 'p', '"', ':', '1', '}'), []byte{4, 1})
	f.Add(append(text(helloText), text(`{"op":7}`)...), []byte{})
	f.Add(text(`null`), []byte{1})
	f.Fuzz(func(t *testing.T, stream, cuts []byte) {
		whole := filter{upgraded: true, in: bytes.Clone(stream)}
		wantNotes, wantEnd := runAll(&whole)

		cut := filter{upgraded: true}
		var notes []note
		var end *cause
		for i := 0; len(stream) > 0 && end == nil; i++ {
			n := len(stream)
			if i < len(cuts) {
				n = min(n, int(cuts[i]))
			}
			cut.in = append(cut.in, stream[:n]...)
			stream = stream[n:]
			var more []note
			more, end = runAll(&cut)
			notes = append(notes, more...)
		}
		if !bytes.Equal(cut.out, whole.out) || !reflect.DeepEqual(notes, wantNotes) || !reflect.DeepEqual(end, wantEnd) {
			t.Fatalf("cut: %q %+v %+v\nwhole: %q %+v %+v", cut.out, notes, end, whole.out, wantNotes, wantEnd)
		}
		for out := whole.out; len(out) > 0; {
			fr, n, err := parseFrame(out, false)
			if err != nil || n == 0 {
				t.Fatalf("released what is no frame: %q, %v", out, err)
			}
			out = out[n:]
			var p packet
			if fr.opcode == opText && (json.Unmarshal(fr.payload, &p) != nil || !harmless(p)) {
				t.Fatalf("released %q", fr.payload)
			}
		}
	})
}

func harmless(p packet) bool {
	switch p.Op {
	case opDispatch:
		return p.Type == dispatchType
	case opHeartbeat, opHello, opAck:
		return true
	}
	return false
}

func TestAckWindow(t *testing.T) {
	for _, tt := range []struct{ interval, want time.Duration }{
		{41250 * time.Millisecond, 74250 * time.Millisecond},
		{45 * time.Second, 75 * time.Second},
		{2 * time.Minute, 150 * time.Second}, // the limit would end every connection
	} {
		if got := ackWindow(tt.interval, 75*time.Second); got != tt.want {
			t.Errorf("interval %v: %v, want %v", tt.interval, got, tt.want)
		}
	}
}
