package api

import (
	"net/http"
	"sync"
	"time"
)

// Discord blocks a host after 10,000 refused requests in ten minutes; we stop at half of that.
// Source: https://discord.com/developers/docs/topics/rate-limits#invalid-request-limit-aka-cloudflare-bans
const (
	maxRefused    = 5000
	refusedWindow = 10 * time.Minute
)

// maxBuckets bounds what is remembered of routes; forgetting costs a 429 at worst.
const maxBuckets = 1024

// limits remembers what Discord said about the pace of calls.
type limits struct {
	mu      sync.Mutex
	now     func() time.Time
	buckets map[string]*bucket
	bot     time.Time // before this the bot itself may call nothing
	all     time.Time // before this nothing may be sent, answers to interactions included
	refused []time.Time
	warned  bool
}

// bucket is the allowance of one route. It counts down between answers, so that
// calls can run side by side.
type bucket struct {
	limit, remaining int
	reset            time.Time
	window           time.Duration // the longest seen
}

func newLimits() *limits {
	return &limits{now: time.Now, buckets: map[string]*bucket{}}
}

// take uses up one call of the bucket, or tells how long to wait before trying again.
// Interactions have no bucket: each has its own allowance and makes few calls.
func (l *limits) take(key string, interaction bool) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	if d := l.blockedAt(now, interaction); d > 0 {
		return d
	}
	b := l.buckets[key]
	if b == nil {
		return 0
	}
	if !now.Before(b.reset) {
		b.remaining, b.reset = b.limit, now.Add(b.window)
	}
	if b.remaining <= 0 {
		return b.reset.Sub(now)
	}
	b.remaining--
	return 0
}

// blocked tells how long a limit on everything still holds.
func (l *limits) blocked(interaction bool) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.blockedAt(l.now(), interaction)
}

func (l *limits) blockedAt(now time.Time, interaction bool) time.Duration {
	d := l.all.Sub(now)
	if !interaction {
		d = max(d, l.bot.Sub(now))
	}
	return max(d, 0)
}

// learn takes in what an answer said.
func (l *limits) learn(key string, interaction bool, o *outcome) {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	switch o.status {
	case http.StatusUnauthorized, http.StatusForbidden:
		l.refused = append(l.refused, now)
	case http.StatusTooManyRequests:
		if !o.shared {
			l.refused = append(l.refused, now)
		}
		until := now.Add(o.retryAfter)
		if o.edge || o.global && interaction { // the bot's own limit does not count answers to interactions
			l.all = later(l.all, until)
		} else if o.global {
			l.bot = later(l.bot, until)
		} else if key != "" {
			b := l.bucket(key, now)
			b.limit = max(b.limit, o.limit, 1)
			b.remaining, b.reset = 0, until
		}
		return
	}
	if key == "" || o.limit == 0 {
		return
	}
	b := l.bucket(key, now)
	left, reset := o.remaining, now.Add(o.resetAfter)
	if now.Before(b.reset) { // the same window, and other calls may be under way
		left, reset = min(left, b.remaining), later(reset, b.reset)
	}
	b.limit, b.remaining, b.reset = o.limit, left, reset
	b.window = max(b.window, o.resetAfter)
}

func (l *limits) bucket(key string, now time.Time) *bucket {
	if b := l.buckets[key]; b != nil {
		return b
	}
	if len(l.buckets) >= maxBuckets {
		for k, b := range l.buckets {
			if !now.Before(b.reset) {
				delete(l.buckets, k)
			}
		}
		if len(l.buckets) >= maxBuckets {
			clear(l.buckets)
		}
	}
	b := &bucket{}
	l.buckets[key] = b
	return b
}

// tooManyRefused tells whether nothing may be sent for now, and whether that is news.
func (l *limits) tooManyRefused() (tooMany, news bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	since := l.now().Add(-refusedWindow)
	n := 0
	for n < len(l.refused) && !l.refused[n].After(since) {
		n++
	}
	l.refused = l.refused[n:]
	if len(l.refused) < maxRefused {
		l.warned = false
		return false, false
	}
	news = !l.warned
	l.warned = true
	return true, news
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
