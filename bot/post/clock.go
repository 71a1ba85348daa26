package post

import "time"

const (
	clockJump    = 10 * time.Minute // by which a clock is no longer simply believed
	clockAgrees  = time.Minute      // within which later looks agree with a jump
	clockWatched = 3 * time.Minute  // after which a jump is believed
)

// clockWatch compares the wall clock with the time that has passed since it was
// looked at first. A jump, as by a wrong server of time, is believed once the clock
// has gone on from there for three minutes: so it does after sleep.
type clockWatch struct {
	wall, began time.Time     // the first look, by the wall and by the monotonic clock
	trusted     time.Duration // by how much the wall clock is ahead of the first look
	jumped      time.Duration // the same after a jump that is not believed yet
	since       time.Time     // when that was seen first, monotonic; zero: there is none
}

// believes reports whether a wall clock may be acted on; now is a monotonic reading.
func (w *clockWatch) believes(wall, now time.Time) bool {
	if w.began.IsZero() {
		w.wall, w.began = wall, now
		return true
	}
	ahead := wall.Sub(w.wall) - now.Sub(w.began)
	switch {
	case (ahead - w.trusted).Abs() <= clockJump:
	case w.since.IsZero() || (ahead-w.jumped).Abs() > clockAgrees:
		w.jumped, w.since = ahead, now
		return false
	case now.Sub(w.since) < clockWatched:
		return false
	}
	w.trusted, w.since = ahead, time.Time{}
	return true
}
