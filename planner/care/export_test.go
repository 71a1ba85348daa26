package care

import "math"

// Sample is a line that is learned from. Talk is a danger to talk about, Urgent an
// emergency where Leveled says that its writer has told.
type Sample struct {
	Text            string
	Danger, Talk    bool
	Leveled, Urgent bool
}

// featuresOf remembers what it has seen, for training is done many times.
var featuresOf = func() func(string) []feature {
	seen := map[string][]feature{}
	return func(text string) []feature {
		list, ok := seen[text]
		if !ok {
			t := cut(text, 0)
			t.hide(&known().figures)
			list = t.features()
			seen[text] = list
		}
		return list
	}
}()

// row is a line as it is learned.
type row struct {
	features []feature
	want     bool
}

// Train learns what is danger, what of it is to be talked about, and what is an emergency.
func Train(lines []Sample) []byte {
	var all, dangers, leveled []row
	for _, l := range lines {
		list := featuresOf(l.Text)
		all = append(all, row{list, l.Danger})
		if l.Danger {
			dangers = append(dangers, row{list, l.Talk})
		}
		if l.Danger && l.Leveled {
			leveled = append(leveled, row{list, l.Urgent})
		}
	}
	return append(append(train(all), train(dangers)...), train(leveled)...)
}

// train is a logistic regression that takes the lines in a fixed order.
func train(rows []row) []byte {
	yes := 0
	for _, r := range rows {
		if r.want {
			yes++
		}
	}
	up := math.Sqrt(float64(len(rows)-yes) / float64(max(yes, 1)))
	w, seen, bias := make([]float64, buckets), make([]float64, buckets), 0.0
	const rounds, decay = 60, 2e-4
	at := uint64(1)
	for range rounds * len(rows) {
		at = at*6364136223846793005 + 1442695040888963407
		r := rows[(at>>33)%uint64(len(rows))]
		sum, slope := bias, 0.0
		for _, f := range r.features {
			sum += float64(w[f.place] * f.value)
		}
		if slope = logistic(sum); r.want {
			slope = up * (slope - 1)
		}
		bias -= float64(0.02 * slope)
		for _, f := range r.features {
			g := float64(slope*f.value) + float64(decay*w[f.place])
			seen[f.place] += float64(g * g)
			w[f.place] -= 0.15 * g / math.Sqrt(1e-4+seen[f.place])
		}
	}
	out := make([]byte, 0, modelSize)
	for _, v := range append(w, bias) {
		out = append(out, byte(int8(max(-127, min(127, math.Round(v/weightStep))))))
	}
	return out
}

// Learn puts weights in place of those of the program until back is called.
func Learn(w []byte) (back func()) {
	s := string(w)
	old := weights
	weights = &s
	return func() { weights = old }
}

// Tables is what the tables alone find.
func Tables(text string) Finding {
	t := cut(text, 0)
	t.hide(&known().figures)
	return t.judge(&known().meanings, false)
}
