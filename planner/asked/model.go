package asked

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

// weightsData is what Train writes: a line of the words that are known, the hashes of features, for
// each how rare it is, its scale, and its weight for each topic, two in a byte, then the lines that
// were learned (linesOf). It is read in place: maps of it would take 10 MB of the heap.
//
//go:embed weights.bin
var weightsData string

// A weight is kept as a whole number from -7 to 7 of its row's scale, how rare a feature is
// as a small whole number of rareStep, and a scale as how many parts of an octave it is
// below one.
const (
	scaleOctave = 16
	rareStep    = 1.0 / 24
	rowHead     = 1 + 1 // rarity, scale
)

func scaleOf(kept byte) float64 { return math.Exp2(-float64(kept) / scaleOctave) }

// rowSize is how many bytes a feature takes.
var rowSize = rowHead + (len(Topics)+1)/2

type classifier struct {
	words  []string // of the lines that it was trained on
	hashes hashes
	rows   string
	lines  *lines
}

// hashes are numbers of four bytes each, in rising order.
type hashes string

// hashesOf takes off the hashes at the head of data, and before them how many there are.
func hashesOf(data string) (hashes, string) {
	end := 4 + 4*int(number32(data, 0))
	return hashes(data[4:end]), data[end:]
}

// find returns the place of a hash.
func (h hashes) find(hash uint32) (place int, ok bool) {
	from, to := 0, len(h)/4
	for from < to {
		middle := int(uint(from+to) / 2)
		if number32(string(h), 4*middle) < hash {
			from = middle + 1
		} else {
			to = middle
		}
	}
	return from, 4*from < len(h) && number32(string(h), 4*from) == hash
}

// lexis is what was learned and the words that are known by it.
type lexis struct {
	*classifier
	known    map[string]bool
	byLength map[int][]string // the known words that slips are mended to
	names    nameShelf
}

// learned is what weights.bin holds. Tests put what less text teaches in its place.
var learned = sync.OnceValue(func() *lexis { return newLexis(parseWeights(weightsData)) })

func newLexis(c *classifier) *lexis {
	l := &lexis{classifier: c, known: wordSet(dateWords + " " + moreWords + " monday tuesday wednesday thursday friday saturday sunday"), byLength: map[int][]string{}}
	for w, means := range concepts() {
		if len(means) > 1 || means[0] != "placename" { // names of races are spelt in many ways
			l.known[w] = true
		}
	}
	for w := range opening {
		l.known[w] = true
	}
	for _, w := range l.words {
		l.known[w] = true
	}
	for w := range l.known {
		if len(w) >= 4 {
			l.byLength[len(w)] = append(l.byLength[len(w)], w)
		}
	}
	for _, list := range l.byLength {
		sortStrings(list)
	}
	return l
}

// nameShelf keeps the words of races' names that hold a day or a number: they are the same in each message of a rider.
type nameShelf struct {
	sync.Mutex
	words map[string][]word
}

// mostNames is how many names are kept.
const mostNames = 5000

// of are the words of such a name as those of a text are read, nil of another name. Nobody changes them.
func (s *nameShelf) of(name string) []word {
	s.Lock()
	kept, ok := s.words[name]
	s.Unlock()
	if ok {
		return kept
	}
	kept = datedWords(name)
	s.Lock()
	defer s.Unlock()
	if len(s.words) >= mostNames || s.words == nil {
		s.words = map[string][]word{}
	}
	s.words[name] = kept
	return kept
}

func parseWeights(data string) *classifier {
	words, rest, _ := strings.Cut(data, "\n")
	c := &classifier{words: strings.Fields(words), lines: &lines{}}
	if rest == "" {
		return c
	}
	c.hashes, rest = hashesOf(rest)
	end := rowSize * len(c.hashes) / 4
	c.rows, c.lines = rest[:end], linesOf(rest[end:])
	return c
}

// number32 is the number that four bytes hold.
func number32(s string, i int) uint32 {
	return uint32(s[i]) | uint32(s[i+1])<<8 | uint32(s[i+2])<<16 | uint32(s[i+3])<<24
}

func number16(s string, i int) int { return int(s[i]) | int(s[i+1])<<8 }

// sums are the classifier's sums for each topic, and what the lines say that are most like a part.
func (c *classifier) sums(p *Part) []float64 {
	list := p.features()
	out := make([]float64, len(Topics))
	c.lines.nearest(list, out)
	list = weigh(list, func(hash uint32) (row int, rare float64, ok bool) {
		place, ok := c.hashes.find(hash)
		if !ok {
			return 0, 0, false
		}
		row = rowSize * place
		return row, float64(c.rows[row]) * rareStep, true
	})
	for _, f := range list {
		at := f.row + 1
		scale := f.value * scaleOf(c.rows[at])
		for t := range out {
			level := c.rows[at+1+t/2] >> (4 * (t % 2)) & 15
			out[t] += scale * float64(int(level)-8)
		}
	}
	return out
}

const (
	nearestLines = 8   // that are asked what a text is about
	nearestSay   = 1.0 // what they add to the sums, all together
)

// likeness are the groups of features by which texts are compared.
var likeness = [allGroups]bool{byWord: true, byTold: true, bySense: true}

// lines are the lines that were learned: what each is about, and for each feature which hold it.
type lines struct {
	topics string
	hashes hashes
	starts string // where each feature begins in held, four bytes each
	held   string
	norms  [allGroups][]float32 // how much each line holds of a group
}

// listed is a feature with the lines that hold it, two bytes each.
type listed struct {
	group uint8
	rare  float64
	held  string
}

// linesOf reads how many lines there are, their topics, the hashes of features, where each begins, and for each
// its group, how rare it is, how many lines hold it, and which.
func linesOf(data string) *lines {
	n := int(number32(data, 0))
	l := &lines{topics: data[4 : 4+n]}
	l.hashes, data = hashesOf(data[4+n:])
	l.starts, l.held = data[:len(l.hashes)], data[len(l.hashes):]
	for g := range l.norms {
		if likeness[g] {
			l.norms[g] = make([]float32, n)
		}
	}
	for place := range len(l.hashes) / 4 {
		f := l.feature(place)
		for i := 0; i < len(f.held); i += 2 {
			l.norms[f.group][number16(f.held, i)] += float32(f.rare * f.rare)
		}
	}
	for g := range l.norms {
		for i, v := range l.norms[g] {
			l.norms[g][i] = float32(math.Sqrt(float64(v)))
		}
	}
	return l
}

// feature is what the lines hold at a place of their hashes.
func (l *lines) feature(place int) listed {
	at := int(number32(l.starts, 4*place))
	from := at + 4
	return listed{l.held[at], float64(l.held[at+1]) * rareStep, l.held[from : from+2*number16(l.held, at+2)]}
}

// nearest adds to the sums what the lines are about that are most like a text.
func (l *lines) nearest(list []feature, sums []float64) {
	like := make([]float32, len(l.topics))
	var total [allGroups]float64
	held := make([]listed, len(list))
	for i, f := range list {
		if place, ok := l.hashes.find(f.hash); ok {
			at := l.feature(place)
			held[i] = at
			total[at.group] += f.value * f.value * at.rare * at.rare
		}
	}
	for i, f := range list {
		at := held[i]
		if at.held == "" {
			continue
		}
		norms, value := l.norms[at.group], float32(f.value*at.rare*at.rare/math.Sqrt(total[at.group]))
		for i := 0; i < len(at.held); i += 2 {
			line := number16(at.held, i)
			like[line] += value / norms[line]
		}
	}
	var best [nearestLines]int
	found := 0
	for i, v := range like {
		at := found
		for at > 0 && v > like[best[at-1]] {
			at--
		}
		if at == nearestLines || v == 0 {
			continue
		}
		found = min(found+1, nearestLines)
		copy(best[at+1:], best[at:found-1])
		best[at] = i
	}
	all := 0.0
	for _, i := range best[:found] {
		all += float64(like[i]) * float64(like[i])
	}
	for _, i := range best[:found] {
		sums[l.topics[i]] += nearestSay * float64(like[i]) * float64(like[i]) / all
	}
}

// shares turns sums into shares of one.
func shares(sums []float64) []float64 {
	top := math.Inf(-1)
	for _, v := range sums {
		top = max(top, v)
	}
	total := 0.0
	out := make([]float64, len(sums))
	for i, v := range sums {
		out[i] = math.Exp(v - top)
		total += out[i]
	}
	for i := range out {
		out[i] /= total
	}
	return out
}
