package typed

import (
	"math"
	"slices"
	"strings"

	"musette/planner"
)

// hedges are words next to a length that do not change it.
var hedges = wordSet(`about around roughly approx approximately circa ca c prob probably perhaps bout like only ish or so max maximum most total all in altogether lol for me its it is was
	a an the of if im i i'm lucky call say think guess hope hopefully minimum least at on clock turbo bike rollers road time long ride race crit crits evening morning each day tops give take will should be
	took did done odd reckon dot bang dead legs thereabouts last year sure definitely exactly pretty ok maybe just easy steady usually normally today then expected riding my`)

// vagueBefore and vagueAfter make a length no exact one: just over the hour, two and a bit.
var vagueBefore = wordSet("over under nearly almost above below past")

// lengthReader reads one length among words that change nothing.
type lengthReader struct {
	text    string
	style   spanStyle
	example string
	toks    []token
	named   bool // a unit was typed
	counted bool // the last token was a number without unit: 1 day is no hour

	spans []toldSpan
}

// toldSpan is a length with what was typed around it.
type toldSpan struct {
	span
	bare   bool // without unit
	vague  bool
	joined bool // joined to the one before it: 1-2h, 60 to 90
}

// spanWords are several words of a length that mean one.
var spanWords = strings.NewReplacer("more or less", "about", "a couple of hours", "2 hours", "couple of hours", "2 hours", "couple hours", "2 hours")

func (l *lengthReader) unreadable() error {
	if err := isFar(l.text); err != nil {
		return err
	}
	return planner.BadInput("", "%s is not a length. Write it like %s", quoted(l.text), l.example)
}

func (l *lengthReader) read() (span, error) {
	l.toks = withDigits(lex(spanWords.Replace(strings.ToLower(l.text)), true))
	l.named = slices.ContainsFunc(l.toks, func(t token) bool { _, ok := timeUnits[t.text]; return ok && t.kind == wordToken })
	vague, link := false, false
	for len(l.toks) > 0 {
		t := l.toks[0]
		sp, n := readSpan(l.toks, l.style)
		if n > 0 {
			if open := clockOrDecimal(t, sp.unit); open != nil {
				return span{}, open
			}
			_, named := unitAt(l.toks, n-1)
			l.spans = append(l.spans, toldSpan{sp, n == 1 && !named, vague, link})
			l.toks, vague, link, l.counted = l.toks[n:], false, false, n == 1 && !named
			continue
		}
		took := 1
		switch {
		case len(l.spans) > 0 && (t.isMark("-") || t.isWord("to") || t.isWord("or") && !l.at(1, "so")) && l.spanAhead(1):
			link = true
		case vagueBefore[t.text] && t.kind == wordToken:
			vague = true
		case len(l.spans) > 0 && joinsFraction(t) && l.at(1, "a") && l.at(2, "bit"):
			l.spans[len(l.spans)-1].vague = true
			took = 3
			if _, unit := unitAt(l.toks, 3); unit {
				took++
			}
		case l.counted && (t.isWord("day") || t.isWord("year")):
			return span{}, l.unreadable()
		case t.isMark("-") && t.glued && l.at(1, "ish"):
		case t.kind == wordToken && hedges[t.text]:
		case t.kind == markToken && strings.Contains(",.!~≈()?", t.text):
		default:
			return span{}, l.unreadable()
		}
		l.toks, l.counted = l.toks[took:], false
	}
	return l.one()
}

func (l *lengthReader) at(i int, word string) bool { return i < len(l.toks) && l.toks[i].isWord(word) }

func (l *lengthReader) spanAhead(i int) bool {
	_, n := readSpan(l.toks[i:], l.style)
	return n > 0
}

// one is the one length that was meant.
func (l *lengthReader) one() (span, error) {
	for i := 1; i < len(l.spans); i++ {
		if l.spans[i].joined {
			return span{}, askLengths(l.text, l.spans[i-1], l.spans[i])
		}
	}
	exact := slices.DeleteFunc(slices.Clone(l.spans), func(sp toldSpan) bool { return sp.vague })
	switch {
	case len(l.spans) == 0:
		return span{}, l.unreadable()
	case len(exact) == 0:
		return span{}, planner.BadInput("", "%s is no exact length. Write it like %s", quoted(l.text), l.example)
	}
	for _, sp := range exact[1:] {
		if sp.seconds != exact[0].seconds {
			return span{}, planner.BadInput("", "%s has two lengths. Write one, like %s", quoted(l.text), l.example)
		}
	}
	return exact[0].span, nil
}

// clockOrDecimal asks about 1.30h, which may be an hour and a half or 1.3 hours. Tenths,
// quarters and thirds of an hour are decimals.
func clockOrDecimal(t token, unit timeUnit) error {
	whole, part, found := strings.Cut(strings.Replace(t.text, ",", ".", 1), ".")
	if unit != hourUnit || !found || len(part) != 2 || part >= "60" || part == "25" || part[1] != '0' && part[1] != '5' || part == "00" {
		return nil
	}
	clock, decimal := whole+"h"+part, planner.Duration(int(math.Round(t.value*60)))
	return ask(t.text+"h", Reading{clock, clock}, Reading{decimal, decimal})
}

// askLengths asks which of two lengths is meant. The first may lack its unit: 1-2h.
func askLengths(text string, from, to toldSpan) error {
	typed := from.seconds
	if from.bare && !to.bare {
		from.seconds = from.seconds / from.unit.seconds() * spanUnit(to.span).seconds()
	}
	if from.seconds >= to.seconds { // 50-60min
		from.seconds = typed
	}
	low, high := int(math.Round(from.seconds/60)), int(math.Round(to.seconds/60))
	if low < 1 || high <= low || high > minutesPerDay {
		return planner.BadInput("", "%s has two lengths. Write one, for example 1h30", quoted(text))
	}
	middle := (low + high + 5) / 10 * 5
	fault := planner.BadInput("", "%s is two lengths. Write one, for example %s", quoted(text), planner.Duration(middle))
	var readings []Reading
	for _, m := range slices.Compact([]int{low, middle, high}) {
		readings = append(readings, Reading{planner.Duration(m), planner.Duration(m)})
	}
	return &Ambiguous{readings, fault}
}

// spanUnit is the unit in which a span counts: hours where it is one or more.
func spanUnit(sp span) timeUnit {
	if sp.unit == minuteUnit && sp.seconds >= 3600 && math.Mod(sp.seconds, 3600) == 0 {
		return hourUnit
	}
	return sp.unit
}

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}
