package care

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// token is a word of the text. Commas part clauses, full stops part sentences.
type token struct {
	word             string
	clause, sentence int
	hidden           bool  // part of a name or a figure of speech
	fuzzy            bool  // misspelt
	capital          bool  // begins with a capital and goes on without
	is               []int // words of the tables that it stands for
}

type text struct {
	tokens []token
	titles bool // most words have capitals, so that they say nothing
	lang   Lang // set by judge
	year   int  // in which it was written; 0: not known
	other  bool // it is about somebody else, who is not the writer
	// otherwise is set by judge where danger is meant otherwise: denied, somebody else's, long ago.
	otherwise bool
}

// folded takes accents off; all other letters stay.
var folded = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'ç': "c", 'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ì': "i", 'í': "i", 'î': "i", 'ï': "i",
	'ñ': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o", 'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ý': "y", 'ÿ': "y", 'ß': "ss", 'œ': "oe", 'æ': "ae",
}

// suffixes are what an apostrophe parts from an English word, which is then often left out.
var suffixes = map[string]bool{"t": true, "s": true, "m": true, "ve": true, "re": true, "ll": true, "d": true}

// fold is a rune without case and accents.
func fold(r rune) string {
	r = unicode.ToLower(unicode.ToUpper(r))
	if s, ok := folded[r]; ok {
		return s
	}
	return string(r)
}

// cutter makes tokens of runes.
type cutter struct {
	out              []token
	word             strings.Builder
	clause, sentence int
	joins            bool // the word before ended in an apostrophe
	raw              []rune
}

// flush ends a word.
func (c *cutter) flush() {
	word := squeeze(c.word.String())
	capital := len(c.raw) > 1 && unicode.IsUpper(c.raw[0]) && !unicode.IsUpper(c.raw[1])
	c.word.Reset()
	c.raw = c.raw[:0]
	joins := c.joins
	c.joins = false
	if word == "" {
		return
	}
	if last := len(c.out) - 1; joins && last >= 0 && suffixes[word] {
		c.out[last].word += word
		return
	}
	c.out = append(c.out, token{word: word, clause: c.clause, sentence: c.sentence, capital: capital})
}

// cut parts a text, of a year if that is known, into words, clauses and sentences, and looks
// for what they mean.
func cut(s string, year int) *text {
	t := parted(s, year)
	t.chestCough()
	t.look()
	return t
}

// chestCough reads "chest cough" as chesty cough, an illness that asks for rest, where
// nothing graver is told beside it. Alone "chest" is a sign of the heart.
func (t *text) chestCough() {
	if slices.ContainsFunc(t.tokens, func(w token) bool { return besideCough[w.word] || strings.HasPrefix(w.word, "breath") }) {
		return
	}
	for i := 1; i < len(t.tokens); i++ {
		if chest := &t.tokens[i-1]; chest.word == "chest" && coughs[t.tokens[i].word] && chest.clause == t.tokens[i].clause {
			chest.word = "chesty"
		}
	}
}

// parted is a text in words whose meaning nobody has looked for. Emoji only part words.
func parted(s string, year int) *text {
	var c cutter
	runes := []rune(s)
	digit := func(i int) bool { return i >= 0 && i < len(runes) && runes[i] >= '0' && runes[i] <= '9' }
	for i, r := range runes {
		switch {
		case (r == '.' || r == ',') && digit(i-1) && digit(i+1):
			c.word.WriteByte('.')
		case r == '\'' || r == '’' || r == '‘' || r == '`' || r == '´':
			c.flush()
			c.joins = true
		case r == '\u0307' || r == '\u00ad' || r >= '\u200b' && r <= '\u200f' || unicode.Is(unicode.Mn, r): // no part of a word's look
		case r == '&' && c.word.Len() > 0:
			c.word.WriteRune(r)
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if c.word.Len() > 0 && digit(i-1) && unicode.IsLetter(r) || digit(i) && i > 0 && unicode.IsLetter(runes[i-1]) {
				c.flush() // 38grad, x4
			}
			c.word.WriteString(fold(r))
			c.raw = append(c.raw, r)
		default:
			c.flush()
			c.joins = false
			c.part(r, runes[i+1:])
		}
	}
	c.flush()
	t := &text{tokens: c.out, year: year}
	capitals := 0
	for i := range t.tokens {
		if t.tokens[i].capital {
			capitals++
		}
	}
	t.titles = capitals*2 > len(t.tokens)
	return t
}

// part begins a new clause or sentence after a sign. Dots in a row only pause.
func (c *cutter) part(r rune, rest []rune) {
	switch {
	case r == '.' && len(rest) > 0 && rest[0] == '.':
		c.clause++
	case r == '.' || r == '!' || r == '?' || r == '\n':
		c.clause++
		c.sentence++
	case r == ',' || r == ';' || r == ':' || r == '(' || r == ')' || r == '–' || r == '…':
		c.clause++
	}
}

// squeeze leaves one of three and more equal letters: "soooo".
func squeeze(word string) string {
	runes := []rune(word)
	var b strings.Builder
	for i := 0; i < len(runes); {
		j := i
		for j < len(runes) && runes[j] == runes[i] {
			j++
		}
		n := j - i
		if n > 2 && unicode.IsLetter(runes[i]) {
			n = 1
		}
		b.WriteString(strings.Repeat(string(runes[i]), n))
		i = j
	}
	return b.String()
}

// degrees reports a body temperature that is too high; a bare whole number is none.
func degrees(word string) bool {
	v, err := strconv.ParseFloat(word, 64)
	return err == nil && v >= 37.5 && v < 42.5
}

// year reports a year of the past century or this one.
func year(word string) bool {
	v, err := strconv.Atoi(word)
	return err == nil && v >= 1950 && v < 2100
}

// years keeps a year as a sign of the past only where it says when: "in 2019",
// "collarbone 2018, plate out 2020". "Since 2024" is not over, and the "2026 league" is a thing.
func (t *text) years() {
	id := known().index["#year"]
	for i := range t.tokens {
		word := t.tokens[i].word
		before := ""
		if i > 0 {
			before = t.tokens[i-1].word
		}
		short := len(word) == 2 && number(word) && (word[0] == '0' || word[0] >= '8') && yearLeads[before] && t.ends(i)
		if !short && !year(word) {
			continue
		}
		t.tokens[i].is = slices.DeleteFunc(t.tokens[i].is, func(is int) bool { return is == id })
		if short || t.when(i, before) {
			t.tokens[i].is = append(t.tokens[i].is, id)
		}
	}
}

// when reports a year that says when something was.
func (t *text) when(i int, before string) bool {
	month := i > 1 && months[before] && lasting[t.tokens[i-2].word]
	if v, err := strconv.Atoi(t.tokens[i].word); lasting[before] || month || err == nil && t.year > 0 && v >= t.year {
		return false
	}
	if i+2 < len(t.tokens) && number(t.tokens[i+1].word) && number(t.tokens[i+2].word) {
		return true // 2019-05-14
	}
	if i == 0 && len(t.tokens) > 1 && len(t.tokens[1].is) > 0 && !dated[t.tokens[1].word] && !placesAfter[t.tokens[1].word] {
		return true // "2014 broke my hip"
	}
	return yearLeads[before] || months[before] || t.ends(i)
}

// ends reports a word after which the thought ends or a new one begins.
func (t *text) ends(i int) bool {
	if t.lastOfClause(i) {
		return true
	}
	next := t.tokens[i+1].word
	return fillers[next] || contrast[next] || prepositions[next] || subjects[next] || yearTails[next]
}
