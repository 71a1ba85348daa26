package asked

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"musette/planner"
)

// Line is a line of the corpus.
type Line struct {
	Topic Topic
	Text  string
}

// SampleKnown is what the corpus takes for granted.
func SampleKnown() Known {
	today := planner.NewDate(2026, 6, 1)
	return Known{Today: today, Riders: []string{"Tomas", "Ines", "Bram"}, Races: []planner.Race{
		{Name: "Quarry Crit", Date: today.AddDays(6), Days: 1, Priority: planner.PriorityC, Kind: "criterium"},
		{Name: "Heron Valley", Date: today.AddDays(13), Days: 1, Priority: planner.PriorityB},
		{Name: "Hill Loop", Date: today.AddDays(41), Days: 1, Priority: planner.PriorityA}}}
}

// Train are the weights of features as a logistic regression finds them.
func Train(lines []Line) string {
	type sample struct {
		features []int
		topic    int
	}
	ids, names := map[string]int{}, []string(nil)
	counts := map[string]int{}
	var seen [][]string
	for _, l := range lines {
		p := prepare(l.Text)
		f := features(p.plain)
		seen = append(seen, f)
		for _, name := range f {
			counts[name]++
		}
	}
	var samples []sample
	for i, l := range lines {
		s := sample{topic: slices.Index(Topics, l.Topic)}
		for _, name := range seen[i] {
			if counts[name] < 2 && (strings.HasPrefix(name, "b:") || strings.HasPrefix(name, "d:")) {
				continue
			}
			id, ok := ids[name]
			if !ok {
				id = len(names)
				ids[name], names = id, append(names, name)
			}
			s.features = append(s.features, id)
		}
		samples = append(samples, s)
	}
	weights := make([][]float64, len(names))
	for i := range weights {
		weights[i] = make([]float64, len(Topics))
	}
	r := rand.New(rand.NewPCG(1, 2))
	const rounds, decay = 40, 0.0004
	for round := range rounds {
		rate := 0.12 / (1 + 0.08*float64(round))
		for _, n := range r.Perm(len(samples)) {
			s := samples[n]
			sums := make([]float64, len(Topics))
			for _, f := range s.features {
				for t, w := range weights[f] {
					sums[t] += w
				}
			}
			share := shares(sums)
			for t := range share {
				g := share[t]
				if t == s.topic {
					g--
				}
				if math.Abs(g) < 1e-4 {
					continue
				}
				for _, f := range s.features {
					weights[f][t] -= rate * (g + decay*weights[f][t]*10)
				}
			}
		}
	}
	var out []string
	for i, name := range names {
		var b strings.Builder
		for t, w := range weights[i] {
			if math.Abs(w) >= 0.06 {
				fmt.Fprintf(&b, " %d=%.2f", t, w)
			}
		}
		if b.Len() > 0 {
			out = append(out, name+"\t"+b.String()[1:])
		}
	}
	slices.Sort(out)
	out = slices.Insert(out, 0, wordsLine+"\t"+strings.Join(rawWords(lines), " "))
	return strings.Join(out, "\n") + "\n"
}

// prepare reads a text up to where its topic is judged.
func prepare(text string) *Part {
	k := SampleKnown()
	p := &Part{words: cut(text)}
	p.findRider(k.Riders)
	p.findDates(k.Today)
	p.findLengths()
	p.findRace(k.Races, k.Today)
	p.plain = p.canonical()
	return p
}

// rawWords are the words of lines, as they were written.
func rawWords(lines []Line) []string {
	known := map[string]bool{}
	for _, l := range lines {
		for _, w := range strings.Fields(strings.ToLower(accents.Replace(l.Text))) {
			if w = strings.Trim(w, ".,!?:;"); len(w) >= 4 && strings.Trim(w, "abcdefghijklmnopqrstuvwxyz") == "" && shortForms[w] == "" {
				known[w] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(known))
}
