package discordtest

import (
	"context"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
)

// traffic writes what passes, a line each, without tokens. The nil writer drops it.
type traffic struct {
	mu sync.Mutex
	to io.Writer
}

const longestLine = 1200 // bytes of a payload that are shown

var (
	secretField = regexp.MustCompile(`"token":\s*"[^"]*"`)
	secretPath  = regexp.MustCompile(`^(/interactions/\d+/|/webhooks/\d+/)[^/?]+`)
)

func (t *traffic) line(format string, args ...any) {
	if t.to == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	_, _ = fmt.Fprintf(t.to, "%s %s\n", time.Now().Format("15:04:05.000"), fmt.Sprintf(format, args...)) // watching is optional
}

func (t *traffic) frame(direction string, data []byte) {
	if t.to != nil {
		t.line("%s ws %s", direction, shorten(data))
	}
}

func (t *traffic) request(r Request) {
	if t.to != nil {
		t.line("<- %s %s %s%s => %d", r.Method, secretPath.ReplaceAllString(r.Path, "${1}…"), shorten(r.Body), fileNames(r.Files), r.Status)
	}
}

func fileNames(files []File) string {
	var b strings.Builder
	for _, f := range files {
		fmt.Fprintf(&b, " [file %s, %s, %d B]", f.Name, f.Type, len(f.Data))
	}
	return b.String()
}

func shorten(data []byte) string {
	text := secretField.ReplaceAllString(string(data), `"token":"…"`)
	if len(text) > longestLine {
		text = strings.ToValidUTF8(text[:longestLine], "") + "…"
	}
	return strings.ReplaceAll(text, "\n", " ")
}

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
