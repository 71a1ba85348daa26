package asked

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

// weightsData is what Train writes: a line of the words that are known, then for each
// feature its hash, how rare it is, its scale, and its weight for each topic, two in
// a byte.
//
//go:embed weights.bin
var weightsData string

// A weight is kept as a whole number from -7 to 7 of its row's scale, how rare a feature is
// as a small whole number of rareStep, and a scale as how many parts of an octave it is
// below one.
const (
	scaleOctave = 16
	rareStep    = 1.0 / 24
	rowHead     = 4 + 1 + 1 // hash, rarity, scale
)

func scaleOf(kept byte) float64 { return math.Exp2(-float64(kept) / scaleOctave) }

// rowSize is how many bytes a feature takes.
var rowSize = rowHead + (len(Topics)+1)/2

type classifier struct {
	words []string // of the lines that it was trained on
	at    map[uint32]int
	rows  string
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
	words, rows, _ := strings.Cut(data, "\n")
	c := &classifier{words: strings.Fields(words), rows: rows, at: map[uint32]int{}}
	for i := 0; i+rowSize <= len(rows); i += rowSize {
		c.at[uint32(rows[i])|uint32(rows[i+1])<<8|uint32(rows[i+2])<<16|uint32(rows[i+3])<<24] = i + 4
	}
	return c
}

// sums are the classifier's sums for each topic.
func (c *classifier) sums(p *Part) []float64 {
	list := weigh(p.features(), func(f feature) (float64, bool) {
		at, ok := c.at[f.hash]
		if !ok {
			return 0, false
		}
		return float64(c.rows[at]) * rareStep, true
	})
	out := make([]float64, len(Topics))
	for _, f := range list {
		at := c.at[f.hash] + 1
		scale := f.value * scaleOf(c.rows[at])
		for t := range out {
			level := c.rows[at+1+t/2] >> (4 * (t % 2)) & 15
			out[t] += scale * float64(int(level)-8)
		}
	}
	return out
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
