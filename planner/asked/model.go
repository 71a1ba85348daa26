package asked

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"sync"
)

// weightsText has a line a feature, the weights of topics behind it: "w:taper 2=1.31 3=0.4".
//
//go:embed weights.txt
var weightsText string

// wordsLine begins the line of the words that are known.
const wordsLine = "known"

// weight is what a feature says about a topic, by its place in Topics.
type weight struct {
	topic int
	value float64
}

type classifier struct {
	words   []string // of the lines that it was trained on
	weights map[string][]weight
}

var model = sync.OnceValue(func() *classifier { return parseWeights(weightsText) })

func parseWeights(text string) *classifier {
	c := &classifier{weights: map[string][]weight{}}
	for line := range strings.Lines(text) {
		feature, rest, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
		if !ok {
			continue
		}
		if feature == wordsLine {
			c.words = strings.Fields(rest)
			continue
		}
		for _, pair := range strings.Fields(rest) {
			topic, value, _ := strings.Cut(pair, "=")
			i, err := strconv.Atoi(topic)
			v, err2 := strconv.ParseFloat(value, 64)
			if err == nil && err2 == nil && i >= 0 && i < len(Topics) {
				c.weights[feature] = append(c.weights[feature], weight{i, v})
			}
		}
	}
	return c
}

// logits are the classifier's sums for each topic.
func (c *classifier) logits(plain string) []float64 {
	sums := make([]float64, len(Topics))
	for _, f := range features(plain) {
		for _, w := range c.weights[f] {
			sums[w.topic] += w.value
		}
	}
	return sums
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
