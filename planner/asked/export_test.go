package asked

import (
	"encoding/binary"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// Sample is a line that is learned from.
type Sample struct {
	Text  string
	Topic Topic
	Known Known
}

// Learn puts what samples teach in the place of weights.bin, until it is put back.
func Learn(weights []byte) (back func()) {
	before := learned
	l := newLexis(parseWeights(string(weights)))
	learned = func() *lexis { return l }
	return func() { learned = before }
}

const (
	rounds    = 30
	rate      = 0.5
	decay     = 2e-5
	mostRows  = 60000
	leastSeen = 2
)

// Train is what weights.bin holds for samples: a logistic regression.
func Train(samples []Sample) []byte {
	plain := Learn([]byte("\n"))
	words := rawWords(samples)
	plain()
	defer Learn([]byte(strings.Join(words, " ") + "\n"))()
	lists := make([][]feature, len(samples))
	seen := map[uint32]int{}
	for i, s := range samples {
		lists[i] = prepare(s).features()
		for _, f := range lists[i] {
			seen[f.hash]++
		}
	}
	hashes := slices.Sorted(maps.Keys(seen))
	slices.SortStableFunc(hashes, func(a, b uint32) int { return seen[b] - seen[a] })
	hashes = hashes[:min(len(hashes), mostRows)]
	for len(hashes) > 0 && seen[hashes[len(hashes)-1]] < leastSeen {
		hashes = hashes[:len(hashes)-1]
	}
	rows, rare := map[uint32]int{}, make([]byte, len(hashes))
	for i, h := range hashes {
		rows[h] = i
		rare[i] = byte(min(255, (1+math.Log(float64(len(samples)+1)/float64(seen[h]+1)))/rareStep))
	}
	for i := range lists {
		lists[i] = weigh(lists[i], func(f feature) (float64, bool) {
			at, ok := rows[f.hash]
			if !ok {
				return 0, false
			}
			return float64(rare[at]) * rareStep, true
		})
	}
	weights := fit(lists, rows, samples)
	out := []byte(strings.Join(words, " ") + "\n")
	for i, h := range hashes {
		out = binary.LittleEndian.AppendUint32(out, h)
		out = append(out, rare[i])
		for _, w := range weights[i*len(Topics) : (i+1)*len(Topics)] {
			out = append(out, byte(int8(max(-127, min(127, math.Round(float64(w)/weightStep))))))
		}
	}
	return out
}

// fit finds the weights of topics for each row.
func fit(lists [][]feature, rows map[uint32]int, samples []Sample) []float64 {
	n := len(Topics)
	weights := make([]float64, len(rows)*n)
	topics := make([]int, len(samples))
	for i, s := range samples {
		topics[i] = slices.Index(Topics, s.Topic)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for round := range rounds {
		step := rate / (1 + 0.15*float64(round))
		for _, i := range r.Perm(len(lists)) {
			sums := make([]float64, n)
			for _, f := range lists[i] {
				row := weights[rows[f.hash]*n:][:n]
				for t, w := range row {
					sums[t] += f.value * w
				}
			}
			share := shares(sums)
			share[topics[i]]--
			var wrong []int
			for t, g := range share {
				if math.Abs(g) > 1e-3 {
					wrong = append(wrong, t)
				}
			}
			for _, f := range lists[i] {
				row := weights[rows[f.hash]*n:][:n]
				by := step * f.value
				for _, t := range wrong {
					row[t] -= by * share[t]
				}
			}
		}
		for i := range weights {
			weights[i] *= 1 - step*decay*float64(len(lists))
		}
	}
	return weights
}

// prepare reads a text up to where its topic is judged.
func prepare(s Sample) *Part {
	p := &Part{words: cut(s.Text)}
	p.find(s.Known)
	return p
}

// rawWords are the words of lines that come more than once, names of races and riders apart.
func rawWords(samples []Sample) []string {
	seen := map[string]int{}
	for _, s := range samples {
		for _, w := range prepare(s).words {
			if low := strings.ToLower(w.raw); w.slot == "" && len(low) >= 4 && strings.Trim(low, "abcdefghijklmnopqrstuvwxyz") == "" && shortForms[low] == "" {
				seen[low]++
			}
		}
	}
	maps.DeleteFunc(seen, func(_ string, n int) bool { return n < 2 })
	return slices.Sorted(maps.Keys(seen))
}
