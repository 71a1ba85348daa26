package post

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"musette/bot/bottest/rounds"
	"musette/storage"
)

// morning is a club of n riders, all at 06:30, whose Poster has ticked once; the
// minute before is 05:29 UTC. The club's digest is due in the same minute where digest is set.
func morning(t *testing.T, n int, digest bool) (*house, *room, storage.Club) {
	t.Helper()
	h, r := newScene(t, "2026-06-08T04:00Z") // a Monday
	h.copied(t, fmt.Sprint(n, digest), func() {
		club := h.club(t, "1", "Europe/Lisbon")
		must(h.db.UpdateClub(t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error {
			if s.DigestTime = "06:30"; !digest {
				s.DigestDay = "off"
			}
			return nil
		}))
		for i := range n {
			h.rider(t, club, fmt.Sprint(11+i), "", "06:30")
		}
		h.tick(t, h.poster(r, words{}))
	})
	h.set(instant("2026-06-08T05:29Z"))
	return h, r, must(h.db.FindClub(t.Context(), storage.PlatformKey("discord", "1")))
}

// mornings are the files of databases that copied has filled, by their names.
var mornings sync.Map

// copied fills an empty database, or copies the file of one that was filled before.
func (h *house) copied(t *testing.T, name string, fill func()) {
	t.Helper()
	if file, ok := mornings.Load(name); ok {
		h.db.Close()
		if err := os.WriteFile(h.path, file.([]byte), 0o600); err != nil {
			t.Fatal(err)
		}
		h.open(t)
		return
	}
	fill()
	h.db.Close()
	mornings.Store(name, must(os.ReadFile(h.path)))
	h.open(t)
}

func wanted(n int) (all []string) {
	for i := range n {
		all = append(all, fmt.Sprintf("reminder %d 2026-06-08", 11+i))
	}
	return all
}

// stormyMinutes ticks by the minute, through ticks that end early.
func (h *house) stormyMinutes(t *testing.T, p *Poster, n int) {
	t.Helper()
	for range n {
		h.pass(time.Minute)
		if err := p.Tick(t.Context(), h.now()); err != nil && !errors.Is(err, errOutage) {
			t.Fatal(err)
		}
	}
}

// An hour in which nothing gets through: all arrive afterwards, once, whatever
// is known of the tries.
func TestOutageOfAnHour(t *testing.T) {
	const riders = 300
	for name, tc := range map[string]struct {
		err         error
		cannotLook  error
		lookFails   bool
		mayGiveUp   bool
		restartLate bool
	}{
		"nothing known":                 {err: errWeather},
		"nothing known, look fails too": {err: errWeather, lookFails: true},
		"nothing known, restart":        {err: errWeather, restartLate: true},
		"known to be unsent":            {err: fmt.Errorf("dial: %w", ErrUnsent), cannotLook: ErrCannotLook},
		"nobody can tell":               {err: errWeather, cannotLook: ErrCannotLook, mayGiveUp: true},
	} {
		t.Run(name, func(t *testing.T) {
			h, r, club := morning(t, riders, false)
			p := h.poster(r, words{})
			tries := 0
			r.fault = func(Message) error { tries++; return tc.err }
			r.cannotLook = func(Message) error {
				if tc.lookFails && r.fault != nil {
					return errWeather
				}
				return tc.cannotLook
			}
			before := must(h.db.LastTick(t.Context()))
			h.stormyMinutes(t, p, 1)
			if n := len(h.posts(t, club.ID)); n != batch || !must(h.db.LastTick(t.Context())).Equal(before) {
				t.Errorf("%d claimed in the first minute, want no more than a batch and the tick not noted", n)
			}
			h.stormyMinutes(t, p, 59)
			if n := len(h.posts(t, club.ID)); n > batch+60*probes/2 {
				t.Errorf("%d claimed in an hour in which nothing gets through", n)
			}
			if tries > 60*(probes+1)+outageAt+8 {
				t.Errorf("%d tries in an hour", tries)
			}
			if tc.restartLate {
				p = h.poster(r, words{})
			}
			r.fault = nil
			h.stormyMinutes(t, p, 20)
			seen := r.take()
			if !tc.mayGiveUp {
				wantSeen(t, "after the outage", seen, wanted(riders)...)
				return
			}
			unknown := 0
			for _, post := range h.posts(t, club.ID) {
				if post.State == storage.PostFailed && post.Reason == reasonUnknown {
					unknown++
				}
			}
			if len(seen)+unknown != riders || len(counts(seen)) != len(seen) || len(seen) == 0 || unknown == 0 {
				t.Errorf("%d seen, %d unknown, want %d in all and none twice", len(seen), unknown, riders)
			}
		})
	}
}

// Refusals and missing places are final at once and hold up nobody.
func TestFinalRefusals(t *testing.T) {
	h, r, club := morning(t, 40, true)
	tries := map[storage.PostID]int{}
	r.fault = func(m Message) error {
		tries[m.Post.ID]++
		switch {
		case m.Post.Kind == storage.PostDigest:
			return ErrNoPlace
		case m.Athlete.ID <= 30:
			return fmt.Errorf("rider: %w", ErrRefused)
		}
		return nil
	}
	p := h.poster(r, words{})
	h.minutes(t, p, 30)
	wantSeen(t, "those who can be written to", r.take(), wanted(40)[30:]...)
	failed := 0
	for _, post := range h.posts(t, club.ID) {
		if post.State == storage.PostFailed && (strings.HasSuffix(post.Reason, ErrRefused.Error()) || post.Reason == ErrNoPlace.Error()) {
			failed++
		}
		if tries[post.ID] != 1 || post.Tries != 1 {
			t.Errorf("%d tries, %d counted: %+v", tries[post.ID], post.Tries, post)
		}
	}
	if failed != 31 {
		t.Errorf("%d recorded as failed, want 31", failed)
	}
}

// What fails all day is tried ever more rarely and given up with its reason.
func TestGivenUp(t *testing.T) {
	h, r, club := morning(t, 2, false)
	var at []string
	r.fault = func(m Message) error {
		if m.Athlete.ID == 1 {
			at = append(at, h.now().Format("15:04"))
			return fmt.Errorf("%w\nwith a second line", errWeather)
		}
		return nil
	}
	p := h.poster(r, words{})
	h.minutes(t, p, 24*60+1)
	wantSeen(t, "the other", r.take(), "reminder 12 2026-06-08", "reminder 12 2026-06-09")
	if want := []string{"05:30", "05:31", "05:33", "05:37", "05:45", "06:00", "06:15"}; !slices.Equal(at[:7], want) {
		t.Errorf("tried at %v, want %v", at[:7], want)
	}
	wantStates(t, h, club.ID, "reminder 12 2026-06-08 sent: ", "reminder 11 2026-06-08 failed: "+reasonGivenUp+errWeather.Error(),
		"reminder 12 2026-06-09 sent: ", "reminder 11 2026-06-09 claimed: "+errWeather.Error())
}

// A message that arrived although its sender heard of a fault is not repeated:
// at first its number guards it, later a look.
func TestArrivedAfterAll(t *testing.T) {
	for _, wait := range []time.Duration{time.Minute, 4 * time.Minute, 3 * time.Hour} {
		h, r, club := morning(t, 3, false)
		p := h.poster(r, words{})
		r.lost = func(Message) error { return errWeather }
		h.minutes(t, p, 1)
		r.lost = nil
		h.pass(wait - time.Minute)
		h.minutes(t, p, 1)
		wantSeen(t, wait.String(), r.take(), wanted(3)...)
		if looked := r.looks > 0; looked != (wait > nonceKeeps) {
			t.Errorf("%v: %d looks", wait, r.looks)
		}
		for _, post := range h.posts(t, club.ID) {
			if post.State != storage.PostSent {
				t.Errorf("%v: %+v", wait, post)
			}
		}
	}
}

// Where the outcome is unknown and nobody can look, a digest says that it may
// come twice and a reminder is left.
func TestUnknownOutcome(t *testing.T) {
	h, r, club := morning(t, 1, true)
	p := h.poster(r, words{})
	r.lost = func(Message) error { return errWeather }
	h.minutes(t, p, 1)
	r.lost, r.cannotLook = nil, func(Message) error { return ErrCannotLook }
	h.pass(10 * time.Minute)
	h.minutes(t, p, 1)
	seen := r.take()
	wantSeen(t, "in the end", seen, "digest 1 2026-06-08", "digest 1 2026-06-08", "reminder 11 2026-06-08")
	if i := slices.IndexFunc(seen, func(s sight) bool { return s.again }); i < 0 || seen[i].kind != storage.PostDigest || !seen[i].at.Equal(h.now()) {
		t.Errorf("the second digest does not say so: %+v", seen)
	}
	wantStates(t, h, club.ID, "digest 1 2026-06-08 sent: ", "reminder 11 2026-06-08 failed: "+reasonUnknown)
}

// A post that waits for its next try minds what its rider has set since.
func TestSettingsBetweenTries(t *testing.T) {
	for name, change := range map[string]func(*storage.Reminders){
		"off":    func(r *storage.Reminders) { r.Mode = storage.RemindOff },
		"pause":  func(r *storage.Reminders) { r.Pause = 20700 },
		"on /me": func(r *storage.Reminders) { r.By = storage.RemindRide },
	} {
		h, r, club := morning(t, 1, false)
		p := h.poster(r, words{})
		r.fault = func(Message) error { return errWeather }
		h.minutes(t, p, 1)
		r.fault = nil
		h.change(t, 1, func(s *storage.Settings) { change(&s.Remind) })
		h.minutes(t, p, 10)
		wantSeen(t, name, r.take())
		wantStates(t, h, club.ID, "reminder 11 2026-06-08 skipped: "+reasonNothing)
	}
}

// crash is a place at which musette is killed: nothing is stored from there on.
type crash struct {
	name string
	set  func(h *house, r *room, w *words, n int)
}

// countdown calls f at the nth call.
func countdown(n int, f func()) func() {
	return func() {
		if n--; n == 0 {
			f()
		}
	}
}

var crashes = []crash{
	{"before the claim", func(h *house, _ *room, w *words, n int) {
		die := countdown(1, func() { h.db.Close() })
		w.fault = func(a storage.Athlete) error {
			if int(a.ID) == n {
				die()
			}
			return nil
		}
	}},
	{"between claim and send", func(h *house, r *room, _ *words, n int) {
		dead := false
		die := countdown(n, func() { h.db.Close(); dead = true })
		r.fault = func(Message) error {
			if die(); dead {
				return errWeather // nothing leaves a dead process
			}
			return nil
		}
	}},
	{"between send and settle", func(h *house, r *room, _ *words, n int) {
		dead := false
		die := countdown(n, func() { h.db.Close(); dead = true })
		r.fault = func(Message) error {
			if dead {
				return errWeather
			}
			return nil
		}
		r.lost = func(Message) error { die(); return nil }
	}},
}

// Wherever musette is killed, nobody sees a reminder twice, and nobody misses one
// while it makes sense.
func TestCrashes(t *testing.T) {
	const riders = 20
	tried := 0
	for _, c := range crashes {
		for _, n := range []int{1, 2, 10, 20} {
			for _, tc := range []struct {
				away       time.Duration
				cannotLook error
			}{{time.Minute, nil}, {20 * time.Minute, nil}, {19 * time.Hour, nil}, {time.Minute, ErrCannotLook}, {20 * time.Minute, ErrCannotLook}} {
				if tried++; rounds.Left(tried) {
					continue
				}
				what := fmt.Sprintf("%s, number %d, away for %v, %v", c.name, n, tc.away, tc.cannotLook)
				h, r, club := morning(t, riders, false)
				w := words{}
				c.set(h, r, &w, n)
				h.pass(time.Minute)
				if err := h.poster(r, w).Tick(t.Context(), h.now()); err == nil {
					t.Errorf("%s: the tick reports no error", what)
				}
				h.db.Close()
				h.open(t)
				r.fault, r.lost = nil, nil
				r.cannotLook = func(Message) error { return tc.cannotLook }
				h.pass(tc.away)
				p := h.poster(r, words{})
				h.tick(t, p)
				h.minutes(t, p, 5)
				checkCrash(t, what, h, club, counts(slices.DeleteFunc(r.take(), func(s sight) bool { return s.day > day(t, "2026-06-08") })),
					tc.away < 12*time.Hour && (tc.cannotLook == nil || tc.away < nonceKeeps))
			}
		}
	}
}

// checkCrash looks that nobody saw a message twice, that all did where all is
// set, and that the records tell the truth.
func checkCrash(t *testing.T, what string, h *house, club storage.Club, seen map[string]int, all bool) {
	t.Helper()
	for who, n := range seen {
		if n > 1 {
			t.Errorf("%s: %s saw it %d times", what, who, n)
		}
	}
	if all && len(seen) != 20 {
		t.Errorf("%s: %d saw it, want 20", what, len(seen))
	}
	for _, post := range h.posts(t, club.ID) {
		if post.Day > day(t, "2026-06-08") {
			continue
		}
		id, _ := post.Key.ID("discord")
		arrived := seen[fmt.Sprintf("reminder %s %s", id, post.Day)] == 1
		switch {
		case post.State == storage.PostClaimed, post.State == storage.PostSent && !arrived, post.State == storage.PostSkipped && arrived:
			t.Errorf("%s: arrived %t, but the record says %+v", what, arrived, post)
		}
	}
}

// A panic of the Sender is a fault like others.
func TestSenderPanics(t *testing.T) {
	h, r, _ := morning(t, 5, false)
	p := h.poster(r, words{})
	r.fault = func(m Message) error {
		if m.Athlete.ID == 3 {
			panic("a secret")
		}
		return nil
	}
	h.minutes(t, p, 1)
	r.fault = nil
	h.minutes(t, p, 3)
	wantSeen(t, "all", r.take(), wanted(5)...)
}

// At the end of its context a tick finishes what it has claimed and claims no more.
func TestEndInTheMiddle(t *testing.T) {
	const riders = 2 * batch
	h, r, club := morning(t, riders, false)
	ctx, cancel := context.WithCancel(t.Context())
	r.fault = func(Message) error { cancel(); return nil }
	h.pass(time.Minute)
	if err := h.poster(r, words{}).Tick(ctx, h.now()); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	for _, post := range h.posts(t, club.ID) {
		if post.State != storage.PostSent {
			t.Errorf("left open: %+v", post)
		}
	}
	if n := len(h.posts(t, club.ID)); n != batch {
		t.Errorf("%d claimed, want one batch", n)
	}
	h.minutes(t, h.poster(r, words{}), 1)
	wantSeen(t, "in the end", r.take(), wanted(riders)...)
}

// What riders change while a batch goes out counts for those of it who have not
// got theirs yet; digests go out as they were.
func TestChangesReachTheBatch(t *testing.T) {
	h, r, club := morning(t, 6, true)
	p := New(Config{DB: h.db, Bot: words{}, Sender: r, Now: h.now, AtOnce: 1})
	first := true
	r.fault = func(Message) error {
		if !first {
			return nil
		}
		first = false
		h.change(t, 2, func(s *storage.Settings) { s.Remind.Mode = storage.RemindOff })
		h.change(t, 3, func(s *storage.Settings) { s.Remind.Pause = day(t, "2026-06-10") })
		h.change(t, 4, func(s *storage.Settings) { s.Remind.By = storage.RemindRide })
		return h.db.MarkLeft(t.Context(), 5, day(t, "2026-06-08"))
	}
	h.minutes(t, p, 2)
	wantSeen(t, "the others", r.take(), append(wanted(6)[:1], "reminder 16 2026-06-08", "digest 1 2026-06-08")...)
	for _, post := range h.posts(t, club.ID) {
		if post.State == storage.PostClaimed || post.State == storage.PostFailed {
			t.Errorf("left open or failed: %+v", post)
		}
	}
}
