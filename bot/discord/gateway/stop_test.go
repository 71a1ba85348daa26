package gateway

import (
	"context"
	"errors"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"musette/bot/discord/api"
)

func TestFatalCodes(t *testing.T) {
	t.Parallel()
	fixes := map[int]string{4004: "MUSETTE_DISCORD__TOKEN", 4010: "shard", 4011: "more shards", 4012: "Update musette", 4013: "intents", 4014: "update it"}
	for code, fix := range fixes {
		s := newServer(t, false)
		r := start(t, config(s))
		p := s.next()
		if code == 4014 { // at any time
			p.identified("")
			r.event("READY")
		} else {
			p.hello(steady)
			p.expect(opIdentify)
		}
		p.close(code)
		var fatal *FatalError
		if err := r.result(); !errors.As(err, &fatal) || fatal.Code != code || !strings.Contains(err.Error(), fix) {
			t.Errorf("%d: %v", code, err)
		}
		if r.g.Status().Connected {
			t.Errorf("%d: still connected", code)
		}
	}
}

func TestWrongTokenAtInfo(t *testing.T) {
	t.Parallel()
	cfg := config(newServer(t, false))
	cfg.Info = func(context.Context) (api.GatewayInfo, error) {
		return api.GatewayInfo{}, &api.Error{Status: 401}
	}
	var fatal *FatalError
	if err := start(t, cfg).result(); !errors.As(err, &fatal) || fatal.Code != 4004 {
		t.Errorf("%v", err)
	}
}

func TestNewSessionFails(t *testing.T) {
	t.Parallel()
	cfg := config(newServer(t, false))
	broken := errors.New("broken")
	cfg.NewSession = func() (*discordgo.Session, error) { return nil, broken }
	if err := start(t, cfg).result(); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
}

// TestInfo has every answer in turn that forbids an IDENTIFY for now.
func TestInfo(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	budget := func(left int, reset time.Duration) api.GatewayInfo {
		return api.GatewayInfo{URL: s.url(), SessionStartLimit: api.SessionStartLimit{Total: 1000, Remaining: left, ResetAfter: reset}}
	}
	const reset = 100 * time.Millisecond
	asked := 0
	var began time.Time
	cfg.Info = func(context.Context) (api.GatewayInfo, error) {
		asked++
		switch asked {
		case 1:
			return api.GatewayInfo{}, errors.New("no network")
		case 2:
			return api.GatewayInfo{URL: "ws://gateway.example/"}, nil // would send the token in the clear
		case 3:
			began = time.Now()
			return budget(0, reset), nil
		case 4:
			return budget(reserve, reset), nil
		}
		return budget(reserve+1, reset), nil
	}
	r := start(t, cfg)
	p := s.next()
	if took := time.Since(began); took < 2*reset || asked < 5 {
		t.Errorf("connected after %v and %d questions", took, asked)
	}
	p.identified("")
	r.event("READY")
	for _, want := range []string{"no network", "not usable", "used up"} {
		if !strings.Contains(r.logged.String(), want) {
			t.Errorf("not logged: %s\n%s", want, r.logged)
		}
	}
}

func TestGapBetweenIdentifies(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	cfg.Pace.IdentifyGap = 300 * time.Millisecond
	start(t, cfg)
	for range 2 {
		p := s.next()
		before := time.Now() // the IDENTIFY comes later
		p.hello(steady)
		p.expect(opIdentify)
		p.drop()
		p = s.next()
		if gap := time.Since(before); gap < cfg.Pace.IdentifyGap {
			t.Errorf("connected again after %v", gap)
		}
		p.drop() // no HELLO, no IDENTIFY, no gap
	}
}

func TestStopWhileConnected(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	p := s.next()
	p.identified("")
	r.event("READY")
	r.cancel()
	if code := p.gone(); code != 1000 {
		t.Errorf("left with %d", code)
	}
	if err := r.result(); err != nil {
		t.Error(err)
	}
	if st := r.g.Status(); st.Connected || st.Failures != 0 {
		t.Errorf("%+v", st)
	}
}

// TestStopInBetween ends the context wherever Run may be waiting.
func TestStopInBetween(t *testing.T) {
	t.Parallel()
	deaf, err := net.Listen("tcp", "127.0.0.1:0") // takes connections and says nothing
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = deaf.Close() })
	for name, tt := range map[string]struct {
		change func(*setup, chan<- bool)
		reach  func(*server)
	}{
		"info": {change: func(c *setup, there chan<- bool) {
			c.Info = func(ctx context.Context) (api.GatewayInfo, error) {
				there <- true
				<-ctx.Done()
				return api.GatewayInfo{}, ctx.Err()
			}
		}},
		"budget": {change: func(c *setup, there chan<- bool) {
			c.Info = func(context.Context) (api.GatewayInfo, error) {
				there <- true
				return api.GatewayInfo{SessionStartLimit: api.SessionStartLimit{Total: 1000, ResetAfter: time.Hour}, URL: "ws://127.0.0.1:1"}, nil
			}
		}},
		"upgrade": {change: func(c *setup, there chan<- bool) {
			c.Info = func(context.Context) (api.GatewayInfo, error) {
				there <- true
				return api.GatewayInfo{URL: "ws://" + deaf.Addr().String()}, nil
			}
		}},
		"handshake": {change: func(c *setup, there chan<- bool) {
			c.Info = func(context.Context) (api.GatewayInfo, error) {
				there <- true
				return api.GatewayInfo{URL: "wss://" + deaf.Addr().String()}, nil
			}
		}},
		"hello": {reach: func(s *server) { s.next() }},
		"ready": {reach: func(s *server) { p := s.next(); p.hello(steady); p.expect(opIdentify) }},
		"retry": {change: func(c *setup, there chan<- bool) {
			c.Pace.RetryMin, c.Pace.RetryMax = time.Hour, time.Hour
		}, reach: func(s *server) { s.next().drop() }},
	} {
		s := newServer(t, false)
		cfg := config(s)
		there := make(chan bool, 1)
		if tt.change != nil {
			tt.change(&cfg, there)
		}
		r := start(t, cfg)
		if tt.reach != nil {
			tt.reach(s)
		} else {
			<-there
		}
		r.cancel()
		if err := r.result(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestHangingOpen has a discordgo session that never comes to dialling.
func TestHangingOpen(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	cfg.Pace.Hello, cfg.Pace.Ready, cfg.Pace.Write = 500*time.Millisecond, 500*time.Millisecond, 100*time.Millisecond
	var locked *discordgo.Session
	cfg.NewSession = func() (*discordgo.Session, error) {
		sess, err := discordgo.New(secretToken)
		if locked == nil {
			locked = sess
			locked.Lock()
		}
		return sess, err
	}
	r := start(t, cfg)
	r.until("given up", func(st Status) bool { return st.Failures > 0 })
	p := s.next()
	p.identified("")
	r.event("READY")
	locked.Unlock()
	if !strings.Contains(r.logged.String(), "discordgo hangs") {
		t.Errorf("log:\n%s", r.logged)
	}
}

func TestRetry(t *testing.T) {
	p := Pace{}.Filled()
	for failures, most := range map[int]time.Duration{1: 500 * time.Millisecond, 2: time.Second, 5: 8 * time.Second, 8: time.Minute, 1000: time.Minute} {
		for range 50 {
			if d := p.retry(failures); d < most/2 || d > most {
				t.Errorf("%d failures: %v, want %v at most and half of it at least", failures, d, most)
			}
		}
	}
	for range 50 {
		if d := p.invalid(); d < time.Second || d > 5*time.Second {
			t.Errorf("after an invalid session %v", d)
		}
	}
}

// TestJudge looks at the waits that the other tests make short.
func TestJudge(t *testing.T) {
	for name, tt := range map[string]struct {
		ready    bool
		why      *cause
		failures int
		least    time.Duration
	}{
		"no session": {false, lost("test"), 8, 30 * time.Second},
		"session":    {true, lost("test"), 1, 250 * time.Millisecond},
		"invalid":    {true, &cause{slow: true}, 1, time.Second},
	} {
		g := New(Config{})
		w, _ := newTestWire(t, Pace{})
		if tt.ready {
			w.readyAt = time.Now()
		}
		w.end(tt.why)
		l := life{failures: 7}
		pause, err := g.judge(w, &l)
		if err != nil || l.failures != tt.failures || pause < tt.least {
			t.Errorf("%s: %d failures, wait %v, %v", name, l.failures, pause, err)
		}
	}
}
