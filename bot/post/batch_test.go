package post

import (
	"context"
	"database/sql"
	"sync/atomic"
	"testing"
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// counted counts how often reminders are made.
type counted struct {
	words
	made atomic.Int32
}

func (c *counted) Reminder(ctx context.Context, who *storage.Known, day planner.Date, now time.Time) (say.Reply, bool, error) {
	c.made.Add(1)
	return c.words.Reminder(ctx, who, day, now)
}

// A reminder is made once. Where anything changes while its batch goes out, be it by
// another program, those that have not gone out are made once more.
func TestMadeOnceUnlessSomethingChanges(t *testing.T) {
	const riders = 6
	h, r, _ := morning(t, riders, false)
	other := storagetest.Open(t, h.path)
	var change func() error
	r.fault = func(Message) error {
		if do := change; do != nil {
			change = nil
			return do()
		}
		return nil
	}
	made := &counted{}
	p := New(Config{DB: h.db, Bot: made, Sender: r, Now: h.now, AtOnce: 1})
	h.minutes(t, p, 1)
	wantSeen(t, "Nothing changes", r.take(), wanted(riders)...)
	if n := made.made.Swap(0); n != riders {
		t.Errorf("%d reminders were made %d times", riders, n)
	}
	h.pass(24*time.Hour - time.Minute)
	change = func() error {
		_, err := other.UpdateSettings(t.Context(), 3, day(t, "2026-06-09"), func(s *storage.Settings) error { s.Remind.Mode = storage.RemindOff; return nil })
		return err
	}
	h.minutes(t, p, 1)
	if seen := counts(r.take()); len(seen) != riders-1 || seen["reminder 13 2026-06-09"] != 0 {
		t.Errorf("another program stopped the third rider's, and these came: %v", seen)
	}
	if n := made.made.Load(); n != 2*riders-1 {
		t.Errorf("made %d times, want all once and the later ones once more", n)
	}
}

// One rider who cannot be read holds up nobody else.
func TestUnreadableRiderInABatch(t *testing.T) {
	h, r, _ := morning(t, 4, false)
	h.fill(t, func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO week (athlete_id, from_date, text) VALUES (2, '2026-01-01', 'no week at all')`)
		return err
	})
	h.pass(time.Minute)
	if err := h.poster(r, words{}).Tick(t.Context(), h.now()); err == nil {
		t.Error("the tick reports no error")
	}
	wantSeen(t, "the others", r.take(), "reminder 11 2026-06-08", "reminder 13 2026-06-08", "reminder 14 2026-06-08")
}
