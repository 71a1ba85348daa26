package typed

import (
	"math"
	"slices"
	"strings"

	"musette/planner"
)

// Limits of what a session may hold.
const (
	maxReps           = 60
	minWork           = 5        // seconds of one repetition
	maxWork           = 180 * 60 // seconds of one repetition or its rest
	maxSessionsPerDay = 6
)

const sessionExample = "endurance 1h30"

// busyWord marks a weekday on which riding is never possible; it is no session.
const busyWord = "busy"

var kindWords = map[string]planner.Kind{
	"rest": planner.Rest, "off": planner.Rest, busyWord: planner.Rest,
	"recovery": planner.Recovery, "rec": planner.Recovery, "easy": planner.Recovery, "spin": planner.Recovery,
	"endurance": planner.Endurance, "base": planner.Endurance, "steady": planner.Endurance, "tempo": planner.Endurance, rideWord: planner.Endurance,
	"long":      planner.Long,
	"intervals": planner.Intervals, "interval": planner.Intervals, "int": planner.Intervals, "hard": planner.Intervals, "threshold": planner.Intervals, "vo2": planner.Intervals,
	"efforts": planner.Intervals, "effort": planner.Intervals, "hills": planner.Intervals, "hill": planner.Intervals,
	"openers": planner.Openers, "opener": planner.Openers,
	"race":  planner.RaceRide,
	"group": planner.Group, "club": planner.Group, "bunch": planner.Group, "chaingang": planner.Group, "chain gang": planner.Group, "weekly race": planner.Group, "club run": planner.Group,
	"commute": planner.Commute,
	"indoor":  planner.Indoor, "turbo": planner.Indoor, "trainer": planner.Indoor, "rollers": planner.Indoor,
	"strength": planner.Strength, "gym": planner.Strength, "weights": planner.Strength,
	"other": planner.Other, "run": planner.Other, "running": planner.Other, "swim": planner.Other, "swimming": planner.Other, "walk": planner.Other, "walking": planner.Other, "yoga": planner.Other,
}

// rideWord is a kind alone and says nothing beside another: long ride.
const rideWord = "ride"

// fillers say nothing: recovery session, rest day.
var fillers = map[string]bool{rideWord: true, "rides": true, "session": true, "day": true, "training": true}

// efforts of words that may stand beside a kind that is ridden so anyway: hard group ride.
var effortWords = map[string]planner.Effort{"easy": planner.Easy, "steady": planner.Steady, "hard": planner.Hard}

// kindList names what a session can be, for messages.
var kindList = strings.Join(append(planner.KindNames(), busyWord), ", ")

// Session reads one session: a kind, a length and, if told, repetitions, as
// in intervals 1h30 5x3min. A length alone is an endurance ride. Intervals with
// repetitions need no length: theirs is then the least that holds them. The
// result has 1 to 1440 minutes, a rest none.
func Session(s string) (planner.Session, error) {
	session, busy, err := readSession(s)
	if busy && err == nil {
		return planner.Session{}, planner.BadInput("", "busy is no session. Write rest, or for example %s", sessionExample)
	}
	return session, err
}

// readSession also tells a busy day from rest.
func readSession(s string) (session planner.Session, busy bool, err error) {
	if err := checkLength(s, sessionExample); err != nil {
		return planner.Session{}, false, err
	}
	r := sessionReader{text: strings.TrimSpace(s), toks: lex(s, true)}
	if err := r.read(); err != nil {
		return planner.Session{}, false, err
	}
	session, err = r.session()
	return session, r.word == busyWord, err
}

// sessionReader collects the parts of a session, which may come in any order.
type sessionReader struct {
	text string
	toks []token

	word    string // the kind as it was typed
	ride    bool   // "ride" was typed
	minutes int    // 0 until told
	told    bool
	sets    planner.Sets
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
	if _, ok := planner.ParseWeekday(t.text); ok && t.kind == wordToken {
		return planner.BadInput("", "%s stands inside a session; part the days with a semicolon, for example mon recovery 40min; tue rest", quoted(t.text))
	}
	return planner.BadInput("", "cannot read %s in %s. Write it like %s or intervals 1h30 5x3min", quoted(t.text), quoted(r.text), sessionExample)
}

func (r *sessionReader) readWord() error {
	word, took := r.kindWord()
	_, known := kindWords[word]
	_, unit := timeUnits[word]
	_, weekday := planner.ParseWeekday(word)
	switch {
	case fillers[word]:
		r.ride = r.ride || word == rideWord || word == "rides"
	case r.word == "" && known:
		r.word = word
	case known:
		if err := r.addWord(word); err != nil {
			return err
		}
	case r.word != "" || unit || weekday:
		return r.unreadable(r.toks[0])
	default:
		return unknownKind(word)
	}
	r.toks = r.toks[took:]
	return nil
}

// kindWord is the word at the start and how many tokens it takes: two words with
// a meaning of their own, vo2 and vo2max, or one.
func (r *sessionReader) kindWord() (word string, took int) {
	word = r.toks[0].text
	next := r.at(1)
	if next.kind == wordToken {
		if _, ok := kindWords[word+" "+next.text]; ok {
			return word + " " + next.text, 2
		}
	}
	if word == "vo" && next.kind == numberToken && next.text == "2" && next.glued {
		if r.at(2).isWord("max") {
			return "vo2", 3
		}
		return "vo2", 2
	}
	return word, 1
}

// addWord takes a second word for the kind where both mean one.
func (r *sessionReader) addWord(word string) error {
	first, second := kindWords[r.word], kindWords[word]
	switch effort, describes := effortWords[word]; {
	case first == second || describes && effort == first.UsualEffort():
		return nil
	}
	if effort, describes := effortWords[r.word]; describes && effort == second.UsualEffort() {
		r.word = word
		return nil
	}
	return planner.BadInput("", "%s and %s are two kinds; part two sessions with . For example recovery 40min; strength 30min", r.word, word)
}

func unknownKind(word string) error {
	names := make([]string, 0, len(kindWords))
	for name := range kindWords {
		names = append(names, name)
	}
	slices.Sort(names)
	for d := planner.Monday; d <= planner.Sunday; d++ {
		names = append(names, strings.ToLower(d.Short()), strings.ToLower(d.String()))
	}
	return planner.BadInput("", "%s is not a kind of session%s. Write one of %s, for example %s",
		quoted(word), didYouMean(word, append(planner.KindNames(), names...)), kindList, sessionExample)
}

func (r *sessionReader) readLength() error {
	sp, n := readSpan(r.toks, lengthStyle)
	if n == 0 {
		return r.unreadable(r.toks[0])
	}
	if r.told {
		return planner.BadInput("", "%s has two lengths. Write one, for example %s", quoted(r.text), sessionExample)
	}
	m, err := sp.minutes()
	if err != nil {
		return err
	}
	if m < 1 {
		return planner.BadInput("", "%s has no length; a session is 1 to %d minutes, for example %s", quoted(r.text), minutesPerDay, sessionExample)
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
		return planner.BadInput("", "%sx in %s lacks a length. Write repetitions like 5x3min or 10x30s", reps.text, quoted(r.text))
	}
	r.toks = r.toks[2+n:]
	g := planner.Set{}
	if !reps.whole || reps.value < 1 || reps.value > maxReps {
		return planner.BadInput("", "%s repetitions are outside 1 to %d. For example 5x3min", reps.text, maxReps)
	}
	g.Reps = int16(reps.value)
	w := math.Round(work.seconds)
	if w < minWork || w > maxWork {
		return planner.BadInput("", "repetitions of %s are outside %d s to %d min. For example 5x3min", describeSeconds(w), minWork, maxWork/60)
	}
	g.Work = int16(w)
	if r.at(0).isMark("/") {
		r.toks = r.toks[1:]
		rest, n := readSpan(r.toks, spanStyle{bare: work.unit, clock: minuteUnit})
		w := math.Round(rest.seconds)
		if n == 0 || w < 1 || w > maxWork {
			return planner.BadInput("", "the rest after / in %s is outside 1 s to %d min. Write it like 5x3min/2min", quoted(r.text), maxWork/60)
		}
		g.Rest = int16(w)
		r.toks = r.toks[n:]
	}
	if r.groups == len(r.sets) {
		return planner.BadInput("", "%s has more than %d groups of repetitions. For example 3x1min + 3x10s", quoted(r.text), len(r.sets))
	}
	r.sets[r.groups] = g
	r.groups++
	return nil
}

func describeSeconds(s float64) string {
	if s > 1e6 {
		return "over 11 days"
	}
	return planner.ShortSeconds(int(s))
}

// session puts the parts together.
func (r *sessionReader) session() (planner.Session, error) {
	switch {
	case r.word != "":
	case r.ride:
		r.word = rideWord
	case r.told && r.groups == 0:
		r.word = planner.Endurance.String()
	default:
		return planner.Session{}, planner.BadInput("", "a session starts with its kind, one of %s. For example %s", kindList, sessionExample)
	}
	kind := kindWords[r.word]
	switch {
	case kind == planner.Rest && (r.told || r.groups > 0):
		return planner.Session{}, planner.BadInput("", "%s takes no length. Write %s alone, or for example recovery 40min", r.word, r.word)
	case kind == planner.Rest:
		return planner.RestSession, nil
	case kind == planner.Strength && r.groups > 0:
		return planner.Session{}, planner.BadInput("", "%s takes no repetitions. Write for example strength 30min", r.word)
	case !r.told && kind == planner.Intervals && r.groups == 0:
		return planner.Session{}, planner.BadInput("", "%s needs a length or repetitions. For example intervals 1h30 5x3min", r.word)
	case !r.told && kind != planner.Intervals:
		return planner.Session{}, planner.BadInput("", "%s needs a length. For example %s 1h30", r.word, kind)
	}
	minutes := r.minutes
	if !r.told {
		minutes = r.sets.LeastMinutes()
	}
	if minutes > minutesPerDay {
		return planner.Session{}, planner.BadInput("", "%s takes over 24 hours. For example intervals 1h30 5x3min", quoted(r.text))
	}
	if r.sets.WorkSeconds() > minutes*60 {
		return planner.Session{}, planner.BadInput("", "the repetitions of %s are longer than its %s. For example intervals 1h30 5x3min", quoted(r.text), planner.Duration(minutes))
	}
	return planner.Session{Kind: kind, Effort: effortOf(kind, r.sets), Minutes: int16(minutes), Sets: r.sets}, nil
}

// effortOf is the effort of a session in a typical week: indoors it is hard where
// repetitions are told.
func effortOf(kind planner.Kind, sets planner.Sets) planner.Effort {
	if kind == planner.Indoor && !sets.IsZero() {
		return planner.Hard
	}
	return kind.UsualEffort()
}
