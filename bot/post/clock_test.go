package post

import (
	"testing"
	"time"
)

// A clock that jumps is believed once it has gone on from there for three minutes;
// one that jumps back at once has done nothing.
func TestClockThatJumpsIsWatched(t *testing.T) {
	began := time.Now()
	wall := time.Date(2026, 6, 1, 6, 0, 0, 0, time.UTC)
	day := 24 * time.Hour
	for name, looks := range map[string][]struct {
		after, ahead time.Duration
		want         bool
	}{
		"steady":                  {{0, 0, true}, {time.Minute, 0, true}, {2 * time.Hour, 0, true}},
		"set by a little":         {{0, 0, true}, {time.Minute, 9 * time.Minute, true}, {2 * time.Minute, -9 * time.Minute, false}},
		"two days ahead for once": {{0, 0, true}, {time.Minute, 2 * day, false}, {2 * time.Minute, 0, true}, {3 * time.Minute, 0, true}},
		"two days ahead for good": {{0, 0, true}, {1 * time.Minute, 2 * day, false}, {2 * time.Minute, 2 * day, false}, {3 * time.Minute, 2 * day, false}, {4 * time.Minute, 2 * day, true}, {5 * time.Minute, 2 * day, true}},
		"back an hour":            {{0, 0, true}, {1 * time.Minute, -time.Hour, false}, {4 * time.Minute, -time.Hour, true}},
		"wild":                    {{0, 0, true}, {1 * time.Minute, day, false}, {3 * time.Minute, 2 * day, false}, {5 * time.Minute, 3 * day, false}, {6 * time.Minute, 0, true}},
		"slept for a night":       {{0, 0, true}, {1 * time.Minute, 8 * time.Hour, false}, {4 * time.Minute, 8 * time.Hour, true}},
	} {
		var w clockWatch
		for i, look := range looks {
			if got := w.believes(wall.Add(look.after+look.ahead), began.Add(look.after)); got != look.want {
				t.Errorf("%s, look %d: believed %v", name, i+1, got)
			}
		}
	}
}
