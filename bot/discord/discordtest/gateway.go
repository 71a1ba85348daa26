package discordtest

import (
	"encoding/json"
	"net/http"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

const (
	gatewayPath = "/gateway"
	resumePath  = "/gateway/resume"
	maxPayload  = 4096  // bytes a client may send at once
	maxSends    = 120   // frames a client may send in a minute
	maxBacklog  = 20000 // events a session keeps for a RESUME
)

// Opcodes of the gateway.
const (
	opDispatch       = 0
	opHeartbeat      = 1
	opIdentify       = 2
	opPresence       = 3
	opVoice          = 4
	opResume         = 6
	opReconnect      = 7
	opRequestMembers = 8
	opInvalid        = 9
	opHello          = 10
	opAck            = 11
)

// Close codes of the gateway.
const (
	closeUnknownOp        = 4001
	closeDecode           = 4002
	closeNotAuthenticated = 4003
	closeBadToken         = 4004
	closeAuthenticated    = 4005
	closeBadSequence      = 4007
	closeTooFast          = 4008
	closeTimedOut         = 4009
	closeBadShard         = 4010
	closeTooManyGuilds    = 4011
	closeBadVersion       = 4012
	closeBadIntents       = 4013
	closeNoSuchIntents    = 4014
)

// gateway is what connections share. The server's lock guards it.
type gateway struct {
	conns    map[*conn]bool
	sessions map[string]*session
	faults   gatewayFaults
	last     map[int]time.Time // IDENTIFY by rate limit key
	limit    SessionStartLimit
	shards   map[[2]int]*ShardCounters
}

func (g *gateway) init() {
	g.conns, g.sessions, g.last = map[*conn]bool{}, map[string]*session{}, map[int]time.Time{}
	g.shards = map[[2]int]*ShardCounters{}
	g.limit = SessionStartLimit{Total: 1000, Remaining: 1000, ResetAfter: 24 * time.Hour, MaxConcurrency: 1}
}

func (g *gateway) all() []*conn {
	all := make([]*conn, 0, len(g.conns))
	for c := range g.conns {
		all = append(all, c)
	}
	return all
}

// Counters count what clients did. Resumes are asked for, Resumed succeeded.
type Counters struct {
	Connections, ResumeURL   int // websockets opened, and those of them at resume_gateway_url
	Identifies, Ready        int
	Resumes, Resumed         int
	Heartbeats, Refused      int // Refused: upgrades answered with an HTTP error
	OverBudget, EarlyRetries int // IDENTIFYs beyond the session start limit; requests during a 429
	LastIdentify             Identify
}

// ShardCounters count what came for one shard. Identifies and Resumes are asked for, Invalid
// are IDENTIFYs answered with op 9.
type ShardCounters struct{ Identifies, Invalid, Resumes int }

// Identify is what the last IDENTIFY said.
type Identify struct {
	Intents    int               `json:"intents"`
	Shard      *[2]int           `json:"shard"`
	Compress   bool              `json:"compress"`
	Properties map[string]string `json:"properties"`
}

// payload is what a websocket message holds, either way.
type payload struct {
	Op   int             `json:"op"`
	Type *string         `json:"t"`
	Seq  *int64          `json:"s"`
	Data json.RawMessage `json:"d"`
}

// serveGateway holds a websocket for as long as it lives.
func (s *Server) serveGateway(w http.ResponseWriter, r *http.Request) {
	status, mute := s.takeUpgradeFault()
	if status != 0 {
		s.traffic.line("<- GET %s refused with %d", r.URL.Path, status)
		http.Error(w, "the gateway is unavailable", status)
		return
	}
	upgrader := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return // the upgrader has answered
	}
	c := &conn{s: s, ws: ws, wake: make(chan struct{}, 1), version: r.URL.Query().Get("v"), beat: time.Now(),
		resumeURL: strings.HasPrefix(r.URL.Path, resumePath)}
	c.guardControl()
	if !s.welcome(c, mute) {
		c.drop()
		return
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		c.writeLoop()
	}()
	code := c.readLoop()
	s.farewell(c, code)
	c.drop()
	<-done
}

// guardControl keeps a silent connection from answering pings and closes.
func (c *conn) guardControl() {
	quiet := func() bool {
		c.s.mu.Lock()
		defer c.s.mu.Unlock()
		return c.silent
	}
	ping, closing := c.ws.PingHandler(), c.ws.CloseHandler()
	c.ws.SetPingHandler(func(data string) error {
		if quiet() {
			return nil
		}
		return ping(data)
	})
	c.ws.SetCloseHandler(func(code int, text string) error {
		if quiet() {
			return nil
		}
		return closing(code, text)
	})
}

// welcome counts a connection in and says HELLO, unless told not to.
func (s *Server) welcome(c *conn, mute bool) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return false
	}
	s.gateway.conns[c] = true
	s.counters.Connections++
	if c.resumeURL {
		s.counters.ResumeURL++
	}
	s.bell.ring()
	s.traffic.line("<- websocket opened (version %s)", c.version)
	switch {
	case mute:
	case c.version != "" && c.version != "9" && c.version != "10":
		c.close(closeBadVersion)
	default:
		c.send(opHello, jsonMap{"heartbeat_interval": s.opts.HeartbeatInterval.Milliseconds(), "_trace": []string{"double"}})
	}
	return true
}

// farewell detaches a connection. A client that closes with 1000 or 1001 gives
// its session up, and so does Discord with a code that ends one.
func (s *Server) farewell(c *conn, code int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.traffic.line("<- websocket ended (%d)", code)
	c.ended = true
	delete(s.gateway.conns, c)
	if ses := c.session; ses != nil && ses.conn == c {
		ses.conn = nil
		if code == websocket.CloseNormalClosure || code == websocket.CloseGoingAway {
			delete(s.gateway.sessions, ses.id)
		}
	}
	s.bell.ring()
}

// readLoop ends with the close code that the client sent, or 0.
func (c *conn) readLoop() int {
	for {
		if c.s.opts.RequireHeartbeats {
			_ = c.ws.SetReadDeadline(c.beatDue()) // a dead connection shows when reading
		}
		_, data, err := c.ws.ReadMessage()
		if err != nil {
			return c.readFault(err)
		}
		c.s.mu.Lock()
		c.receive(data)
		c.s.mu.Unlock()
	}
}

func (c *conn) beatDue() time.Time {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.beat.Add(2 * c.s.opts.HeartbeatInterval)
}

func (c *conn) readFault(err error) int {
	if e, ok := err.(*websocket.CloseError); ok {
		return e.Code
	}
	c.s.mu.Lock()
	late := c.s.opts.RequireHeartbeats && !c.ended && !c.closing && !time.Now().Before(c.beat.Add(2*c.s.opts.HeartbeatInterval))
	if late && c.session != nil {
		delete(c.s.gateway.sessions, c.session.id)
	}
	c.s.mu.Unlock()
	if late {
		_ = c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(closeTimedOut, ""), time.Now().Add(time.Second))
	}
	return 0
}
