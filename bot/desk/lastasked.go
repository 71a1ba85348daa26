package desk

import (
	"sync"
	"time"

	"musette/planner"
	"musette/planner/asked"
	"musette/storage"
)

const (
	talkLasts = 10 * time.Minute
	mostTalks = 10_000
)

// Talks remember for a while what each person asked last, in memory only.
type Talks struct {
	mu   sync.Mutex
	last map[talker]talk

	doubts map[talker]doubt
}

type talker struct{ club, athlete storage.Key }

type talk struct {
	part asked.Part
	at   time.Time
}

// doubt is a danger that a person was asked about.
type doubt struct {
	levels []planner.Level
	at     time.Time
}

func talkerOf(who *Rider) talker { return talker{who.Club.Key, who.Athlete.Key} }

// Last is what a person asked last, nil where that is too long ago.
func (t *Talks) Last(who *Rider, now time.Time) *asked.Part {
	t.mu.Lock()
	defer t.mu.Unlock()
	last, ok := t.last[talkerOf(who)]
	if ago := now.Sub(last.at); !ok || ago > talkLasts || ago < 0 {
		return nil
	}
	return &last.part
}

// Keep remembers what a person asks now.
func (t *Talks) Keep(who *Rider, part asked.Part, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.last == nil || len(t.last) >= mostTalks {
		t.last = map[talker]talk{}
	}
	t.last[talkerOf(who)] = talk{part, now}
}

// Forget drops what a person asked.
func (t *Talks) Forget(who *Rider) {
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.last, talkerOf(who))
	delete(t.doubts, talkerOf(who))
}

// Doubt remembers that a person is asked whether they have something dangerous.
func (t *Talks) Doubt(who *Rider, levels []planner.Level, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.doubts == nil || len(t.doubts) >= mostTalks {
		t.doubts = map[talker]doubt{}
	}
	t.doubts[talkerOf(who)] = doubt{levels, now}
}

// TakeDoubt is the danger that a person was asked about with the line before, which
// counts once. ok is false where nothing was asked, or too long ago.
func (t *Talks) TakeDoubt(who *Rider, now time.Time) (levels []planner.Level, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	d, ok := t.doubts[talkerOf(who)]
	delete(t.doubts, talkerOf(who))
	ago := now.Sub(d.at)
	return d.levels, ok && ago >= 0 && ago <= talkLasts
}
