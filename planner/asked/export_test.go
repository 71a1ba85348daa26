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
	rounds   = 24
	rate     = 0.4
	decay    = 2e-5
	mostRows = 120000

	mostLevel = 7 // of a weight that is kept
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
	for _, list := range lists {
		for _, f := range list {
			if seen[f.hash] < leastSeen[f.group] {
				delete(seen, f.hash)
			}
		}
	}
	hashes := slices.Sorted(maps.Keys(seen))
	slices.SortStableFunc(hashes, func(a, b uint32) int { return seen[b] - seen[a] })
	hashes = hashes[:min(len(hashes), mostRows)]
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
		out = packRow(out, weights[i*len(Topics):(i+1)*len(Topics)])
	}
	return out
}

// packRow writes a row of weights.
func packRow(out []byte, weights []float32) []byte {
	top := 0.0
	for _, w := range weights {
		top = max(top, math.Abs(float64(w)))
	}
	scale := min(255, math.Ceil(top/mostLevel/scaleStep))
	out = append(out, byte(scale))
	for t := 0; t < len(weights); t += 2 {
		pair := byte(0)
		for i := t; i < min(t+2, len(weights)); i++ {
			level := 8.0
			if scale > 0 {
				level += max(-mostLevel, min(mostLevel, math.Round(float64(weights[i])/(scale*scaleStep))))
			}
			pair |= byte(level) << (4 * (i - t))
		}
		out = append(out, pair)
	}
	return out
}

// fit finds the weights of topics for each row.
func fit(lists [][]feature, rows map[uint32]int, samples []Sample) []float32 {
	n := len(Topics)
	weights := make([]float32, len(rows)*n)
	topics := make([]int, len(samples))
	at := make([][]int, len(samples))
	for i, s := range samples {
		topics[i] = slices.Index(Topics, s.Topic)
		for _, f := range lists[i] {
			at[i] = append(at[i], rows[f.hash]*n)
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	sums, wide := make([]float32, n), make([]float64, n)
	for round := range rounds {
		step := rate / (1 + 0.15*float64(round))
		for _, i := range r.Perm(len(lists)) {
			clear(sums)
			for j, f := range lists[i] {
				value := float32(f.value)
				for t, w := range weights[at[i][j]:][:n] {
					sums[t] += value * w
				}
			}
			for t, s := range sums {
				wide[t] = float64(s)
			}
			share := shares(wide)
			share[topics[i]]--
			var wrong []int
			for t, g := range share {
				if math.Abs(g) > 2e-3 {
					wrong = append(wrong, t)
				}
			}
			for j, f := range lists[i] {
				row := weights[at[i][j]:][:n]
				for _, t := range wrong {
					row[t] -= float32(step * f.value * share[t])
				}
			}
		}
		keep := float32(1 - step*decay*float64(len(lists)))
		for i := range weights {
			weights[i] *= keep
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
	seen, named := map[string]int{}, map[string]bool{}
	for _, s := range samples {
		for _, r := range s.Known.Races {
			for _, w := range nameParts(r.Name) {
				named[w] = !commonNames[w]
			}
		}
		for _, w := range prepare(s).words {
			if low := strings.ToLower(w.raw); w.slot == "" && len(low) >= 4 && strings.Trim(low, "abcdefghijklmnopqrstuvwxyz") == "" && shortForms[low] == "" {
				seen[low]++
			}
		}
	}
	maps.DeleteFunc(seen, func(w string, n int) bool { return n < 2 || named[w] })
	return slices.Sorted(maps.Keys(seen))
}
