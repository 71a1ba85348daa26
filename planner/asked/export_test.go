package asked

import (
	"encoding/binary"
	"maps"
	"math"
	"slices"
	"strings"
	"sync"
)

// Sample is a line that is learned from.
type Sample struct {
	Text  string
	Topic Topic
	Known Known
}

// Learn puts what samples teach in place of weights.bin, until it is put back.
func Learn(weights []byte) (back func()) {
	before := learned
	l := newLexis(parseWeights(string(weights)))
	learned = func() *lexis { return l }
	return func() { learned = before }
}

// ReadWeights reads weights.bin.
func ReadWeights() (of any) { return parseWeights(weightsData) }

const (
	ridge    = 1.0 // how dear weights are
	rounds   = 25
	blocks   = 4   // of samples that are worked on at once
	sharper  = 9.0 // what makes shares of the sums
	mostRows = 200000

	mostLevel = 7 // of a weight that is kept

	mostHolding = 1500 // lines that hold a feature by which they are compared
)

// Train is what weights.bin holds for samples: a ridge regression.
func Train(samples []Sample) []byte {
	plain := Learn([]byte("\n"))
	words := rawWords(samples)
	plain()
	defer Learn([]byte(strings.Join(words, " ") + "\n"))()
	lists := make([][]feature, len(samples))
	seen := map[uint32]int{}
	atOnce(len(samples), func(_, from, to int) {
		for i := from; i < to; i++ {
			lists[i] = prepare(samples[i]).features()
		}
	})
	for i := range lists {
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
		rare[i] = rarity(len(samples), seen[h])
	}
	known := packLines(lists, samples)
	for i := range lists {
		lists[i] = weigh(lists[i], func(hash uint32) (row int, rareness float64, ok bool) {
			row, ok = rows[hash]
			if !ok {
				return 0, 0, false
			}
			return row, float64(rare[row]) * rareStep, true
		})
	}
	weights := fit(lists, len(hashes), samples)
	out := []byte(strings.Join(words, " ") + "\n")
	slices.Sort(hashes)
	out = packHashes(out, hashes)
	for _, h := range hashes {
		i := rows[h]
		out = append(out, rare[i])
		out = packRow(out, weights[i*len(Topics):(i+1)*len(Topics)])
	}
	return append(out, known...)
}

// packLines writes what each line is about, and which lines hold each feature by which they are compared.
func packLines(lists [][]feature, samples []Sample) []byte {
	out := binary.LittleEndian.AppendUint32(nil, uint32(len(samples)))
	held, group := map[uint32][]uint16{}, map[uint32]uint8{}
	for i, s := range samples {
		out = append(out, byte(slices.Index(Topics, s.Topic)))
		for _, f := range lists[i] {
			if likeness[f.group] {
				held[f.hash], group[f.hash] = append(held[f.hash], uint16(i)), f.group
			}
		}
	}
	maps.DeleteFunc(held, func(_ uint32, lines []uint16) bool { return len(lines) < 2 || len(lines) > mostHolding })
	hashes := slices.Sorted(maps.Keys(held))
	out = packHashes(out, hashes)
	var features []byte
	for _, h := range hashes {
		lines := held[h]
		out = binary.LittleEndian.AppendUint32(out, uint32(len(features)))
		features = append(features, group[h], rarity(len(samples), len(lines)))
		features = binary.LittleEndian.AppendUint16(features, uint16(len(lines)))
		for _, i := range lines {
			features = binary.LittleEndian.AppendUint16(features, i)
		}
	}
	return append(out, features...)
}

// packHashes writes how many hashes there are, and each.
func packHashes(out []byte, hashes []uint32) []byte {
	out = binary.LittleEndian.AppendUint32(out, uint32(len(hashes)))
	for _, h := range hashes {
		out = binary.LittleEndian.AppendUint32(out, h)
	}
	return out
}

// rarity is how rare a feature is that so many of the lines hold, in steps.
func rarity(lines, seen int) byte {
	return byte(min(255, (1+math.Log(float64(lines+1)/float64(seen+1)))/rareStep))
}

// packRow writes a row of weights.
func packRow(out []byte, weights []float32) []byte {
	top := 0.0
	for _, w := range weights {
		top = max(top, math.Abs(float64(w)))
	}
	scale := byte(255)
	if top > 0 {
		scale = byte(max(0, min(254, math.Floor(-scaleOctave*math.Log2(top/mostLevel)))))
	}
	out = append(out, scale)
	for t := 0; t < len(weights); t += 2 {
		pair := byte(0)
		for i := t; i < min(t+2, len(weights)); i++ {
			level := 8.0
			if top > 0 {
				level += max(-mostLevel, min(mostLevel, math.Round(float64(weights[i])/scaleOf(scale))))
			}
			pair |= byte(level) << (4 * (i - t))
		}
		out = append(out, pair)
	}
	return out
}

// fit finds the weights of topics for each row by ridge regression: conjugate gradients in
// as many unknowns as there are samples.
func fit(lists [][]feature, rows int, samples []Sample) []float32 {
	n := len(Topics)
	x := matrix{at: make([][]int, len(samples)), value: make([][]float32, len(samples)), rows: rows}
	residue := make([]float32, len(samples)*n)
	for i, s := range samples {
		for _, f := range lists[i] {
			x.at[i] = append(x.at[i], f.row*n)
			x.value[i] = append(x.value[i], float32(f.value))
		}
		for t := range n {
			residue[i*n+t] = -1 / float32(n-1)
		}
		residue[i*n+slices.Index(Topics, s.Topic)] = 1
	}
	part := make([]float32, len(residue))
	way := slices.Clone(residue)
	square := dots(residue, residue)
	for range rounds {
		image := x.times(x.gather(way))
		for i := range image {
			image[i] += ridge * way[i]
		}
		along := dots(way, image)
		for i := range part {
			if a := along[i%n]; a > 0 {
				step := float32(square[i%n] / a)
				part[i] += step * way[i]
				residue[i] -= step * image[i]
			}
		}
		next := dots(residue, residue)
		for i := range way {
			if square[i%n] > 0 {
				way[i] = residue[i] + float32(next[i%n]/square[i%n])*way[i]
			}
		}
		square = next
	}
	weights := x.gather(part)
	for i := range weights {
		weights[i] *= sharper
	}
	return weights
}

// matrix has what each sample holds: places of rows of weights, and their values.
type matrix struct {
	at    [][]int
	value [][]float32
	rows  int
}

// gather sums what the samples hold, each as often as it counts for a topic.
func (x *matrix) gather(counts []float32) []float32 {
	n := len(Topics)
	var sums [blocks][]float32
	atOnce(len(x.at), func(block, from, to int) {
		out := make([]float32, x.rows*n)
		for i := from; i < to; i++ {
			own := counts[i*n : (i+1)*n]
			for j, at := range x.at[i] {
				value := x.value[i][j]
				row := out[at : at+n]
				for t, c := range own {
					row[t] += value * c
				}
			}
		}
		sums[block] = out
	})
	for _, more := range sums[1:] {
		for i, v := range more {
			sums[0][i] += v
		}
	}
	return sums[0]
}

// times are the sums of each sample for each topic.
func (x *matrix) times(weights []float32) []float32 {
	n := len(Topics)
	out := make([]float32, len(x.at)*n)
	atOnce(len(x.at), func(_, from, to int) {
		for i := from; i < to; i++ {
			own := out[i*n : (i+1)*n]
			for j, at := range x.at[i] {
				value := x.value[i][j]
				for t, w := range weights[at : at+n] {
					own[t] += value * w
				}
			}
		}
	})
	return out
}

// atOnce does work in blocks that are always the same, so that sums are too.
func atOnce(n int, work func(block, from, to int)) {
	var wait sync.WaitGroup
	for block := range blocks {
		wait.Go(func() { work(block, block*n/blocks, (block+1)*n/blocks) })
	}
	wait.Wait()
}

// dots are the products of two lists for each topic.
func dots(a, b []float32) []float64 {
	out := make([]float64, len(Topics))
	for i, v := range a {
		out[i%len(out)] += float64(v) * float64(b[i])
	}
	return out
}

// prepare reads a text up to where its topic is judged.
func prepare(s Sample) *Part {
	p := &Part{words: cut(s.Text)}
	s.Known.dated = datedNames(s.Known.Races)
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
