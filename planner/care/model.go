package care

import (
	_ "embed"
	"math"
	"slices"
)

// weightsData is what Train writes: how much each place tells of danger, how much
// none does, then the same of what is talked about with somebody rather than seen by a
// doctor, and of what is an emergency rather than something less.
//
//go:embed weights.bin
var weightsData string

const (
	weightStep = 1.0 / 8
	modelSize  = buckets + 1
)

// weights are those of weights.bin. Tests put what fewer lines teach in their place.
var weights = &weightsData

// likely is how likely the model thinks that a text tells of danger, that such a danger
// is one to talk about, and that it is an emergency.
func (t *text) likely() (danger, talk, urgent float64) {
	var sum [3]float64
	weight := func(of, place int) float64 { return float64(int8((*weights)[of*modelSize+place])) * weightStep }
	list := t.features()
	for of := range sum {
		sum[of] = weight(of, buckets)
		for _, f := range list {
			sum[of] += f.value * weight(of, int(f.place))
		}
	}
	return logistic(sum[0]), logistic(sum[1]), logistic(sum[2])
}

func logistic(v float64) float64 { return 1 / (1 + math.Exp(-v)) }

// From how likely the model asks where the tables find nothing, and below what it says
// nothing where they ask.
const (
	askFrom    = 0.25
	unsureFrom = 0.06 // where a reader of questions may ask, who hears danger
	sureFrom   = 0.8  // where the tables have seen danger that is meant otherwise
	doubtFrom  = 0.01
	restFrom   = 0.05 // the same of an illness that asks for rest alone
	illFrom    = 0.02 // below what such an illness is none, though the tables are sure
	talkFrom   = 0.4  // that it is to be talked about
	urgentFrom = 0.66 // that it is an emergency, where the tables find something less
	urgentSure = 0.85 // and where they find what a doctor must see, such as palpitations alone
	// fewWords are too few for the model.
	fewWords = 4
)

// stopsFrom is how likely danger must be for a stop of each level.
var stopsFrom = map[Level]float64{Easy: 0.2, Rest: 0.6, Doctor: 0.87, Talk: 0.7, Head: 0.87, Emergency: 0.87}

// weighedAgain is a finding of the tables after the model has seen the text. It
// never takes a stop away altogether, but for an illness that asks for rest alone.
func (t *text) weighedAgain(f Finding) Finding {
	if len(t.tokens) < fewWords {
		return f
	}
	danger, talk, urgent := t.likely()
	from := askFrom
	if t.otherwise {
		from = sureFrom
	}
	switch {
	case f.Level <= Rest && f.Verdict == Stop && danger < illFrom && !t.hasFever():
		return Finding{}
	case f.Verdict == Stop && danger < stopsFrom[f.Level] && !(f.Level == Rest && danger >= stopsFrom[Easy] && t.hasFever()):
		f.Verdict = Ask
	case f.Verdict == Ask && (danger < doubtFrom || f.Level <= Rest && danger < restFrom):
		return Finding{}
	case f.Verdict == Nothing && danger >= from:
		f = Finding{Verdict: Ask, Level: Doctor, Lang: t.lang}
		if talk >= talkFrom {
			f.Level = Talk
		}
	}
	if f.Verdict == Stop || f.Level <= Rest { // else it is asked in any case
		urgent *= danger
	}
	least := urgentFrom
	if f.Verdict == Stop && f.Level == Doctor {
		least = urgentSure
	}
	if f.Level >= Rest && f.Level != Talk && urgent >= least {
		f.Level = Emergency
	}
	return f
}

// hasFever reports whether somebody says that they have a fever: that is no doubt, whatever
// they ask behind it.
func (t *text) hasFever() bool {
	for i, tok := range t.tokens {
		says := tok.word == "ive" || i > 0 && (tok.word == "have" || tok.word == "got") && (t.tokens[i-1].word == "i" || t.tokens[i-1].word == "ive")
		if !says {
			continue
		}
		for _, next := range t.tokens[i+1 : min(i+4, len(t.tokens))] {
			if next.word == "fever" || next.word == "temperature" || next.word == "flu" {
				return true
			}
		}
	}
	return false
}

// What the model sees of a text. Each kind is weighed by itself, so that a long
// text says no more than a short one.
const (
	byWord   = iota // words and pairs of them
	byLetter        // pieces of words
	bySense         // classes of the tables, alone and beside each other
	byTurn          // words after a negation, beside somebody else, beside what is past
	allKinds        // how many kinds there are
)

var kindWeights = [allKinds]float64{1.4, 1.4, 1.4, 1}

// buckets are how many places features are sorted into.
const buckets = 1 << 16

// feature is something that a text has, by its place, and how much of it.
type feature struct {
	place uint32
	kind  uint8
	value float64
}

type collector struct{ list []feature }

func (c *collector) put(kind uint8, parts ...string) {
	h := (uint32(2166136261) ^ uint32(kind)) * 16777619
	for _, p := range parts {
		for i := range len(p) {
			h = (h ^ uint32(p[i])) * 16777619
		}
		h = (h ^ 0x1f) * 16777619
	}
	c.list = append(c.list, feature{(h ^ h>>16) % buckets, kind, 1})
}

// features are what the model sees, each once. What is hidden it does not see.
func (t *text) features() []feature {
	var c collector
	before := "^"
	words := make([]string, len(t.tokens))
	for i, tok := range t.tokens {
		words[i] = tok.word
		if tok.hidden {
			words[i] = "#hidden"
		} else if number(tok.word) {
			words[i] = "#" + sizeOf(tok.word)
		}
	}
	for _, w := range words {
		c.put(byWord, w)
		c.put(byWord, before, w)
		before = w
		if w[0] == '#' {
			continue
		}
		padded := " " + w + " "
		for n := 3; n <= 5; n++ {
			for j := 0; j+n <= len(padded); j++ {
				c.put(byLetter, padded[j:j+n])
			}
		}
	}
	t.senses(&c)
	t.turnsOf(&c, words)
	return c.normal()
}

// sizeOf tells numbers apart as far as they say something.
func sizeOf(word string) string {
	switch {
	case degrees(word):
		return "degrees"
	case year(word):
		return "year"
	case len(word) > 2:
		return "hundreds"
	}
	return "number"
}

// senses puts the classes of words, alone and in pairs with at most four words between.
func (t *text) senses(c *collector) {
	k := known()
	list := make([][]string, len(t.tokens))
	for i, tok := range t.tokens {
		if tok.hidden {
			continue
		}
		for _, id := range tok.is {
			for _, s := range k.senses[id] {
				if !slices.Contains(list[i], s) {
					list[i] = append(list[i], s)
				}
			}
		}
		for _, s := range list[i] {
			c.put(bySense, s)
			for j := max(0, i-5); j < i; j++ {
				for _, other := range list[j] {
					c.put(bySense, min(s, other), max(s, other))
				}
			}
		}
	}
}

// turnsOf finds negations, other people and the past, and the words that follow each.
func (t *text) turnsOf(c *collector, words []string) {
	var all langs
	for i := range all {
		all[i] = true
	}
	sc := t.scopes(all)
	for name, marks := range map[string][]bool{"not": sc.not, "others": sc.others, "past": sc.past, "now": sc.now, "over": sc.over, "unsure": sc.unsure, "self": sc.self, "gone": sc.gone, "well": sc.well} {
		for i := range words {
			if !marks[i] {
				continue
			}
			c.put(byTurn, name)
			for j := i + 1; j < min(len(words), i+4); j++ {
				c.put(byTurn, name, words[j])
			}
		}
	}
}

// normal joins equal features and makes each kind as long as its weight.
func (c *collector) normal() []feature {
	slices.SortFunc(c.list, func(a, b feature) int { return int(a.kind)<<20 + int(a.place) - int(b.kind)<<20 - int(b.place) })
	out := c.list[:0]
	for _, f := range c.list {
		if n := len(out); n > 0 && out[n-1].place == f.place && out[n-1].kind == f.kind {
			out[n-1].value++
			continue
		}
		out = append(out, f)
	}
	var total [allKinds]float64
	for i := range out {
		out[i].value = 1 + math.Log(out[i].value)
		total[out[i].kind] += out[i].value * out[i].value
	}
	for i := range out {
		out[i].value *= kindWeights[out[i].kind] / math.Sqrt(total[out[i].kind])
	}
	return out
}
