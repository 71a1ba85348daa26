package discordtest

import (
	"context"
	"slices"
)

// requestRing keeps the last requests. The server's lock guards it.
type requestRing struct {
	limit int
	all   []Request
}

// record notes a request for tests, the hook and the traffic.
func (s *Server) record(r Request) {
	s.mu.Lock()
	if ring := &s.requests; ring.limit > 0 {
		if len(ring.all) >= ring.limit {
			ring.all = slices.Clone(ring.all[len(ring.all)/2:])
		}
		ring.all = append(ring.all, r)
	}
	s.bell.ring()
	s.mu.Unlock()
	if s.opts.OnRequest != nil {
		s.opts.OnRequest(r)
	}
	s.traffic.request(r)
}

// Requests are all calls of the bot, oldest first, as far as they are kept.
func (s *Server) Requests() []Request {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.requests.all)
}

// WaitRequests waits until n calls are kept.
func (s *Server) WaitRequests(ctx context.Context, n int) error {
	return s.wait(ctx, &s.bell, func() bool { return len(s.requests.all) >= n })
}
