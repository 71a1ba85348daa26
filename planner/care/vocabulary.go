package care

import (
	"math/bits"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// element is a place in a wording: a word of the vocabulary or one of several
// wordings, after a gap.
type element struct {
	word   int // -1 for a choice
	choice [][]element
	gap    int  // words that may lie before it besides fillers
	far    bool // the gap may cross the end of a sentence
	close  bool // the gap ends at a new subject
	closer bool // and at "my", "me" and a comma too
	beside bool // nothing lies before it, not even fillers
}

// meaning is a wording with what it means.
type meaning struct {
	wording []element
	verdict Verdict
	level   Level
	lang    Lang
	effort  bool // ordinary in hard riding
	// negative wordings have a negation of their own.
	negative bool
}

// group is a row of the tables: what many wordings mean.
type group struct {
	level   Level
	verdict Verdict
	effort  bool
	text    string // a wording a line
}

// stem is an entry of the vocabulary.
type stem struct {
	text string
	id   int
	open bool // any ending
	bits uint32
}

// tables are the compiled data.
type tables struct {
	index   map[string]int  // whole words
	stems   map[byte][]stem // words with any ending, by their first letter
	long    map[byte][]stem // all that are long enough to be misspelt, by their first letter
	exact   bool            // words that are added now are never misspelt
	classes map[string]element
	senses  map[int][]string // the classes that a word is in

	meanings, bare, figures         list
	not, hollow, others, self, past list
	now, over, unsure, effort, owns list
	gone, well, learning, helps     list
}

// list is wordings, found by the words that they may begin with.
type list struct {
	all    []meaning
	first  map[int][]int
	close  bool // no gap goes over "I"
	closer bool // nor over "my", "me" and a comma
}

var known = sync.OnceValue(compile)

// word gives a word or stem its number.
func (k *tables) word(w string) int {
	if id, ok := k.index[w]; ok {
		return id
	}
	id := len(k.index)
	k.index[w] = id
	text, open := strings.CutSuffix(w, "*")
	s := stem{text: text, id: id, open: open, bits: letters(text)}
	if open {
		k.stems[text[0]] = append(k.stems[text[0]], s)
	}
	if len(text) >= 5 && w[0] != '#' && !k.exact {
		k.long[text[0]] = append(k.long[text[0]], s)
	}
	return id
}

// compileWording reads "$chest ~3 went|felt tight*": words, stems with *, classes with
// $, | between choices, ~n for a gap of n words, ~~n for one that crosses sentences
// and = for none at all.
func (k *tables) compileWording(s string) []element {
	var out []element
	gap, far, beside := 0, false, false
	for part := range strings.FieldsSeq(s) {
		if rest, ok := strings.CutPrefix(part, "~"); ok {
			rest, far = strings.CutPrefix(rest, "~")
			gap, _ = strconv.Atoi(rest)
			continue
		}
		if part == "=" {
			beside = true
			continue
		}
		e := k.choice(strings.Split(part, "|"))
		e.gap, e.far, e.beside = gap, far, beside
		out = append(out, e)
		gap, far, beside = 0, false, false
	}
	return out
}

// choice is one of several words or classes.
func (k *tables) choice(parts []string) element {
	if len(parts) == 1 {
		if strings.Contains(parts[0], "_") {
			return element{word: -1, choice: [][]element{k.compileWording(strings.ReplaceAll(parts[0], "_", " "))}}
		}
		if class, ok := strings.CutPrefix(parts[0], "$"); ok {
			e, ok := k.classes[class]
			if !ok {
				panic("care: no class " + class)
			}
			return e
		}
		return element{word: k.word(parts[0])}
	}
	out := element{word: -1}
	for _, p := range parts {
		out.choice = append(out.choice, []element{k.choice([]string{p})})
	}
	return out
}

// class adds a class: words parted by blanks, wordings of several words joined by _.
func (k *tables) class(name, words string) {
	e := element{word: -1}
	for w := range strings.FieldsSeq(words) {
		one := k.compileWording(strings.ReplaceAll(w, "_", " "))
		e.choice = append(e.choice, one)
		if len(one) == 1 && one[0].choice == nil {
			k.senses[one[0].word] = append(k.senses[one[0].word], name)
		}
	}
	k.classes[name] = e
}

// add compiles the wordings of groups; "a <> n b" lies in either order.
func (k *tables) add(to *list, lang Lang, groups ...group) {
	if to.first == nil {
		to.first = map[int][]int{}
	}
	for _, g := range groups {
		for line := range strings.Lines(g.text) {
			for _, w := range bothWays(strings.TrimSpace(line)) {
				m := meaning{wording: k.compileWording(w), verdict: g.verdict, level: g.level, lang: lang, effort: g.effort, negative: negative(w)}
				for n := range m.wording {
					m.wording[n].close, m.wording[n].closer = to.close, to.closer
				}
				for _, id := range firsts(m.wording[0], nil) {
					to.first[id] = append(to.first[id], len(to.all))
				}
				to.all = append(to.all, m)
			}
		}
	}
}

// firsts are the words that an element may begin with.
func firsts(e element, ids []int) []int {
	if e.choice == nil {
		return append(ids, e.word)
	}
	for _, c := range e.choice {
		ids = firsts(c[0], ids)
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// negativeClasses hold negations.
var negativeClasses = set(`$cant $dont $nohelp $stopsnot $notpee`)

// negative reports a wording with a negation of its own: "cant breathe".
func negative(wording string) bool {
	for w := range strings.FieldsFuncSeq(wording, func(r rune) bool { return r == ' ' || r == '|' || r == '_' }) {
		if negators[w] || negativeClasses[w] {
			return true
		}
	}
	return false
}

// bothWays reads "a <5> b" as "a ~5 b" and "b ~5 a", and so <<5>> with ~~5.
func bothWays(line string) []string {
	fields := strings.Fields(line)
	if len(fields) == 0 {
		return nil
	}
	at := slices.IndexFunc(fields, func(f string) bool { return f[0] == '<' })
	if at < 0 {
		return []string{line}
	}
	gap := strings.NewReplacer("<", "~", ">", "").Replace(fields[at])
	a, b := strings.Join(fields[:at], " "), strings.Join(fields[at+1:], " ")
	return []string{a + " " + gap + " " + b, b + " " + gap + " " + a}
}

// letters is the set of a word's letters, to tell quickly that two words differ.
func letters(s string) (set uint32) {
	for _, r := range s {
		if r >= 'a' && r <= 'z' {
			set |= 1 << (r - 'a')
		}
	}
	return set
}

// recognise says which entries of the vocabulary a word means, and whether it is spelt like one.
func (k *tables) recognise(word string) (ids []int, exact bool) {
	if id, ok := k.index[word]; ok {
		ids = append(ids, id)
	}
	for _, s := range k.stems[word[0]] {
		if strings.HasPrefix(word, s.text) {
			ids = append(ids, s.id)
		}
	}
	if degrees(word) {
		ids = append(ids, k.index["#degrees"])
		if strings.Contains(word, ".") {
			ids = append(ids, k.index["#decimal"])
		}
		if word[0] == '4' {
			ids = append(ids, k.index["#forty"])
		}
	}
	if number(word) {
		ids = append(ids, k.index["#number"])
		if v, err := strconv.Atoi(word); err == nil && v >= 100 && v < 1950 {
			ids = append(ids, k.index["#hundreds"])
		}
		if year(word) {
			ids = append(ids, k.index["#year"])
		}
	}
	_, whole := k.index[word]
	return ids, whole || number(word)
}

// misspelt are the entries that a word is probably meant to be: the first letter
// is right, and few others are wrong. With whole, stems are left out.
func (k *tables) misspelt(word string, whole bool) (ids []int) {
	if len(word) < 4 || ordinary[word] {
		return nil
	}
	set, best := letters(word), 3
	for _, s := range k.long[word[0]] {
		if whole && s.open {
			continue
		}
		most := 1
		if len(s.text) >= 8 {
			most = 2
		}
		if len(word) < len(s.text)-most || !s.open && len(word) > len(s.text)+most || bits.OnesCount32(s.bits&^set) > most {
			continue
		}
		switch d := distance(s.text, word, s.open); {
		case d > most || d > best:
		case d < best:
			best, ids = d, []int{s.id}
		default:
			ids = append(ids, s.id)
		}
	}
	return ids
}

// number reports digits, with a point or without.
func number(word string) bool {
	return word[0] >= '0' && word[0] <= '9'
}

// distance counts letters that are wrong, missing, too many or swapped. With
// open only the beginning of the second word counts.
func distance(a, b string, open bool) int {
	if len(a) > 40 || len(b) > 40 {
		return 99
	}
	var rows [3][42]int
	before, last, row := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	if open {
		return slices.Min(last[:len(b)+1])
	}
	return last[len(b)]
}
