package api

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync/atomic"
	"time"
)

const (
	maxAnswer  = 32 << 20  // bytes of an answer
	maxRefusal = 256 << 10 // bytes read of an error's body
	// edgeWait is waited when a 429 does not say how long.
	edgeWait = 5 * time.Second
	minWait  = 50 * time.Millisecond
	maxWait  = time.Hour
	// attemptLimit ends one exchange, an upload included.
	attemptLimit = 30 * time.Second
)

// outcome is what the transport saw of an exchange. discordgo hides the headers
// and half of the body, so it travels in the request's context.
type outcome struct {
	status  int
	code    int
	message string

	retryAfter time.Duration // of a 429
	global     bool          // the 429 is for the whole bot
	edge       bool          // the 429 is for this host and did not come from the API itself
	shared     bool          // the 429 is nobody's fault

	limit, remaining int // of the route; limit 0 when unknown
	resetAfter       time.Duration
}

type outcomeKey struct{}

// transport leads discordgo's requests to the right host and version and makes every refusal readable for it.
type transport struct {
	base  *url.URL // nil: as discordgo wants it
	clock *otherClock
	next  http.RoundTripper
}

// otherClock is the time that the platform told last.
type otherClock struct{ told atomic.Pointer[toldTime] }

type toldTime struct{ at, came time.Time }

// note keeps the Date of an answer.
func (c *otherClock) note(h http.Header) {
	if at, err := http.ParseTime(h.Get("Date")); err == nil {
		c.told.Store(&toldTime{at, time.Now()})
	}
}

func newHTTP(base *url.URL, told *otherClock) *http.Client {
	return &http.Client{
		Timeout: attemptLimit,
		// A redirect would carry an interaction's token elsewhere; Discord's API has none.
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		Transport: &transport{base: base, clock: told, next: &http.Transport{
			Proxy:                 http.ProxyFromEnvironment,
			DialContext:           (&net.Dialer{Timeout: 5 * time.Second, KeepAlive: 30 * time.Second}).DialContext,
			ForceAttemptHTTP2:     true,
			HTTP2:                 &http.HTTP2Config{SendPingTimeout: 15 * time.Second, PingTimeout: 10 * time.Second},
			MaxIdleConns:          128,
			MaxIdleConnsPerHost:   128,
			IdleConnTimeout:       60 * time.Second,
			TLSHandshakeTimeout:   5 * time.Second,
			ResponseHeaderTimeout: 15 * time.Second,
		}},
	}
}

// RoundTrip fulfils http.RoundTripper.
func (t *transport) RoundTrip(r *http.Request) (*http.Response, error) {
	sent := r.Clone(r.Context())
	if t.base != nil {
		sent.URL.Scheme, sent.URL.Host = t.base.Scheme, t.base.Host
		sent.Host = t.base.Host
	}
	if rest, ok := strings.CutPrefix(sent.URL.Path, "/api/v9/"); ok {
		sent.URL.Path = "/api/v" + version + "/" + rest
		if raw, ok := strings.CutPrefix(sent.URL.RawPath, "/api/v9/"); ok {
			sent.URL.RawPath = "/api/v" + version + "/" + raw
		}
	}
	resp, err := t.next.RoundTrip(sent)
	if err != nil {
		return nil, err
	}
	t.clock.note(resp.Header)
	seen := inspect(resp)
	if o, ok := r.Context().Value(outcomeKey{}).(*outcome); ok {
		*o = seen
	}
	return resp, nil
}

// inspect reads what limits and errors need and leaves a response that discordgo
// can digest: it fails on odd rate-limit headers and on a 429 that is not JSON.
func inspect(resp *http.Response) outcome {
	o := outcome{status: resp.StatusCode}
	h := resp.Header
	limit, err1 := strconv.Atoi(h.Get("X-RateLimit-Limit"))
	remaining, err2 := strconv.Atoi(h.Get("X-RateLimit-Remaining"))
	after, ok := seconds(h.Get("X-RateLimit-Reset-After"))
	if err1 == nil && err2 == nil && ok && limit > 0 {
		o.limit, o.remaining, o.resetAfter = limit, max(0, remaining), after
	}
	scope := strings.ToLower(h.Get("X-RateLimit-Scope"))
	o.shared = scope == "shared"
	o.global = scope == "global" || strings.EqualFold(h.Get("X-RateLimit-Global"), "true")
	for _, name := range []string{"Limit", "Remaining", "Reset", "Reset-After", "Global"} {
		h.Del("X-RateLimit-" + name)
	}
	if o.status < 400 {
		resp.Body = http.MaxBytesReader(nil, resp.Body, maxAnswer)
		return o
	}
	readRefusal(resp, &o)
	return o
}

// readRefusal takes the reason out of an error's body and replaces one that is not JSON.
func readRefusal(resp *http.Response, o *outcome) {
	body, _ := io.ReadAll(io.LimitReader(resp.Body, maxRefusal)) // a cut one counts as not JSON
	_ = resp.Body.Close()
	var said struct {
		Code       int             `json:"code"`
		Message    string          `json:"message"`
		RetryAfter float64         `json:"retry_after"`
		Global     bool            `json:"global"`
		Errors     json.RawMessage `json:"errors"`
	}
	isJSON := json.Unmarshal(body, &said) == nil && len(bytes.TrimSpace(body)) > 0
	if o.status == http.StatusTooManyRequests {
		o.edge = !isJSON
		o.global = o.global || said.Global || o.edge
		o.retryAfter = wait(said.RetryAfter, resp.Header.Get("Retry-After"))
	}
	if said.Message == "" {
		said.Message = http.StatusText(o.status) + ", no reason given"
	}
	if !isJSON {
		body, _ = json.Marshal(map[string]any{"code": 0, "message": said.Message,
			"retry_after": o.retryAfter.Seconds(), "global": o.global})
		resp.Header.Set("Content-Type", "application/json")
	}
	o.code, o.message = said.Code, words(said.Message)
	if list := faults(said.Errors); len(list) > 0 {
		o.message += ": " + strings.Join(list, ", ")
	}
	resp.Body = io.NopCloser(bytes.NewReader(body))
	resp.ContentLength = int64(len(body))
	resp.Header.Del("Content-Length")
}

// wait is how long a 429 asks to be left alone: the body's seconds, else the header's.
func wait(body float64, header string) time.Duration {
	d := edgeWait
	if body > 0 {
		d = duration(body)
	} else if s, ok := seconds(header); ok {
		d = s
	} else if at, err := http.ParseTime(header); err == nil {
		d = time.Until(at)
	}
	return max(d, minWait)
}

func seconds(text string) (time.Duration, bool) {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(f) || f < 0 {
		return 0, false
	}
	return duration(f), true
}

// duration keeps absurd numbers from overflowing.
func duration(s float64) time.Duration {
	return time.Duration(min(s, maxWait.Seconds()) * float64(time.Second))
}
