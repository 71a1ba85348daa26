package asked

import (
	"maps"
	"math"
	"slices"
	"strings"
)

func sortStrings(list []string) { slices.Sort(list) }

// The groups of what the classifier sees of a part. Each is weighed by itself, so
// that a long text says no more than a short one.
const (
	byWord    = iota // words as they were mended, and pairs of them
	byTold           // words as they were written, pairs and threes of them
	byPiece          // pieces of the text as it was written, across words
	bySense          // what words mean
	bySenses         // pairs and threes of what words mean
	byBoth           // what any two words mean, wherever they stand
	byForm           // how it begins, how long it is, which days it names
	byClause         // words and what they mean in the clause that asks
	allGroups        // how many groups there are
)

var (
	groupWeights = [allGroups]float64{1, 1, 1.2, 1, 1, 0.85, 0.5, 0.8}
	leastSeen    = [allGroups]int{2, 2, 3, 2, 3, 3, 2, 3} // in how many lines a feature must be
)

// feature is something that a part has, by its hash, and how often.
type feature struct {
	hash  uint32
	group uint8
	value float64
	row   int // of its weights, once it was weighed
}

// collector gathers the features of one part.
type collector struct{ list []feature }

func (c *collector) put(group uint8, parts ...string) {
	h := uint32(2166136261)
	h = (h ^ uint32(group)) * 16777619
	for _, p := range parts {
		for i := range len(p) {
			h = (h ^ uint32(p[i])) * 16777619
		}
		h = (h ^ 0x1f) * 16777619
	}
	c.list = append(c.list, feature{hash: h, group: group, value: 1})
}

// pieces puts the runs of two to six letters of a text.
func (c *collector) pieces(text string) {
	for n := 2; n <= 6; n++ {
		for i := 0; i+n <= len(text); i++ {
			c.put(byPiece, text[i:i+n])
		}
	}
}

// runs puts words, pairs and threes of them, with where a text begins and ends.
func (c *collector) runs(words []string) {
	words = append(append([]string{"^"}, words...), "$")
	for i := range words {
		for n := 1; n <= 3 && i+n <= len(words); n++ {
			c.put(byTold, words[i:i+n]...)
		}
	}
}

// features are what the classifier sees of a part, each once, in the order of their hashes.
func (p *Part) features() []feature {
	var c collector
	words := strings.Fields(p.plain)
	for i, w := range words {
		c.put(byWord, w)
		if i+1 < len(words) {
			c.put(byWord, w, words[i+1])
		}
	}
	told := p.written()
	c.runs(told)
	c.pieces(" " + strings.Join(told, " ") + " ")
	c.senses(words)
	c.both(words)
	c.form(p, words)
	c.clause(p)
	slices.SortFunc(c.list, func(a, b feature) int { return int(int64(a.hash) - int64(b.hash)) })
	out := c.list[:0]
	for _, f := range c.list {
		if n := len(out); n > 0 && out[n-1].hash == f.hash {
			out[n-1].value++
			continue
		}
		out = append(out, f)
	}
	for i := range out {
		out[i].value = 1 + math.Log(out[i].value)
	}
	return out
}

// written are the words as they were written, without names of races and riders.
func (p *Part) written() []string {
	var out []string
	for _, w := range p.words {
		if w.slot == "RACE" || w.slot == "RIDER" {
			if n := len(out); n == 0 || out[n-1] != w.slot {
				out = append(out, w.slot)
			}
			continue
		}
		out = append(out, strings.ToLower(w.raw))
	}
	if slices.ContainsFunc(p.words, func(w word) bool { return w.asks }) {
		out = append(out, "?")
	}
	return out
}

// both puts what any two words mean, in any order, up to mostBoth meanings.
func (c *collector) both(words []string) {
	seen := map[string]bool{}
	for _, w := range words {
		m := meanings(w)
		if m == nil {
			seen[w] = true
		}
		for _, s := range m {
			seen[s] = true
		}
	}
	list := slices.Sorted(maps.Keys(seen))
	list = list[:min(len(list), mostBoth)]
	for i, a := range list {
		for _, b := range list[i+1:] {
			c.put(byBoth, a, b)
		}
	}
}

const mostBoth = 80

// senses puts what words mean, alone, in pairs, across one word, and in threes.
func (c *collector) senses(words []string) {
	list := make([][]string, len(words))
	for i, w := range words {
		if list[i] = meanings(w); list[i] == nil {
			list[i] = []string{w}
			continue
		}
		for _, s := range list[i] {
			c.put(bySense, s)
		}
	}
	for i := range list {
		for gap := 1; gap <= 2 && i+gap < len(list); gap++ {
			for _, a := range list[i] {
				for _, b := range list[i+gap] {
					c.put(bySenses, a, b, "12"[gap-1:gap])
				}
			}
		}
		if i+2 < len(list) {
			c.put(bySenses, list[i][0], list[i+1][0], list[i+2][0])
		}
	}
}

// clause puts the words of the clause that asks and what they mean: the rest is why somebody asks.
func (c *collector) clause(p *Part) {
	asking := Part{words: p.asking()}
	before := "^"
	for _, w := range strings.Fields(asking.canonical()) {
		means := meanings(w)
		c.put(byClause, w)
		c.put(byClause, before, w)
		for _, s := range means {
			c.put(byClause, "#", s)
		}
		if before = w; means != nil {
			before = "#" + means[0]
		}
	}
}

// leastClause is how many words a clause has that can ask by itself.
const leastClause = 3

// asking are the words of the clause that asks: the last that begins as a question or ends with
// its mark, else the last one.
func (p *Part) asking() []word {
	from, to, best := 0, len(p.words), 0
	found := false
	for i, w := range p.words {
		if w.end == 0 && i+1 < len(p.words) {
			continue
		}
		if clause := p.words[from : i+1]; len(clause) >= leastClause {
			asks := opens(clause) || w.asks
			if asks || !found {
				best, to, found = from, i+1, found || asks
			}
			from = i + 1
		}
	}
	return p.words[best:to]
}

// form puts how a part begins, how long it is, and what days it names.
func (c *collector) form(p *Part, words []string) {
	first := func(i int) string {
		if m := meanings(words[i]); m != nil {
			return "$" + m[0]
		}
		return words[i]
	}
	if len(words) > 0 {
		c.put(byForm, "first", first(0))
		c.put(byForm, "last", first(len(words)-1))
	}
	if len(words) > 1 {
		c.put(byForm, "first", first(0), first(1))
	}
	c.put(byForm, "length", string(rune('a'+min(8, int(2*math.Log2(float64(len(words)+1)))))))
	for _, w := range p.words {
		if w.slot == "DAY" || w.slot == "SPAN" {
			c.put(byForm, "day", w.low)
		}
	}
	ours := 0
	for _, w := range words {
		if w == "RACE" || w == "RIDER" || slices.ContainsFunc(meanings(w), func(s string) bool { return ofRiding[s] }) {
			ours++
		}
	}
	c.put(byForm, "ours", string(rune('0'+min(4, ours))))
	c.put(byForm, "ours of", string(rune('0'+ours*8/max(1, len(words)))))
}

// ofRiding are meanings of words that are about riding, racing and what goes with it. A text with
// none is seldom for us.
var ofRiding = wordSet("ride session plan taper easeoff volume effort openers hardride rest race season after missed ill fever hurt body danger heart flat legs sleep food drinks gym drug away nobike block team export form usual help thank")

// weigh turns counts into shares: rare features say more, and each group has its weight.
func weigh(list []feature, rowOf func(hash uint32) (row int, rare float64, ok bool)) []feature {
	out := list[:0]
	var total [allGroups]float64
	for _, f := range list {
		row, rare, ok := rowOf(f.hash)
		if !ok {
			continue
		}
		f.row = row
		f.value *= rare
		total[f.group] += f.value * f.value
		out = append(out, f)
	}
	for i := range out {
		g := out[i].group
		out[i].value *= groupWeights[g] / math.Sqrt(total[g])
	}
	return out
}
