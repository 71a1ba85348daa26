package engine

import "musette/planner"

// A hard session is warm-up and cool-down around its set (common practice): what
// the plan gives by itself leaves frame minutes for them, a told limit forcedFrame.
const (
	frame       = 40
	forcedFrame = 25
)

// hardSet is the hard part of a session: its repetitions, or where none were told
// one part of so many minutes.
type hardSet struct {
	sets planner.Sets
	part int // minutes
}

// setOf is the hard part of a usual session; without repetitions what was told, else a third of it.
func setOf(s planner.Session) hardSet {
	if s.Sets.IsZero() {
		return hardSet{part: max(1, s.HardMinutes())}
	}
	return hardSet{sets: s.Sets}
}

func (s hardSet) isZero() bool { return s == hardSet{} }

// work is the time of the repetitions, in seconds.
func (s hardSet) work() int {
	if s.part > 0 {
		return s.part * 60
	}
	return s.sets.WorkSeconds()
}

// longest is the longest repetition, in seconds.
func (s hardSet) longest() int {
	if s.part > 0 {
		return s.part * 60
	}
	most := 0
	for _, g := range s.sets {
		if g.Reps > 0 {
			most = max(most, int(g.Work))
		}
	}
	return most
}

// reps counts the repetitions.
func (s hardSet) reps() int {
	if s.part > 0 {
		return 1
	}
	n := 0
	for _, g := range s.sets {
		n += int(g.Reps)
	}
	return n
}

// least is the shortest ride, in minutes, that holds the set with warm-up and
// cool-down of so many minutes; rests stand between repetitions.
func (s hardSet) least(around int) int {
	if s.part > 0 {
		return around + s.part
	}
	return around + (s.sets.Seconds()+59)/60
}

// kept is the set with a share of its work (of, in twelfths): repetitions keep
// their length and effort. Fewer than two become two shorter ones of a length
// that riders ride.
func (s hardSet) kept(twelfths int) hardSet {
	if twelfths >= 12 || s.isZero() {
		return s
	}
	if s.part > 0 {
		s.part = max(1, (s.part*twelfths+6)/12)
		return s
	}
	several := s.sets[1].Reps > 0
	for i := range s.sets {
		g := &s.sets[i]
		if g.Reps == 0 {
			continue
		}
		n := int(g.Reps) * twelfths
		switch {
		case several:
			g.Reps = int16((n + 11) / 12)
		case n >= 24 && twelfths == threeQuarters:
			g.Reps = int16((n + 6) / 12) // halves up
		case n >= 24:
			g.Reps = int16((n + 5) / 12) // halves down
		case g.Reps == 1:
			g.Work = neat(int(g.Work) * twelfths / 12)
		default:
			g.Reps = 2
			if n < 16 {
				g.Work = neat(n * int(g.Work) / 24)
			}
		}
	}
	return s
}

// one is the set's first repetition alone.
func (s hardSet) one() hardSet {
	s.sets = planner.Sets{s.sets[0]}
	s.sets[0].Reps = min(s.sets[0].Reps, 1)
	return s
}

// neat is the nearest length of a repetition that riders ride, in seconds, the shorter of two.
func neat(seconds int) int16 {
	best := min(seconds, 60)
	for _, m := range [...]int{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60} {
		if m*60-seconds < seconds-best {
			best = m * 60
		}
	}
	return int16(best)
}

// atMost is the set with repetitions of so many seconds at most, two where they were longer.
func (s hardSet) atMost(seconds int) hardSet {
	if s.longest() <= seconds {
		return s
	}
	if s.part > 0 {
		return hardSet{part: min(s.part, 2*seconds/60)}
	}
	for i := range s.sets {
		if g := &s.sets[i]; int(g.Work) > seconds {
			g.Reps, g.Work = min(g.Reps, 2), int16(seconds)
		}
	}
	return s
}

// less is the set with one repetition fewer, false where none can go.
func (s hardSet) less() (hardSet, bool) {
	if s.part > 0 || s.reps() < 2 {
		return s, false
	}
	for i := len(s.sets) - 1; i >= 0; i-- {
		if s.sets[i].Reps > 1 || s.sets[i].Reps == 1 && i > 0 {
			s.sets[i].Reps--
			if s.sets[i].Reps == 0 {
				s.sets[i] = planner.Set{}
			}
			return s, true
		}
	}
	return s, false
}
