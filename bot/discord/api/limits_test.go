package api

import (
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"
)

// clock is a limits whose time a test moves.
func clock() (*limits, func(time.Duration)) {
	now := time.Date(2026, 5, 4, 12, 0, 0, 0, time.UTC)
	l := newLimits()
	l.now = func() time.Time { return now }
	return l, func(d time.Duration) { now = now.Add(d) }
}

func TestGlobalLimitBlocksEverythingOfTheBot(t *testing.T) {
	l, forward := clock()
	l.learn("a", false, &outcome{status: 429, global: true, retryAfter: 3 * time.Second})
	if got := l.take("b", false); got != 3*time.Second {
		t.Errorf("another route waits %v", got)
	}
	if got := l.take("", true); got != 0 {
		t.Errorf("an answer to an interaction, which does not count, waits %v", got)
	}
	l.learn("", true, &outcome{status: 429, global: true, edge: true, retryAfter: 5 * time.Second})
	if got := l.take("", true); got != 5*time.Second {
		t.Errorf("blocked at the edge, an answer waits %v", got)
	}
	forward(5 * time.Second)
	if l.take("b", false) != 0 || l.take("", true) != 0 {
		t.Error("still blocked when the time is over")
	}
}

func TestBucketCountsDownBetweenAnswers(t *testing.T) {
	l, forward := clock()
	answer := func(remaining int, after time.Duration) {
		l.learn("a", false, &outcome{status: 200, limit: 3, remaining: remaining, resetAfter: after})
	}
	takes := func(want ...time.Duration) {
		t.Helper()
		for i, w := range want {
			if got := l.take("a", false); got != w {
				t.Errorf("call %d waits %v, want %v", i, got, w)
			}
		}
	}
	takes(0)
	answer(2, 4*time.Second)
	takes(0, 0, 4*time.Second)
	answer(1, 4*time.Second) // of the first of the two; the second is still under way
	takes(4 * time.Second)
	forward(4 * time.Second)
	takes(0, 0, 0, 4*time.Second)
	l.learn("a", false, &outcome{status: 429, retryAfter: 9 * time.Second})
	takes(9 * time.Second)
	if got := l.take("b", false); got != 0 {
		t.Errorf("another route waits %v", got)
	}
}

func TestNothingIsKeptForEachInteraction(t *testing.T) {
	c, err := New(Config{})
	if err != nil {
		t.Fatal(err)
	}
	headers := &outcome{status: 200, limit: 5, remaining: 4, resetAfter: time.Hour}
	for i := range 10_000 {
		token := fmt.Sprint("token", i)
		for _, k := range []call{
			{method: "POST", route: "/interactions/{id}/{token}/callback", args: []string{"1", token}, interaction: true},
			{method: "POST", route: "/channels/{id}/messages", args: []string{fmt.Sprint(i)}, major: 1},
		} {
			if strings.Contains(k.key(), token) {
				t.Fatalf("bucket %q holds a token", k.key())
			}
			c.limits.learn(k.key(), k.interaction, headers)
		}
	}
	if n := len(c.limits.buckets); n > maxBuckets {
		t.Errorf("%d buckets after 10,000 interactions and channels", n)
	}
}

func TestDiscordgoKeepsNoTokens(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { w.WriteHeader(204) })
	for i := range 20 {
		if err := d.Answer(within(t), "1", fmt.Sprint(interactionToken, i), AnswerDeferred, nil); err != nil {
			t.Fatal(err)
		}
	}
	if kept := fmt.Sprintf("%+v", d.session.Ratelimiter); strings.Contains(kept, interactionToken) {
		t.Errorf("the session's limiter keeps tokens: %s", kept)
	}
}

func TestStopsWhenDiscordRefusesTooMuch(t *testing.T) {
	status := 403
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		say(w, status, `{"message":"Missing Access","code":50001}`)
	})
	l, forward := clock()
	d.limits = l
	for i := range maxRefused - 1 {
		l.learn("", true, &outcome{status: []int{401, 403, 429}[i%3]})
		l.learn("", true, &outcome{status: 429, shared: true}) // nobody's fault
		l.learn("", true, &outcome{status: 404})
	}
	if _, err := d.Me(within(t)); Code(err) != CodeMissingAccess {
		t.Fatalf("below the bound: %v", err)
	}
	for range 3 {
		_, err := d.Me(within(t))
		if Status(err) != 0 || err == nil || !strings.Contains(err.Error(), "too many requests in the last ten minutes") {
			t.Errorf("beyond the bound: %v", err)
		}
	}
	if err := d.Answer(within(t), "1", interactionToken, AnswerDeferred, nil); err == nil {
		t.Error("an answer is still sent")
	}
	if n := len(d.requests()); n != 1 {
		t.Errorf("%d requests, want 1", n)
	}
	if n := strings.Count(d.logs.String(), "level=WARN"); n != 1 {
		t.Errorf("%d warnings, want 1: %s", n, d.logs)
	}
	forward(refusedWindow + time.Second)
	status = 200
	if _, err := d.Me(within(t)); err != nil {
		t.Errorf("when the window has room: %v", err)
	}
}

func TestCallsRunSideBySide(t *testing.T) {
	const calls = 8
	for name, do := range map[string]func(*double) error{
		"edit": func(d *double) error { return d.EditOriginal(within(t), "1", interactionToken, Message{}) },
		"send": func(d *double) error { _, err := d.Send(within(t), "5", Message{}); return err },
	} {
		t.Run(name, func(t *testing.T) {
			all := make(chan struct{})
			d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
				if n == calls {
					close(all)
				}
				select {
				case <-all:
					say(w, 200, `{"id":"7"}`)
				case <-time.After(20 * time.Second):
					say(w, 400, `{"message":"the others did not come"}`)
				}
			})
			var wg sync.WaitGroup
			for range calls {
				wg.Go(func() {
					if err := do(d); err != nil {
						t.Error(err)
					}
				})
			}
			wg.Wait()
		})
	}
}
