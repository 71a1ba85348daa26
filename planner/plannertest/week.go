package plannertest

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Usual lengths of a hard ride's parts, minutes.
const (
	warmUp   = 15
	coolDown = 10
)

type interval struct{ reps, mins int }

func (s interval) String() string { return fmt.Sprintf("%dx%dmin", s.reps, s.mins) }

func (s interval) half() interval { return interval{(s.reps + 1) / 2, s.mins} }

// rest is the pause after one repetition, minutes.
func (s interval) rest() float64 {
	if s.mins <= 3 {
		return float64(s.mins)
	}
	return float64(s.mins) / 2
}

// least is the shortest ride that holds the set: pauses between the
// repetitions only, or one after each.
func (s interval) least() (low, high float64) {
	work := float64(warmUp + coolDown + s.reps*s.mins)
	return work + float64(s.reps-1)*s.rest(), work + float64(s.reps)*s.rest()
}

// usualSession is one session of the typical week. minutes is 0 until known
// where only the set is told.
type usualSession struct {
	kind    string
	minutes int
	told    bool
	set     *interval
}

func (s usualSession) isRide() bool { return s.kind != "rest" && s.kind != "strength" }
func (s usualSession) isHard() bool { return s.kind == "intervals" || s.kind == "race" }

var usualEffort = map[string]string{
	"rest": "rest", "recovery": "easy", "endurance": "steady", "long": "steady",
	"intervals": "hard", "openers": "openers", "race": "race", "strength": "steady", "other": "easy",
}

var (
	setForm  = regexp.MustCompile(`^(\d+)x(\d+)min$`)
	timeForm = regexp.MustCompile(`^(?:(\d+)h(\d{1,2})?|(\d+)min)$`)
)

func parseSet(s string) (interval, bool) {
	m := setForm.FindStringSubmatch(s)
	if m == nil {
		return interval{}, false
	}
	reps, _ := strconv.Atoi(m[1])
	mins, _ := strconv.Atoi(m[2])
	return interval{reps, mins}, true
}

func parseMinutes(s string) (int, bool) {
	m := timeForm.FindStringSubmatch(s)
	if m == nil {
		return 0, false
	}
	h, _ := strconv.Atoi(m[1])
	rest, _ := strconv.Atoi(m[2])
	mins, _ := strconv.Atoi(m[3])
	return h*60 + rest + mins, true
}

// parseWeekday reads the plain form of the week grammar: sessions parted by
// ";", each "kind [time] [set]", or "rest" or "off".
func parseWeekday(text string) (sessions []usualSession, off bool, err error) {
	if text = strings.TrimSpace(text); text == "off" {
		return nil, true, nil
	}
	for _, part := range strings.Split(text, ";") {
		words := strings.Fields(part)
		if len(words) == 0 || words[0] == "rest" {
			continue
		}
		if _, ok := usualEffort[words[0]]; !ok {
			return nil, false, fmt.Errorf("unknown kind in %q", part)
		}
		s := usualSession{kind: words[0]}
		for _, w := range words[1:] {
			if set, ok := parseSet(w); ok {
				s.set = &set
			} else if mins, ok := parseMinutes(w); ok {
				s.minutes, s.told = mins, true
			} else {
				return nil, false, fmt.Errorf("cannot read %q in %q", w, part)
			}
		}
		sessions = append(sessions, s)
	}
	return sessions, false, nil
}
