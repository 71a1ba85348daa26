package asked

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

// weightsData is what Train writes: a line of the words that are known, then for each
// feature its hash, how rare it is, and its weight for each topic.
//
//go:embed weights.bin
var weightsData string

// The weights are kept as small whole numbers of these.
const (
	weightStep = 1.0 / 24
	rareStep   = 1.0 / 24
	rowSize    = 4 + 1 // of a feature, its weights apart
)

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
}

// learned is what weights.bin holds. Tests put what less text teaches in its place.
var learned = sync.OnceValue(func() *lexis { return newLexis(parseWeights(weightsData)) })

func newLexis(c *classifier) *lexis {
	l := &lexis{classifier: c, known: wordSet(dateWords + " " + moreWords + " monday tuesday wednesday thursday friday saturday sunday"), byLength: map[int][]string{}}
	for w := range concepts() {
		l.known[w] = true
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

func parseWeights(data string) *classifier {
	words, rows, _ := strings.Cut(data, "\n")
	c := &classifier{words: strings.Fields(words), rows: rows, at: map[uint32]int{}}
	size := rowSize + len(Topics)
	for i := 0; i+size <= len(rows); i += size {
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
		for t := range out {
			out[t] += f.value * float64(int8(c.rows[at+t])) * weightStep
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
