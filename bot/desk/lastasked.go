package desk

import (
	"sync"
	"time"

	"musette/bot/say"
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
	open   map[talker]open
}

type talker struct{ club, athlete storage.Key }

type talk struct {
	part asked.Part
	at   time.Time
}

// open are the buttons of the last reply to a person. One that proposed to store something waits
// for a yes.
type open struct {
	buttons  []say.Button
	proposes bool
	at       time.Time
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
	delete(t.open, talkerOf(who))
}

// Open remembers the buttons of the last reply to a person.
func (t *Talks) Open(who *Rider, buttons []say.Button, proposes bool, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.open == nil || len(t.open) >= mostTalks {
		t.open = map[talker]open{}
	}
	t.open[talkerOf(who)] = open{buttons, proposes, now}
}

// Buttons are those of the last reply to a person, none where that is too long ago, and whether
// it proposed to store something.
func (t *Talks) Buttons(who *Rider, now time.Time) (buttons []say.Button, proposes bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	o := t.open[talkerOf(who)]
	if ago := now.Sub(o.at); ago < 0 || ago > talkLasts {
		return nil, false
	}
	return o.buttons, o.proposes
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
