package post

import (
	"database/sql"
	"errors"
	"slices"
	"testing"
	"time"

	"musette/storage"
)

// After a backup from before is put back, what went out since then is read back
// and not sent again, what did not is sent, and a digest that cannot be read back
// says that it may have come before. So it is where the backup is from before the
// end of the first tick ever, too.
func TestBackupPutBack(t *testing.T) {
	t.Run("from between ticks", func(t *testing.T) { putBackTo(t, func(*house) {}) })
	t.Run("from before the first tick", func(t *testing.T) {
		putBackTo(t, func(h *house) {
			h.fill(t, func(tx *sql.Tx) error { _, err := tx.Exec(`DELETE FROM clock`); return err })
		})
	})
}

func putBackTo(t *testing.T, state func(*house)) {
	const riders = 20
	h, r, _ := morning(t, riders, true)
	state(h)
	backup, err := storage.Backup(t.Context(), h.path, t.TempDir(), h.now())
	if err != nil {
		t.Fatal(err)
	}
	sent := 0
	r.fault = func(m Message) error { // half of it goes out before the machine is lost
		if sent++; m.Post.Kind == storage.PostReminder && sent%2 == 0 {
			return errWeather
		}
		return nil
	}
	h.stormyMinutes(t, h.poster(r, words{}), 1)
	before := len(r.nonces)
	if before < riders/3 || before > riders {
		t.Fatalf("%d messages went out before", before)
	}
	r.fault = nil
	h.pass(20 * time.Minute)
	h.db.Close()
	if _, err := storage.Restore(t.Context(), backup, h.path, h.now()); err != nil {
		t.Fatal(err)
	}
	h.open(t)
	defer h.db.Close()
	r.cannotLook = func(m Message) error {
		if m.Post.Kind == storage.PostDigest {
			return ErrCannotLook
		}
		if !m.PutBack {
			t.Errorf("it is not said that the database may be older than %+v", m.Post)
		}
		return nil
	}
	h.minutes(t, h.poster(r, words{}), 5)
	seen := r.take()
	wantSeen(t, "in all", seen, append(wanted(riders), "digest 1 2026-06-08", "digest 1 2026-06-08")...)
	if !slices.ContainsFunc(seen, func(s sight) bool { return s.kind == storage.PostDigest && s.again }) {
		t.Errorf("no digest says that it may have come before: %+v", seen)
	}
	if r.looks < riders {
		t.Errorf("%d messages were read back, want all of %d riders", r.looks, riders)
	}
	// From the next day on nothing is in doubt.
	r.cannotLook = func(Message) error { return errors.New("nothing needs to be read back") }
	h.set(instant("2026-06-09T05:29Z"))
	h.minutes(t, h.poster(r, words{}), 2)
	if n := len(r.take()); n != riders {
		t.Errorf("%d reminders on the next day, want %d", n, riders)
	}
}
