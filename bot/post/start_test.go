package post

import (
	"context"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// A clock that is wrong when the bot starts sends nothing before it is right, however long that
// takes; it is doubted in one line of the log. What came due meanwhile is sent then.
func TestClockIsWrongAtStart(t *testing.T) {
	for name, off := range map[string]time.Duration{"two days ahead": 48 * time.Hour, "a day behind": -24 * time.Hour} {
		inBubble(t, func(t *testing.T, b *bubble) {
			b.riderAt(t, 5)
			var wrong atomic.Int64
			wrong.Store(int64(off))
			b.time = func() time.Time { return time.Now().Add(time.Duration(wrong.Load())) }
			b.elsewhere = func(context.Context) (time.Time, bool) { return time.Now(), true }
			stop := b.run(t, bubbleRoom{room: b.room})
			time.Sleep(30*time.Minute + time.Second)
			synctest.Wait()
			wantSeen(t, name, b.room.take())
			wrong.Store(0)
			time.Sleep(2 * time.Minute)
			synctest.Wait()
			wantSeen(t, name+", and right again", b.room.take(), "reminder 16 2000-01-01")
			stop()
			if log := b.log.String(); strings.Count(log, "the clock is doubted") != 1 || strings.Count(log, "the clock is believed now") != 1 {
				t.Errorf("%s: the log says %s", name, log)
			}
		})
	}
}

// Where nothing tells the time but the database, a clock that is behind it, or far ahead, is
// watched for three minutes.
func TestClockAgainstTheDatabase(t *testing.T) {
	last := instant("2026-06-01T06:00Z")
	for name, tc := range map[string]struct {
		off    time.Duration
		doubts bool
	}{
		"a restart":                  {30 * time.Second, false},
		"a night":                    {10 * time.Hour, false},
		"a little behind":            {-9 * time.Minute, false},
		"behind":                     {-20 * time.Minute, true},
		"two days":                   {48 * time.Hour, true},
		"the clock of a new machine": {-50 * 365 * 24 * time.Hour, true},
	} {
		w, began := startWatch{}, time.Now()
		for i, after := range []time.Duration{0, time.Minute, 3 * time.Minute} {
			want := tc.doubts && after < clockWatched
			if why := w.doubts(t.Context(), last.Add(tc.off+after), began.Add(after), last); (why != "") != want {
				t.Errorf("%s, look %d: doubts it for %q", name, i+1, why)
			}
		}
	}
	var w startWatch
	if why := w.doubts(t.Context(), last, time.Now(), time.Time{}); why != "" {
		t.Errorf("a new database: %s", why)
	}
	// One that goes on jumping is not believed.
	began := time.Now()
	for i := range 10 {
		after := time.Duration(i) * time.Minute
		if why := w.doubts(t.Context(), last.Add(48*time.Hour+after*60), began.Add(after), last); why == "" {
			t.Errorf("look %d at a wild clock: believed", i+1)
		}
	}
}

// The time elsewhere outranks the database: after a long rest nothing is held up.
func TestClockElsewhere(t *testing.T) {
	last, now := instant("2026-06-01T06:00Z"), instant("2026-08-01T06:00Z")
	w := startWatch{elsewhere: func(context.Context) (time.Time, bool) { return now.Add(-9 * time.Minute), true }}
	if why := w.doubts(t.Context(), now, time.Now(), last); why != "" {
		t.Errorf("agreed: %s", why)
	}
	began := time.Now()
	for _, after := range []time.Duration{0, time.Hour} {
		if why := w.doubts(t.Context(), now.Add(2*time.Minute), began.Add(after), last); !strings.Contains(why, "11m0s ahead of Discord's clock") {
			t.Errorf("after %v: %q", after, why)
		}
	}
	w.elsewhere = func(context.Context) (time.Time, bool) { return time.Time{}, false }
	if why := w.doubts(t.Context(), now, began, last); !strings.Contains(why, "1464h0m0s ahead of what the database knows") {
		t.Errorf("not known: %q", why)
	}
}
