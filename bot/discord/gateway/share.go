package gateway

import (
	"context"
	"slices"
	"strconv"
	"sync"
)

// Share is which of a bot's shards a process runs. The zero one is all of as many as
// Discord recommends.
type Share struct {
	Shards int   // of the whole bot; 0: as many as Discord recommends
	Own    []int // the numbers of this process, in their order; nil: all
}

// Whole reports that no other process runs shards of the bot.
func (s Share) Whole() bool { return s.Own == nil || s.Shards > 0 && len(s.Own) == s.Shards }

// Numbers are the shards of this process.
func (s Share) Numbers() []int {
	if s.Own != nil {
		return s.Own
	}
	all := make([]int, s.Shards)
	for i := range all {
		all[i] = i
	}
	return all
}

// Has reports that a server's events come to this process.
func (s Share) Has(guildID string) bool {
	return s.Whole() || slices.Contains(s.Own, ShardOf(guildID, s.Shards))
}

// ShardOf is the shard to which Discord sends a server's events, -1 of what is no server.
// Source: https://discord.com/developers/docs/events/gateway#sharding
func ShardOf(guildID string, shards int) int {
	n, err := strconv.ParseUint(guildID, 10, 64)
	if err != nil {
		return -1
	}
	return int((n >> 22) % uint64(max(shards, 1)))
}

// Arrivals tells when the shards of this process have been connected for the first time.
type Arrivals struct {
	mu      sync.Mutex
	missing map[int]bool
	First   chan struct{} // closed when one has
	All     chan struct{} // closed when all have
}

// NewArrivals makes one that expects nothing yet.
func NewArrivals() *Arrivals { return &Arrivals{First: make(chan struct{}), All: make(chan struct{})} }

// Expect says which shards there will be.
func (r *Arrivals) Expect(shards []int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.missing = map[int]bool{}
	for _, shard := range shards {
		r.missing[shard] = true
	}
}

// Note notes that a shard is connected.
func (r *Arrivals) Note(shard int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if !r.missing[shard] {
		return
	}
	delete(r.missing, shard)
	select {
	case <-r.First:
	default:
		close(r.First)
	}
	if len(r.missing) == 0 {
		close(r.All)
	}
}

// Complete reports that each shard has been connected once.
func (r *Arrivals) Complete() bool {
	select {
	case <-r.All:
		return true
	default:
		return false
	}
}

// RunAll runs sessions until ctx ends or Discord refuses one for good, which ends the others.
func RunAll(ctx context.Context, sessions []*Gateway) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	ended := make(chan error, len(sessions))
	for _, session := range sessions {
		go func() { ended <- session.Run(ctx) }()
	}
	var first error
	for range sessions {
		if err := <-ended; err != nil && first == nil {
			first = err
			stop()
		}
	}
	return first
}
