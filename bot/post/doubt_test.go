package post

import (
	"database/sql"
	"fmt"
	"testing"
	"time"

	"musette/storage"
)

// stuck makes every outcome of a post impossible to store, or possible again.
func (h *house) stuck(t *testing.T, on bool) {
	t.Helper()
	statement := `DROP TRIGGER stuck`
	if on {
		statement = `CREATE TRIGGER stuck BEFORE UPDATE ON post BEGIN SELECT raise(ABORT, 'the disk is full'); END`
	}
	h.fill(t, func(tx *sql.Tx) error {
		_, err := tx.Exec(statement)
		return err
	})
}

// A message whose outcome cannot be stored for an hour is shown once.
func TestOutcomeThatCannotBeStored(t *testing.T) {
	for name, tc := range map[string]struct{ restart bool }{"same run": {}, "another run": {true}} {
		h, r, club := morning(t, 2, true)
		p := h.poster(r, words{})
		h.stuck(t, true)
		for i := range 60 {
			if h.pass(time.Minute); p.Tick(t.Context(), h.now()) == nil {
				t.Fatalf("%s: the tick of minute %d reports no error", name, i)
			}
		}
		if tc.restart {
			p = h.poster(r, words{})
		}
		h.stuck(t, false)
		h.stormyMinutes(t, p, 5)
		wantSeen(t, name, r.take(), "reminder 11 2026-06-08", "reminder 12 2026-06-08", "digest 1 2026-06-08")
		for _, post := range h.posts(t, club.ID) {
			if post.State != storage.PostSent {
				t.Errorf("%s: %+v", name, post)
			}
		}
	}
}

// A digest of which nobody can tell whether it arrived is sent a second time,
// and no third one.
func TestOneAgainADigest(t *testing.T) {
	for _, restart := range []bool{false, true} {
		h, r, club := morning(t, 0, true)
		p := h.poster(r, words{})
		r.lost, r.cannotLook = func(Message) error { return errWeather }, func(Message) error { return ErrCannotLook }
		for range 60 {
			h.stormyMinutes(t, p, 5)
			if restart {
				p = h.poster(r, words{})
			}
			clear(r.nonces) // long forgotten
		}
		wantSeen(t, fmt.Sprintf("restart %t", restart), r.take(), "digest 1 2026-06-08", "digest 1 2026-06-08")
		wantStates(t, h, club.ID, "digest 1 2026-06-08 failed: "+reasonUnknown)
	}
}

// Posts that get stuck by themselves hold up nobody else, whatever their number.
func TestOnePlaceIsNoOutage(t *testing.T) {
	const riders, stuck = 80, 40
	for name, fault := range map[string]func() error{
		"must wait": func() error { return fmt.Errorf("%w: %w", ErrLater, ErrUnsent) },
		"a panic":   func() error { panic("a secret") },
	} {
		t.Run(name, func(t *testing.T) {
			h, r, _ := morning(t, riders, false)
			r.fault = func(m Message) error {
				if m.Athlete.ID > stuck {
					return nil
				}
				return fault()
			}
			h.minutes(t, h.poster(r, words{}), 1)
			wantSeen(t, name, r.take(), wanted(riders)[stuck:]...)
		})
	}
}

// Where what is open does not get through, what is new is tried all the same.
func TestOpenPostsStarveNobody(t *testing.T) {
	const stuck = 40
	h, r, club := morning(t, stuck, false)
	r.fault = func(m Message) error {
		if m.Athlete.ID <= stuck {
			return errWeather
		}
		return nil
	}
	p := h.poster(r, words{})
	h.stormyMinutes(t, p, 1)
	for i := range 10 {
		at := h.now().Add(time.Hour + time.Minute) // in Lisbon
		h.rider(t, club, fmt.Sprint(100+i), "", at.Format("15:04"))
		h.stormyMinutes(t, p, 1)
		wantSeen(t, at.Format("15:04"), r.take(), fmt.Sprintf("reminder %d 2026-06-08", 100+i))
	}
}

// One that must wait neither hides an outage nor ends one.
func TestLaterSaysNothingOfOutages(t *testing.T) {
	h, r, _ := morning(t, 300, false)
	calls := 0
	r.fault = func(Message) error {
		if calls++; calls%2 == 0 {
			return ErrLater
		}
		return errWeather
	}
	h.stormyMinutes(t, h.poster(r, words{}), 1)
	if calls > 2*outageAt+16 {
		t.Errorf("%d tries until an outage was seen", calls)
	}
}
