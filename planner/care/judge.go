package care

import (
	"slices"
	"strings"
)

// scopes are the words of a text that say how its other words are meant.
type scopes struct {
	not, others, self, past, now, over, unsure, effort, owns, gone, well, learning, helps []bool
}

// langs are some of the languages.
type langs [Italian + 1]bool

// scopes hears the small words of the text's own language alone: "no" negates in
// Spanish and is a preposition in Portuguese.
func (t *text) scopes(in langs) *scopes {
	k := known()
	s := &scopes{
		not: t.marks(&k.not, in), others: t.marks(&k.others, in), self: t.marks(&k.self, in), past: t.marks(&k.past, in), now: t.marks(&k.now, in),
		over: t.marks(&k.over, in), unsure: t.marks(&k.unsure, in), effort: t.marks(&k.effort, in), owns: t.marks(&k.owns, in), gone: t.marks(&k.gone, in), well: t.marks(&k.well, in),
		learning: t.marks(&k.learning, in), helps: t.marks(&k.helps, in),
	}
	for i, hollow := range t.marks(&k.hollow, in) {
		s.not[i] = s.not[i] && !hollow
	}
	for i := range t.tokens {
		next := i+1 < len(t.tokens) && (t.tokens[i+1].word == "has" || t.tokens[i+1].word == "got" && strings.HasSuffix(t.tokens[i].word, "s"))
		s.others[i] = s.others[i] || next && t.calledBy(i+1)
		s.self[i] = s.self[i] && !s.others[i]
		s.now[i] = s.now[i] && !s.over[i] && !s.well[i]
	}
	return s
}

// judge takes the gravest of what a text says. In a list of symptoms only
// negations are heard: nobody lists there what others have.
func (t *text) judge(l *list, listed bool) (f Finding) {
	var evidence [Italian + 1]int
	t.each(l, func(m *meaning, at span) {
		evidence[m.lang]++
		if !t.foreign(at) {
			evidence[m.lang]++
		}
	})
	var in langs
	f.Lang, in = t.language(evidence)
	t.lang = f.Lang
	sc := t.scopes(in)
	t.each(l, func(m *meaning, at span) {
		v := m.verdict
		if !in[m.lang] && t.foreign(at) {
			return
		}
		if t.negated(sc, m, at) {
			t.otherwise = true
			return
		}
		if t.doubtful(sc, at) {
			v = min(v, Ask)
		}
		if listed {
			v = min(v, t.placeName(at))
		} else {
			v = t.weigh(sc, m, at, v)
		}
		if v == Nothing {
			t.otherwise = true
			return
		}
		f.Verdict, f.Level, f.Head = max(f.Verdict, v), max(f.Level, m.level), f.Head || m.level == Head
	})
	if f.Verdict == Nothing {
		return Finding{}
	}
	return f
}

// weigh lowers a verdict where the words belong to a name, to somebody else, to
// the past, to hard riding or to a question.
func (t *text) weigh(sc *scopes, m *meaning, at span, v Verdict) Verdict {
	v = min(v, t.named(at))
	switch {
	case m.level != Talk && t.past(sc, at) == Stop:
		return Nothing
	case m.level == Talk && t.past(sc, at) == Stop:
		v = min(v, t.pastTalk(sc, at))
	case t.past(sc, at) == Ask:
		v = min(v, Ask)
	}
	if t.other {
		// whoever is named has it
	} else if whose := t.whose(sc, at); whose == Nothing && m.level >= Doctor && slices.Contains(sc.helps, true) {
		v = min(v, Ask)
	} else {
		v = min(v, whose)
	}
	if t.learns(sc, at) {
		return Nothing
	}
	if m.level <= Rest && t.gone(sc, at) {
		return Nothing
	}
	if m.effort && t.sentenceHas(sc.effort, at) && v > Nothing {
		v--
	}
	over := t.told(sc.over, at) || m.level < Head && t.told(sc.well, at)
	if t.sentenceHas(sc.unsure, at) && m.level != Talk || over && !t.sentenceHas(sc.now, at) {
		v = min(v, Ask)
	}
	return v
}

// learns reports words of somebody who only wants to know: they give a reason, and nothing that the rider has.
func (t *text) learns(sc *scopes, at span) bool {
	n, why := t.tokens[at.from].sentence, false
	for i := range t.tokens {
		d := t.tokens[i].sentence - n
		why = why || sc.learning[i] && d >= -1 && d <= 1
	}
	if !why {
		return false
	}
	for i := max(0, at.from-4); i < at.to; i++ {
		w := t.tokens[i].word
		if t.tokens[i].sentence == n && (w == "my" || w == "ive" || w == "im" || w == "me" || w == "i" && i+1 < len(t.tokens) && owning[t.tokens[i+1].word]) {
			return false
		}
	}
	return true
}

// pastTalk: thoughts of harm that are told as history are history only where they are said to be over or long ago.
func (t *text) pastTalk(sc *scopes, at span) Verdict {
	if t.sentenceHas(sc.now, at) {
		return Ask
	}
	return Nothing
}

// gone reports a complaint that is said to have gone, and not down to the chest.
func (t *text) gone(sc *scopes, at span) bool {
	for i := at.from - 1; i >= max(0, at.from-6) && t.tokens[i].sentence == t.tokens[at.from].sentence; i-- {
		if w := t.tokens[i].word; w == "none" || w == "hardly" || w == "barely" || w == "sign" {
			return false // none of it
		}
	}
	end := at.to
	if next := end < len(t.tokens) && sc.gone[end] && t.tokens[end].clause == t.tokens[end-1].clause; !next && !sc.gone[at.from] && !sc.gone[end-1] {
		return false
	}
	for end < len(t.tokens) && sc.gone[end] {
		end++
	}
	return end == len(t.tokens) || t.tokens[end].clause != t.tokens[end-1].clause || !goesOn[t.tokens[end].word]
}

// sentenceHas reports a mark in the sentence of a place.
func (t *text) sentenceHas(marks []bool, at span) bool {
	n := t.tokens[at.from].sentence
	for i := range t.tokens {
		if marks[i] && t.tokens[i].sentence == n {
			return true
		}
	}
	return false
}

// told reports a mark in the sentence of a place with no "but" between them.
func (t *text) told(marks []bool, at span) bool {
	n := t.tokens[at.from].sentence
	for i := at.to; i < len(t.tokens) && t.tokens[i].sentence == n; i++ {
		if marks[i] {
			return true
		}
		if t.tokens[i].word == "but" {
			break
		}
	}
	for i := at.to - 1; i >= 0 && t.tokens[i].sentence == n && (i >= at.from || t.tokens[i].word != "but"); i-- {
		if marks[i] {
			return true
		}
	}
	return false
}

func (t *text) clauseHas(marks []bool, at span) bool {
	for i := range t.tokens {
		if marks[i] && t.tokens[i].clause >= t.tokens[at.from].clause && t.tokens[i].clause <= t.tokens[at.to-1].clause {
			return true
		}
	}
	return false
}

// negated reports a negation before a place, or inside it, in its reach.
func (t *text) negated(sc *scopes, m *meaning, at span) bool {
	if !m.negative {
		for i := at.from; i < at.to; i++ {
			if sc.not[i] {
				return true
			}
		}
	}
	if at.to < len(t.tokens) && endNegators[t.tokens[at.to].word] && t.lastOfClause(at.to) && t.tokens[at.to].sentence == t.tokens[at.to-1].sentence {
		return true
	}
	if t.answeredNo(sc, at) {
		return true
	}
	for i := at.from - 1; i >= 0 && i >= at.from-reach; i-- {
		if t.tokens[i].sentence != t.tokens[at.from].sentence {
			return false
		}
		if sc.not[i] {
			return t.reaches(sc, i, at.from)
		}
	}
	return false
}

// answeredNo reports a short question that its writer denies at once: "Fever? No."
func (t *text) answeredNo(sc *scopes, at span) bool {
	n, first := t.tokens[at.from].sentence, at.from
	for first > 0 && t.tokens[first-1].sentence == n {
		first--
	}
	next := at.to
	for next < len(t.tokens) && t.tokens[next].sentence == n {
		next++
	}
	if next-first > 4 || next == len(t.tokens) || !sc.not[next] && !endNegators[t.tokens[next].word] {
		return false
	}
	return next+1 == len(t.tokens) || t.tokens[next+1].sentence != n+1
}

// reach is how many words a negation may lie before what it negates.
const reach = 8

func (t *text) lastOfClause(i int) bool {
	return i == len(t.tokens)-1 || t.tokens[i+1].clause != t.tokens[i].clause
}

// reaches reports whether the negation at word i still holds at word j: no
// "but", no new subject, no new clause that is not part of a list.
func (t *text) reaches(sc *scopes, i, j int) bool {
	think := false
	for n := i + 1; n < j; n++ {
		w := t.tokens[n].word
		think = think || thinks[w]
		if contrast[w] || andWords[w] && n+1 < j && (subjects[t.tokens[n+1].word] || t.tokens[n+1].word == "my") || sc.self[n] && subjects[w] && n > i+1 && !think {
			return false
		}
	}
	if t.tokens[i].clause == t.tokens[j].clause {
		return true
	}
	clause, first := t.tokens[j].clause, j
	for first > 0 && t.tokens[first-1].clause == clause {
		first--
	}
	if j-first > 1 {
		return false
	}
	for n := i; n < len(t.tokens) && t.tokens[n].sentence == t.tokens[j].sentence; n++ {
		if listWords[t.tokens[n].word] {
			return true
		}
	}
	return false
}

// doubtful: "no fever and cough" may mean either.
func (t *text) doubtful(sc *scopes, at span) bool {
	for i := at.from - 1; i >= max(0, at.from-3); i-- {
		if andWords[t.tokens[i].word] {
			for n := i - 1; n >= max(0, i-2); n-- {
				if sc.not[n] && t.tokens[n].clause == t.tokens[at.from].clause {
					return at.to-at.from == 1
				}
			}
		}
	}
	return false
}

// past is Stop where the words tell of long ago, Ask where of both then and now.
func (t *text) past(sc *scopes, at span) Verdict {
	switch {
	case !t.sentenceHas(sc.past, at) || t.butNow(sc, at):
		return Nothing
	case t.clauseHas(sc.past, at) && t.clauseHas(sc.now, at):
		return Ask
	case t.clauseHas(sc.now, at):
		return Nothing
	case !t.clauseHas(sc.past, at) && t.apart(sc, at):
		return Ask
	}
	return Stop
}

// butNow reports a "but" between what is past and a place: "last season was great but today I fainted".
func (t *text) butNow(sc *scopes, at span) bool {
	n, but := t.tokens[at.from].sentence, -1
	for i := 0; i < len(t.tokens); i++ {
		switch {
		case t.tokens[i].sentence != n:
		case i < at.from && buts[t.tokens[i].word]:
			but = i
		case but >= 0 && sc.past[i]:
			return false
		}
	}
	return but >= 0
}

// apart reports that what is past has a clause and a subject of its own: "my knee hurts, last year I flew up here".
func (t *text) apart(sc *scopes, at span) bool {
	first, last := at.from, at.to
	for first > 0 && t.tokens[first-1].clause == t.tokens[at.from].clause {
		first--
	}
	for i := range t.tokens {
		if !sc.past[i] || t.tokens[i].sentence != t.tokens[at.from].sentence {
			continue
		}
		words, subject := 0, false
		for n := range t.tokens {
			if t.tokens[n].clause == t.tokens[i].clause {
				words++
				subject = subject || subjects[t.tokens[n].word]
			}
		}
		if words > 3 && (i >= last && subject || i < first && sc.self[first]) {
			return true
		}
	}
	return false
}

// whose is Stop where the words tell of the rider, Nothing where clearly of
// somebody else.
func (t *text) whose(sc *scopes, at span) Verdict {
	for i := at.from; i < at.to; i++ {
		if sc.self[i] {
			return Stop
		}
	}
	inside := at.from
	for inside < at.to && !(theirs[t.tokens[inside].word] && sc.others[inside]) {
		inside++
	}
	if inside == at.to {
		inside = at.from - 1
	}
	sentence := t.tokens[at.from].sentence
	for i := inside; i >= 0; i-- {
		here := t.tokens[i].sentence == sentence
		switch {
		case sc.self[i]:
			return t.later(at, Stop, here)
		case sc.others[i] && t.theirThing(i): // "my mate's pills", "some of my mates' pills"
		case sc.others[i] && here && i+1 < len(t.tokens) && saying[t.tokens[i+1].word]:
			return Ask
		case sc.others[i] && here:
			return t.also(sc, at)
		case sc.others[i]:
			return Ask
		}
	}
	v := t.later(at, Stop, false)
	switch {
	case v == Ask && t.calledBy(at.from):
		return Nothing
	case t.byName(at):
		return Ask
	}
	return v
}

// theirThing reports somebody after "of", "off" or "from", who did nothing.
func (t *text) theirThing(i int) bool {
	return i > 1 && t.tokens[i-1].word == "my" && (t.tokens[i-2].word == "of" || t.tokens[i-2].word == "off" || t.tokens[i-2].word == "from") || i > 0 && t.tokens[i].word == "my" && (t.tokens[i-1].word == "of" || t.tokens[i-1].word == "off" || t.tokens[i-1].word == "from")
}

// byName reports a sentence that begins with a word of no table and what somebody did: "Simon had a seizure".
func (t *text) byName(at span) bool {
	first := at.from
	for first > 0 && t.tokens[first-1].sentence == t.tokens[at.from].sentence {
		first--
	}
	return first+1 < len(t.tokens) && first < at.from && doings[t.tokens[first+1].word] && t.tokens[first+1].clause == t.tokens[first].clause && t.calledBy(first+1)
}

// calledBy reports a word before place i, the first of its sentence, that no table knows: a person's name.
func (t *text) calledBy(i int) bool {
	if i == 0 || i > 1 && t.tokens[i-2].sentence == t.tokens[i].sentence || t.tokens[i-1].sentence != t.tokens[i].sentence {
		return false
	}
	w := t.tokens[i-1]
	return len(w.is) == 0 && !strings.HasSuffix(w.word, "ly") && !fillers[w.word] && !ordinary[w.word] && !prepositions[w.word] && !contrast[w.word]
}

// later asks where somebody else is named only after the words: "Luca broke it, I helped him".
func (t *text) later(at span, v Verdict, selfBefore bool) Verdict {
	if selfBefore {
		return v
	}
	for i := at.to; i < len(t.tokens) && t.tokens[i].sentence == t.tokens[at.from].sentence; i++ {
		if theirs[t.tokens[i].word] && (i+1 == len(t.tokens) || !saying[t.tokens[i+1].word]) {
			return Ask
		}
	}
	return v
}

// also asks where the rider may have it too.
func (t *text) also(sc *scopes, at span) Verdict {
	for i := range t.tokens {
		if sc.owns[i] && (i >= at.to || t.tokens[i].sentence == t.tokens[at.from].sentence) {
			return Ask
		}
	}
	return Nothing
}

// foreign reports a place that is only misspelt words.
func (t *text) foreign(at span) bool {
	for i := at.from; i < at.to; i++ {
		if t.tokens[i].fuzzy {
			return true
		}
	}
	return false
}

// language is the one with most of its small words and wordings in the text; in has it and those with as many.
func (t *text) language(evidence [Italian + 1]int) (best Lang, in langs) {
	for i := range t.tokens {
		for _, l := range smallWords[t.tokens[i].word] {
			evidence[l]++
		}
	}
	for l := English; l <= Italian; l++ {
		if evidence[l] > evidence[best] {
			best = l
		}
	}
	for l := range in {
		in[l] = evidence[l] == evidence[best]
	}
	return best, in
}
