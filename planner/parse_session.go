package planner

import (
	"math"
	"strings"
)

// Limits of what a session may hold.
const (
	maxReps           = 60
	minWork           = 5        // seconds of one repetition
	maxWork           = 180 * 60 // seconds of one repetition or its rest
	maxSessionsPerDay = 6
)

const sessionExample = "endurance 1h30"

var kindWords = map[string]Kind{
	"rest": Rest, "off": Rest, "recovery": Recovery, "easy": Recovery, "endurance": Endurance, "long": Long,
	"intervals": Intervals, "interval": Intervals, "openers": Openers, "opener": Openers,
	"race": RaceRide, "strength": Strength, "gym": Strength, "other": Other,
}

// fillers say nothing beside a kind: recovery ride, rest day.
var fillers = map[string]bool{"ride": true, "rides": true, "session": true, "day": true, "training": true}

// ParseSession reads one session: a kind, a length and, if told, repetitions, as
// in intervals 1h30 5x3min. Intervals with repetitions need no length: theirs is
// then the least that holds them. The result has 1 to 1440 minutes, a rest none.
func ParseSession(s string) (Session, error) {
	session, _, err := readSession(s)
	return session, err
}

// readSession also tells off, which cannot be trained on, from rest.
func readSession(s string) (session Session, off bool, err error) {
	if err := checkLength(s, sessionExample); err != nil {
		return Session{}, false, err
	}
	r := sessionReader{text: strings.TrimSpace(s), toks: lex(s, true)}
	if err := r.read(); err != nil {
		return Session{}, false, err
	}
	session, err = r.session()
	return session, r.word == "off", err
}

// sessionReader collects the parts of a session, which may come in any order.
type sessionReader struct {
	text string
	toks []token

	word    string // the kind as it was typed
	minutes int    // 0 until told
	told    bool
	sets    Sets
	groups  int
}

func (r *sessionReader) read() error {
	for len(r.toks) > 0 {
		t := r.toks[0]
		var err error
		switch {
		case t.kind == numberToken && r.at(1).isWord("x"):
			err = r.readGroup()
		case t.kind == numberToken:
			err = r.readLength()
		case t.kind == wordToken:
			err = r.readWord()
		case t.isMark(","), (t.isMark(":") || t.isMark("-")) && !r.at(1).glued,
			t.isMark("+") && r.groups > 0 && r.at(1).kind == numberToken && r.at(2).isWord("x"):
			r.toks = r.toks[1:]
		default:
			err = r.unreadable(t)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// at is the i-th token, or a mark that nothing accepts past the end.
func (r *sessionReader) at(i int) token {
	if i >= len(r.toks) {
		return token{kind: markToken}
	}
	return r.toks[i]
}

func (r *sessionReader) unreadable(t token) error {
	if _, ok := ParseWeekday(t.text); ok && t.kind == wordToken {
		return badInput("", "%s stands inside a session; part the days with ; for example mon recovery 40min; tue rest", quoted(t.text))
	}
	return badInput("", "cannot read %s in %s; write it like %s or intervals 1h30 5x3min", quoted(t.text), quoted(r.text), sessionExample)
}

func (r *sessionReader) readWord() error {
	t := r.toks[0]
	_, known := kindWords[t.text]
	_, unit := timeUnits[t.text]
	_, weekday := ParseWeekday(t.text)
	switch {
	case fillers[t.text]:
	case r.word == "" && known:
		r.word = t.text
	case known:
		return badInput("", "%s and %s are two kinds; part two sessions with ; for example recovery 40min; strength 30min", r.word, t.text)
	case r.word != "" || unit || weekday:
		return r.unreadable(t)
	default:
		return unknownKind(t.text)
	}
	r.toks = r.toks[1:]
	return nil
}

func unknownKind(word string) error {
	names := append(append([]string{}, kindNames[:]...), "off", "easy", "gym")
	for i := range weekdayShort {
		names = append(names, strings.ToLower(weekdayShort[i]), strings.ToLower(weekdayNames[i]))
	}
	return badInput("", "%s is not a kind of session%s; write one of %s, for example %s",
		quoted(word), didYouMean(word, names), strings.Join(kindNames[:], ", "), sessionExample)
}

func (r *sessionReader) readLength() error {
	sp, n := readSpan(r.toks, lengthStyle)
	if n == 0 {
		return r.unreadable(r.toks[0])
	}
	if r.told {
		return badInput("", "%s has two lengths; write one, for example %s", quoted(r.text), sessionExample)
	}
	m, err := sp.minutes()
	if err != nil {
		return err
	}
	if m < 1 {
		return badInput("", "%s has no length; a session is 1 to %d minutes, for example %s", quoted(r.text), minutesPerDay, sessionExample)
	}
	r.minutes, r.told = m, true
	r.toks = r.toks[n:]
	return nil
}

// readGroup reads 5x3min and, if told, the rest after each: 5x3min/2min.
func (r *sessionReader) readGroup() error {
	reps := r.toks[0]
	work, n := readSpan(r.toks[2:], workStyle)
	if n == 0 {
		return badInput("", "%sx in %s lacks a length; write repetitions like 5x3min or 10x30s", reps.text, quoted(r.text))
	}
	r.toks = r.toks[2+n:]
	g := Set{}
	if !reps.whole || reps.value < 1 || reps.value > maxReps {
		return badInput("", "%s repetitions are outside 1 to %d; for example 5x3min", reps.text, maxReps)
	}
	g.Reps = int16(reps.value)
	w := math.Round(work.seconds)
	if w < minWork || w > maxWork {
		return badInput("", "repetitions of %s are outside %d s to %d min; for example 5x3min", describeSeconds(w), minWork, maxWork/60)
	}
	g.Work = int16(w)
	if r.at(0).isMark("/") {
		r.toks = r.toks[1:]
		rest, n := readSpan(r.toks, spanStyle{bare: work.unit, clock: minuteUnit})
		w := math.Round(rest.seconds)
		if n == 0 || w < 1 || w > maxWork {
			return badInput("", "the rest after / in %s is outside 1 s to %d min; write it like 5x3min/2min", quoted(r.text), maxWork/60)
		}
		g.Rest = int16(w)
		r.toks = r.toks[n:]
	}
	if r.groups == len(r.sets) {
		return badInput("", "%s has more than %d groups of repetitions; for example 3x1min + 3x10s", quoted(r.text), len(r.sets))
	}
	r.sets[r.groups] = g
	r.groups++
	return nil
}

func describeSeconds(s float64) string {
	if s > 1e6 {
		return "over 11 days"
	}
	return shortSeconds(int(s))
}

// session puts the parts together.
func (r *sessionReader) session() (Session, error) {
	if r.word == "" {
		return Session{}, badInput("", "a session starts with its kind, one of %s; for example %s", strings.Join(kindNames[:], ", "), sessionExample)
	}
	kind := kindWords[r.word]
	switch {
	case kind == Rest && (r.told || r.groups > 0):
		return Session{}, badInput("", "%s takes no length; write %s alone, or for example recovery 40min", r.word, r.word)
	case kind == Rest:
		return RestSession, nil
	case kind == Strength && r.groups > 0:
		return Session{}, badInput("", "%s takes no repetitions; write for example strength 30min", r.word)
	case !r.told && kind == Intervals && r.groups == 0:
		return Session{}, badInput("", "%s needs a length or repetitions; for example intervals 1h30 5x3min", r.word)
	case !r.told && kind != Intervals:
		return Session{}, badInput("", "%s needs a length; for example %s 1h30", r.word, kind)
	}
	minutes := r.minutes
	if !r.told {
		minutes = r.sets.leastMinutes()
	}
	if minutes > minutesPerDay {
		return Session{}, badInput("", "%s takes over 24 hours; for example intervals 1h30 5x3min", quoted(r.text))
	}
	if r.sets.workSeconds() > minutes*60 {
		return Session{}, badInput("", "the repetitions of %s are longer than its %s; for example intervals 1h30 5x3min", quoted(r.text), Duration(minutes))
	}
	return Session{Kind: kind, Effort: kind.UsualEffort(), Minutes: int16(minutes), Sets: r.sets}, nil
}
