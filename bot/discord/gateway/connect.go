package gateway

import (
	"bytes"
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"net/url"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// connect makes one connection and returns when it has ended, its own end or that of ctx.
// session is what to resume, nil for an IDENTIFY. An error is NewSession's.
func (g *Gateway) connect(ctx context.Context, home string, session *ticket) (*wire, error) {
	s, err := g.cfg.NewSession()
	if err != nil {
		return nil, err
	}
	at := home
	if session != nil && usable(session.url) && scheme(session.url) == scheme(home) {
		at = session.url
	}
	var conf *tls.Config
	if s.Dialer != nil {
		conf = s.Dialer.TLSClientConfig
	}
	w := newWire(ctx, g.pace, g, session, conf)
	closed := g.prepare(s, w, at)
	g.behind.Add(1)
	go func() {
		defer g.behind.Done()
		if err := s.Open(); err != nil {
			w.end(lost("opening failed: %v", err)) // unless the wire knows better
			return
		}
		<-closed
	}()
	guard := time.AfterFunc(g.pace.open(), func() {
		if _, readyAt, _ := w.outcome(); readyAt.IsZero() {
			w.end(lost("discordgo hangs"))
		}
	})
	defer guard.Stop()
	select {
	case <-w.ended:
	case <-ctx.Done():
		w.leave()
	}
	return w, nil
}

// prepare makes s open through w at an address, and gives a channel that closes when
// discordgo has closed a session that was open.
func (g *Gateway) prepare(s *discordgo.Session, w *wire, at string) (closed <-chan struct{}) {
	s.LogLevel = -1 // its log repeats messages
	s.ShouldReconnectOnError = false
	s.StateEnabled = false
	s.SyncEvents = true
	s.Compress = false
	s.Identify.Compress = false
	s.Identify.Intents = discordgo.Intent(g.cfg.Intents)
	if g.cfg.Shards > 1 {
		s.ShardID, s.ShardCount = g.cfg.Shard, g.cfg.Shards
	}
	s.Client = &http.Client{Transport: address(at)}
	dial := func(secure bool) func(context.Context, string, string) (net.Conn, error) {
		return func(_ context.Context, network, addr string) (net.Conn, error) { return w.dial(network, addr, secure) }
	}
	s.Dialer = &websocket.Dialer{NetDialContext: dial(false), NetDialTLSContext: dial(true)}

	done := make(chan struct{})
	var once sync.Once
	s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) { once.Do(func() { close(done) }) })
	return done
}

// address answers discordgo's question for the gateway's address. It asks before each
// connection, so that a RESUME would depend on the HTTP interface being up, and would go to
// the general address instead of the one that READY names.
type address string

// RoundTrip answers GET /gateway.
func (a address) RoundTrip(r *http.Request) (*http.Response, error) {
	if r.Body != nil {
		_ = r.Body.Close()
	}
	if r.URL.String() != discordgo.EndpointGateway {
		return nil, errors.New("a gateway session makes no other calls")
	}
	body, err := json.Marshal(map[string]string{"url": string(a)})
	if err != nil {
		return nil, err
	}
	return &http.Response{
		StatusCode: http.StatusOK, Request: r, Header: http.Header{},
		ProtoMajor: 1, ProtoMinor: 1,
		Body: io.NopCloser(bytes.NewReader(body)), ContentLength: int64(len(body)),
	}, nil
}

// usable tells whether the token may be sent to a gateway at this address: encrypted, or
// not leaving the machine.
func usable(address string) bool {
	u, err := url.Parse(address)
	if err != nil || u.Hostname() == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" {
		return false
	}
	ip := net.ParseIP(u.Hostname())
	local := u.Hostname() == "localhost" || ip != nil && ip.IsLoopback()
	return u.Scheme == "wss" || u.Scheme == "ws" && local
}

func scheme(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return ""
	}
	return u.Scheme
}
