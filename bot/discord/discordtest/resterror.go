package discordtest

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"
)

// failures are the documented JSON error codes that the double knows.
var failures = map[int]struct {
	status  int
	message string
}{
	10003: {404, "Unknown Channel"},
	10004: {404, "Unknown Guild"},
	10007: {404, "Unknown Member"},
	10008: {404, "Unknown Message"},
	10013: {404, "Unknown User"},
	10015: {404, "Unknown Webhook"},
	10062: {404, "Unknown interaction"},
	40003: {400, "You are opening direct messages too fast"},
	40005: {413, "Request entity too large"},
	40060: {400, "Interaction has already been acknowledged."},
	50001: {403, "Missing Access"},
	50006: {400, "Cannot send an empty message"},
	50007: {403, "Cannot send messages to this user"},
	50013: {403, "Missing Permissions"},
	50024: {403, "Cannot execute action on this channel type"},
	50027: {401, "Invalid Webhook Token"},
	50033: {400, "Invalid Recipient(s)"},
	50035: {400, "Invalid Form Body"},
	50109: {400, "The request body contains invalid JSON."},
	50278: {403, "Cannot send messages to this user due to having no mutual guilds"},
}

func failure(code int) reply {
	f := failures[code]
	return reply{status: f.status, body: jsonMap{"message": f.message, "code": code}}
}

// formFault is a 50035 whose errors lead to the field: "data.content".
func formFault(field, code, message string) reply {
	var errs any = jsonMap{"_errors": []jsonMap{{"code": code, "message": message}}}
	keys := strings.Split(field, ".")
	for _, key := range slices.Backward(keys) {
		errs = jsonMap{key: errs}
	}
	return reply{status: http.StatusBadRequest, body: jsonMap{"message": "Invalid Form Body", "code": 50035, "errors": errs}}
}

// Rule is a fault of REST. It strikes requests of Method ("" is any) whose path
// fits Path, in which * is one segment and a last ** is the rest: the first
// Times of them (0 is 1, negative all). With a Status the request is refused and
// no work done; RetryAfter belongs to 429. Otherwise the work is done and the
// answer delayed or, with DropAfterWork, lost.
type Rule struct {
	Method, Path  string
	Times         int
	Status, Code  int
	Message       string
	RetryAfter    time.Duration
	Global        bool // the 429 is for all of the bot's requests but interactions
	HTML          bool // the body is a web page, as from the edge in front of Discord
	Delay         time.Duration
	DropAfterWork bool
}

// Failure is a Rule in force.
type Failure struct {
	s    *Server
	rule Rule
	left int
	hits int
}

// block is a 429 that still lasts.
type block struct {
	rule  Rule
	until time.Time
}

// Fail puts a rule in force. Rules strike in the order in which they were made,
// one for each request.
func (s *Server) Fail(r Rule) *Failure {
	def(&r.Times, 1)
	s.mu.Lock()
	defer s.mu.Unlock()
	f := &Failure{s: s, rule: r, left: r.Times}
	s.rules = append(s.rules, f)
	return f
}

// Hits is how many requests the rule has struck.
func (f *Failure) Hits() int {
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	return f.hits
}

// Stop takes the rule out of force.
func (f *Failure) Stop() {
	f.s.mu.Lock()
	defer f.s.mu.Unlock()
	f.left = 0
}

func (r *Rule) matches(method, path string) bool {
	return (r.Method == "" || r.Method == method) && pathFits(r.Path, path)
}

func pathFits(pattern, path string) bool {
	if pattern == "" {
		return true
	}
	want, have := strings.Split(pattern, "/"), strings.Split(path, "/")
	for i, w := range want {
		if w == "**" && i == len(want)-1 {
			return true
		}
		if i >= len(have) || w != "*" && w != have[i] {
			return false
		}
	}
	return len(want) == len(have)
}

// takeFault finds the rule for a request; refused is the answer it dictates.
func (s *Server) takeFault(method, path string) (r Rule, refused *reply) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := time.Now()
	s.blocks = slices.DeleteFunc(s.blocks, func(b block) bool { return !now.Before(b.until) })
	for _, b := range s.blocks {
		if b.holds(method, path) {
			s.counters.EarlyRetries++
			b.rule.RetryAfter = b.until.Sub(now)
			return Rule{}, ptr(b.rule.refusal())
		}
	}
	s.rules = slices.DeleteFunc(s.rules, func(f *Failure) bool { return f.left == 0 })
	for _, f := range s.rules {
		if !f.rule.matches(method, path) {
			continue
		}
		f.left--
		f.hits++
		if f.rule.Status == 0 {
			return f.rule, nil
		}
		if f.rule.Status == http.StatusTooManyRequests {
			s.blocks = append(s.blocks, block{rule: f.rule, until: now.Add(f.rule.RetryAfter)})
		}
		return f.rule, ptr(f.rule.refusal())
	}
	return Rule{}, nil
}

// holds: a page from the edge is for the address, a global limit for the bot.
func (b *block) holds(method, path string) bool {
	return b.rule.HTML || b.rule.Global && needsToken(path) || b.rule.matches(method, path)
}

func (r *Rule) refusal() reply {
	message := r.Message
	if message == "" {
		message = failures[r.Code].message
	}
	def(&message, fmt.Sprintf("%d: %s", r.Status, http.StatusText(r.Status)))
	out := reply{status: r.Status, header: http.Header{}, body: jsonMap{"message": message, "code": r.Code}}
	if r.Status == http.StatusTooManyRequests {
		seconds := r.RetryAfter.Seconds()
		out.header.Set("Retry-After", fmt.Sprint(int(seconds+0.999)))
		if !r.HTML {
			out.body = jsonMap{"message": "You are being rate limited.", "retry_after": seconds, "global": r.Global, "code": r.Code}
			out.header.Set("X-RateLimit-Scope", "user")
			if r.Global {
				out.header.Set("X-RateLimit-Global", "true")
				out.header.Set("X-RateLimit-Scope", "global")
			}
			out.header.Set("X-RateLimit-Limit", "5")
			out.header.Set("X-RateLimit-Remaining", "0")
			out.header.Set("X-RateLimit-Reset-After", fmt.Sprintf("%.3f", seconds))
			out.header.Set("X-RateLimit-Reset", fmt.Sprintf("%.3f", float64(time.Now().UnixMilli())/1000+seconds))
			out.header.Set("X-RateLimit-Bucket", "limited")
		}
	}
	if r.HTML {
		out.html = fmt.Sprintf("<!DOCTYPE html><html><head><title>%d</title></head><body><h1>%s</h1></body></html>", r.Status, http.StatusText(r.Status))
	}
	return out
}
