package api

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"golang.org/x/time/rate"
)

// Secrets that must appear in no error and no log line.
const (
	botToken         = "made.up.bot-token"
	interactionToken = "aW50ZXJhY3Rpb24"
	secretText       = "private words of a rider"
)

// seen is a request as the server got it.
type seen struct {
	method, path, query string
	header              http.Header
	body                []byte
	at                  time.Time
}

// double is a server that answers as a test says.
type double struct {
	*Client
	url  string
	logs *bytes.Buffer

	mu   sync.Mutex
	list []seen
}

// requests is what arrived so far.
func (d *double) requests() []seen {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]seen(nil), d.list...)
}

// newDouble starts a server; answer gets the number of the request, from 1.
func newDouble(t *testing.T, answer func(n int, w http.ResponseWriter, r *http.Request)) *double {
	t.Helper()
	d := &double{logs: &bytes.Buffer{}}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		if err != nil {
			t.Errorf("read request: %v", err)
		}
		d.mu.Lock()
		d.list = append(d.list, seen{r.Method, r.URL.EscapedPath(), r.URL.RawQuery, r.Header.Clone(), body, time.Now()})
		n := len(d.list)
		d.mu.Unlock()
		answer(n, w, r)
	}))
	t.Cleanup(srv.Close)
	var err error
	d.url = srv.URL
	d.Client, err = New(Config{Token: botToken, Base: srv.URL,
		Log: slog.New(slog.NewTextHandler(d.logs, &slog.HandlerOptions{Level: slog.LevelDebug}))})
	if err != nil {
		t.Fatal(err)
	}
	d.pause = time.Millisecond
	d.rate = rate.NewLimiter(rate.Inf, 1)
	t.Cleanup(d.http.CloseIdleConnections)
	return d
}

func say(w http.ResponseWriter, status int, body string) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = io.WriteString(w, body)
}

// hangUp closes the connection in place of an answer.
func hangUp(t *testing.T, w http.ResponseWriter) {
	conn, _, err := w.(http.Hijacker).Hijack()
	if err != nil {
		t.Errorf("hijack: %v", err)
		return
	}
	_ = conn.Close()
}

// within is a context that only ends a test that hangs.
func within(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	t.Cleanup(cancel)
	return ctx
}
