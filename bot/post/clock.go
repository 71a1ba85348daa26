package post

import (
	"context"
	"fmt"
	"time"
)

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

// longAway is for how long a bot is away before its clock is watched at its next start.
const longAway = 24 * time.Hour

// startWatch doubts the clock that a run begins with. The time elsewhere, where that is known,
// decides. Without it a clock that is behind what the database knows, or far ahead of it, is
// believed once it has gone on for three minutes, as after a jump.
type startWatch struct {
	elsewhere   func(context.Context) (at time.Time, known bool)
	wall, began time.Time // the first look at a clock that is watched, by the wall and by the monotonic clock
}

// doubts tells why a wall clock may not be acted on yet, or nothing; now is a monotonic reading
// and last the newest instant that the database knows, zero where there is none.
func (w *startWatch) doubts(ctx context.Context, wall, now, last time.Time) (why string) {
	if w.elsewhere != nil {
		if at, known := w.elsewhere(ctx); known {
			return farFrom(wall, at, clockJump, clockJump, "Discord's clock")
		}
	}
	if last.IsZero() {
		return ""
	}
	why = farFrom(wall, last, clockJump, longAway, "what the database knows")
	if why == "" {
		return ""
	}
	if w.began.IsZero() || (wall.Sub(w.wall)-now.Sub(w.began)).Abs() > clockAgrees {
		w.wall, w.began = wall, now
	}
	if now.Sub(w.began) >= clockWatched {
		return ""
	}
	return why
}

// farFrom says by how much a clock is behind or ahead of another time, where that is too much.
func farFrom(wall, at time.Time, behind, ahead time.Duration, what string) string {
	switch off := wall.Sub(at).Round(time.Second); {
	case off > ahead:
		return fmt.Sprintf("it is %v ahead of %s", off, what)
	case off < -behind:
		return fmt.Sprintf("it is %v behind %s", -off, what)
	}
	return ""
}
