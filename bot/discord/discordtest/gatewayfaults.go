package discordtest

import (
	"context"
	"errors"
	"slices"
	"time"
)

// gatewayFaults are what a test has ordered. The server's lock guards them.
type gatewayFaults struct {
	noHello                    int
	upgradeStatus, upgrades    int
	refuseCode, refuseIdentify int
	identifyInvalid            int
	resumeReconnect            int
	resumeInvalid              int
	resumable                  bool
	holdAcks                   bool
	duplicates                 int
	readyDelay                 time.Duration
}

// SessionStartLimit is what GET /gateway/bot tells of the IDENTIFY budget.
type SessionStartLimit struct {
	Total, Remaining int
	ResetAfter       time.Duration
	MaxConcurrency   int
}

// Counters returns what clients did so far.
func (s *Server) Counters() Counters {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.counters
}

// WaitCounters waits until done holds for the counters.
func (s *Server) WaitCounters(ctx context.Context, done func(Counters) bool) error {
	return s.wait(ctx, &s.bell, func() bool { return done(s.counters) })
}

// WaitConnected waits until a session has a connection that is not silent.
func (s *Server) WaitConnected(ctx context.Context) error {
	return s.wait(ctx, &s.bell, func() bool {
		for _, ses := range s.gateway.sessions {
			if ses.conn != nil && !ses.conn.silent {
				return true
			}
		}
		return false
	})
}

// WaitShards waits until each of n shards has a connection, n being all that there are.
func (s *Server) WaitShards(ctx context.Context, n int) error {
	return s.wait(ctx, &s.bell, func() bool {
		there := map[int]bool{}
		for _, ses := range s.gateway.sessions {
			if ses.shard[1] == n && ses.conn != nil && !ses.conn.silent {
				there[ses.shard[0]] = true
			}
		}
		return len(there) == n
	})
}

// WaitSessions waits until so many sessions have a connection, of whatever shards.
func (s *Server) WaitSessions(ctx context.Context, n int) error {
	return s.wait(ctx, &s.bell, func() bool {
		there := 0
		for _, ses := range s.gateway.sessions {
			if ses.conn != nil && !ses.conn.silent {
				there++
			}
		}
		return there >= n
	})
}

// Shard returns what came for one of so many shards.
func (s *Server) Shard(shard, shards int) ShardCounters {
	s.mu.Lock()
	defer s.mu.Unlock()
	return *s.shard([2]int{shard, shards})
}

// shard is called with the lock held.
func (s *Server) shard(shard [2]int) *ShardCounters {
	if s.gateway.shards[shard] == nil {
		s.gateway.shards[shard] = &ShardCounters{}
	}
	return s.gateway.shards[shard]
}

// WaitCommands waits until the bot has registered commands.
func (s *Server) WaitCommands(ctx context.Context) error {
	return s.wait(ctx, &s.bell, func() bool { return len(s.commands) > 0 })
}

// WaitDisconnected waits until no websocket is open.
func (s *Server) WaitDisconnected(ctx context.Context) error {
	return s.wait(ctx, &s.bell, func() bool { return len(s.gateway.conns) == 0 })
}

// SetSessionStartLimit sets what GET /gateway/bot tells; each IDENTIFY takes one.
func (s *Server) SetSessionStartLimit(l SessionStartLimit) {
	s.order(func(*gatewayFaults) { s.gateway.limit = l })
}

// NoHello keeps HELLO from the next n connections, which stay open.
func (s *Server) NoHello(n int) { s.order(func(f *gatewayFaults) { f.noHello = n }) }

// RefuseUpgrade answers the next n websocket requests with an HTTP status.
func (s *Server) RefuseUpgrade(status, n int) {
	s.order(func(f *gatewayFaults) { f.upgradeStatus, f.upgrades = status, n })
}

// RefuseIdentify closes with a code in answer to the next n IDENTIFYs.
func (s *Server) RefuseIdentify(code, n int) {
	s.order(func(f *gatewayFaults) { f.refuseCode, f.refuseIdentify = code, n })
}

// IdentifyInvalid answers the next n IDENTIFYs with op 9.
func (s *Server) IdentifyInvalid(n int) { s.order(func(f *gatewayFaults) { f.identifyInvalid = n }) }

// ResumeReconnect answers the next n RESUMEs with op 7; the session stays.
func (s *Server) ResumeReconnect(n int) { s.order(func(f *gatewayFaults) { f.resumeReconnect = n }) }

// ResumeInvalid answers the next n RESUMEs with op 9; the session stays where
// it is resumable.
func (s *Server) ResumeInvalid(n int, resumable bool) {
	s.order(func(f *gatewayFaults) { f.resumeInvalid, f.resumable = n, resumable })
}

// HoldAcks leaves heartbeats unanswered while everything else goes on.
func (s *Server) HoldAcks(on bool) { s.order(func(f *gatewayFaults) { f.holdAcks = on }) }

// DuplicateNext delivers each of the next n interactions and messages twice.
func (s *Server) DuplicateNext(n int) { s.order(func(f *gatewayFaults) { f.duplicates = n }) }

// DelayReady keeps READY back for d after each IDENTIFY; 0 ends that.
func (s *Server) DelayReady(d time.Duration) { s.order(func(f *gatewayFaults) { f.readyDelay = d }) }

func (s *Server) order(change func(*gatewayFaults)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&s.gateway.faults)
}

// Silence makes the open connections deaf and dumb for good, their TCP open:
// nothing is sent, no heartbeat answered. New connections are heard.
func (s *Server) Silence() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for c := range s.gateway.conns {
		c.silent, c.queue = true, nil
	}
}

// Drop closes the TCP connections without a close frame. Sessions can be resumed.
func (s *Server) Drop() { s.dropWhere(func(*session) bool { return true }) }

// DropShard is Drop for the connections of one shard.
func (s *Server) DropShard(shard int) {
	s.dropWhere(func(ses *session) bool { return ses != nil && ses.shard[0] == shard })
}

// dropWhere drops the connections whose session, nil before READY, is meant.
func (s *Server) dropWhere(meant func(*session) bool) {
	s.mu.Lock()
	conns := slices.DeleteFunc(s.gateway.all(), func(c *conn) bool { return !meant(c.session) })
	for _, c := range conns {
		if c.session != nil && c.session.conn == c {
			c.session.conn = nil
		}
	}
	s.mu.Unlock()
	for _, c := range conns {
		c.drop()
	}
}

// CloseWith closes the connections with a code. Fatal codes, 4007 and 4009 take
// the session away.
func (s *Server) CloseWith(code int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for c := range s.gateway.conns {
		c.close(code)
	}
}

// Reconnect sends op 7 to the connections, which stay open until the client acts.
func (s *Server) Reconnect() { s.tellAll(opReconnect, nil) }

// RequestHeartbeat sends op 1.
func (s *Server) RequestHeartbeat() { s.tellAll(opHeartbeat, nil) }

func (s *Server) tellAll(op int, data any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for c := range s.gateway.conns {
		c.send(op, data)
	}
}

// InvalidateSessions ends all sessions. Connected clients get op 9, and so will
// those that try to RESUME.
func (s *Server) InvalidateSessions() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for c := range s.gateway.conns {
		if c.session != nil {
			c.send(opInvalid, false)
			c.session = nil
		}
	}
	clear(s.gateway.sessions)
}

// ErrNoSession means that no gateway session was there to get the event.
var ErrNoSession = errors.New("discordtest: no gateway session gets this event; is the bot connected?")

// Dispatch sends an event of any name with any payload to all sessions, for
// tests of what the double itself would never send.
func (s *Server) Dispatch(name string, data any) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.gateway.sessions) == 0 {
		return ErrNoSession
	}
	for _, ses := range s.gateway.sessions {
		ses.push(name, encode(data), nil)
	}
	return nil
}

// takeUpgradeFault decides, in the order of arrival, what happens to a websocket
// request: refused with a status, mute, or nothing special.
func (s *Server) takeUpgradeFault() (status int, mute bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	f := &s.gateway.faults
	switch {
	case f.upgrades > 0:
		f.upgrades--
		s.counters.Refused++
		s.bell.ring()
		return f.upgradeStatus, false
	case f.noHello > 0:
		f.noHello--
		return 0, true
	}
	return 0, false
}

// after runs do with the lock held, unless the double ends before.
func (s *Server) after(d time.Duration, do func()) {
	if s.closed {
		return
	}
	s.wg.Go(func() {
		timer := time.NewTimer(d)
		defer timer.Stop()
		select {
		case <-timer.C:
			s.mu.Lock()
			do()
			s.mu.Unlock()
		case <-s.ctx.Done():
		}
	})
}
