package typed

import (
	"cmp"
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

// Session reads one session: a kind, a length and, if told, repetitions, as
// in intervals 1h30 5x3min. A length alone is an endurance ride, with repetitions
// intervals. Intervals with repetitions need no length: theirs is then the least that
// holds them. The result has 1 to 1440 minutes, a rest none.
func Session(s string) (planner.Session, error) {
	if err := checkLength(s, sessionExample); err != nil {
		return planner.Session{}, err
	}
	parts, err := readClause(s, false)
	switch {
	case err != nil:
		return planner.Session{}, err
	case len(parts) != 1:
		return planner.Session{}, planner.BadInput("", "%s is %d sessions. Write one, for example %s", quoted(s), len(parts), sessionExample)
	case parts[0].busy:
		return planner.Session{}, planner.BadInput("", "busy is no session. Write rest, or for example %s", sessionExample)
	}
	return parts[0].session, nil
}

// sessionReader collects the parts of a session, which may come in any order.
type sessionReader struct {
	text string
	toks []token
	mend bool // make one wrong letter good

	word  string // the kind as it was typed
	ride  bool   // "ride" was typed
	twice bool   // there and back
	// hardIndoors follows from a word: hard turbo, threshold on the rollers.
	hardIndoors bool
	minutes     int // 0 until told
	told        bool
	sets        planner.Sets
	groups      int
	unknown     []string
	idle        []string            // words that say nothing of a session
	far         *planner.InputError // what to write instead of a distance
}

// twoSessions is the error of a text that may hold a second session.
type twoSessions struct{ *planner.InputError }

// Unwrap is the fault itself.
func (t twoSessions) Unwrap() error { return t.InputError }

func (r *sessionReader) read() error {
	for len(r.toks) > 0 {
		t := r.toks[0]
		var err error
		switch {
		case t.kind == numberToken && r.at(1).isWord("x"):
			err = r.readGroup()
		case t.kind == numberToken && r.at(1).kind == wordToken && distances[r.at(1).text]:
			r.far, r.toks = cmp.Or(r.far, r.distance()), r.toks[2:]
		case t.isMark(","), (t.isMark(":") || t.isMark("-") || t.isMark(".") || t.isMark("!")) && !r.at(1).glued, t.isMark("("), t.isMark(")"), t.isMark("~"),
			(t.isMark("+") || t.isMark("&")) && r.groups > 0 && r.at(1).kind == numberToken && r.at(2).isWord("x"):
			r.toks = r.toks[1:]
		case t.kind == markToken && r.spanAt(0) == 0:
			err = r.unreadable(t)
		case r.spanAt(0) > 0:
			err = r.readLength()
		case t.kind == wordToken:
			err = r.readWord()
		default:
			err = r.unreadable(t)
		}
		if err != nil {
			return err
		}
	}
	if kindWords[r.word] == planner.Rest && r.word != "" { // nothing, working late
		r.unknown = slices.DeleteFunc(r.unknown, func(w string) bool { return reasons[w] })
	}
	switch {
	case len(r.unknown) > 0:
		return unknownWords(r.unknown)
	case r.far != nil && !r.told:
		return r.far
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

// spanAt is how many tokens a length takes that begins at i.
func (r *sessionReader) spanAt(i int) int {
	if i >= len(r.toks) {
		return 0
	}
	_, n := readSpan(r.toks[i:], lengthStyle)
	return n
}

func (r *sessionReader) unreadable(t token) error {
	if _, ok := planner.ParseWeekday(t.text); ok && t.kind == wordToken {
		return planner.BadInput("", "%s is inside a session. Put a semicolon between days, for example mon recovery 40min; tue rest", quoted(t.text))
	}
	return planner.BadInput("", "cannot read %s in %s. Write it like %s or intervals 1h30 5x3min", quoted(t.text), quoted(r.text), sessionExample)
}

// kmAnHour is the speed of a common ride, for examples only.
const kmAnHour = 27

// distance refuses 80 km and says what to write instead.
func (r *sessionReader) distance() *planner.InputError {
	return planner.BadInput("", "a ride is planned by its time, not its distance. Write how long it takes you, for example %s instead of %s %s",
		planner.Duration(minutesFor(r.toks[0], r.toks[1])), r.toks[0].text, r.toks[1].text)
}

func (r *sessionReader) readWord() error {
	word := r.toks[0].text
	_, known := kindWords[word]
	if plain := unstretched(word); !known && plain != word {
		word = plain
		_, known = kindWords[word]
	}
	if _, filler := fillers[word]; r.mend && !known && !filler {
		if near := soleNear(word, longKindWords()); near != "" {
			word, known = near, true
		}
	}
	_, unit := timeUnits[word]
	_, weekday := planner.ParseWeekday(word)
	switch {
	case word == eachWayWord:
		r.twice = true
	case fillers[word]:
		r.idle = append(r.idle, word)
		r.ride = r.ride || word == rideWord || word == "rides" || word == "riding"
	case r.word == "" && known:
		r.word = word
	case known:
		if err := r.addWord(word); err != nil {
			return err
		}
	case unit || weekday:
		return r.unreadable(r.toks[0])
	default:
		r.unknown = append(r.unknown, word)
	}
	r.toks = r.toks[1:]
	return nil
}

// unstretched is a kind's word that somebody drew out: looong. Other words stay as they are.
func unstretched(word string) string {
	var once, twice []rune
	runes := []rune(word)
	for i, r := range runes {
		if i < 1 || runes[i-1] != r {
			once = append(once, r)
		}
		if i < 2 || runes[i-1] != r || runes[i-2] != r {
			twice = append(twice, r)
		}
	}
	for _, plain := range []string{string(once), string(twice)} {
		if _, known := kindWords[plain]; known && len(twice) < len(runes) {
			return plain
		}
	}
	return word
}

// longKindWords are words that are still clear with one wrong letter.
func longKindWords() []string {
	return []string{"recovery", "endurance", "intervals", "strength", "commute", "rollers", "threshold", "chaingang", "weights", "trainer", "efforts"}
}

// outranks tells for two kinds of which one ride is both: the second says more.
var outranks = map[[2]planner.Kind]bool{
	{planner.Endurance, planner.Long}: true, {planner.Endurance, planner.Indoor}: true, {planner.Intervals, planner.Indoor}: true,
}

// addWord takes a second word for the kind where both mean one.
func (r *sessionReader) addWord(word string) error {
	first, second := kindWords[r.word], kindWords[word]
	r.hardIndoors = r.hardIndoors || first == planner.Intervals && second == planner.Indoor || first == planner.Indoor && second == planner.Intervals
	switch {
	case first == second || describes(word, first):
		return nil
	case describes(r.word, second) || outranks[[2]planner.Kind{first, second}]:
		r.word = word
		return nil
	case outranks[[2]planner.Kind{second, first}]:
		return nil
	}
	return twoSessions{planner.BadInput("", "%s and %s are two kinds. Write one, or put a semicolon between two sessions, for example recovery 40min; strength 30min", shown(r.word), shown(word))}
}

// describes reports whether a word may say how a session of that kind is ridden.
func describes(word string, kind planner.Kind) bool {
	effort, ok := adjectives[word]
	usual := kind.UsualEffort()
	return ok && (effort == usual || kind != planner.Rest && effort == planner.Easy && usual == planner.Steady || kind == planner.Indoor && effort == planner.Hard)
}

// shown is a word for the kind as it was typed.
func shown(word string) string {
	for phrase, w := range phrases {
		if w == word && strings.ReplaceAll(phrase, " ", "") == word {
			return phrase
		}
	}
	return word
}

func (r *sessionReader) readLength() error {
	sp, n := readSpan(r.toks, lengthStyle)
	if next := r.at(n); (next.isMark("-") || next.isWord("to") || next.isWord("or")) && r.spanAt(n+1) > 0 && !r.at(n+2).isWord("x") {
		to, _ := readSpan(r.toks[n+1:], lengthStyle)
		_, named := unitAt(r.toks, n-1)
		return askLengths(r.text, toldSpan{span: sp, bare: n == 1 && !named}, toldSpan{span: to})
	}
	if r.told {
		return twoSessions{planner.BadInput("", "%s has two lengths. Write one, for example %s", quoted(r.text), sessionExample)}
	}
	if err := clockOrDecimal(r.toks[0], sp.unit); err != nil {
		return err
	}
	m, err := sp.minutes()
	if err != nil {
		return err
	}
	if m < 1 {
		return planner.BadInput("", "%s has no length. A session is 1 to %d minutes, for example %s", quoted(r.text), minutesPerDay, sessionExample)
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
	case r.groups > 0:
		r.word = planner.Intervals.String()
	case r.ride:
		r.word = rideWord
	case r.told:
		r.word = planner.Endurance.String()
	case len(r.idle) > 0: // tue of
		return planner.Session{}, unknownWords(r.idle)
	default:
		return planner.Session{}, planner.BadInput("", "a session starts with its kind, one of %s. For example %s", kindList, sessionExample)
	}
	kind := kindWords[r.word]
	if err := r.fits(kind); err != nil {
		return planner.Session{}, err
	}
	if kind == planner.Rest {
		return planner.RestSession, nil
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

// fits checks what was entered about a session against its kind.
func (r *sessionReader) fits(kind planner.Kind) error {
	noRide := kind == planner.Strength || kind == planner.Other && r.word != kind.String()
	switch {
	case kind == planner.Rest && (r.told || r.groups > 0):
		return planner.BadInput("", "%s takes no length. Write %s alone, or for example recovery 40min", r.word, r.word)
	case kind == planner.Rest:
		return nil
	case noRide && r.ride:
		return twoSessions{planner.BadInput("", "a ride and %s are two sessions. Put a semicolon between them, for example recovery 40min; strength 30min", r.word)}
	case kind == planner.Strength && r.groups > 0:
		return planner.BadInput("", "%s takes no repetitions. Write for example strength 30min", r.word)
	case kind == planner.Indoor && r.groups == 0 && r.hardIndoors:
		return planner.BadInput("", "a hard session indoors needs its repetitions. Write for example indoor 1h 5x3min")
	case !r.told && kind == planner.Intervals && r.groups == 0:
		return planner.BadInput("", "%s needs a length or repetitions. For example intervals 1h30 5x3min", r.word)
	case !r.told && kind != planner.Intervals:
		return planner.BadInput("", "%s needs a length. Write how long it usually takes, for example %s 1h30", shown(r.word), kind)
	}
	return nil
}

// effortOf is the effort of a session in a typical week: indoors it is hard where
// repetitions are told.
func effortOf(kind planner.Kind, sets planner.Sets) planner.Effort {
	if kind == planner.Indoor && !sets.IsZero() {
		return planner.Hard
	}
	return kind.UsualEffort()
}
