package gateway

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
	"go.uber.org/goleak"

	"musette/bot/discord/api"
)

// TestMain has discordgo's version set before any session is opened: tests that make
// their own sessions would race with the first that asks package api for one.
func TestMain(m *testing.M) {
	if _, err := api.New(api.Config{}); err != nil {
		panic(err)
	}
	goleak.VerifyTestMain(m)
}

// patience bounds every wait of these tests; nothing is asserted about how long things take.
const patience = 30 * time.Second

const (
	secretToken   = "Bot not.a.real.token"
	secretSession = "session-not-to-be-logged"
	steady        = 41250 // ms between heartbeats, longer than any test
)

// server is a small gateway; the test plays the part of Discord on each peer.
type server struct {
	t     *testing.T
	http  *httptest.Server
	peers chan *peer

	mu     sync.Mutex
	refuse []int // HTTP statuses for the next connections
}

// peer is the server's end of one connection.
type peer struct {
	t     *testing.T
	conn  *websocket.Conn
	path  string
	query string
	in    chan packet // all but heartbeats
	code  chan int    // the close code that the client sent; 0: the socket just closed

	mu   sync.Mutex
	acks bool
}

func newServer(t *testing.T, secure bool) *server {
	s := &server{t: t, peers: make(chan *peer, 16)}
	if secure {
		s.http = httptest.NewUnstartedServer(s)
		s.http.EnableHTTP2 = true
		s.http.StartTLS()
	} else {
		s.http = httptest.NewServer(s)
	}
	t.Cleanup(s.http.Close)
	return s
}

func (s *server) url() string { return "ws" + strings.TrimPrefix(s.http.URL, "http") }

func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	if len(s.refuse) > 0 {
		status := s.refuse[0]
		s.refuse = s.refuse[1:]
		s.mu.Unlock()
		http.Error(w, "<html>not now</html>", status)
		return
	}
	s.mu.Unlock()
	conn, err := (&websocket.Upgrader{}).Upgrade(w, r, nil)
	if err != nil {
		s.t.Error(err)
		return
	}
	p := &peer{t: s.t, conn: conn, path: r.URL.Path, query: r.URL.RawQuery,
		in: make(chan packet, 16), code: make(chan int, 1), acks: true}
	s.peers <- p
	p.listen()
}

func (p *peer) listen() {
	defer func() { _ = p.conn.Close() }()
	for {
		var m packet
		if err := p.conn.ReadJSON(&m); err != nil {
			code := 0
			if c, ok := err.(*websocket.CloseError); ok && c.Code != websocket.CloseAbnormalClosure {
				code = c.Code
			}
			p.code <- code
			return
		}
		if m.Op != opHeartbeat {
			p.in <- m
			continue
		}
		p.mu.Lock()
		if p.acks {
			_ = p.conn.WriteMessage(websocket.TextMessage, []byte(`{"op":11,"s":null,"t":null,"d":null}`))
		}
		p.mu.Unlock()
	}
}

func (s *server) next() *peer {
	s.t.Helper()
	select {
	case p := <-s.peers:
		return p
	case <-time.After(patience):
		s.t.Fatal("no connection came")
		return nil
	}
}

// send may fail when the client has gone already, which the tests notice otherwise.
func (p *peer) send(format string, args ...any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	_ = p.conn.WriteMessage(websocket.TextMessage, fmt.Appendf(nil, format, args...))
}

func (p *peer) raw(b []byte) {
	p.mu.Lock()
	defer p.mu.Unlock()
	_, _ = p.conn.NetConn().Write(b)
}

func (p *peer) hello(interval int) { p.send(`{"op":10,"d":{"heartbeat_interval":%d}}`, interval) }

func (p *peer) close(code int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	_ = p.conn.WriteMessage(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""))
}

func (p *peer) drop() { _ = p.conn.Close() }

// gone gives the close code with which the client left, 0 for none.
func (p *peer) gone() int {
	p.t.Helper()
	select {
	case code := <-p.code:
		return code
	case <-time.After(patience):
		p.t.Fatal("the client stays connected")
		return -1
	}
}

func (p *peer) expect(op int) packet {
	p.t.Helper()
	select {
	case m := <-p.in:
		if m.Op != op {
			p.t.Fatalf("op %d came, want %d", m.Op, op)
		}
		return m
	case <-time.After(patience):
		p.t.Fatalf("op %d did not come", op)
		return packet{}
	}
}

// identified plays a connection up to READY, which has sequence number 1.
func (p *peer) identified(resumeAt string) {
	p.t.Helper()
	p.hello(steady)
	p.expect(opIdentify)
	p.send(`{"op":0,"s":1,"t":"READY","d":{"session_id":%q,"resume_gateway_url":%q,"guilds":[null]}}`, secretSession, resumeAt)
}

// resuming plays a connection up to RESUME, which must ask for what follows seq.
func (p *peer) resuming(seq int64) {
	p.t.Helper()
	p.hello(steady)
	p.resumes(seq)
}

func (p *peer) resumes(seq int64) {
	p.t.Helper()
	var d struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
		Seq     int64  `json:"seq"`
	}
	if err := json.Unmarshal(p.expect(opResume).Data, &d); err != nil {
		p.t.Fatal(err)
	}
	if d.Token != secretToken || d.Session != secretSession || d.Seq != seq {
		p.t.Fatalf("RESUME of %q at %d, want %q at %d", d.Session, d.Seq, secretSession, seq)
	}
}

func (p *peer) resumed(seq int64) { p.send(`{"op":0,"s":%d,"t":"RESUMED","d":{}}`, seq) }

// rig is a gateway under test.
type rig struct {
	t      *testing.T
	g      *Gateway
	events chan Event
	logged *logBuffer
	cancel context.CancelFunc
	done   chan error
}

type logBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *logBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *logBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// quick waits next to nothing between connections and as long as production for the server.
func quick() Pace {
	ms := time.Millisecond
	return Pace{IdentifyGap: ms, InvalidMin: ms, InvalidMax: 2 * ms, RetryMin: ms, RetryMax: 4 * ms, Settle: patience, Goodbye: patience}
}

// setup is a Config and what Discord tells of its gateway.
type setup struct {
	Config
	Info func(context.Context) (api.GatewayInfo, error)
}

func config(s *server) setup {
	return setup{Config{
		NewSession: func() (*discordgo.Session, error) { return discordgo.New(secretToken) },
		Intents:    1,
		Pace:       quick(),
	}, func(context.Context) (api.GatewayInfo, error) { return api.GatewayInfo{URL: s.url()}, nil }}
}

// start runs a gateway; at the end of the test it must stop.
func start(t *testing.T, cfg setup) *rig {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	r := &rig{t: t, events: make(chan Event, 1024), logged: &logBuffer{}, cancel: cancel, done: make(chan error, 1)}
	if cfg.Handle == nil {
		cfg.Handle = func(e Event) { r.events <- e }
	}
	cfg.Log = slog.New(slog.NewTextHandler(r.logged, nil))
	cfg.Starts = NewStarts(cfg.Info, cfg.Pace, cfg.Log)
	r.g = New(cfg.Config)
	go func() { r.done <- r.g.Run(ctx); close(r.done) }()
	t.Cleanup(func() {
		cancel()
		r.result()
		for _, secret := range []string{secretToken, "not.a.real.token", secretSession} {
			if strings.Contains(r.logged.String(), secret) {
				t.Errorf("the log holds a secret:\n%s", r.logged)
			}
		}
	})
	return r
}

// result is what Run returned; nil when asked again.
func (r *rig) result() error {
	r.t.Helper()
	select {
	case err := <-r.done:
		return err
	case <-time.After(patience):
		r.t.Error("Run does not return")
		return nil
	}
}

func (r *rig) event(kind string) Event {
	r.t.Helper()
	select {
	case e := <-r.events:
		if e.Type != kind {
			r.t.Fatalf("event %s came, want %s", e.Type, kind)
		}
		return e
	case <-time.After(patience):
		r.t.Fatalf("event %s did not come\n%s", kind, r.logged)
		return Event{}
	}
}

func (r *rig) until(what string, ok func(Status) bool) {
	r.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if ok(r.g.Status()) {
			return
		}
	}
	r.t.Fatalf("never %s: %+v\n%s", what, r.g.Status(), r.logged)
}
