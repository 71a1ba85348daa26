package words_test

import (
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/planner/words"
)

// Repetitions are written as people read them: seconds below a minute, minutes where they are
// whole, both else. A single one without a rest has none.
func TestRepetitionsInWords(t *testing.T) {
	for _, tc := range []struct {
		set  planner.Set
		want string
	}{
		{planner.Set{Reps: 10, Work: 40, Rest: 20}, "10 x 40 s hard (20 s easy between)"},
		{planner.Set{Reps: 8, Work: 59}, "8 x 59 s hard (59 s easy between)"},
		{planner.Set{Reps: 6, Work: 60, Rest: 61}, "6 x 1 min hard (1 min 1 s easy between)"},
		{planner.Set{Reps: 5, Work: 90, Rest: 120}, "5 x 1 min 30 s hard (2 min easy between)"},
		{planner.Set{Reps: 1, Work: 45}, "then 1 x 45 s hard, then"},
		{planner.Set{Reps: 1, Work: 45, Rest: 30}, "1 x 45 s hard (30 s easy between)"},
		{planner.Set{Reps: 2, Work: 30}, "2 x 30 s hard (30 s easy between)"},
	} {
		s := planner.Session{Kind: planner.Intervals, Effort: planner.Hard, Minutes: 60}
		s.Sets[0] = tc.set
		if got := words.Session(&engine.Day{Sessions: []planner.Session{s}}, 0); !strings.Contains(got, tc.want) {
			t.Errorf("%+v: got %q, want %q", tc.set, got, tc.want)
		}
	}
	two := planner.Session{Kind: planner.Intervals, Effort: planner.Hard, Minutes: 75}
	two.Sets[0], two.Sets[1] = planner.Set{Reps: 4, Work: 30, Rest: 15}, planner.Set{Reps: 3, Work: 180}
	if got, want := words.Session(&engine.Day{Sessions: []planner.Session{two}}, 0), "4 x 30 s hard (15 s easy between) and 3 x 3 min hard (3 min easy between)"; !strings.Contains(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// The parts of a hard session add up to its length, or it is said that they do not.
func TestHardSessionsAddUp(t *testing.T) {
	for text, want := range map[string]string{
		"intervals 1h15 5x4min":  "1h15: 15 min warm-up, then 5 x 4 min hard (2 min easy between), then 10 min cool-down. The other 22 min are easy riding, before or after.",
		"intervals 53min 5x4min": "53min: 15 min warm-up, then 5 x 4 min hard (2 min easy between), then 10 min cool-down.",
		"intervals 50min 5x4min": "50min: 15 min warm-up, then 5 x 4 min hard (2 min easy between), then 7 min cool-down.",
		"intervals 43min 5x4min": "43min: 10 min warm-up, then 5 x 4 min hard (2 min easy between), then 5 min cool-down.",
		"intervals 20min 5x4min": "20min is short for 5 x 4 min hard (2 min easy between): with 15 min warm-up and 10 min cool-down it takes 53min. Ride that long, or do less of it.",
		"intervals 30min":        "30min: 15 min warm-up, then about 10 min of it as hard as usual, then 5 min cool-down.",
	} {
		s, err := typed.Session(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := words.Session(&engine.Day{Sessions: []planner.Session{s}}, 0); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", text, got, want)
		}
	}
}
