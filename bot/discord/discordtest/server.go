// Package discordtest is a Discord for tests: gateway websocket and REST on one
// port of 127.0.0.1, with people, servers and faults that a test directs.
//
// It behaves as Discord's public developer documentation says: Gateway,
// Interactions ("Receiving and Responding"), Rate Limits, and the resource pages.
// It shares no code with the bot's client, so that each checks the other.
//
// A test starts it with New, points the bot at URL with Token, adds a Guild and
// then acts as the riders: Command, Press, SubmitForm, Autocomplete, Say. Each
// returns an Interaction whose Answer waits for what the person would see.
package discordtest

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"
)

// Options shape a Server; the zero value is Discord as documented.
type Options struct {
	Listen            string           // address on the loopback; "" is 127.0.0.1:0
	Token             string           // of the bot; "" is a made-up one
	HeartbeatInterval time.Duration    // announced in HELLO; 0 is 41.25 s
	RequireHeartbeats bool             // close 4009 after two intervals without one
	IdentifyEvery     time.Duration    // IDENTIFYs of one rate limit key closer than this get op 9; 0 allows all
	Shards            int              // that GET /gateway/bot recommends at least; 0 is as many as the servers need
	GuildsPerShard    int              // a shard with more of them is closed with 4011; 0 is 2,500
	Privileged        int              // privileged intents that are granted
	AnswerWithin      time.Duration    // time for the first answer; 0 is 3 s
	TokenLife         time.Duration    // of interaction tokens; 0 is 15 min
	KeepRequests      int              // most Requests to remember, the older half goes when full; 0 is 200,000, negative none
	OnRequest         func(Request)    // called for each request before it is answered; must not block
	Traffic           io.Writer        // one line per frame and request, tokens hidden
	Now               func() time.Time // the clock of ids, which tell when a thing was made; nil is the machine's
	Date              func() time.Time // the Date of answers; nil: they have none
}

// Server is the double. All methods may be called from several goroutines.
type Server struct {
	URL   string // http://127.0.0.1:PORT
	Token string // the bot's, without "Bot "
	AppID string // the application's id
	BotID string // the bot's user id, which is another

	opts    Options
	ctx     context.Context
	cancel  context.CancelFunc
	http    *http.Server
	mux     *http.ServeMux
	wg      sync.WaitGroup // handlers and what they started
	served  chan struct{}  // closed when nothing is accepted any more
	traffic traffic

	mu       sync.Mutex
	closed   bool
	bell     bell // rings when something changed that a test may wait for
	lastID   uint64
	world    world
	gateway  gateway
	messages messageStore
	calls    map[string]*Interaction // by token
	commands []*definition
	rules    []*Failure
	blocks   []block
	requests requestRing
	counters Counters
}

// New starts a double and panics where the loopback has no free port, as
// httptest does. Close ends it.
func New(o Options) *Server {
	s, err := Start(o)
	if err != nil {
		panic(err)
	}
	return s
}

// Start starts a double on Options.Listen, which must be a loopback address.
func Start(o Options) (*Server, error) {
	o.setDefaults()
	host, _, err := net.SplitHostPort(o.Listen)
	if err != nil {
		return nil, fmt.Errorf("discordtest: listen: %w", err)
	}
	if ip := net.ParseIP(host); ip == nil || !ip.IsLoopback() {
		return nil, fmt.Errorf("discordtest: %s is not a loopback address", o.Listen)
	}
	listener, err := net.Listen("tcp", o.Listen)
	if err != nil {
		return nil, fmt.Errorf("discordtest: listen: %w", err)
	}
	s := &Server{URL: "http://" + listener.Addr().String(), Token: o.Token, opts: o,
		calls: map[string]*Interaction{}, served: make(chan struct{})}
	s.ctx, s.cancel = context.WithCancel(context.Background())
	s.traffic.to = o.Traffic
	s.world.init()
	s.messages.init()
	s.requests.limit = o.KeepRequests
	s.gateway.init()
	s.AppID, s.BotID = s.newID(), s.newID()
	s.world.users[s.BotID] = &user{id: s.BotID, name: "musette", bot: true}
	s.mux = s.routes()
	s.http = &http.Server{Handler: http.HandlerFunc(s.serve), ReadHeaderTimeout: 10 * time.Second,
		BaseContext: func(net.Listener) context.Context { return s.ctx }}
	go func() {
		defer close(s.served)
		if err := s.http.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			s.traffic.line("!! serving ended: %v", err)
		}
	}()
	return s, nil
}

func (o *Options) setDefaults() {
	def(&o.Listen, "127.0.0.1:0")
	def(&o.Token, "made-up.token.of-the-double")
	def(&o.HeartbeatInterval, 41250*time.Millisecond)
	def(&o.AnswerWithin, 3*time.Second)
	def(&o.TokenLife, 15*time.Minute)
	def(&o.KeepRequests, 200_000)
	def(&o.GuildsPerShard, 2500)
}

func def[T comparable](field *T, value T) {
	var zero T
	if *field == zero {
		*field = value
	}
}

// Close ends all connections and waits for every goroutine of the double.
func (s *Server) Close() {
	s.mu.Lock()
	s.closed = true
	conns := s.gateway.all()
	s.mu.Unlock()
	s.cancel()
	for _, c := range conns {
		c.drop()
	}
	ended := make(chan struct{})
	go func() {
		s.wg.Wait()
		close(ended)
	}()
	grace := time.NewTimer(time.Second) // answers on their way are still written
	defer grace.Stop()
	select {
	case <-ended:
	case <-grace.C:
	}
	_ = s.http.Close() // nothing is left to save
	<-ended
	<-s.served
}

// enter counts a handler in, so that Close can wait for it.
func (s *Server) enter() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return false
	}
	s.wg.Add(1)
	return true
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request) {
	if !s.enter() {
		panic(http.ErrAbortHandler) // no answer is better than an empty one
	}
	defer s.wg.Done()
	w.Header()["Date"] = nil // which the server would set
	if s.opts.Date != nil {
		w.Header().Set("Date", s.opts.Date().UTC().Format(http.TimeFormat))
	}
	if r.URL.Path == gatewayPath || strings.HasPrefix(r.URL.Path, gatewayPath+"/") {
		s.serveGateway(w, r)
		return
	}
	if path, ok := strings.CutPrefix(r.URL.Path, "/api/"); ok {
		for _, version := range []string{"v9/", "v10/"} {
			path = strings.TrimPrefix(path, version)
		}
		s.serveREST(w, r, "/"+path)
		return
	}
	http.NotFound(w, r)
}

// discordEpoch is the first millisecond of 2015, where snowflake ids begin.
const discordEpoch = 1420070400000

// newID makes the next snowflake: milliseconds shifted by 22 bits, ever rising.
// The caller holds mu or is alone.
func (s *Server) newID() string {
	now := time.Now
	if s.opts.Now != nil {
		now = s.opts.Now
	}
	id := uint64(now().UnixMilli()-discordEpoch) << 22
	if id <= s.lastID {
		id = s.lastID + 1
	}
	s.lastID = id
	return fmt.Sprint(id)
}

// bell wakes those who wait for a change. Its user's lock guards it.
type bell struct{ ch chan struct{} }

func (b *bell) next() <-chan struct{} {
	if b.ch == nil {
		b.ch = make(chan struct{})
	}
	return b.ch
}

func (b *bell) ring() {
	if b.ch != nil {
		close(b.ch)
		b.ch = nil
	}
}

// errClosed is why waiting ends when the double ends.
var errClosed = errors.New("discordtest: the double is closed")

// wait blocks until done, called with the lock held, says so.
func (s *Server) wait(ctx context.Context, b *bell, done func() bool) error {
	for {
		s.mu.Lock()
		ok, next := done(), b.next()
		s.mu.Unlock()
		if ok {
			return nil
		}
		select {
		case <-next:
		case <-ctx.Done():
			return ctx.Err()
		case <-s.ctx.Done():
			return errClosed
		}
	}
}
