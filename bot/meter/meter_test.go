package meter

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"
)

var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

// session is a session of the gateway as a test wants it.
func session(shard int, connected bool) Gateway {
	return Gateway{Shard: shard, Status: func() (bool, time.Time, int, int, int) { return connected, noon, 3, 2, 1 }}
}

func ask(t *testing.T, m *Meter, path string, lastTick time.Time, tickErr error) (status int, body string) {
	t.Helper()
	server := httptest.NewServer(m.Handler(func(ctx context.Context) Health {
		return m.Health(ctx, "v1", noon, func(context.Context) (time.Time, error) { return lastTick, tickErr })
	}))
	defer server.Close()
	response, err := server.Client().Get(server.URL + path)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	data, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	return response.StatusCode, string(data)
}

func TestMetrics(t *testing.T) {
	m := New()
	m.Watch(session(0, true))
	m.Watch(session(1, false))
	m.Interaction("command", 30*time.Millisecond, nil)
	m.Interaction("command", 30*time.Millisecond, errors.New("late"))
	m.Request("ride", time.Second, false, nil)
	m.Request("", time.Second, true, nil)
	m.Due("reminder", 2)
	m.Post("reminder", "sent", noon.Add(-4*time.Minute), noon)
	m.Post("reminder", "sent", noon.Add(-6*time.Minute), noon)
	m.Post("reminder", "failed", noon.Add(-6*time.Minute), noon)
	m.Dropped("MESSAGE_CREATE")
	_, body := ask(t, m, "/metrics", noon, nil)
	for _, want := range []string{
		`musette_interaction_seconds_bucket{kind="command",outcome="ok",le="0.05"} 1`,
		`musette_interaction_seconds_bucket{kind="command",outcome="ok",le="0.01"} 0`,
		`musette_interaction_seconds_count{kind="command",outcome="broken"} 1`,
		`musette_request_seconds_count{command="ride",outcome="refused"} 1`,
		`musette_request_seconds_count{command="question",outcome="ok"} 1`,
		`musette_posts_due_total{kind="reminder"} 2`,
		`musette_posts_due_total{kind="digest"} 0`, // there before the first one
		`musette_posts_total{kind="digest",state="failed"} 0`,
		`musette_posts_late_total{kind="digest"} 0`,
		`musette_posts_total{kind="reminder",state="sent"} 2`,
		`musette_posts_total{kind="reminder",state="failed"} 1`,
		`musette_posts_late_total{kind="reminder"} 1`,
		`musette_events_dropped_total{event="MESSAGE_CREATE"} 1`,
		`musette_gateway_connected{shard="0"} 1`,
		`musette_gateway_connected{shard="1"} 0`,
		`musette_gateway_identifies_total{shard="1"} 3`,
		`musette_gateway_resumes_total{shard="1"} 2`,
		`musette_gateway_failures_total{shard="1"} 1`,
		`process_resident_memory_bytes`,
	} {
		if !strings.Contains(body, want) {
			t.Errorf("%s is missing", want)
		}
	}
	// Source: https://prometheus.io/docs/instrumenting/exposition_formats/
	sample := regexp.MustCompile(`^[a-zA-Z_:][a-zA-Z0-9_:]*(\{[a-z_]+="[^"\\]*"(, ?[a-zA-Z_]+="[^"\\]*")*\})? [-+0-9.eInfaN]+$`)
	seen := map[string]bool{}
	for line := range strings.Lines(body) {
		line = strings.TrimSuffix(line, "\n")
		name := line[:max(0, strings.LastIndex(line, " "))]
		if !strings.HasPrefix(line, "#") && (!sample.MatchString(line) || seen[name]) {
			t.Errorf("not a line for Prometheus, or there twice: %q", line)
		}
		seen[name] = true
	}
	if !seen[`musette_request_seconds_bucket{command="ride",outcome="refused",le="+Inf"}`] {
		t.Error("a histogram has no last bucket")
	}
}

func TestHealth(t *testing.T) {
	for name, test := range map[string]struct {
		sessions []Gateway
		tick     time.Time
		err      error
		status   int
		fault    string
	}{
		"well":              {[]Gateway{session(0, true)}, noon.Add(-time.Minute), nil, 200, ""},
		"no tick yet":       {[]Gateway{session(0, true)}, time.Time{}, nil, 200, ""},
		"one shard is away": {[]Gateway{session(0, true), session(1, false)}, noon, nil, 503, "shard 1 has not been connected to Discord since 2026-06-01T12:00:00Z"},
		"not signed in":     {nil, noon, nil, 503, "not signed in"},
		"an old tick":       {[]Gateway{session(0, true)}, noon.Add(-6 * time.Minute), nil, 503, "last looked for at 2026-06-01T11:54:00Z"},
		"no database":       {[]Gateway{session(0, true)}, noon, errors.New("it is gone"), 503, "the database cannot be read: it is gone"},
	} {
		m := New()
		for _, g := range test.sessions {
			m.Watch(g)
		}
		status, body := ask(t, m, "/healthz", test.tick, test.err)
		var h Health
		if err := json.Unmarshal([]byte(body), &h); err != nil {
			t.Fatal(err)
		}
		if status != test.status || h.OK != (test.fault == "") || h.Version != "v1" || len(h.Shards) != len(test.sessions) || !strings.Contains(strings.Join(h.Faults, "\n"), test.fault) {
			t.Errorf("%s: %d %s", name, status, body)
		}
	}
}

// Where nobody counts, nothing breaks.
func TestNoMeter(t *testing.T) {
	var m *Meter
	m.Watch(session(0, true))
	m.Interaction("command", 0, nil)
	m.Request("", 0, true, nil)
	m.Due("reminder", 1)
	m.Post("reminder", "sent", noon, noon)
	m.Dropped("READY")
}
