// Package meter counts what the bot does, for those who run it: as metrics that
// Prometheus reads, and as one verdict on its health. It keeps no names, no texts
// and no numbers of people.
package meter

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/VictoriaMetrics/metrics"
)

// lateBy is how long after its time a post counts as late. The scheduler looks by the minute.
const lateBy = 5 * time.Minute

// tickOld is how old the last look for what is owed may be.
const tickOld = 5 * time.Minute

// Meter counts. A nil one counts nothing.
type Meter struct {
	set *metrics.Set

	mu       sync.Mutex
	gateways []Gateway
}

// Gateway tells how a session of Discord's gateway fares.
type Gateway struct {
	Shard  int
	Status func() (connected bool, since time.Time, identifies, resumes, failures int)
}

// Within Discord's three seconds for a first answer, and far beyond for the rest.
var seconds = []float64{0.01, 0.05, 0.1, 0.25, 0.5, 1, 2, 3, 5, 10, 30, 60}

// New makes a Meter. What it counts is there from the start, so that the first failure
// is seen as one.
func New() *Meter {
	m := &Meter{set: metrics.NewSet()}
	for _, kind := range []string{"reminder", "digest"} {
		m.counter("musette_posts_due_total", "kind", kind)
		m.counter("musette_posts_late_total", "kind", kind)
		for _, state := range []string{"sent", "skipped", "failed"} {
			m.counter("musette_posts_total", "kind", kind, "state", state)
		}
	}
	return m
}

// series is a metric with its labels, as Prometheus reads it.
func series(name string, labels ...string) string {
	var b strings.Builder
	b.WriteString(name)
	for i := 0; i < len(labels); i += 2 {
		fmt.Fprintf(&b, "%c%s=%q", "{,"[min(i, 1)], labels[i], labels[i+1])
	}
	b.WriteByte('}')
	return b.String()
}

func (m *Meter) counter(name string, labels ...string) *metrics.Counter {
	return m.set.GetOrCreateCounter(series(name, labels...))
}

func (m *Meter) took(name string, took time.Duration, labels ...string) {
	m.set.GetOrCreatePrometheusHistogramExt(series(name, labels...), seconds).Update(took.Seconds())
}

// outcome is a word for how something ended.
func outcome(ok bool, err error) string {
	switch {
	case err != nil:
		return "broken"
	case !ok:
		return "refused"
	}
	return "ok"
}

// Interaction counts an interaction of Discord, with its whole way.
func (m *Meter) Interaction(kind string, took time.Duration, err error) {
	if m != nil {
		m.took("musette_interaction_seconds", took, "kind", kind, "outcome", outcome(true, err))
	}
}

// Request counts a command or question; command must be one of the table, or "".
func (m *Meter) Request(command string, took time.Duration, ok bool, err error) {
	if m == nil {
		return
	}
	if command == "" {
		command = "question"
	}
	m.took("musette_request_seconds", took, "command", command, "outcome", outcome(ok, err))
}

// Due counts posts that are claimed to be sent.
func (m *Meter) Due(kind string, n int) {
	if m != nil {
		m.counter("musette_posts_due_total", "kind", kind).Add(n)
	}
}

// Post counts what happened to a post that was due at an instant.
func (m *Meter) Post(kind, state string, due, now time.Time) {
	if m == nil {
		return
	}
	m.counter("musette_posts_total", "kind", kind, "state", state).Inc()
	if state == "sent" && now.Sub(due) > lateBy {
		m.counter("musette_posts_late_total", "kind", kind).Inc()
	}
}

// Dropped counts an event of Discord that found no room.
func (m *Meter) Dropped(event string) {
	if m != nil {
		m.counter("musette_events_dropped_total", "event", event).Inc()
	}
}

// Watch adds a session of the gateway.
func (m *Meter) Watch(g Gateway) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.gateways = append(m.gateways, g)
}

func (m *Meter) sessions() []Gateway {
	m.mu.Lock()
	defer m.mu.Unlock()
	return append([]Gateway(nil), m.gateways...)
}

// writeGateways asks the sessions when somebody wants to know.
func (m *Meter) writeGateways(w io.Writer) {
	for _, g := range m.sessions() {
		connected, since, identifies, resumes, failures := g.Status()
		write := func(name string, n int64) {
			fmt.Fprintf(w, "%s %d\n", series("musette_gateway_"+name, "shard", strconv.Itoa(g.Shard)), n)
		}
		up := int64(0)
		if connected {
			up = 1
		}
		write("connected", up)
		write("changed_timestamp_seconds", since.Unix())
		write("identifies_total", int64(identifies))
		write("resumes_total", int64(resumes))
		write("failures_total", int64(failures))
	}
}

// Health is the verdict on the bot: what is wrong with it, nothing where all is well.
type Health struct {
	OK       bool     `json:"ok"`
	Version  string   `json:"version"`
	Shards   []Shard  `json:"shards"`
	LastTick string   `json:"last_tick"` // RFC 3339; "": never
	Faults   []string `json:"faults"`
}

// Shard is one session of the gateway.
type Shard struct {
	Shard     int    `json:"shard"`
	Connected bool   `json:"connected"`
	Since     string `json:"since"`
}

// Health looks at the sessions and asks when the last look for what is owed was.
func (m *Meter) Health(ctx context.Context, version string, now time.Time, lastTick func(context.Context) (time.Time, error)) Health {
	h := Health{Version: version, Shards: []Shard{}, Faults: []string{}}
	fault := func(format string, args ...any) { h.Faults = append(h.Faults, fmt.Sprintf(format, args...)) }
	for _, g := range m.sessions() {
		connected, since, _, _, _ := g.Status()
		h.Shards = append(h.Shards, Shard{g.Shard, connected, since.UTC().Format(time.RFC3339)})
		if !connected {
			fault("shard %d has not been connected to Discord since %s", g.Shard, since.UTC().Format(time.RFC3339))
		}
	}
	if len(h.Shards) == 0 {
		fault("not signed in at Discord yet")
	}
	switch at, err := lastTick(ctx); {
	case err != nil:
		fault("the database cannot be read: %v", err)
	case at.IsZero():
	default:
		h.LastTick = at.UTC().Format(time.RFC3339)
		if now.Sub(at) > tickOld {
			fault("reminders were last looked for at %s", h.LastTick)
		}
	}
	h.OK = len(h.Faults) == 0
	return h
}

// Handler serves /metrics and /healthz; the latter is 503 with a fault.
func (m *Meter) Handler(health func(context.Context) Health) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /metrics", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
		m.set.WritePrometheus(w)
		m.writeGateways(w)
		metrics.WriteProcessMetrics(w)
	})
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, r *http.Request) {
		h := health(r.Context())
		w.Header().Set("Content-Type", "application/json")
		if !h.OK {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		_ = json.NewEncoder(w).Encode(h) // whoever asked is gone
	})
	return mux
}
