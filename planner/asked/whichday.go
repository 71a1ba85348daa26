package asked

import (
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/typed"
)

var (
	notThis   = plain.Compile(` not (?:on |for |the |this )*$`)
	butThat   = plain.Compile(` (?:but|it is|its|that is|rather|make it|i mean|instead) `)
	afterThat = plain.Compile(`^ after(?: that| it| this| then)?(?: one)?(?: $| (?:what|is|do|can|may|will|i) )`)
	missWords = plain.Compile(` (?:not|skipped|skip|missed|miss|never|no|nothing|failed|bailed|binned|dropped|could not|did not) `)
	tellsFact = plain.Compile(` (?:am|is|are|was|were|have|has|had|got|did|went|rode|will be|work|working|says|said|means) `)
	asksThis  = plain.Compile(`^ (?:so |and |but |then |um |ok |please )*(?:what|which|how|when|can|could|may|might|should|shall|do|does|is|are|am|will|would|tell me|show me) `)
)

// whichDay leaves away the day before the one that counts: one that is denied, one that is told
// before another day is asked about, the one that went well before the one that was missed.
func (p *Part) whichDay(today planner.Date) {
	if p.onlyReason(today) || len(p.Dates) < 2 || p.joined(0) || p.Dates[0].Ask != nil || p.Dates[1].Ask != nil || p.Dates[0].end == 0 || p.Dates[1].at < p.Dates[0].end {
		return
	}
	first, second := p.Dates[0], p.Dates[1]
	before := " " + slotText(p.words[p.sentence(first.at):first.at]) + " "
	between := " " + slotText(p.words[first.end:second.at]) + " "
	switch {
	case notThis.MatchString(before) && butThat.MatchString(between) && !strings.HasSuffix(between, " not "):
		if p.bareWeekday(second) && afterThat.MatchString(p.behind(second)) {
			day := first.To.AddDays(1)
			day = day.AddDays((int(second.From.Weekday()) - int(day.Weekday()) + 7) % 7)
			p.Dates[1] = Span{From: day, To: day, at: second.at, end: second.end, set: true}
		}
		p.Dates = p.Dates[1:]
	case p.Topic == Missed && !missWords.MatchString(p.piece(first)) && missWords.MatchString(p.piece(second)):
		p.Dates = p.Dates[1:]
	case asksOfDay[p.Topic] && tellsFact.MatchString(p.piece(first)) && !asksThis.MatchString(p.piece(first)) && asksThis.MatchString(p.piece(second)):
		p.Dates = p.Dates[1:]
	case (looksBackMostly[p.Topic] || p.Topic == Sleep) && p.Topic != RedFlag && p.asksLater(today):
	case p.Topic == MayI && p.words[second.at-1].end == 0 && strings.HasPrefix(p.behind(second), " instead "):
		p.Dates = p.Dates[1:] // Tuesday's intervals on Wednesday instead
	}
}

// asksLater leaves the day ahead that is asked about where the one before only tells since when something is
// wrong: upset since yesterday, can I ride on Saturday?
func (p *Part) asksLater(today planner.Date) bool {
	n := len(p.Dates)
	first, last := p.Dates[0], p.Dates[n-1]
	if first.Ask != nil || last.Ask != nil || last.end == 0 || last.From != last.To || first.From > today {
		return false
	}
	if anew, ok := readSpan(lowText(p.words[last.at:last.end]), today, typed.Date); ok && anew.Ask == nil && !last.set {
		last.From, last.To = anew.From, anew.To
	}
	clause := p.clause(last)
	asks := asksThis.MatchString(p.piece(last)) || p.words[p.sentenceEnd(last.end-1)-1].asks || asksBehind.MatchString(" "+slotText(p.words[last.end:min(len(p.words), last.end+3)])+" ")
	if last.From <= today || !asks || !toRide.MatchString(clause) {
		return false
	}
	p.Dates = []Span{last}
	return true
}

// toRide are words of a question about riding on a day.
var toRide = plain.Compile(` (?:ride|rides|riding|train|training|session|sessions|race|start|spin|bike|go|do|make|happens|idea|ok|okay|on|out|off|gym|intervals|workout|still|skip|rest|yes|turbo|plan|wise|sensible) `)

// onlyReason leaves the last of several days where those before only say why it is asked about: since Sunday was
// long, what's Saturday?
func (p *Part) onlyReason(today planner.Date) bool {
	n := len(p.Dates)
	if n < 2 || !asksOfDay[p.Topic] || p.Dates[n-1].Ask != nil || p.Dates[n-1].end == 0 || !sinceThat.MatchString(p.piece(p.Dates[0])) || !asksThis.MatchString(p.piece(p.Dates[n-1])) {
		return false
	}
	last := p.Dates[n-1]
	if anew, ok := readSpan(lowText(p.words[last.at:last.end]), today, typed.Date); ok && anew.Ask == nil && !last.set {
		last.From, last.To = anew.From, anew.To
	}
	p.Dates = []Span{last}
	return true
}

var sinceThat = plain.Compile(`^ (?:so |and |but |well )*(?:since|as|because|given|seeing) `)

// asksOfDay are topics that ask about one day, so that what is told of another day does not count.
var asksOfDay = map[Topic]bool{Ride: true, MayI: true, HowHard: true, Strength: true, RaceMorning: true, Rider: true}

// piece are the words around a day up to the signs and the words that part clauses.
func (p *Part) piece(s Span) string {
	from, to := s.at, s.end
	for from > 0 && p.words[from-1].end == 0 && !partsClauses[p.words[from].low] {
		from--
	}
	for to < len(p.words) && p.words[to-1].end == 0 && !partsClauses[p.words[to].low] {
		to++
	}
	return " " + slotText(p.words[from:to]) + " "
}

// partsClauses are words with which another clause begins.
var partsClauses = wordSet("but so though although while whereas because")
