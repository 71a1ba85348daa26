package asked

import (
	"regexp"
	"slices"
	"strings"
)

// How sure the topic of a part must be to be answered beside others: what is said around
// a question is often no question of its own.
const (
	partShare    = 0.6  // where the whole supports it
	aloneShare   = 0.88 // where the whole does not
	supportShare = 0.12
	overShare    = 0.8 // to be answered in place of a whole that is about something else
	mostLeaning  = 8   // words
)

var pronouns = regexp.MustCompile(` (?:it|them|that|this|these|those|they|so|one|things) `)

// tooMuch asks whether races fit together.
var tooMuch = regexp.MustCompile(` (?:close|soon|near|much|many|wise|sensible) `)

// standsAlone reports whether a part is about something of its own, as far as the whole
// bears it out. A short one with a pronoun leans on what was said before.
func (p *Part) standsAlone(whole *Part) bool {
	if p.Confidence < partShare {
		return false
	}
	if whole.shares == nil || p.Topic == RedFlag || whole.shares[slices.Index(Topics, p.Topic)] >= supportShare {
		return true
	}
	return p.Confidence >= aloneShare && !p.leans()
}

func (p *Part) leans() bool {
	return !(p.Topic == Season && tooMuch.MatchString(p.plain)) && len(p.words) <= mostLeaning && len(p.Dates) == 0 && p.Race == nil && pronouns.MatchString(p.plain) && !strings.Contains(p.plain, "LEN")
}

// bothSure is how sure the topics of two halves must be where nothing but a comma or an
// "and" parts them.
const (
	bothSure = 0.7
	mostCuts = 4
)

// halves are words that can join two things that are asked or told.
var halves = wordSet("and but plus also or then")

// twoParts parts a text in two where each half is surely about something of its own, and the
// whole is about one of them: I missed Tuesday and my legs feel like lead.
func twoParts(all []word, whole Part, k Known) []Part {
	var best []Part
	tried := 0
	for i := 2; i+2 < len(all) && tried < mostCuts; i++ {
		joined := halves[all[i].low]
		if all[i-1].end == 0 && !joined {
			continue
		}
		tried++
		from := i
		for from < len(all)-2 && (halves[all[from].low] || fillers[all[from].low]) {
			from++
		}
		a, b := read(all[:i], k, ""), read(all[from:], k, "")
		if !ofItsOwn(&a) || !ofItsOwn(&b) || b.leans() || a.Topic == b.Topic || whole.Topic != a.Topic && whole.Topic != b.Topic {
			continue
		}
		if best == nil || min(a.Confidence, b.Confidence) > min(best[0].Confidence, best[1].Confidence) {
			b.inherit(&a)
			best = []Part{a, b}
		}
	}
	return best
}

// ofItsOwn reports whether half a text is surely about something.
func ofItsOwn(p *Part) bool {
	return p.Confidence >= bothSure && len(p.Offers) == 0 && !p.Follow && p.Topic != Unknown && p.Topic != Thanks && p.Topic != Help && p.Topic != RedFlag
}

var (
	fromWhen = regexp.MustCompile(` (?:when|start|starts|begin|begins|which day|what day) .*(?:(?:and|,) |how )`)
	howLong  = regexp.MustCompile(`how (?:long|many days) (?:is|does|do|will|lasts?|takes?|goes)`)
)

// asksLength reports whether a text that asks when a taper starts asks in the same breath
// how long it is.
func (p *Part) asksLength() bool {
	at := howLong.FindStringIndex(p.plain)
	return p.Topic == TaperStart && len(p.Offers) == 0 && at != nil && fromWhen.MatchString(p.plain[:at[0]]+"how ")
}
