package api

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"golang.org/x/time/rate"
)

func TestWaitsAsLongAsAskedThenSucceeds(t *testing.T) {
	const asked = 300 * time.Millisecond
	body := `{"message":"You are being rate limited.","retry_after":0.3,"global":%v}`
	for name, refuse := range map[string]func(http.ResponseWriter){
		"route": func(w http.ResponseWriter) {
			w.Header().Set("X-RateLimit-Scope", "user")
			say(w, 429, fmt.Sprintf(body, false))
		},
		"global": func(w http.ResponseWriter) {
			w.Header().Set("X-RateLimit-Global", "true")
			w.Header().Set("X-RateLimit-Reset-After", "0.3")
			say(w, 429, fmt.Sprintf(body, true))
		},
		"shared": func(w http.ResponseWriter) {
			w.Header().Set("X-RateLimit-Scope", "shared")
			say(w, 429, fmt.Sprintf(body, false))
		},
		"edge": func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", "0.3")
			w.WriteHeader(429)
			_, _ = io.WriteString(w, "<html>error 1015</html>")
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
				if n == 1 {
					refuse(w)
					return
				}
				say(w, 200, `{"id":"7"}`)
			})
			id, err := d.Send(within(t), "5", Message{Content: "hello"})
			if err != nil || id != "7" {
				t.Fatalf("got %q, %v", id, err)
			}
			got := d.requests()
			if len(got) != 2 || got[1].at.Sub(got[0].at) < asked {
				t.Fatalf("%d requests, want a second one after %v: %v", len(got), asked, got)
			}
		})
	}
}

func TestEndsWithTheContext(t *testing.T) {
	for name, answer := range map[string]func(w http.ResponseWriter, r *http.Request){
		"429":   func(w http.ResponseWriter, r *http.Request) { say(w, 429, `{"message":"slow","retry_after":600}`) },
		"edge":  func(w http.ResponseWriter, r *http.Request) { w.WriteHeader(429); _, _ = io.WriteString(w, "<html>") },
		"hangs": func(w http.ResponseWriter, r *http.Request) { <-r.Context().Done() },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { answer(w, r) })
			ctx, cancel := context.WithTimeout(context.Background(), 200*time.Millisecond)
			defer cancel()
			err := d.Answer(ctx, "1", interactionToken, AnswerMessage, Message{})
			if !errors.Is(err, context.DeadlineExceeded) {
				t.Errorf("got %v", err)
			}
			if n := len(d.requests()); n > 1 {
				t.Errorf("%d requests", n)
			}
		})
	}
}

func TestWaitingForABucketEndsWithTheContext(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		w.Header().Set("X-RateLimit-Limit", "1")
		w.Header().Set("X-RateLimit-Remaining", "0")
		w.Header().Set("X-RateLimit-Reset-After", "600")
		say(w, 200, `{"id":"7"}`)
	})
	if _, err := d.Send(within(t), "5", Message{}); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 100*time.Millisecond)
	defer cancel()
	if _, err := d.Send(ctx, "5", Message{}); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("got %v", err)
	}
	if _, err := d.Send(within(t), "6", Message{}); err != nil {
		t.Errorf("another channel: %v", err)
	}
	if n := len(d.requests()); n != 2 {
		t.Errorf("%d requests, want 2", n)
	}
}

func TestRepeatsOnlyWhatIsSafe(t *testing.T) {
	nonce := Message{Content: secretText, Nonce: "n1", EnforceNonce: true}
	calls := map[string]struct {
		do       func(context.Context, *Client) error
		repeated bool
	}{
		"get": {func(ctx context.Context, c *Client) error { _, err := c.Me(ctx); return err }, true},
		"put": {func(ctx context.Context, c *Client) error { return c.PutCommands(ctx, "1", []int{}) }, true},
		"edit": {func(ctx context.Context, c *Client) error {
			return c.EditOriginal(ctx, "1", interactionToken, Message{})
		}, true},
		"dm": {func(ctx context.Context, c *Client) error { _, err := c.OpenDM(ctx, "1"); return err }, true},
		"answer": {func(ctx context.Context, c *Client) error {
			return c.Answer(ctx, "1", interactionToken, AnswerMessage, Message{})
		}, true},
		"nonce":  {func(ctx context.Context, c *Client) error { _, err := c.Send(ctx, "1", nonce); return err }, true},
		"send":   {func(ctx context.Context, c *Client) error { _, err := c.Send(ctx, "1", Message{}); return err }, false},
		"follow": {func(ctx context.Context, c *Client) error { return c.FollowUp(ctx, "1", interactionToken, Message{}) }, false},
	}
	for name, call := range calls {
		for _, fault := range []int{0, 500, 502, 503, 504} {
			t.Run(fmt.Sprint(name, fault), func(t *testing.T) {
				t.Parallel()
				d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
					switch {
					case n > 2:
						say(w, 200, `{"id":"7"}`)
					case fault == 0:
						hangUp(t, w)
					default:
						w.WriteHeader(fault)
						_, _ = io.WriteString(w, "<html>upstream "+secretText)
					}
				})
				err, n := call.do(within(t), d.Client), len(d.requests())
				if call.repeated && (err != nil || n != 3) {
					t.Errorf("%d requests, %v; want success at the third", n, err)
				}
				if !call.repeated && (n != 1 || Status(err) != fault || !strings.Contains(err.Error(), "may have been done")) {
					t.Errorf("%d requests, %v; want one and an error that says so", n, err)
				}
			})
		}
	}
}

func TestLostMessageIsSentWithTheSameNonce(t *testing.T) {
	made := map[string]string{} // messages by nonce, as Discord keeps them
	var d *double
	d = newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
		var m Message
		if err := json.Unmarshal(d.requests()[n-1].body, &m); err != nil || !m.EnforceNonce {
			t.Errorf("body: %v, enforced %v", err, m.EnforceNonce)
		}
		if _, known := made[m.Nonce]; !known {
			made[m.Nonce] = fmt.Sprint("message", n)
		}
		if n == 1 {
			hangUp(t, w)
			return
		}
		say(w, 200, `{"id":"`+made[m.Nonce]+`"}`)
	})
	id, err := d.Send(within(t), "5", Message{Content: "x", Nonce: "abc", EnforceNonce: true})
	if err != nil || id != "message1" || len(made) != 1 || len(d.requests()) != 2 {
		t.Errorf("got %q, %v, messages %v", id, err, made)
	}
}

func TestAnsweredBefore(t *testing.T) {
	const already = `{"message":"Interaction has already been acknowledged.","code":40060}`
	for _, lost := range []bool{true, false} {
		d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
			if n == 1 && lost {
				hangUp(t, w)
				return
			}
			say(w, 400, already)
		})
		err := d.Answer(within(t), "1", interactionToken, AnswerMessage, Message{})
		if lost && err != nil {
			t.Errorf("after a lost answer: %v", err)
		}
		if !lost && Code(err) != CodeAlreadyAnswered {
			t.Errorf("at the first attempt: %v", err)
		}
	}
}

func TestRefusalsAreNotRepeated(t *testing.T) {
	for status, code := range map[int]int{400: 50035, 401: 0, 403: CodeClosedDM, 404: CodeUnknownChannel} {
		d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) {
			say(w, status, fmt.Sprintf(`{"message":"No.","code":%d}`, code))
		})
		_, err := d.Send(within(t), "5", Message{Nonce: "n", EnforceNonce: true})
		if Status(err) != status || Code(err) != code || len(d.requests()) != 1 {
			t.Errorf("%d: %d requests, %v", status, len(d.requests()), err)
		}
	}
	if Status(nil) != 0 || Code(io.EOF) != 0 {
		t.Error("other errors have neither status nor code")
	}
}

func TestAttemptsAreBounded(t *testing.T) {
	for status, body := range map[int]string{429: `{"message":"slow","retry_after":0.001}`, 503: ``} {
		d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { say(w, status, body) })
		_, err := d.Me(within(t))
		if n := len(d.requests()); n != maxAttempts || Status(err) != status {
			t.Errorf("%d: %d requests, %v", status, n, err)
		}
	}
}

func TestNoConnectionIsTriedAgain(t *testing.T) {
	c, err := New(Config{Base: "http://127.0.0.1:1"}) // a port that nothing listens on
	if err != nil {
		t.Fatal(err)
	}
	c.pause = time.Millisecond
	err = c.FollowUp(within(t), "1", interactionToken, Message{})
	if err == nil || !strings.Contains(err.Error(), "no connection") || strings.Contains(err.Error(), "may have been done") {
		t.Errorf("got %v", err)
	}
}

func TestOwnLimitSparesInteractions(t *testing.T) {
	d := newDouble(t, func(n int, w http.ResponseWriter, r *http.Request) { say(w, 200, `{}`) })
	d.rate = rate.NewLimiter(rate.Every(time.Hour), 1)
	if _, err := d.Me(within(t)); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Me(within(t)); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("beyond the limit: %v", err)
	}
	if err := d.Answer(within(t), "1", interactionToken, AnswerDeferred, nil); err != nil {
		t.Error(err)
	}
	if err := d.EditOriginal(within(t), "1", interactionToken, Message{}); err != nil {
		t.Error(err)
	}
	if n := len(d.requests()); n != 3 {
		t.Errorf("%d requests, want 3", n)
	}
	if perSecond+burst > 50 {
		t.Errorf("a second lets through %d calls, Discord 50", perSecond+burst)
	}
}
