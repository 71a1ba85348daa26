package care

import "slices"

// most fillers that a wording skips between two of its words.
const mostFillers = 4

// look finds what each word means: the word itself, two joined words, a
// word that a blank has parted, or a misspelling.
func (t *text) look() {
	k := known()
	for i := 0; i < len(t.tokens); i++ {
		tok := &t.tokens[i]
		ids, exact := k.recognise(tok.word)
		if exact || fillers[tok.word] || ordinary[tok.word] {
			tok.is = ids
			continue
		}
		if len(ids) > 0 {
			tok.is = append(ids, k.misspelt(tok.word, true)...)
			continue
		}
		if a, b, ok := k.parted(tok.word); ok {
			first, second := *tok, *tok
			first.word, second.word = a, b
			first.is, _ = k.recognise(a)
			second.is, _ = k.recognise(b)
			t.tokens = slices.Replace(t.tokens, i, i+1, first, second)
			i++
			continue
		}
		tok.is = k.misspelt(tok.word, false)
		tok.fuzzy = true
	}
	t.years()
	t.join()
}

// join reads two words as one where a blank has come into a long one.
func (t *text) join() {
	k := known()
	for i := 0; i+1 < len(t.tokens); i++ {
		a, b := &t.tokens[i], &t.tokens[i+1]
		if len(a.is) > 0 && len(b.is) > 0 || len(a.word)+len(b.word) < 7 || fillers[a.word] || number(a.word) || number(b.word) {
			continue
		}
		if id, ok := k.index[a.word+b.word]; ok {
			a.is = append(a.is, id)
		}
	}
}

// parted finds two words of the vocabulary that are written as one.
func (k *tables) parted(word string) (a, b string, ok bool) {
	if len(word) < 7 {
		return "", "", false
	}
	whole := func(s string) bool {
		_, ok := k.index[s]
		return ok && len(s) > 2 || fillers[s] && len(s) > 1
	}
	for i := len(word) - 3; i >= 2; i-- {
		a, b = word[:i], word[i:]
		if whole(a) && whole(b) && !(fillers[a] && fillers[b]) {
			return a, b, true
		}
	}
	return "", "", false
}

// at matches the elements from the k-th on, the k-th exactly at word i, and
// returns the word after the last.
func (t *text) at(w []element, k, i int) (end int, ok bool) {
	for _, next := range t.one(w[k], i) {
		if k == len(w)-1 {
			return next, true
		}
		if end, ok := t.after(w, k+1, next); ok {
			return end, true
		}
	}
	return 0, false
}

// one is where an element ends that begins at word i: several ends for a choice.
func (t *text) one(e element, i int) (ends []int) {
	if i >= len(t.tokens) || t.tokens[i].hidden {
		return nil
	}
	if e.word >= 0 && e.choice == nil {
		if slices.Contains(t.tokens[i].is, e.word) {
			return []int{i + 1}
		}
		return nil
	}
	for _, c := range e.choice {
		if len(c) == 1 && c[0].choice == nil {
			if slices.Contains(t.tokens[i].is, c[0].word) && !slices.Contains(ends, i+1) {
				ends = append(ends, i+1)
			}
		} else if end, ok := t.at(c, 0, i); ok && !slices.Contains(ends, end) {
			ends = append(ends, end)
		}
	}
	return ends
}

// after matches the k-th element at word i or after its gap and fillers.
func (t *text) after(w []element, k, i int) (end int, ok bool) {
	skipped, filled := 0, 0
	for j := i; j < len(t.tokens); j++ {
		if j > 0 && t.tokens[j].sentence != t.tokens[j-1].sentence && !w[k].far {
			return 0, false
		}
		if end, ok := t.at(w, k, j); ok {
			return end, true
		}
		if w[k].beside || w[k].close && subjects[t.tokens[j].word] || w[k].closer && t.turns(i, j) {
			return 0, false
		}
		if fillers[t.tokens[j].word] && filled < mostFillers {
			filled++
		} else if skipped++; skipped > w[k].gap {
			return 0, false
		}
	}
	return 0, false
}

// turns reports that word j, after word i, is the rider's or in another clause.
func (t *text) turns(i, j int) bool {
	w := t.tokens[j].word
	return w == "my" || w == "me" || j > i && i > 0 && t.tokens[j].clause != t.tokens[i-1].clause
}

// span is where a wording lies.
type span struct{ from, to int }

// each calls f for each place of each wording.
func (t *text) each(l *list, f func(m *meaning, s span)) {
	for i := range t.tokens {
		for k, id := range t.tokens[i].is {
			if slices.Contains(t.tokens[i].is[:k], id) {
				continue
			}
			for _, n := range l.first[id] {
				if end, ok := t.at(l.all[n].wording, 0, i); ok {
					f(&l.all[n], span{i, end})
				}
			}
		}
	}
}

// marks are the words that lie in any of the wordings of these languages.
func (t *text) marks(l *list, in langs) []bool {
	out := make([]bool, len(t.tokens)+1)
	t.each(l, func(m *meaning, s span) {
		for i := s.from; in[m.lang] && i < s.to; i++ {
			out[i] = true
		}
	})
	return out
}

// hide takes out figures of speech, but not "hit the wall" after "head", none with
// a denial in it that is not its own, and none that joins a part of the body with the clause after it.
func (t *text) hide(l *list) {
	var spans []span
	t.each(l, func(m *meaning, s span) {
		if (s.from == 0 || !bumped[t.tokens[s.from-1].word]) && !t.illAttack(s) && !t.splits(s) && (m.negative || !t.denies(s)) {
			spans = append(spans, s)
		}
	})
	for _, s := range spans {
		for i := s.from; i < s.to; i++ {
			t.tokens[i].hidden = true
		}
	}
}

// illAttack reports an attack of the heart or of asthma: "had a heart attack on the climb",
// but not "Heart Attack Hill".
func (t *text) illAttack(s span) bool {
	return s.from > 0 && attacked[t.tokens[s.from-1].word] && t.tokens[s.from].word == "attack" && s.to > s.from+2
}

// denies reports a denial within the words: "the doctor said it is not fine".
func (t *text) denies(s span) bool {
	for i := s.from; i < s.to; i++ {
		if denials[t.tokens[i].word] {
			return true
		}
	}
	return false
}

// splits reports words in two clauses of which one names a part of the body:
// "banged head, light hurts my eyes".
func (t *text) splits(s span) bool {
	for i := s.from; i < s.to && t.tokens[s.from].clause != t.tokens[s.to-1].clause; i++ {
		if vital[t.tokens[i].word] {
			return true
		}
	}
	return false
}
