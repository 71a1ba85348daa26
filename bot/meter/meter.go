// Package meter counts what the bot does, for those who run it: as metrics that
// Prometheus reads, and as one verdict on its health. It keeps no names, no texts
// and no numbers of people.
package meter

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// lateBy is how long after its time a post counts as late. The scheduler looks by the minute.
const lateBy = 5 * time.Minute

// tickOld is how old the last look for what is owed may be.
const tickOld = 5 * time.Minute

// Meter counts. A nil one counts nothing.
type Meter struct {
	registry *prometheus.Registry

	interactions *prometheus.HistogramVec
	requests     *prometheus.HistogramVec
	due          *prometheus.CounterVec
	posts        *prometheus.CounterVec
	late         *prometheus.CounterVec
	dropped      *prometheus.CounterVec

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

// New makes a Meter.
func New() *Meter {
	m := &Meter{registry: prometheus.NewRegistry()}
	times := func(name, help string, labels ...string) *prometheus.HistogramVec {
		return prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: name, Help: help, Buckets: seconds}, labels)
	}
	counts := func(name, help string, labels ...string) *prometheus.CounterVec {
		return prometheus.NewCounterVec(prometheus.CounterOpts{Name: name, Help: help}, labels)
	}
	m.interactions = times("musette_interaction_seconds", "From an interaction's arrival to the end of its answer, by kind and outcome.", "kind", "outcome")
	m.requests = times("musette_request_seconds", "Working out the reply to a command or question, by command and outcome.", "command", "outcome")
	m.due = counts("musette_posts_due_total", "Reminders and digests that came due and had something to say.", "kind")
	m.posts = counts("musette_posts_total", "What became of reminders and digests: sent, skipped, failed.", "kind", "state")
	m.late = counts("musette_posts_late_total", "Reminders and digests sent more than five minutes after their time.", "kind")
	m.dropped = counts("musette_events_dropped_total", "Events of Discord dropped since too much waited.", "event")
	for _, kind := range []string{"reminder", "digest"} { // there from the start, so that the first failure is seen as one
		m.due.WithLabelValues(kind)
		m.late.WithLabelValues(kind)
		for _, state := range []string{"sent", "skipped", "failed"} {
			m.posts.WithLabelValues(kind, state)
		}
	}
	m.registry.MustRegister(m.interactions, m.requests, m.due, m.posts, m.late, m.dropped, gatewayCollector{m},
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
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
		m.interactions.WithLabelValues(kind, outcome(true, err)).Observe(took.Seconds())
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
	m.requests.WithLabelValues(command, outcome(ok, err)).Observe(took.Seconds())
}

// Due counts posts that are claimed to be sent.
func (m *Meter) Due(kind string, n int) {
	if m != nil {
		m.due.WithLabelValues(kind).Add(float64(n))
	}
}

// Post counts what happened to a post that was due at an instant.
func (m *Meter) Post(kind, state string, due, now time.Time) {
	if m == nil {
		return
	}
	m.posts.WithLabelValues(kind, state).Inc()
	if state == "sent" && now.Sub(due) > lateBy {
		m.late.WithLabelValues(kind).Inc()
	}
}

// Dropped counts an event of Discord that found no room.
func (m *Meter) Dropped(event string) {
	if m != nil {
		m.dropped.WithLabelValues(event).Inc()
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

// gatewayCollector asks the sessions when somebody wants to know.
type gatewayCollector struct{ m *Meter }

var (
	gatewayUp       = prometheus.NewDesc("musette_gateway_connected", "1 while the session with Discord's gateway stands.", []string{"shard"}, nil)
	gatewaySince    = prometheus.NewDesc("musette_gateway_changed_timestamp_seconds", "When the session was established or lost.", []string{"shard"}, nil)
	gatewayIdentify = prometheus.NewDesc("musette_gateway_identifies_total", "Sessions begun anew. Discord allows 1000 a day.", []string{"shard"}, nil)
	gatewayResume   = prometheus.NewDesc("musette_gateway_resumes_total", "Sessions gone on with after a break.", []string{"shard"}, nil)
	gatewayFailure  = prometheus.NewDesc("musette_gateway_failures_total", "Connections and tries that ended unwanted.", []string{"shard"}, nil)
)

// Describe implements prometheus.Collector.
func (c gatewayCollector) Describe(out chan<- *prometheus.Desc) {
	for _, d := range []*prometheus.Desc{gatewayUp, gatewaySince, gatewayIdentify, gatewayResume, gatewayFailure} {
		out <- d
	}
}

// Collect implements prometheus.Collector.
func (c gatewayCollector) Collect(out chan<- prometheus.Metric) {
	for _, g := range c.m.sessions() {
		shard := strconv.Itoa(g.Shard)
		connected, since, identifies, resumes, failures := g.Status()
		up := 0.0
		if connected {
			up = 1
		}
		out <- prometheus.MustNewConstMetric(gatewayUp, prometheus.GaugeValue, up, shard)
		out <- prometheus.MustNewConstMetric(gatewaySince, prometheus.GaugeValue, float64(since.Unix()), shard)
		for desc, n := range map[*prometheus.Desc]int{gatewayIdentify: identifies, gatewayResume: resumes, gatewayFailure: failures} {
			out <- prometheus.MustNewConstMetric(desc, prometheus.CounterValue, float64(n), shard)
		}
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
	mux.Handle("GET /metrics", promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{}))
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
