package post

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"musette/storage"
)

// A clock that is a year ahead for two ticks does not make anybody be reminded twice.
func TestYearAheadForTwoTicks(t *testing.T) {
	h, r, club := morning(t, 1, false)
	p := h.poster(r, words{})
	h.minutes(t, p, 8*60)
	right := h.now()
	h.set(right.AddDate(1, 0, 0))
	h.tick(t, p)
	h.minutes(t, p, 1)
	h.set(right.Add(2 * time.Minute))
	h.tick(t, p)
	h.minutes(t, p, 10)
	if n := counts(r.take())["reminder 11 2026-06-08"]; n != 1 {
		t.Errorf("reminded %d times, want once", n)
	}
	if posts := h.posts(t, club.ID); len(posts) == 0 || posts[0].Day != day(t, "2026-06-08") {
		t.Errorf("forgotten: %+v", posts)
	}
}

// A fault that passes loses no reminder, whether it was claimed before or not.
func TestFaultThatPasses(t *testing.T) {
	h, r, club := morning(t, 3, false)
	var fault error
	p := h.poster(r, words{fault: func(a storage.Athlete) error {
		if a.ID == 2 {
			return fault
		}
		return nil
	}})
	fault = fmt.Errorf("read: %w", errWeather)
	for range 5 {
		h.pass(time.Minute)
		if err := p.Tick(t.Context(), h.now()); err == nil {
			t.Error("the tick reports no error")
		}
	}
	wantSeen(t, "the others", r.take(), "reminder 11 2026-06-08", "reminder 13 2026-06-08")
	fault = nil
	r.fault = func(Message) error { return ErrUnsent }
	h.stormyMinutes(t, p, 1)
	fault, r.fault = errWeather, nil
	h.stormyMinutes(t, p, 3)
	wantSeen(t, "claimed, but it cannot be made", r.take())
	fault = nil
	h.minutes(t, p, 1)
	wantSeen(t, "in the end", r.take(), "reminder 12 2026-06-08")
	for _, post := range h.posts(t, club.ID) {
		if post.State != storage.PostSent {
			t.Errorf("%+v", post)
		}
	}
}

// What is stored and makes no sense is not read again and again.
func TestUnreadableFacts(t *testing.T) {
	h, r, club := morning(t, 1, false)
	p := h.poster(r, words{fault: func(storage.Athlete) error {
		return fmt.Errorf(`facts: sql: Scan error on column index 1, name "date": %w`, errWeather)
	}})
	h.minutes(t, p, 1)
	wantSeen(t, "unreadable", r.take())
	wantStates(t, h, club.ID, "reminder 11 2026-06-08 failed: "+reasonBroken)
}

// A club of a platform that named no channel for its digest gets none, and no record of it.
func TestDigestNeedsChannel(t *testing.T) {
	h, r, club := morning(t, 1, true)
	must(h.db.UpdateClub(t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error { s.Coaches = ""; return nil }))
	h.minutes(t, h.poster(r, words{}), 2)
	wantSeen(t, "without a channel", r.take(), "reminder 11 2026-06-08")
	wantStates(t, h, club.ID, "reminder 11 2026-06-08 sent: ")
}

// Riders do not wait for digests, be they new or tried again.
func TestRemindersBeforeDigests(t *testing.T) {
	h, r, club := morning(t, 2, true)
	must(h.db.UpdateClub(t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error { s.DigestTime = "06:29"; return nil }))
	p := New(Config{DB: h.db, Bot: words{}, Sender: r, Now: h.now, AtOnce: 1})
	r.fault = func(Message) error { return ErrUnsent }
	h.stormyMinutes(t, p, 1)
	r.fault = nil
	h.set(instant("2026-06-08T05:45Z"))
	h.tick(t, p)
	h.pass(7 * 24 * time.Hour)
	h.tick(t, p)
	var order []string
	for _, s := range r.take() {
		order = append(order, string(s.kind))
	}
	got := strings.Join(order, " ")
	if first := "reminder reminder digest "; !strings.HasPrefix(got, first) || !strings.HasSuffix(got, "reminder digest") || strings.Count(got, "digest") != 2 {
		t.Errorf("order %s", got)
	}
}
