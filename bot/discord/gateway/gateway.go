// Package gateway keeps one session of Discord's gateway alive: it connects, resumes, starts
// anew at the pace that Discord allows, and gives up only when trying again cannot help.
//
// discordgo does the upgrade, the IDENTIFY and the heartbeats. What it does badly is decided one
// layer below it, in wire.go: the connection that it is given watches the frames and ends
// itself when there is silence, a request to reconnect, an invalid session or a close. Each
// connection has a discordgo session of its own, thrown away with it, so that nothing that
// discordgo still does to an old one can touch the next.
package gateway

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"runtime"
	"runtime/debug"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
)

// Event is a dispatch as it came. After a RESUME one may come twice.
type Event struct {
	Type string
	Data json.RawMessage // the receiver's to keep
}

// Config says how to connect. NewSession, Starts and Handle must be set.
type Config struct {
	NewSession func() (*discordgo.Session, error) // a fresh one at each call
	Starts     *Starts                            // the same for all shards of a bot
	Shard      int                                // counted from 0
	Shards     int                                // 0 and 1: all in one
	Intents    int                                // bits
	Handle     func(Event)                        // one call at a time, in order; must return at once
	Log        *slog.Logger                       // nil: none
	Pace       Pace
}

// Status is a look at the session for a health check.
type Status struct {
	Connected bool      // READY or RESUMED has come and the connection has not ended
	Since     time.Time // when Connected last changed
	LastAck   time.Time // the last acknowledged heartbeat; zero: none yet
	// Counts since the start: IDENTIFYs and RESUMEs sent, and ends that were not wanted,
	// of connections and of tries.
	Identifies, Resumes, Failures int
}

// Gateway is one session; make it with New.
type Gateway struct {
	cfg    Config
	pace   Pace
	log    *slog.Logger
	starts *Starts
	behind sync.WaitGroup // sessions that discordgo is still closing
	handle sync.Mutex     // held during Handle

	mu     sync.Mutex
	status Status
	pass   *pass // to the next IDENTIFY; nil: none
}

// New makes a gateway that Run starts.
func New(cfg Config) *Gateway {
	log := cfg.Log
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	return &Gateway{cfg: cfg, pace: cfg.Pace.Filled(), log: log, starts: cfg.Starts, status: Status{Since: time.Now()}}
}

// Shard is Discord's number of the session's shard.
func (g *Gateway) Shard() int { return g.cfg.Shard }

// Status may be called at any time.
func (g *Gateway) Status() Status {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.status
}

func (g *Gateway) greeted(resume bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if resume {
		g.status.Resumes++
		return
	}
	g.status.Identifies++
	if g.pass != nil {
		g.pass.used()
	}
}

func (g *Gateway) ready(resumed bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.status.Connected, g.status.Since = true, time.Now()
	g.log.Info("gateway connected", "resumed", resumed)
}

func (g *Gateway) acked() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.status.LastAck = time.Now()
}

// down notes the end of a connection or of a try.
func (g *Gateway) down(wanted bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.status.Connected {
		g.status.Connected, g.status.Since = false, time.Now()
	}
	if !wanted {
		g.status.Failures++
	}
}

// event hands one on. A panic costs this event only; what it says stays out of the
// log unless it is the runtime's, since it might repeat somebody's message.
func (g *Gateway) event(e Event) {
	g.handle.Lock()
	defer g.handle.Unlock()
	defer func() {
		v := recover()
		if v == nil {
			return
		}
		what := fmt.Sprintf("%T", v)
		if err, ok := v.(runtime.Error); ok {
			what = err.Error()
		}
		g.log.Error("panic while handling an event", "type", e.Type, "panic", what, "stack", string(debug.Stack()))
	}()
	g.cfg.Handle(e)
}
