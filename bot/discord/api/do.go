package api

import (
	"bytes"
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/cenkalti/backoff/v5"
)

// How often one call is sent, waits for a rate limit included. Answers to
// interactions have little time, which bounds them besides.
const (
	maxAttempts       = 5
	maxAnswerAttempts = 15
)

// call is one request as it should happen, however many attempts it takes.
type call struct {
	method, route string   // the route holds {names}, filled from args in order
	args          []string // ids and tokens
	query         string
	body          any // nil for none
	files         []File

	major       int           // how many of args choose the bucket, since Discord counts by channel and guild
	interaction bool          // on an interaction's token: outside of the bot's own limits
	repeat      bool          // doing it twice is the same as once
	done        int           // error code that, after an unknown outcome, means that it was done before
	attempt     time.Duration // time for one attempt, 0 for the client's limit
}

func (k call) name() string { return k.method + " " + k.route }

func (k call) key() string {
	if k.interaction {
		return ""
	}
	return k.name() + " " + strings.Join(k.args[:k.major], " ")
}

func (k call) attempts() int {
	if k.interaction {
		return maxAnswerAttempts
	}
	return maxAttempts
}

// target is the address; an empty id is refused, since it would name another route.
func (k call) target() (string, error) {
	var b strings.Builder
	b.WriteString(strings.TrimSuffix(discordgo.EndpointAPI, "/"))
	rest, args := k.route, k.args
	for range k.args {
		before, after, _ := strings.Cut(rest, "{")
		_, after, _ = strings.Cut(after, "}")
		if strings.Trim(args[0], ".") == "" {
			return "", &Error{Route: k.name(), Message: "not sent: an id is missing"}
		}
		b.WriteString(before + url.PathEscape(args[0]))
		rest, args = after, args[1:]
	}
	b.WriteString(rest)
	if k.query != "" {
		b.WriteString("?" + k.query)
	}
	return b.String(), nil
}

// encode is the request's body, multipart when there are files.
func (k call) encode() (contentType string, body []byte, err error) {
	if k.body == nil {
		return "application/json", nil, nil
	}
	if len(k.files) == 0 {
		body, err = json.Marshal(k.body)
		return "application/json", body, err
	}
	var files []*discordgo.File
	for _, f := range k.files {
		files = append(files, &discordgo.File{Name: f.Name, ContentType: f.Type, Reader: bytes.NewReader(f.Data)})
	}
	return discordgo.MultipartBodyWithJSON(k.body, files)
}

// do makes a call and decodes the answer into out unless that is nil. Its errors are
// the context's, with the route in front, or an *Error.
func (c *Client) do(ctx context.Context, k call, out any) error {
	target, err := k.target()
	if err != nil {
		return err
	}
	contentType, payload, err := k.encode()
	if err != nil {
		return &Error{Route: k.name(), Message: "not sent: the body cannot be written as JSON"}
	}
	pauses := backoff.NewExponentialBackOff()
	pauses.InitialInterval, pauses.Multiplier, pauses.MaxInterval = c.pause, 2, 16*c.pause
	if k.interaction {
		pauses.InitialInterval = c.pause / 4 // somebody waits for it
	}
	unknown := false
	for n := 1; ; n++ {
		if err := c.admit(ctx, k); err != nil {
			return err
		}
		o, body, err := c.send(ctx, k, target, contentType, payload)
		if !o.failed(err, out == nil) {
			return decode(k, o, body, out)
		}
		if ctx.Err() != nil && o.status < 400 {
			return fmt.Errorf("%s: %w", k.name(), ctx.Err())
		}
		if unknown && k.done != 0 && o.code == k.done {
			return nil
		}
		fault, refused := k.judge(o, err)
		unknown = unknown || !refused
		pause := o.retryAfter
		if pause == 0 {
			pause = pauses.NextBackOff()
		}
		if n == k.attempts() || !k.again(o, refused) {
			if !refused && k.method != http.MethodGet {
				fault.Unsure, fault.Message = true, fault.Message+". It may have been done all the same"
			}
			return fault
		}
		c.log.Debug("discord call again", "call", k.name(), "attempt", n, "status", o.status, "wait", pause)
		if err := sleep(ctx, k, pause); err != nil {
			return err
		}
	}
}

// judge puts a failed attempt into words; refused means that it certainly was not done.
func (k call) judge(o outcome, err error) (fault *Error, refused bool) {
	fault = &Error{Status: o.status, Code: o.code, Message: o.message, Route: k.name()}
	switch {
	case o.status >= 500:
		return fault, false
	case o.status >= 400:
		return fault, true
	case o.status >= 300:
		fault.Message = "an answer of a kind that Discord does not give"
		return fault, true
	}
	fault.Message, refused = describe(err)
	return fault, refused
}

// again tells whether another attempt may follow this one: after a 429, after a
// request that never left, and after an unknown outcome if doing it twice does no harm.
func (k call) again(o outcome, refused bool) bool {
	if o.status == http.StatusTooManyRequests || o.status == 0 && refused {
		return true
	}
	return !refused && k.repeat
}

// admit waits until the call may be sent.
func (c *Client) admit(ctx context.Context, k call) error {
	for d := c.limits.take(k.key(), k.interaction); d > 0; d = c.limits.take(k.key(), k.interaction) {
		if err := sleep(ctx, k, d); err != nil {
			return err
		}
	}
	for wait := time.Duration(1); !k.interaction && wait > 0; {
		if err := c.rate.Wait(ctx); err != nil { // also when the deadline is too near, before it passes
			if ctx.Err() != nil {
				return fmt.Errorf("%s: %w", k.name(), ctx.Err())
			}
			return fmt.Errorf("%s: not sent: %w", k.name(), context.DeadlineExceeded)
		}
		if wait = c.limits.blocked(false); wait > 0 {
			if err := sleep(ctx, k, wait); err != nil {
				return err
			}
		}
	}
	tooMany, news := c.limits.tooManyRefused()
	if news {
		c.log.Warn("discord refused too many requests; sending none until ten minutes hold fewer", "refused", maxRefused)
	}
	if tooMany {
		return &Error{Route: k.name(), Message: "not sent: Discord refused too many requests in the last ten minutes"}
	}
	if ctx.Err() != nil {
		return fmt.Errorf("%s: %w", k.name(), ctx.Err())
	}
	return nil
}

// send makes one attempt. It gives discordgo a bucket of its own, unused and thrown
// away, because a kept one is locked during the call and waits without a context.
func (c *Client) send(ctx context.Context, k call, target, contentType string, payload []byte) (outcome, []byte, error) {
	var o outcome
	ctx = context.WithValue(ctx, outcomeKey{}, &o)
	if k.attempt > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, k.attempt)
		defer cancel()
	}
	body, err := c.session.RequestWithLockedBucket(k.method, target, contentType, payload,
		discordgo.NewRatelimiter().LockBucket(""), 0,
		discordgo.WithContext(ctx), discordgo.WithRetryOnRatelimit(false), discordgo.WithRestRetries(0))
	if o.status != 0 {
		c.limits.learn(k.key(), k.interaction, &o)
	}
	return o, body, err
}

// failed tells whether the attempt has to be judged; what was done stays done when only
// an answer that nobody reads got lost, or when its success has a number that discordgo does not know.
func (o outcome) failed(err error, ignored bool) bool {
	if err == nil {
		return false
	}
	if _, odd := errors.AsType[*discordgo.RESTError](err); odd || ignored {
		return o.status < 200 || o.status > 299
	}
	return true
}

func decode(k call, o outcome, body []byte, out any) error {
	if out == nil {
		return nil
	}
	if err := json.Unmarshal(body, out); err != nil {
		return &Error{Route: k.name(), Status: o.status, Message: "the answer is not what Discord documents"}
	}
	return nil
}

// describe words a failed exchange without the address that Go's own text holds,
// and tells whether the request never left.
func describe(err error) (text string, notSent bool) {
	if op, ok := errors.AsType[*net.OpError](err); ok && op.Op == "dial" {
		return "no connection: " + op.Error(), true
	}
	if _, ok := errors.AsType[*tls.CertificateVerificationError](err); ok {
		return "the server's certificate is not trusted", true
	}
	if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
		return "the answer is too large", false
	}
	if ne, ok := errors.AsType[net.Error](err); ok && ne.Timeout() || errors.Is(err, context.DeadlineExceeded) {
		return "no answer in time", false
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return "the connection was closed before the answer", false
	}
	return "the connection broke", false
}

// sleep waits d or ends with the context.
func sleep(ctx context.Context, k call, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return fmt.Errorf("%s: %w", k.name(), ctx.Err())
	}
}
