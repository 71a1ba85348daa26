package care

import (
	"slices"
	"strings"
)

// hideNames takes the rider's own names out of the text, unless the words before say that they are meant.
func (t *text) hideNames(names []string) {
	for _, name := range names {
		said := parted(name, 0)
		if !t.mayName(said) {
			continue
		}
		said.look()
		want := said.tokens
		for i := 0; i+len(want) <= len(t.tokens); i++ {
			same := true
			for k := range want {
				same = same && t.tokens[i+k].word == want[k].word
			}
			if !same || i > 0 && having[t.tokens[i-1].word] && !placesAfter[want[len(want)-1].word] {
				continue
			}
			for k := range want {
				t.tokens[i+k].hidden = true
			}
		}
	}
}

// mayName reports a word that begins as the first of a name does: looking for what its words
// mean takes long, and may part them.
func (t *text) mayName(name *text) bool {
	if len(name.tokens) == 0 {
		return false
	}
	first := name.tokens[0].word
	start := first[:min(2, len(first))]
	return slices.ContainsFunc(t.tokens, func(tok token) bool { return strings.HasPrefix(tok.word, start) })
}

// named is Nothing for the name of a race or a place ("Heart Attack Hill", "col du
// mal de tête"), Ask where it may be one, Stop for all else.
func (t *text) named(at span) Verdict {
	before := func(n int) string {
		if at.from-n < 0 || t.tokens[at.from-n].clause != t.tokens[at.from].clause {
			return ""
		}
		return t.tokens[at.from-n].word
	}
	if callings[before(1)] || callings[before(2)] && fillers[before(1)] || callings[before(4)] && ofs[before(1)] && ofs[before(2)] {
		return Nothing
	}
	for n := 1; n <= 3; n++ {
		w := before(n)
		if n > 1 && placesBefore[w] || n == 1 && placesNear[w] {
			return Nothing
		}
		if !ofs[w] {
			break
		}
	}
	if entering[before(1)] || fillers[before(1)] && (entering[before(2)] || before(2) == "for" && entering[before(3)] || before(3) == "up" && before(2) == "for") {
		return Nothing
	}
	if t.inside(at) {
		return Nothing
	}
	return min(t.titled(at), t.placed(at, before(1), before(2)))
}

// titled reads words with capitals as a name where another such word stands beside
// them: "Collapse Crag and back". Nouns of German all have one.
func (t *text) titled(at span) Verdict {
	if t.titles || t.lang == German {
		return Stop
	}
	for i := at.from; i < at.to; i++ {
		if !t.tokens[i].capital && !fillers[t.tokens[i].word] {
			return Stop
		}
	}
	beside := func(i, from int) bool {
		return i >= 0 && i < len(t.tokens) && t.tokens[i].capital && t.tokens[i].clause == t.tokens[from].clause && !calendar[t.tokens[i].word]
	}
	first := at.from == 0 || t.tokens[at.from-1].sentence != t.tokens[at.from].sentence
	switch after := beside(at.to, at.to-1); {
	case after && (!first || len(t.tokens[at.to].is) == 0):
		return Nothing
	case after:
		return Ask
	case beside(at.from-1, at.from) && (at.from > 1 && t.tokens[at.from-2].sentence == t.tokens[at.from].sentence):
		return Nothing
	}
	return Stop
}

// inside reports a place within the words: "Skull Corner, mind the road works".
func (t *text) inside(at span) bool {
	for n := at.from + 1; n < at.to; n++ {
		if w := t.tokens[n].word; placesAfter[w] && !placesWithin[w] {
			return t.leads(at.from) && t.tight(span{at.from, n})
		}
	}
	return false
}

// leads reports a word before place i after which a name may follow.
func (t *text) leads(i int) bool {
	if i > 0 && t.tokens[i-1].word == "the" {
		i--
	}
	if i > 1 && (t.tokens[i-2].word == "the" || nameLeads[t.tokens[i-2].word]) && !fillers[t.tokens[i-1].word] {
		return true
	}
	return i > 0 && nameLeads[t.tokens[i-1].word]
}

// placed reads the words after: "sore knee hill".
func (t *text) placed(at span, before, second string) Verdict {
	for n := at.to; n <= at.to+1 && n < len(t.tokens); n++ {
		w := t.tokens[n].word
		switch {
		case t.tokens[n].clause != t.tokens[at.to-1].clause, having[before], !t.tight(at):
			return Stop
		case placesAfter[w] && n+1 < len(t.tokens) && (repeated[t.tokens[n+1].word] || ofs[t.tokens[n+1].word]):
			return Stop
		case placesAfter[w] && n+1 < len(t.tokens) && placesAfter[t.tokens[n+1].word] && !generic[t.tokens[n+1].word]:
			return Nothing
		case placesAfter[w] && generic[w]:
			switch {
			case t.leads(at.from) && (before != "the" || second != ""):
				return Nothing
			case before == "" || before == "the":
				return Ask
			}
			return Stop
		case placesAfter[w]:
			return Nothing
		case fillers[w] || prepositions[w] || determiners[w]:
			return Stop
		}
	}
	return Stop
}

// tight reports words that lie side by side, as those of a name do.
func (t *text) tight(at span) bool {
	for i := at.from; i < at.to; i++ {
		if prepositions[t.tokens[i].word] || t.tokens[i].word == "my" {
			return false
		}
	}
	return at.to-at.from <= 3
}

// isPlace reports a text that is the name of a place and nothing else: "Heart Attack Hill".
func (t *text) isPlace() bool {
	n := len(t.tokens)
	if n < 2 || n > 5 || !placesAfter[t.tokens[n-1].word] || !t.tight(span{0, min(n, 3)}) {
		return false
	}
	for _, tok := range t.tokens {
		if !tok.capital && !ofs[tok.word] && !number(tok.word) {
			return false
		}
	}
	return true
}

// ofPlaces are the names that cannot be a symptom: they hold a word of places, beside others.
func ofPlaces(names []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		words := cut(name, 0).tokens
		return len(words) < 2 || !slices.ContainsFunc(words, func(w token) bool { return placesAfter[w.word] || placesBefore[w.word] })
	})
}

// isHidden reports a text of which nothing but names is left.
func (t *text) isHidden() bool {
	return !slices.ContainsFunc(t.tokens, func(w token) bool { return !w.hidden })
}

// likeName reports a short text in small letters that ends with a word of places and in
// which nothing is found elsewhere: "heart attack hill", but not "chest pain hill".
func (t *text) likeName() bool {
	n := len(t.tokens)
	if n < 2 || n > 5 || !t.tight(span{0, min(n, 3)}) {
		return false
	}
	w := t.tokens[n-1].word
	return placesAfter[w] && !placesWithin[w] && !generic[w] || namedPlaces[w]
}

// placeName is Nothing for words before a place's word that can be nothing else: "Heart Attack Hill".
func (t *text) placeName(at span) Verdict {
	if at.to < len(t.tokens) && t.tokens[at.to].clause == t.tokens[at.to-1].clause && t.tight(at) {
		if w := t.tokens[at.to].word; placesAfter[w] && !placesWithin[w] && !generic[w] || t.tokens[at.from].capital && t.tokens[at.to].capital && placesAfter[w] {
			return Nothing
		}
	}
	return Stop
}
