package discord

import "sync"

// recentSize is how many ids are remembered: at 200 events a second those of 40 seconds.
const recentSize = 8192

// recent remembers the last ids that came: Discord may deliver an event twice.
type recent struct {
	mu   sync.Mutex
	ids  map[string]bool
	ring [recentSize]string
	next int
}

// first reports whether the id has not come before, and remembers it.
func (r *recent) first(id string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.ids[id] {
		return false
	}
	if r.ids == nil {
		r.ids = make(map[string]bool, recentSize)
	}
	delete(r.ids, r.ring[r.next])
	r.ring[r.next], r.ids[id] = id, true
	r.next = (r.next + 1) % recentSize
	return true
}
