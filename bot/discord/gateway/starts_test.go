package gateway

import (
	"bytes"
	"context"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"musette/bot/discord/api"
)

// budget is what Discord tells and counts; each look is one question.
type budget struct {
	mu    sync.Mutex
	limit api.SessionStartLimit
	looks int
}

func (b *budget) info(context.Context) (api.GatewayInfo, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.looks++
	return api.GatewayInfo{URL: "wss://gateway.example", SessionStartLimit: b.limit}, nil
}

// begin lets shards IDENTIFY once each, as long after their admission as hello says, in the order
// of their numbers, and returns when each did.
func begin(t *testing.T, s *Starts, shards int, hello func(shard int) time.Duration) []time.Duration {
	t.Helper()
	at, began := make([]time.Duration, shards), time.Now()
	var all sync.WaitGroup
	for shard := range shards {
		all.Go(func() {
			p, err := s.admit(t.Context(), shard, func() { t.Error("an answer was of no use") })
			if err != nil || p == nil {
				t.Errorf("shard %d: %v", shard, err)
				return
			}
			time.Sleep(hello(shard))
			at[shard] = time.Since(began)
			p.used()
		})
		synctest.Wait()
	}
	all.Wait()
	return at
}

// TestPaceOfAllShards holds the time between two IDENTIFYs whose numbers are the same modulo
// max_concurrency, by a clock that the test moves.
func TestPaceOfAllShards(t *testing.T) {
	for _, tt := range []struct{ shards, concurrency, rounds int }{{1, 1, 1}, {6, 1, 6}, {16, 16, 1}, {33, 16, 3}, {3, 0, 3}} {
		synctest.Test(t, func(t *testing.T) {
			b := &budget{limit: api.SessionStartLimit{Total: 1000, Remaining: 1000, MaxConcurrency: tt.concurrency}}
			s := NewStarts(b.info, Pace{}, nil)
			at := begin(t, s, tt.shards, func(shard int) time.Duration { return time.Duration(shard%3) * time.Second })
			last := map[int]time.Duration{}
			for shard, when := range at {
				key := shard % max(1, tt.concurrency)
				if before, ok := last[key]; ok && when-before < 5*time.Second {
					t.Errorf("%+v: shard %d identified %v after the last one of its lane", tt, shard, when-before)
				}
				last[key] = when
			}
			if most := time.Duration(tt.rounds) * 8 * time.Second; slices.Max(at) > most {
				t.Errorf("%+v: the last one identified after %v, want %v at most", tt, slices.Max(at), most)
			}
			if b.looks > tt.rounds*2 {
				t.Errorf("%+v: asked Discord %d times", tt, b.looks)
			}
		})
	}
}

// TestPassGivenBack has a shard whose connection fails before its IDENTIFY: it holds nobody up
// and counts for nothing.
func TestPassGivenBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := &budget{limit: api.SessionStartLimit{Total: 1000, Remaining: 1000, MaxConcurrency: 1}}
		s := NewStarts(b.info, Pace{}, nil)
		p, err := s.admit(t.Context(), 0, func() {})
		if err != nil {
			t.Fatal(err)
		}
		p.dropped()
		p.used() // too late
		if at := begin(t, s, 1, func(int) time.Duration { return 0 }); at[0] != 0 || s.info.SessionStartLimit.Remaining != 999 {
			t.Errorf("identified after %v, %d left", at[0], s.info.SessionStartLimit.Remaining)
		}
	})
}

// TestBudgetOfAllShards has a budget for two of five shards: it is said once that the others
// wait, for as long as Discord tells.
func TestBudgetOfAllShards(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := &budget{limit: api.SessionStartLimit{Total: 1000, Remaining: reserve + 2, ResetAfter: time.Hour, MaxConcurrency: 16}}
		time.AfterFunc(time.Hour, func() {
			b.mu.Lock()
			defer b.mu.Unlock()
			b.limit.Remaining = 1000
		})
		var logged bytes.Buffer
		s := NewStarts(b.info, Pace{}, slog.New(slog.NewTextHandler(&logged, nil)))
		at := begin(t, s, 5, func(int) time.Duration { return time.Second })
		early := 0
		for _, when := range at {
			if when < time.Hour {
				early++
			}
		}
		if early != 2 || slices.Max(at) > time.Hour+time.Minute {
			t.Errorf("identified after %v", at)
		}
		if n := strings.Count(logged.String(), "allows no new connection"); n != 1 {
			t.Errorf("said %d times:\n%s", n, &logged)
		}
	})
}
