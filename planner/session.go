package planner

import (
	"fmt"
	"slices"
	"strings"
)

// Kind says what a session is for.
type Kind uint8

// Session kinds. Rest has 0 minutes; strength counts in no minutes, rides or hard days.
const (
	Rest Kind = iota
	Recovery
	Endurance
	Long
	Intervals
	Openers
	RaceRide
	Strength
	Other
	Group
	Commute
	Indoor
)

// KindNames are the words of plan files for the kinds, in their order.
func KindNames() []string { return slices.Clone(kindNames[:]) }

var kindNames = [...]string{"rest", "recovery", "endurance", "long", "intervals", "openers", "race", "strength", "other", "group", "commute", "indoor"}

// String is the word of the plan file.
func (k Kind) String() string { return kindNames[k] }

// IsRide reports whether sessions of this kind are ridden.
func (k Kind) IsRide() bool { return k != Rest && k != Strength }

// Effort is how hard a session feels as a whole.
type Effort uint8

// Efforts from nothing to a race.
const (
	NoEffort Effort = iota
	Easy
	Steady
	Hard
	OpenersEffort
	RaceEffort
)

var effortNames = [...]string{"rest", "easy", "steady", "hard", "openers", "race"}

// String is the word of the plan file.
func (e Effort) String() string { return effortNames[e] }

// UsualEffort is the effort of a kind in a typical week.
func (k Kind) UsualEffort() Effort {
	return [...]Effort{NoEffort, Easy, Steady, Steady, Hard, OpenersEffort, RaceEffort, Steady, Easy, Hard, Easy, Steady}[k]
}

// Set is a group of equal repetitions. Times are in seconds; Rest follows each
// repetition and 0 means that nothing was entered.
type Set struct {
	Reps, Work, Rest int16
}

// Sets are the hard part of a session: up to three groups, unused ones zero.
type Sets [3]Set

// warmUp and coolDown frame every hard session, in minutes (common practice).
const (
	warmUp   = 15
	coolDown = 10
)

// RestSeconds is the rest after each repetition: the one told, or as long as the work up to 3 min and half of
// it above (common practice).
func (s Set) RestSeconds() int {
	switch {
	case s.Rest > 0:
		return int(s.Rest)
	case s.Work <= 180:
		return int(s.Work)
	default:
		return int(s.Work) / 2
	}
}

// IsZero reports whether no repetitions are told.
func (s Sets) IsZero() bool { return s == Sets{} }

// Seconds is the time that the repetitions take with the rests between them.
func (s Sets) Seconds() int {
	total, last := 0, 0
	for _, g := range s {
		if g.Reps > 0 {
			last = g.RestSeconds()
			total += int(g.Reps) * (int(g.Work) + last)
		}
	}
	return total - last
}

// WorkSeconds is the time of the repetitions alone.
func (s Sets) WorkSeconds() int {
	total := 0
	for _, g := range s {
		total += int(g.Reps) * int(g.Work)
	}
	return total
}

// LeastMinutes is the shortest session that holds the sets: warm-up,
// repetitions, rests and cool-down, rounded up to a minute.
func (s Sets) LeastMinutes() int {
	return warmUp + (s.Seconds()+59)/60 + coolDown
}

// String is the plan file's form, 3x1min + 3x10s, or "" without sets.
func (s Sets) String() string {
	if s.IsZero() {
		return ""
	}
	parts := make([]string, 0, len(s))
	for _, g := range s {
		if g.Reps == 0 {
			continue
		}
		part := fmt.Sprintf("%dx%s", g.Reps, ShortSeconds(int(g.Work)))
		if g.Rest > 0 {
			part += "/" + ShortSeconds(int(g.Rest))
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, " + ")
}

// ShortSeconds is a length in seconds as sets write it: 3min, 30s, 1min30s.
func ShortSeconds(s int) string {
	switch {
	case s%60 == 0:
		return fmt.Sprintf("%dmin", s/60)
	case s < 60:
		return fmt.Sprintf("%ds", s)
	default:
		return fmt.Sprintf("%dmin%ds", s/60, s%60)
	}
}

// Session is one ride, strength session or rest. Minutes is its whole length.
type Session struct {
	Kind    Kind
	Effort  Effort
	Minutes int16
	Sets    Sets
	// HardPart is how many minutes of a hard session without repetitions are hard, 0: a third.
	HardPart int16
}

// RestSession is what a day without training holds.
var RestSession = Session{Kind: Rest, Effort: NoEffort}

// HardMinutes is how long a hard session is hard: its repetitions, or what was
// told, else a third of it.
func (s Session) HardMinutes() int {
	switch {
	case !s.Sets.IsZero():
		return (s.Sets.WorkSeconds() + 59) / 60
	case s.HardPart > 0:
		return int(s.HardPart)
	}
	return max(1, (int(s.Minutes)+1)/3)
}

// IsHard reports whether the session counts as a hard day: intervals or a race.
func (s Session) IsHard() bool { return s.Effort == Hard || s.Effort == RaceEffort }

// AssumedHard is how many minutes of a hard session count as hard where no
// repetitions are told: a third (common practice). It is 0 for all other sessions.
func (s Session) AssumedHard() int {
	if s.Effort != Hard || !s.Sets.IsZero() {
		return 0
	}
	return (int(s.Minutes) + 1) / 3
}

// RPE is the expected session rating on the 0-10 scale (Foster 1998), as text.
func (s Session) RPE() string {
	switch s.Effort {
	case NoEffort:
		return "-"
	case OpenersEffort:
		return "3 with short 8s"
	case RaceEffort:
		return "as raced"
	case Hard:
		if s.Kind == Group {
			return "7-9"
		}
		return "8-9"
	}
	switch s.Kind {
	case Strength:
		return "4-5"
	case Other:
		return "3"
	}
	return "2-3"
}

// Label is the session in a few words, as a typical week would write it.
func (s Session) Label() string {
	if s.Kind == Rest {
		return "rest"
	}
	b := s.Kind.String() + " " + Duration(int(s.Minutes))
	if !s.Sets.IsZero() {
		b += " " + s.Sets.String()
	}
	return b
}

// Duration is a length in minutes the way riders write it: 45min, 1h30, 3h.
func Duration(minutes int) string {
	switch h, m := minutes/60, minutes%60; {
	case h == 0:
		return fmt.Sprintf("%dmin", m)
	case m == 0:
		return fmt.Sprintf("%dh", h)
	default:
		return fmt.Sprintf("%dh%02d", h, m)
	}
}
