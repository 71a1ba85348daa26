package asked

import (
	"slices"
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
	tellsFact = plain.Compile(` (?:am|is|are|was|were|have|has|had|got|did|went|rode|will be|will ask|asks|asked|work|working|says|said|means) `)
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
	case notThis.MatchString(before) && (butThat.MatchString(between) || strings.TrimSpace(between) == "" && p.words[first.end-1].end != 0) && !strings.HasSuffix(between, " not "):
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

// mostBetween is how many words stand between a week and its days: how much this week, I have done Tuesday.
const mostBetween = 3

// mostBetween allows a whole question between a week and its day: midweek next week what do I ride, Wednesday?
func (p *Part) mostBetween() int {
	if p.Topic == Ride {
		return mostBetween + 3
	}
	return mostBetween
}

// daysOfWeek puts weekdays into the week that is named before or behind them: tuesday and
// wednesday next week; next week from Monday to Friday.
func (p *Part) daysOfWeek() bool {
	week := slices.IndexFunc(p.Dates, func(s Span) bool {
		return s.Ask == nil && s.end > 0 && s.From.Weekday() == 0 && s.From.DaysUntil(s.To) == 6
	})
	if week >= 0 && len(p.Dates) == 2 && p.otherClause(week) {
		p.Dates = p.Dates[week : week+1]
		return true
	}
	from, to := 0, week
	if week == 0 {
		from, to = 1, len(p.Dates)
	}
	if week < 0 || week > 3 || from == to || week == 0 && p.Dates[1].at-p.Dates[0].end > p.mostBetween() {
		return false
	}
	for i := from; i < to; i++ {
		if p.Dates[i].Ask != nil || !p.bareWeekday(p.Dates[i]) {
			if week > 0 || !p.weekdaysOf(0) || i < 3 {
				return false
			}
			to = i // their dates follow: second week of July from Monday to Friday, 6-10.07
		}
	}
	for i := from; i < to; i++ {
		day := p.Dates[week].From.AddDays(int(p.Dates[i].From.Weekday()))
		p.Dates[i].From, p.Dates[i].To = day, day
	}
	p.Dates = p.Dates[from:to]
	return true
}

// otherClause reports that a weekday beside a week is told of something else, in a clause of its own: who tapers next
// week? I coach on Tuesday.
func (p *Part) otherClause(week int) bool {
	s, day := p.Dates[week], p.Dates[1-week]
	if !manyDaysAsked[p.Topic] && p.Topic != WhoTapers || day.Ask != nil || !p.bareWeekday(day) {
		return false
	}
	for _, w := range p.words[min(s.end, day.end)-1 : max(s.at, day.at)] {
		if w.end == '.' || w.end != 0 && p.Topic == WhoTapers {
			return true
		}
	}
	return false
}

// weekdaysOf reports a week that has two of its weekdays behind it: from Monday to Friday.
func (p *Part) weekdaysOf(i int) bool {
	s := p.Dates[i]
	return s.From.Weekday() == 0 && s.From.DaysUntil(s.To) == 6 && i+2 < len(p.Dates) && p.joined(i+1) && p.bareWeekday(p.Dates[i+1]) && p.bareWeekday(p.Dates[i+2])
}

// correction are words that take back the day before them.
var correction = plain.Compile(` (?:sorry|i mean|i meant|no wait|wait no|correction|scratch that|make that) `)

// soThen are words behind which the day stands that is asked about: it rains on Saturday, so Sunday?
var soThen = plain.Compile(` so (?:what about |how about |then |for |on |is |what is )*(?:the )?$`)

// thenAbout are words behind which another day is asked about than the one that was told.
var thenAbout = plain.Compile(` (?:what|how) about (?:the |on |for )*$`)

// itIsNow are words before the day that only says what today is: it's Thursday, what is tomorrow?
var itIsNow = plain.Compile(`^ (?:so |well |ok |hi |hey |now )*(?:it is|today is) (?:a |now |already |only )*$`)

// correctedDate leaves away days that are taken back: Wednesday, no sorry, Thursday.
func (p *Part) correctedDate(today planner.Date) {
	if first := p.Dates; len(first) > 1 && first[0].end > 0 && first[0].Ask == nil && first[1].Ask == nil && p.bareWeekday(first[0]) && first[0].From.Weekday() == today.Weekday() && itIsNow.MatchString(" "+lowText(p.words[:first[0].at])+" ") {
		p.Dates = first[1:]
	}
	for i := len(p.Dates) - 1; i > 0; i-- {
		before, s := p.Dates[i-1], p.Dates[i]
		if before.end == 0 || s.at <= before.end {
			continue
		}
		between := " " + lowText(p.words[before.end:s.at]) + " "
		taken := s.at-before.end < 6 && correction.MatchString(between) && !strings.Contains(between, " and what ") || between == " no " && p.words[before.end-1].end != 0
		if p.Topic == Missed && !taken && missWords.MatchString(p.piece(before)) {
			continue // never rode on Tuesday, so what is on tonight
		}
		if taken || (asksAhead[p.Topic] || s.Ask == nil && s.end > 0 && !p.bareWeekday(s)) && (soThen.MatchString(between) || thenAbout.MatchString(between) && !strings.Contains(lowText(p.words[:before.at]), " about")) {
			p.Dates = p.Dates[i:]
			return
		}
	}
}

// closerDate leaves away a day that another one says more exactly: the Thursday session
// on the 11th; Monday to Sunday, this week; the second week of August (10th to 16th).
func (p *Part) closerDate() {
	if len(p.Dates) < 2 || p.Dates[0].Ask != nil || p.Dates[1].Ask != nil {
		return
	}
	first, second := p.Dates[0], p.Dates[1]
	switch {
	case p.daysOfWeek():
	case isWeekend(first) && first.end > 0 && second.at == first.end && p.joined(1) && first.end-first.at == 1:
		p.Dates = p.Dates[1:] // long weekend Fri 12 to Sun 14
	case isWeekend(first) && first.at > 0 && first.end > 0 && p.words[max(0, first.at-2)].low == "after" && p.bareWeekday(second) && second.From > first.To:
		p.Dates = p.Dates[1:] // after the weekend, on Monday
	case p.daysOfWeekend():
	case isWeekend(first) && p.joined(1) && second.From <= first.From && p.Dates[2].To >= first.To:
		p.Dates = p.Dates[1:]
	case p.bareWeekday(first) && !p.bareWeekday(second) && second.From == second.To && second.From.Weekday() == first.From.Weekday():
		p.Dates = p.Dates[1:]
	case p.numberOfWeekday():
	case p.joined(0) && p.bareWeekday(first) && p.bareWeekday(second) && len(p.Dates) > 2 && p.Dates[2].Ask == nil && p.Dates[2].set && p.Dates[2].From.DaysUntil(p.Dates[2].To) == 6:
		p.Dates = p.Dates[2:]
	case p.joined(0) && p.bareWeekday(first) && dayOfWeek.MatchString(lowText(p.words[second.at:second.end])):
		p.Dates[0].From = second.From.AddDays(int(first.From.Weekday()) - int(second.From.Weekday()))
		p.Dates[0].To = p.Dates[0].From
		p.Dates[1].From, p.Dates[1].To = second.From, second.From
	case p.runToWeek():
	case first.set && first.From.DaysUntil(first.To) >= 6 && p.joined(1) && p.Dates[2].From > second.From && p.Dates[1].From >= first.From.AddDays(-3) && p.Dates[1].From <= first.To.AddDays(3):
		p.Dates = p.Dates[1:]
	}
}

// daysOfWeekend puts days that follow a weekend into it: the last weekend of June, Friday to Sunday; at the weekend,
// on Saturday.
func (p *Part) daysOfWeekend() bool {
	first := p.Dates[0]
	if !isWeekend(first) || first.end == 0 || p.Dates[1].at-first.end > mostBetween || p.joined(0) {
		return false
	}
	rest := p.Dates[1:]
	if len(rest) > 2 || len(rest) == 2 && !p.joined(1) {
		return false
	}
	for _, s := range rest {
		if s.Ask != nil || !p.bareWeekday(s) || len(rest) == 1 && s.From.Weekday() < planner.Saturday {
			return false
		}
	}
	for i := range rest {
		step := int(rest[i].From.Weekday()) - int(planner.Saturday)
		if step < -2 { // Monday and Tuesday follow a weekend, Thursday and Friday go before
			step += 7
		}
		rest[i].From, rest[i].To, rest[i].set = first.From.AddDays(step), first.From.AddDays(step), true
	}
	p.Dates = rest
	return true
}

// runToWeek puts weekdays into the week that the last of them names: mon tue wed this week.
func (p *Part) runToWeek() bool {
	n := len(p.Dates) - 1
	last := p.Dates[n]
	if n < 2 || last.Ask != nil || last.end == 0 || last.From != last.To || !dayOfWeek.MatchString(lowText(p.words[last.at:last.end])) {
		return false
	}
	for i := range n {
		if p.Dates[i].Ask != nil || !p.bareWeekday(p.Dates[i]) || p.Dates[i+1].at-p.Dates[i].end > 1 || p.Dates[i].From.Weekday() >= last.From.Weekday() {
			return false
		}
	}
	for i := range n {
		day := last.From.AddDays(int(p.Dates[i].From.Weekday()) - int(last.From.Weekday()))
		p.Dates[i].From, p.Dates[i].To = day, day
	}
	return true
}

// numberOfWeekday leaves a day of a month where a weekday before it says less: next Sunday, the 7th.
func (p *Part) numberOfWeekday() bool {
	for i := 1; i < len(p.Dates); i++ {
		before, s := p.Dates[i-1], p.Dates[i]
		if s.Ask != nil || before.Ask != nil || s.From != s.To || before.From != before.To || before.end == 0 || s.at < before.end || s.at-before.end > mostBetween+1 {
			continue
		}
		words := lowText(p.words[before.at:before.end])
		if numberedDay.MatchString(lowText(p.words[s.at:s.end])) && !numberedDay.MatchString(words) && aWeekday.MatchString(words) && (before.From.Weekday() == s.From.Weekday() || namedBefore(words, s.From)) {
			p.Dates = slices.Delete(p.Dates, i-1, i)
			return true
		}
	}
	return false
}

var (
	numberedDay = plain.Compile(`\d(?:st|nd|rd|th|[./]\d)|\d (?:january|february|march|april|may|june|july|august|september|october|november|december)|(?:january|february|march|april|may|june|july|august|september|october|november|december) \d`)
	aWeekday    = plain.Compile(`(?:mon|tues|wednes|thurs|fri|satur|sun)day`)
)

// namedBefore reports whether words hold the weekday of a day.
func namedBefore(words string, day planner.Date) bool {
	return strings.Contains(words, strings.ToLower(day.Weekday().String()))
}

// dayOfWeek is a weekday of this week or the next, in so many words.
var dayOfWeek = plain.Compile(`day (?:this|next) week$`)

func isWeekend(s Span) bool {
	return s.From.Weekday() == planner.Saturday && s.From.DaysUntil(s.To) == 1
}

var (
	idleBefore = plain.Compile(`^(?:(?:on|the|a|in) )+`)
	partOfDay  = plain.Compile(` (?:morning|evening|afternoon|night)$`)
)

// bareWeekday reports whether a day is named by nothing but its weekday.
func (p *Part) bareWeekday(s Span) bool {
	if s.end == 0 {
		return false
	}
	text := idleBehind.ReplaceAllString(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), "")
	return weekdays[partOfDay.ReplaceAllString(text, "")]
}
