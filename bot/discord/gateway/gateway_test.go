package gateway

import (
	"crypto/tls"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

func TestIdentifyAndDispatch(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	cfg.Shard, cfg.Shards = 1, 2
	r := start(t, cfg)
	p := s.next()
	p.hello(50) // heartbeats soon, all acknowledged
	d := string(p.expect(opIdentify).Data)
	for _, want := range []string{`"intents":1`, `"shard":[1,2]`, `"compress":false`} {
		if !strings.Contains(d, want) {
			t.Errorf("IDENTIFY without %s", want)
		}
	}
	// A READY that discordgo's own decoding would panic on.
	p.send(`{"op":0,"s":1,"t":"READY","d":{"session_id":%q,"guilds":[null]}}`, secretSession)
	r.event("READY")
	r.until("connected", func(st Status) bool { return st.Connected && st.Identifies == 1 })
	r.until("acknowledged", func(st Status) bool { return !st.LastAck.IsZero() })
	p.send(`{"op":0,"s":2,"t":"INTERACTION_CREATE","d":{"id":"9","data":{"components":[{"type":77}]}}}`)
	if e := r.event("INTERACTION_CREATE"); string(e.Data) != `{"id":"9","data":{"components":[{"type":77}]}}` {
		t.Errorf("data %s", e.Data)
	}
}

// TestResume ends one session in every way that leaves it alive; each RESUME must ask for
// exactly what is missing, at the address that READY named.
func TestResume(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	p := s.next()
	p.identified(s.url() + "/other")
	r.event("READY")
	seq := int64(1)
	for _, end := range []struct {
		name string
		do   func(*peer)
	}{
		{"drop", (*peer).drop},
		{"op 7", func(p *peer) { p.send(`{"op":7,"d":null}`) }},
		{"op 9 true", func(p *peer) { p.send(`{"op":9,"d":true}`) }},
		{"close 4000", func(p *peer) { p.close(4000) }},
		{"close 4008", func(p *peer) { p.close(4008) }},
		{"close without code", func(p *peer) { p.close(websocket.CloseNoStatusReceived) }},
		{"garbled JSON", func(p *peer) { p.send(`{"op":`) }},
		{"garbled zlib", func(p *peer) { p.raw(appendFrame(nil, opBinary, []byte{0x78, 0x9c, 1, 2, 3}, nil)) }},
		{"garbled frame", func(p *peer) { p.raw([]byte{0xff, 0xff, 0xff}) }},
		{"huge frame", func(p *peer) { p.raw([]byte{0x81, 127, 0, 0, 0, 1, 0, 0, 0, 0}) }},
	} {
		end.do(p)
		if code := p.gone(); code != 0 && code < 4000 && code != websocket.CloseNoStatusReceived {
			t.Errorf("%s: the client left with %d, which ends the session", end.name, code)
		}
		p = s.next()
		if !strings.HasPrefix(p.path, "/other") || p.query != "v="+discordgo.APIVersion+"&encoding=json" {
			t.Errorf("%s: resumed at %s?%s", end.name, p.path, p.query)
		}
		p.resuming(seq)
		p.send(`{"op":0,"s":%d,"t":"REPLAYED","d":{}}`, seq+1)
		p.resumed(seq + 2)
		seq += 2
		r.event("REPLAYED")
		r.event("RESUMED")
	}
	if st := r.g.Status(); st.Identifies != 1 || st.Resumes != 10 || st.Failures != 10 || !st.Connected {
		t.Errorf("%+v", st)
	}
}

// TestRefusedResume plays the answers to a RESUME that discordgo itself cannot take.
func TestRefusedResume(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	p := s.next()
	p.identified("")
	r.event("READY")
	p.drop()
	for _, answer := range []string{`{"op":7,"d":null}`, `{"op":9,"d":true}`} {
		p = s.next()
		p.resuming(1)
		p.send("%s", answer)
	}
	p = s.next()
	p.resuming(1)
	p.send(`{"op":9,"d":false}`)
	p = s.next()
	p.identified("")
	r.event("READY")
	p.drop()
	// What keeps failing is given up after five times.
	for range maxResumes {
		p = s.next()
		p.resuming(1)
		p.drop()
	}
	s.next().identified("")
	r.event("READY")
}

// A server that goes away leaves the session alive.
func TestGoingAway(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	p := s.next()
	p.identified("")
	r.event("READY")
	p.close(1001)
	s.next().resuming(1)
}

func TestFreshSession(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	for _, code := range []int{1000, 4003, 4005, 4007, 4009} {
		p := s.next()
		p.identified("")
		r.event("READY")
		p.close(code)
	}
	p := s.next()
	p.identified("")
	r.event("READY")
	p.send(`{"op":9,"d":false}`)
	for _, alive := range []bool{false, true} {
		p = s.next()
		p.hello(steady)
		p.expect(opIdentify)
		p.send(`{"op":9,"d":%v}`, alive)
	}
	s.next().identified("")
	r.event("READY")
	r.until("counted", func(st Status) bool { return st.Identifies == 9 && st.Resumes == 0 })
}

func TestSilence(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	cfg.Pace.Hello, cfg.Pace.Ready = 2*time.Second, 2*time.Second
	r := start(t, cfg)
	s.next().gone() // no HELLO

	p := s.next() // no READY
	p.hello(steady)
	p.expect(opIdentify)
	p.gone()

	p = s.next() // no acknowledgement, though events come
	p.acks = false
	p.hello(200)
	p.expect(opIdentify)
	p.send(`{"op":0,"s":1,"t":"READY","d":{"session_id":%q}}`, secretSession)
	r.event("READY")
	seq := int64(1)
	code := -1
	for code < 0 {
		select {
		case code = <-p.code:
		case <-time.After(20 * time.Millisecond):
			seq++
			p.send(`{"op":0,"s":%d,"t":"NOISE","d":{}}`, seq)
		}
	}
	if code != 0 {
		t.Errorf("the client left with %d, which ends the session", code)
	}
	last := int64(1)
	for len(r.events) > 0 {
		r.event("NOISE")
		last++
	}
	p = s.next()
	p.resuming(last)
	p.resumed(last)
	r.event("RESUMED")
	for _, cause := range []string{"no HELLO in time", "neither READY nor RESUMED in time", "no heartbeat acknowledged in time"} {
		if !strings.Contains(r.logged.String(), cause) {
			t.Errorf("not logged: %s\n%s", cause, r.logged)
		}
	}
}

// TestOddMessages sends what would deadlock or kill discordgo as it is.
func TestOddMessages(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	r := start(t, config(s))
	p := s.next()
	p.hello(steady)
	p.expect(opIdentify)
	p.send(`{"op":11}`)
	p.send(`null`)
	p.send(`{"op":1,"d":null}`)
	p.send(`{"op":0,"s":1,"t":"READY","d":{"session_id":%q,"guilds":[null]}}`, secretSession)
	r.event("READY")
	for _, d := range []string{`null`, `{}`, `[]`, `"x"`, `{"members":[null]}`} {
		p.send(`{"op":0,"s":2,"t":"GUILD_CREATE","d":%s}`, d)
		r.event("GUILD_CREATE")
	}
	// A message in pieces around a ping.
	p.raw([]byte("\x01\x08{\"op\":0,\x89\x01p\x80\x12\"s\":3,\"t\":\"PARTS\"}"))
	r.event("PARTS")
	p.drop()
	p = s.next()
	p.resuming(3)
	p.resumed(4)
	r.event("RESUMED")
}

func TestRefusedUpgrade(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	s.refuse = []int{http.StatusServiceUnavailable, http.StatusTooManyRequests}
	r := start(t, config(s))
	p := s.next()
	p.identified("")
	r.event("READY")
	s.mu.Lock()
	s.refuse = []int{http.StatusServiceUnavailable}
	s.mu.Unlock()
	p.drop()
	p = s.next()
	p.resuming(1)
	p.resumed(2)
	r.event("RESUMED")
	if st := r.g.Status(); st.Failures != 4 || st.Identifies != 1 {
		t.Errorf("%+v", st)
	}
	if !strings.Contains(r.logged.String(), "HTTP status 503") {
		t.Errorf("not logged:\n%s", r.logged)
	}
}

func TestTLS(t *testing.T) {
	t.Parallel()
	s := newServer(t, true)
	cfg := config(s)
	trust := s.http.Client().Transport.(*http.Transport).TLSClientConfig.RootCAs
	known := false
	cfg.NewSession = func() (*discordgo.Session, error) {
		sess, err := discordgo.New(secretToken)
		if known { // the first try meets a certificate that nobody vouches for
			sess.Dialer = &websocket.Dialer{TLSClientConfig: &tls.Config{RootCAs: trust}}
		}
		known = true
		return sess, err
	}
	r := start(t, cfg)
	p := s.next()
	p.identified(strings.Replace(s.url(), "wss:", "ws:", 1)) // must not lead out of TLS
	r.event("READY")
	p.drop()
	p = s.next()
	p.resuming(1)
	p.resumed(2)
	r.event("RESUMED")
	if !strings.Contains(r.logged.String(), "the TLS handshake failed") {
		t.Errorf("the unknown certificate was taken:\n%s", r.logged)
	}
}

func TestPanicInHandle(t *testing.T) {
	t.Parallel()
	s := newServer(t, false)
	cfg := config(s)
	got := make(chan string, 4)
	cfg.Handle = func(e Event) {
		if e.Type == "BAD" {
			panic("what a rider wrote")
		}
		got <- e.Type
	}
	r := start(t, cfg)
	p := s.next()
	p.identified("")
	p.send(`{"op":0,"s":2,"t":"BAD","d":{}}`)
	p.send(`{"op":0,"s":3,"t":"GOOD","d":{}}`)
	for _, want := range []string{"READY", "GOOD"} {
		select {
		case e := <-got:
			if e != want {
				t.Errorf("%s, want %s", e, want)
			}
		case <-time.After(patience):
			t.Fatal("the panic stopped the events")
		}
	}
	if l := r.logged.String(); !strings.Contains(l, "panic") || strings.Contains(l, "rider wrote") {
		t.Errorf("log:\n%s", l)
	}
	if st := r.g.Status(); st.Identifies != 1 || st.Failures != 0 {
		t.Errorf("%+v", st)
	}
}
