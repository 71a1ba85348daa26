package typed

import (
	"errors"
	"slices"
	"strings"

	"musette/planner"
)

// part is a session of a clause, or the sign of a busy day.
type part struct {
	session planner.Session
	busy    bool
	named   bool // its kind was typed
}

// readClause reads the sessions of one clause: swim 30min then gym 40, commute 35min
// each way, off, busy. With mend one wrong letter in a long word is made good.
func readClause(s string, mend bool) ([]part, error) {
	text := strings.TrimSpace(s)
	toks := sessionTokens(text)
	if isBusy(toks) {
		return []part{{busy: true}}, nil
	}
	if len(toks) == 1 && toks[0].kind == numberToken && toks[0].value == 0 {
		return []part{{session: planner.RestSession, named: true}}, nil
	}
	for i, t := range toks {
		if t.isWord(nochance) {
			return nil, planner.BadInput("", "%s says that you cannot ride, and something else. Write busy alone, or for example %s", quoted(text), sessionExample)
		}
		if t.kind == wordToken && openWords[t.text] && !joinsLengths(toks, i) {
			return nil, planner.BadInput("", "%s leaves open what you ride. Write what you do most weeks, for example %s", quoted(text), sessionExample)
		}
	}
	var out []part
	for _, piece := range splitTokens(toks, isThen) {
		if len(out) > 0 && isSocial(piece) {
			continue
		}
		parts, err := readPiece(text, piece, mend)
		if err != nil {
			return nil, err
		}
		if n := len(out); n > 0 && len(parts) == 1 && !parts[0].named && out[n-1].session.Kind == planner.Commute && parts[0].session.Kind == planner.Endurance && parts[0].session.Sets.IsZero() {
			parts[0].session.Kind, parts[0].named = planner.Commute, true // commute 25 + 30
		}
		out = append(out, parts...)
	}
	return out, nil
}

// joinsLengths reports whether the word at i is between two lengths: 1h or 2h. That
// has a message of its own.
func joinsLengths(toks []token, i int) bool {
	if i == 0 {
		return false
	}
	_, n := readSpan(toks[i+1:], lengthStyle)
	_, unit := timeUnits[toks[i-1].text]
	return n > 0 && (unit || toks[i-1].kind == numberToken)
}

// readPiece reads one session, or several that commas or "and" part, where each of them is clear.
func readPiece(text string, toks []token, mend bool) ([]part, error) {
	parts, err := readOne(text, toks, mend)
	if !errors.As(err, &twoSessions{}) {
		return parts, err
	}
	var out []part
	for _, piece := range splitTokens(toks, isJoint) {
		parts, fault := readOne(text, piece, mend)
		if errors.As(fault, &twoSessions{}) || len(piece) == 0 {
			return nil, err
		}
		if fault != nil {
			return nil, fault
		}
		out = append(out, parts...)
	}
	clear := func(p part) bool { return p.named && p.session.Kind != planner.Rest }
	if len(out) < 2 || slices.ContainsFunc(out, func(p part) bool { return !clear(p) }) {
		return nil, err
	}
	return out, nil
}

// readOne reads the tokens as one session, twice where it is there and back.
func readOne(text string, toks []token, mend bool) ([]part, error) {
	r := sessionReader{text: text, toks: toks, mend: mend}
	if err := r.read(); err != nil {
		return nil, err
	}
	if r.wayAndBack() {
		r.twice, r.minutes, r.told, r.sets, r.groups = true, int(r.sets[0].Work)/60, true, planner.Sets{}, 0
	}
	named := r.word != "" || r.ride
	session, err := r.session()
	if err != nil {
		return nil, err
	}
	out := []part{{session, r.word == busyWord, named}}
	if r.twice {
		if !session.Sets.IsZero() || session.Kind == planner.Rest {
			return nil, planner.BadInput("", "%s cannot go there and back. Write it like commute 35min each way", quoted(text))
		}
		out = append(out, out[0])
	}
	return out, nil
}

// wayAndBack reports whether commute 2x25min was typed.
func (r *sessionReader) wayAndBack() bool {
	return kindWords[r.word] == planner.Commute && !r.told && r.groups == 1 && r.sets[0].Reps == 2 && r.sets[0].Rest == 0 && r.sets[0].Work%60 == 0
}

// isSocial reports whether a piece after a session is no session: then cafe.
func isSocial(toks []token) bool {
	social := false
	for _, t := range toks {
		switch {
		case t.kind == wordToken && socials[t.text]:
			social = true
		case t.kind == numberToken || t.kind == wordToken && !fillers[t.text] || strings.HasPrefix(t.text, rideWord):
			return false
		}
	}
	return social
}

func isThen(t token) bool {
	return t.isMark("+") || t.isWord("then") || t.isWord("plus")
}

func isJoint(t token) bool {
	return t.isMark(",") || t.isMark("&") || t.isWord("and") || t.isWord("n")
}

// splitTokens parts tokens where parts says so, but not before another group of repetitions.
func splitTokens(toks []token, parts func(token) bool) [][]token {
	var out [][]token
	from := 0
	for i, t := range toks {
		set := i+2 < len(toks) && toks[i+1].kind == numberToken && toks[i+2].isWord("x") && !t.isWord("then")
		if parts(t) && !set {
			out = append(out, toks[from:i])
			from = i + 1
		}
	}
	return append(out, toks[from:])
}

// plainWords writes short forms in full before a session is read.
var plainWords = strings.NewReplacer(
	"can't", "cant", "can’t", "cant", "won't", "wont", "won’t", "wont", "it's", "its", "it’s", "its", "w/", "with ", "-ish", " ish", "over-under", "over under", "i'm", "im", "don't", "dont", "don’t", "dont", "o'clock", "oclock", "mins.", "min", "min.", "min", "hrs.", "h", "hr.", "h",
)

// sessionTokens are the tokens of a session: number words are digits, phrases are one
// word, and times of day are left out.
func sessionTokens(s string) []token {
	toks := withDigits(lex(plainWords.Replace(strings.ToLower(s)), true))
	for i := 1; i+1 < len(toks); i++ {
		between := toks[i-1].kind == numberToken && toks[i+1].kind == numberToken
		if between && (toks[i].isWord("times") || toks[i].isWord("by")) {
			toks[i].text = "x"
		}
	}
	var out []token
	for i := 0; i < len(toks); {
		if n := clockAt(toks[i:]); n > 0 {
			i += n
			continue
		}
		word, n := phraseAt(toks[i:])
		if toks[i].isWord("ride") && i+2 < len(toks) && toks[i+1].isWord("in") && toks[i+2].kind == numberToken {
			word, n = "commute", 2 // ride in 30min
		}
		switch {
		case n == 0:
			out = append(out, toks[i])
			n = 1
		case word != "":
			out = append(out, token{kind: wordToken, text: word})
		}
		i += n
	}
	if slices.ContainsFunc(out, func(t token) bool { return t.isWord("commute") }) {
		for i := range out {
			if out[i].isWord("home") { // 25 min to work, 50 home
				out[i].text = "commute"
			}
		}
	}
	return out
}

// phraseAt is the longest phrase at the start of toks and how many tokens it takes.
func phraseAt(toks []token) (word string, n int) {
	text := ""
	for i := 0; i < min(len(toks), 4); i++ {
		if toks[i].kind == markToken || i > 0 && toks[i].kind == numberToken && !toks[i].glued && toks[0].isWord("vo") {
			break
		}
		text = strings.TrimSpace(text + " " + toks[i].text)
		if w, ok := phrases[text]; ok && i > 0 {
			word, n = w, i+1
		}
	}
	return word, n
}

// clockAt is how many tokens a time of day takes: 6pm, at 6:30am, until 22h.
func clockAt(toks []token) int {
	n := 0
	led := slices.ContainsFunc([]string{"at", "from", "until", "til", "till", "before", "after"}, toks[0].isWord)
	if led {
		n = 1
	}
	if n >= len(toks) || toks[n].kind != numberToken {
		return 0
	}
	n++
	parted := false
	if n+1 < len(toks) && toks[n].isMark(":") && toks[n+1].kind == numberToken && toks[n+1].glued {
		n, parted = n+2, true
	}
	if n < len(toks) && (toks[n].isWord("am") || toks[n].isWord("pm") || toks[n].isWord("oclock")) {
		return n + 1
	}
	until := led && !toks[0].isWord("at") && !toks[0].isWord("after") && !toks[0].isWord("before")
	if until && n < len(toks) && toks[n].isWord("h") && toks[n].glued {
		return n + 1
	}
	_, unit := unitAt(toks, n)
	if !led || unit || n < len(toks) && (toks[n].isWord("x") || distances[toks[n].text] || toks[n].isMark("%")) || parted && n == len(toks) && toks[0].isWord("from") {
		return 0
	}
	return n
}

// isBusy reports whether a clause says that riding is never possible that day.
func isBusy(toks []token) bool {
	never, sure := false, false
	for _, t := range toks {
		never = never || t.kind == wordToken && neverWords[t.text]
		sure = sure || t.isWord(nochance) || t.isWord("impossible") || t.isWord("unavailable")
	}
	if !never {
		return false
	}
	for i, t := range toks {
		_, n := readSpan(toks[i:], lengthStyle)
		switch {
		case n > 0, t.kind == numberToken:
			return false
		case t.kind == markToken:
			if !strings.Contains(",.-!:()/", t.text) {
				return false
			}
		case neverWords[t.text], reasons[t.text]:
		case !sure || restricting[t.text]:
			return false
		}
	}
	return true
}
