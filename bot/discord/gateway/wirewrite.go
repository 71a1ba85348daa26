package gateway

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"net"
	"time"
)

// Write sends what discordgo writes, the first message changed if a session is to be resumed.
func (w *wire) Write(p []byte) (int, error) {
	b, err := w.outgoing(p)
	if err != nil {
		w.end(lost("%v", err))
		return 0, err
	}
	if len(b) > 0 {
		if _, err := w.send(b); err != nil {
			return 0, err
		}
	}
	return len(p), nil
}

func (w *wire) send(b []byte) (int, error) {
	w.mu.Lock()
	raw, why := w.raw, w.why
	w.mu.Unlock()
	if why != nil {
		return 0, net.ErrClosed
	}
	err := raw.SetWriteDeadline(time.Now().Add(w.pace.Write))
	n := 0
	if err == nil {
		n, err = raw.Write(b)
	}
	if err != nil {
		w.end(lost("writing failed: %v", err))
	}
	return n, err
}

// outgoing puts a RESUME in place of the IDENTIFY. A discordgo session that resumes by
// itself would have to be the old one, whose heartbeat may still be about to close it.
func (w *wire) outgoing(p []byte) ([]byte, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if !w.swap {
		return p, nil
	}
	w.identity = append(w.identity, p...)
	var out []byte
	for w.swap {
		f, size, err := parseFrame(w.identity, true)
		if err != nil || size == 0 {
			return out, err
		}
		op, payload := f.opcode, f.payload
		if !f.control() {
			w.swap, op = false, opText
			if payload, err = resumeInstead(payload, *w.resume); err != nil {
				return nil, err
			}
		}
		out = appendFrame(out, op, payload, newKey())
		w.identity = w.identity[size:]
	}
	return append(out, w.identity...), nil
}

// resumeInstead makes the RESUME from an IDENTIFY, whose token it takes.
func resumeInstead(identify []byte, t ticket) ([]byte, error) {
	var in struct {
		Op   int `json:"op"`
		Data struct {
			Token string `json:"token"`
		} `json:"d"`
	}
	if err := json.Unmarshal(identify, &in); err != nil || in.Op != opIdentify {
		return nil, errors.New("discordgo wrote something else than an IDENTIFY")
	}
	return json.Marshal(map[string]any{"op": opResume, "d": map[string]any{
		"token": in.Data.Token, "session_id": t.session, "seq": t.seq,
	}})
}

func newKey() []byte {
	key := make([]byte, 4)
	_, _ = rand.Read(key) // never fails
	return key
}
