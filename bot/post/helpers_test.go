package post

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// clock is a clock that tests move.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func clockAt(text string) *clock { return &clock{at: instant(text)} }

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *clock) set(t time.Time) time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = t
	return t
}

func (c *clock) pass(d time.Duration) time.Time { return c.set(c.now().Add(d)) }

// instant reads 2026-06-13T06:30Z.
func instant(text string) time.Time {
	t, err := time.Parse("2006-01-02T15:04Z07:00", text)
	if err != nil {
		panic(err)
	}
	return t
}

func day(t testing.TB, text string) planner.Date {
	t.Helper()
	d, err := planner.ParseISODate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// house is a database on disk that can be left and entered again.
type house struct {
	path string
	db   *storage.DB
	*clock
}

// newHouse makes a database. Simulations write millions of rows: they are faster
// with TMPDIR in memory.
func newHouse(t testing.TB, c *clock) *house {
	t.Helper()
	h := &house{path: filepath.Join(t.TempDir(), "test.db"), clock: c}
	h.open(t)
	t.Cleanup(func() { h.db.Close() })
	return h
}

// open opens the database (again).
func (h *house) open(t testing.TB) {
	t.Helper()
	db := storagetest.Open(t, h.path)
	db.Now = h.now
	h.db = db
}

// fill runs statements on the file itself, many rows in one go.
func (h *house) fill(t testing.TB, f func(*sql.Tx) error) {
	t.Helper()
	raw, err := sql.Open("sqlite3", "file:"+h.path+"?_foreign_keys=on&_busy_timeout=2000")
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close()
	tx, err := raw.Begin()
	if err == nil {
		if err = f(tx); err == nil {
			err = tx.Commit()
		}
	}
	if err != nil {
		t.Fatal(err)
	}
}

func (h *house) club(t testing.TB, id, zone string) storage.Club {
	t.Helper()
	club, err := h.db.EnsureClub(context.Background(), storage.PlatformKey("discord", id), "Club "+id, zone)
	if err != nil {
		t.Fatal(err)
	}
	return must(h.db.UpdateClub(context.Background(), club.ID, func(_ *string, s *storage.ClubSetup) error { s.Coaches = "55"; return nil }))
}

// rider is a rider who is reminded always at a time, in a zone of their own if it is not "".
func (h *house) rider(t testing.TB, club storage.Club, id, zone, at string) storage.Athlete {
	t.Helper()
	a, err := h.db.EnsureAthlete(context.Background(), club.ID, storage.PlatformKey("discord", id), "Rider "+id)
	if err != nil {
		t.Fatal(err)
	}
	return h.change(t, a.ID, func(s *storage.Settings) { s.Zone, s.Remind.Mode, s.Remind.At = zone, storage.RemindAlways, at })
}

// change changes settings as the bot does: nothing is due before.
func (h *house) change(t testing.TB, id storage.AthleteID, change func(*storage.Settings)) storage.Athlete {
	t.Helper()
	a, err := h.db.UpdateSettings(context.Background(), id, planner.DateOf(h.now()), func(s *storage.Settings) error {
		change(s)
		s.Remind.Since = h.now()
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func (h *house) posts(t testing.TB, club storage.ClubID) []storage.Post {
	t.Helper()
	posts, err := h.db.ClubPosts(context.Background(), club, time.UnixMilli(0))
	if err != nil {
		t.Fatal(err)
	}
	return posts
}

// words is a Words that has something to say each day but to those it is told to pass over.
type words struct {
	quiet func(a storage.Athlete, day planner.Date) bool
	fault func(a storage.Athlete) error
}

func (w words) Reminder(_ context.Context, who *storage.Known, day planner.Date, _ time.Time) (say.Reply, bool, error) {
	a, club := who.Athlete, who.Club
	if w.fault != nil {
		if err := w.fault(a); err != nil {
			return say.Reply{}, false, err
		}
	}
	off := a.Settings.Remind.Mode == storage.RemindOff || a.Settings.Remind.By == storage.RemindRide
	if off || w.quiet != nil && w.quiet(a, day) {
		return say.Reply{}, false, nil
	}
	return say.Reply{Lines: []say.Line{say.Linef("%s from %s", day, club.Name)}}, true, nil
}

func (w words) Digest(_ context.Context, club storage.Club, _ time.Time) (say.Reply, error) {
	return say.Reply{Lines: []say.Line{say.Linef("the week of %s", club.Name)}}, nil
}

// room is a Sender with what people see. As Discord does, it shows a message with
// a name that it saw less than three minutes ago once.
type room struct {
	*clock
	mu     sync.Mutex
	seen   []sight
	nonces map[personDay]time.Time // digests have the club's key
	looks  int
	// fault is asked before a message is shown; lost after it was, so that the sender does not know.
	fault, lost, cannotLook func(Message) error
}

// sight is a message that somebody sees.
type sight struct {
	key   storage.Key
	kind  storage.PostKind
	day   planner.Date
	at    time.Time
	text  string
	again bool
}

func newRoom(c *clock) *room { return &room{clock: c, nonces: map[personDay]time.Time{}} }

func (r *room) Send(ctx context.Context, m Message) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.fault != nil {
		if err := r.fault(m); err != nil {
			return err
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	now := r.now()
	if at, ok := r.nonces[personDay{m.Post.Key, m.Post.Day}]; !ok || now.Sub(at) >= nonceKeeps {
		r.nonces[personDay{m.Post.Key, m.Post.Day}] = now
		r.seen = append(r.seen, sight{m.Post.Key, m.Post.Kind, m.Post.Day, now, m.Reply.Text(), m.Again})
	}
	if r.lost != nil {
		return r.lost(m)
	}
	return nil
}

func (r *room) Look(_ context.Context, m Message) (bool, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.looks++
	if r.cannotLook != nil {
		if err := r.cannotLook(m); err != nil {
			return false, err
		}
	}
	_, there := r.nonces[personDay{m.Post.Key, m.Post.Day}]
	return there, nil
}

// take empties the room.
func (r *room) take() []sight {
	r.mu.Lock()
	defer r.mu.Unlock()
	seen := r.seen
	r.seen = nil
	return seen
}

// counts is how often each person saw a message of each day.
func counts(seen []sight) map[string]int {
	out := map[string]int{}
	for _, s := range seen {
		id, _ := s.key.ID("discord")
		out[fmt.Sprintf("%s %s %s", s.kind, id, s.day)]++
	}
	return out
}

func wantSeen(t *testing.T, what string, seen []sight, want ...string) {
	t.Helper()
	all := map[string]int{}
	for _, w := range want {
		all[w]++
	}
	for who, n := range counts(seen) {
		if all[who] -= n; all[who] == 0 {
			delete(all, who)
		}
	}
	if len(all) > 0 {
		t.Errorf("%s: missing (more than there should be: negative) %v", what, all)
	}
}

func (h *house) poster(r *room, w words) *Poster {
	return New(Config{DB: h.db, Bot: w, Sender: r, Now: h.now})
}

// tick ticks at the time of the house's clock.
func (h *house) tick(t testing.TB, p *Poster) {
	t.Helper()
	if err := p.Tick(context.Background(), h.now()); err != nil {
		t.Fatalf("%s: %v", h.now(), err)
	}
}

var errWeather = errors.New("bad weather")
