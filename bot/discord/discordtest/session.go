package discordtest

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"slices"
	"strconv"
	"time"
)

// Intents that decide what a session gets.
const (
	intentGuilds   = 1 << 0
	intentMembers  = 1 << 1
	intentPresence = 1 << 8
	intentMessages = 1 << 9
	intentDMs      = 1 << 12
	intentContent  = 1 << 15
	intentsKnown   = 1<<26 - 1
)

// session is what a client identified for, connected or waiting for a RESUME.
type session struct {
	id      string
	intents int
	shard   [2]int
	seq     int64
	acked   int64    // the highest sequence that the client has named
	log     []logged // events for a RESUME, oldest first
	lost    int64    // the highest sequence that fell off an overfull log
	conn    *conn    // nil while nobody is connected
}

type logged struct {
	seq     int64
	data    []byte
	writing func()
}

// event is something that happened, before it is numbered for each session.
type event struct {
	name      string
	guild     string // "" goes to shard 0
	intent    int    // 0 needs none
	data      json.RawMessage
	withheld  json.RawMessage       // instead of data where message content may not be read
	writing   func()                // called with the lock held when it goes out
	delivered func(*session, int64) // called with the lock held for each session
}

// dispatch gives an event to the sessions that want it and counts them.
// The caller holds the lock.
func (s *Server) dispatch(e event) int {
	n := 0
	for _, ses := range s.gateway.sessions {
		if e.intent&^ses.intents != 0 || shardOf(e.guild, ses.shard[1]) != ses.shard[0] {
			continue
		}
		n++
		data := e.data
		if e.withheld != nil && ses.intents&intentContent == 0 {
			data = e.withheld
		}
		seq := ses.push(e.name, data, e.writing)
		if e.delivered != nil {
			e.delivered(ses, seq)
		}
	}
	return n
}

// shardOf is the documented rule: (guild_id >> 22) % num_shards.
func shardOf(guild string, shards int) int {
	id, err := strconv.ParseUint(guild, 10, 64)
	if err != nil || shards < 1 {
		return 0
	}
	return int((id >> 22) % uint64(shards))
}

// push numbers an event, keeps it for a RESUME and sends it where somebody listens.
func (ses *session) push(name string, data json.RawMessage, writing func()) int64 {
	ses.seq++
	seq := ses.seq
	entry := logged{seq: seq, data: encode(payload{Op: opDispatch, Type: &name, Seq: &seq, Data: data}), writing: writing}
	if len(ses.log) >= maxBacklog {
		half := len(ses.log) / 2
		ses.lost, ses.log = ses.log[half-1].seq, slices.Clone(ses.log[half:])
	}
	if name != "RESUMED" { // belongs to one connection
		ses.log = append(ses.log, entry)
	}
	ses.send(entry)
	return ses.seq
}

func (ses *session) send(l logged) {
	if ses.conn != nil {
		ses.conn.enqueue(frame{data: l.data, zlib: ses.conn.zlib, writing: l.writing})
	}
}

// acknowledge notes what the client has seen and forgets what it never needs again.
func (ses *session) acknowledge(seq int64) {
	if seq <= ses.acked || seq > ses.seq {
		return
	}
	ses.acked = seq
	ses.log = slices.DeleteFunc(ses.log, func(l logged) bool { return l.seq <= seq })
}

// receive acts on a client's payload. The caller holds the lock.
func (c *conn) receive(data []byte) {
	if c.silent || c.closing {
		return
	}
	c.s.traffic.frame("<-", data)
	if now := time.Now(); now.Sub(c.window) > time.Minute {
		c.window, c.sends = now, 0
	}
	if c.sends++; c.sends > maxSends {
		c.close(closeTooFast)
		return
	}
	var p payload
	if err := json.Unmarshal(data, &p); err != nil || len(data) > maxPayload {
		c.close(closeDecode)
		return
	}
	switch p.Op {
	case opHeartbeat:
		c.heartbeat(p.Data)
	case opIdentify:
		c.identify(p.Data)
	case opResume:
		c.resume(p.Data)
	case opPresence, opVoice, opRequestMembers:
		if c.session == nil {
			c.close(closeNotAuthenticated)
		}
	default:
		c.close(closeUnknownOp)
	}
}

func (c *conn) heartbeat(data json.RawMessage) {
	var seq *int64
	if err := json.Unmarshal(data, &seq); err != nil {
		c.close(closeDecode)
		return
	}
	c.beat = time.Now()
	c.s.counters.Heartbeats++
	c.s.bell.ring()
	if c.session != nil && seq != nil {
		c.session.acknowledge(*seq)
	}
	if !c.s.gateway.faults.holdAcks {
		c.send(opAck, nil)
	}
}

func (c *conn) resume(data json.RawMessage) {
	s := c.s
	var p struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
		Seq     int64  `json:"seq"`
	}
	if err := json.Unmarshal(data, &p); err != nil {
		c.close(closeDecode)
		return
	}
	if c.session != nil {
		c.close(closeAuthenticated)
		return
	}
	s.counters.Resumes++
	s.bell.ring()
	ses, f := s.gateway.sessions[p.Session], &s.gateway.faults
	if ses != nil {
		s.shard(ses.shard).Resumes++
	}
	switch {
	case p.Token != s.Token && p.Token != "Bot "+s.Token:
		c.close(closeBadToken)
	case f.resumeReconnect > 0:
		f.resumeReconnect--
		c.send(opReconnect, nil)
	case f.resumeInvalid > 0:
		f.resumeInvalid--
		if !f.resumable {
			delete(s.gateway.sessions, p.Session)
		}
		c.send(opInvalid, f.resumable)
	case ses == nil || p.Seq < ses.lost:
		delete(s.gateway.sessions, p.Session)
		c.send(opInvalid, false)
	case p.Seq > ses.seq:
		delete(s.gateway.sessions, p.Session)
		c.close(closeBadSequence)
	default:
		s.replay(c, ses, p.Seq)
	}
}

// replay sends what the client missed, then RESUMED. An older connection of the
// session hears no more of it.
func (s *Server) replay(c *conn, ses *session, seen int64) {
	if old := ses.conn; old != nil {
		old.session = nil
	}
	c.session, ses.conn = ses, c
	ses.acknowledge(seen)
	for _, l := range ses.log {
		if l.seq > seen {
			ses.send(l)
		}
	}
	s.counters.Resumed++
	ses.push("RESUMED", encode(jsonMap{"_trace": []string{"double"}}), nil)
	s.bell.ring()
}

func deflate(data []byte) []byte {
	var out bytes.Buffer
	w := zlib.NewWriter(&out)
	_, _ = w.Write(data) // a buffer takes everything
	_ = w.Close()
	return out.Bytes()
}

func (s *Server) wsURL() string { return "ws" + s.URL[len("http"):] }
