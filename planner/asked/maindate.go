package asked

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/typed"
)

// sessionNext are words behind a day that speak of what is planned on it.
var sessionNext = wordSet("ride rides session race intervals training workout")

var (
	nowToEnd    = plain.Compile(` (?:now|here|today|DAY) (?:to|until|through|up to) (?:the )?end $`)
	fromNow     = plain.Compile(` (?:now|here) (?:to|until|through|up to|up until) (?:the )?$| between (?:now|DAY) and (?:the )?$`)
	aboutNow    = plain.Compile(`^(?:today|yesterday|tonight|now|this morning|this evening|last night)$`)
	forDays     = plain.Compile(`^(\d{1,2}|two|three|four|five|six|seven|ten) days from `)
	included    = plain.Compile(`^ today (?:included|inclusive|as well) `)
	comesBack   = plain.Compile(` (?:back|return|returning|home)(?: on| by)?(?: the)? $`)
	theWeek     = plain.Compile(` (?:the|my|this) week `)
	countedFrom = plain.Compile(`( in)? (\d|two|three|four|five|six|seven|ten) (days|weeks) (?:\w+ ){0,4}(?:from|starting|beginning)(?: on)?(?: the)? $`)
	lastsFor    = plain.Compile(`^ (?:on )?for (?:the |about )?(a|one|two|three|four|five|six|seven|ten|\d{1,2}) (?:whole |full )?(days?|weeks?|fortnight) `)
	nextTo      = plain.Compile(` (?:the |on the )day (?:before|after) (?:the )?$| (?:night|evening) before (?:the )?$`)
	untilDay    = plain.Compile(` (?:until|up to|through|till) (?:the )?$`)
	byDay       = plain.Compile(` (?:until|up to|through|till|by|before|the end of|the end) (?:the )?$`)
	toNow       = plain.Compile(`^ (?:to|until|till|up to) (?:now|today) `)
	busyWith    = plain.Compile(` (?:am i|i am|are you|is RIDER|RIDER is) up to (?:on )?(?:the )?$`)
	daysFrom    = plain.Compile(`^ (?:please )?(?:starting|from|beginning|start)(?: from| on)? $`)
	neverSince  = plain.Compile(` (?:not|no|nothing|never|havent|hasnt) .*since (?:the )?$`)
	idleBefore  = plain.Compile(`^(?:(?:on|the|a|in) )+`)
	idleBehind  = plain.Compile(`(?: the| of| in)+$`)
	partOfDay   = plain.Compile(` (?:morning|evening|afternoon|night)$`)
	theLast     = plain.Compile(` (?:the|that|in|my|these|of|only) (?:(?:in|the) )*last week`)
)

// stretched makes stretches of days that are counted from another: now to the 19th,
// 7 days from tomorrow, nothing since Monday.
func (p *Part) stretched(today planner.Date) {
	for i := range p.Dates {
		s := &p.Dates[i]
		if s.Ask != nil {
			continue
		}
		before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
		if s.From == s.To && s.end > 0 && p.countedOn(s, before) {
			continue
		}
		if i == 0 && s.end > 0 && s.From > today && p.bareWeekday(*s) && strings.HasSuffix(before, " from ") && toNow.MatchString(" "+lowText(p.words[s.end:min(len(p.words), s.end+4)])+" ") {
			s.From, s.To = s.From.AddDays(-7), s.To.AddDays(-7) // from Monday to now
		}
		switch {
		case s.set && i > 0 && s.end > 0 && p.Dates[i-1].Ask == nil && p.Dates[i-1].end == s.at && p.endOfMonth(s) >= p.Dates[i-1].From && toTheEnd.MatchString(lowText(p.words[s.at:s.end])):
			s.From, s.To = p.Dates[i-1].From, p.endOfMonth(s) // from the 20th to the end of the month
			p.Dates = slices.Delete(p.Dates, i-1, i)
			return
		case s.From == s.To && s.From > today && fromNow.MatchString(before) && (i == 0 || p.Dates[i-1].From <= today):
			s.From = today
			p.Dates = p.Dates[i:]
			return
		case s.set && s.From < today && s.To > today && nowToEnd.MatchString(before):
			s.From = today
			p.Dates = p.Dates[i:]
			return
		case i == 0 && ranOn[p.Topic] && s.From == s.To && len(p.Dates) == 2 && s.end > 0 && p.Dates[1].Ask == nil && p.Dates[1].From < s.From && untilDay.MatchString(before) && strings.HasPrefix(lowText(p.words[s.end:p.Dates[1].end]), "from "):
			s.From = p.Dates[1].From // till Sunday, from tomorrow
			p.Dates = p.Dates[:1]
			return
		case i == 0 && ranOn[p.Topic] && s.From == s.To && s.From > today && untilDay.MatchString(before) && !busyWith.MatchString(before):
			s.From = today
		case i == 1 && p.Topic == Hours && s.From == s.To && s.From > today && p.Dates[0].Ask == nil && p.Dates[0].To < today && byDay.MatchString(before):
			s.From = today // 5 hours since Monday, how many until Sunday?
			p.Dates = p.Dates[1:]
			return
		case i == 0 && p.Topic == Hours && s.From == s.To && strings.HasSuffix(before, " since ") && theWeek.MatchString(p.plain):
			s.From = s.From.AddDays(-int(s.From.Weekday()))
			s.To = s.From.AddDays(6)
		case p.Topic == Away && s.From == s.To && i+1 < len(p.Dates) && p.Dates[i+1].Ask == nil && p.Dates[i+1].From > s.From && s.end > 0 && p.Dates[i+1].at > s.end && comesBack.MatchString(" "+slotText(p.words[s.end:p.Dates[i+1].at])+" "):
			if p.Dates[i+1].From > s.From+1 { // the next day is not gone
				s.To = p.Dates[i+1].To
			}
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
			return
		case p.Topic == Away && s.From == s.To && i+1 < len(p.Dates) && s.end > 0 && p.Dates[i+1].Ask == nil && p.Dates[i+1].From > s.From && p.Dates[i+1].at-s.end > 1 && p.Dates[i+1].at-s.end < 8 && untilDay.MatchString(" "+slotText(p.words[s.end:p.Dates[i+1].at])+" ") && !strings.Contains(slotText(p.words[s.end:p.Dates[i+1].at]), "RACE"):
			s.To = p.Dates[i+1].To // from 20 June for a week, until the 27th
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
			return
		case p.Topic == Missed && s.From < today && neverSince.MatchString(before):
			s.To = today
		case s.set && i+1 < len(p.Dates) && p.Dates[i+1].Ask == nil && p.Dates[i+1].at > s.end && daysFrom.MatchString(" "+lowText(p.words[s.end:p.Dates[i+1].at])+" ") && !p.weekdaysOf(i):
			days := s.From.DaysUntil(s.To)
			s.From, s.To = p.Dates[i+1].From, p.Dates[i+1].From.AddDays(days)
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
			return
		}
	}
}

// endOfMonth is the last day of what goes on to the end of the month: that of the day before it, where that is later.
func (p *Part) endOfMonth(s *Span) planner.Date {
	for _, before := range p.Dates {
		if before.end == s.at && before.From > s.To && strings.HasSuffix(lowText(p.words[s.at:s.end]), " month") {
			year, month, _ := before.From.Civil()
			return planner.NewDate(year, month+1, 1).AddDays(-1)
		}
	}
	return s.To
}

// countedOn counts on or back from a day: the day after Sunday, for two days from Monday.
func (p *Part) countedOn(s *Span, before string) bool {
	if next := nextTo.FindString(before); next != "" {
		step := 1
		if strings.Contains(next, " before ") {
			step = -1
		}
		s.From, s.To, s.set = s.From.AddDays(step), s.To.AddDays(step), true
		return true
	}
	if m := forDays.FindStringSubmatch(lowText(p.words[s.at:s.end])); m != nil && strings.HasSuffix(before, " for ") {
		n := countOf(m[1])
		s.From, s.To = s.From.AddDays(-n), s.From.AddDays(-1)
		return true
	}
	if m := lastsFor.FindStringSubmatch(" " + lowText(p.words[s.end:min(len(p.words), s.end+5)]) + " "); m != nil && lasts[p.Topic] && len(p.Dates) == 1 && strings.HasSuffix(idleBehind.ReplaceAllString(strings.TrimRight(before, " "), ""), " from") {
		n := max(1, plain.Number(m[1]))
		switch {
		case m[2] == "fortnight":
			n = 14
		case strings.HasPrefix(m[2], "week"):
			n *= 7
		}
		s.To = s.From.AddDays(n - 1) // from 22 June for two weeks
		return true
	}
	if m := countedFrom.FindStringSubmatch(before); m != nil && m[1] == "" {
		n := countOf(m[2])
		if m[3] == "weeks" {
			n *= 7
		}
		s.To = s.From.AddDays(n - 1)
		return true
	}
	return false
}

// lasts are topics of what goes on for days.
var lasts = map[Topic]bool{Away: true, Overload: true, Plan: true, Hours: true, Calendar: true}

// mostBetween is how many words stand between a week and its days: how much this week, I have done Tuesday.
const mostBetween = 3

// ranOn are topics where until a day is from today on.
var ranOn = map[Topic]bool{Ride: true, Away: true, Overload: true, Hours: true, Plan: true}

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
	if week < 0 || week > 3 || from == to || week == 0 && p.Dates[1].at-p.Dates[0].end > mostBetween {
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

// bareWeekday reports whether a day is named by nothing but its weekday.
func (p *Part) bareWeekday(s Span) bool {
	if s.end == 0 {
		return false
	}
	text := idleBehind.ReplaceAllString(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), "")
	return weekdays[partOfDay.ReplaceAllString(text, "")]
}

// dropIdle leaves away days that are none of this topic: those of any week, a week before
// a race, the months of a season.
func (p *Part) dropIdle(today planner.Date) {
	p.Dates = slices.DeleteFunc(p.Dates, func(s Span) bool {
		if p.Topic == Week || p.Topic == Thanks && len(p.Offers) == 0 {
			return true
		}
		if s.Ask != nil || s.end == 0 {
			return false
		}
		text := lowText(p.words[s.at:s.end])
		before := " " + lowText(p.words[max(0, s.at-1):s.at]) + " "
		switch {
		case noDayOf[p.Topic] && p.bareWeekday(s) && s.end < len(p.words) && people[p.words[s.end].low]:
			return true // the Thursday group wants to know
		case p.Topic == TellRide && s.From > today, p.Topic == NextRace && aboutNow.MatchString(text):
			return true
		case p.Topic == RaceLegs && p.Race == nil && strings.HasPrefix(text, "in ") && strings.Contains(text, " "):
			return strings.HasSuffix(text, "days") || strings.HasSuffix(text, "weeks") // is form lost in ten days?
		case looksBackMostly[p.Topic] && s.From != s.To && (before == " since " || strings.HasPrefix(text, "since ")) && strings.HasSuffix(text, "weekend"):
			return true // a cold since the weekend
		case looksBackMostly[p.Topic] && s.set && s.From.DaysUntil(s.To) > 20 && s.From <= today && s.To >= today:
			return true // flu in June
		case looksBackAlways[p.Topic]:
			return s.From > today && strings.Contains(text, "in ")
		case theLast.MatchString(before+text) && !weekIn.MatchString(text) && !looksBackMostly[p.Topic], s.end < len(p.words) && toWhat[p.words[s.end].low] && strings.Contains(text, "last week"):
			return true
		case p.Race != nil && asksAfter[p.Topic] && s.set && s.From.DaysUntil(s.To) > 20 && !p.ownMonth(s):
			return true // after the TT in August
		case p.Topic == Overload && s.set && len(p.Dates) == 1 && p.ownMonth(s):
			return false
		case p.Topic == Season || p.Topic == Overload || p.Topic == TaperStart || p.Topic == TaperLength:
			return s.set && s.From.DaysUntil(s.To) > 20
		case p.Topic == Races && p.Race != nil:
			return s.set && s.From.DaysUntil(s.To) > 20 || p.bareWeekday(s) || strings.HasSuffix(text, "weekend")
		}
		return false
	})
}

// noDayOf are topics in which the people of a weekday are no day, and people are words for them.
var (
	noDayOf = map[Topic]bool{Medicine: true, Food: true, Unknown: true, Help: true}
	people  = wordSet("group lot crew gang bunch club lads ladies riders team")
)

// asksAfter are topics that are about a race, of which a month only tells when it is.
var asksAfter = map[Topic]bool{AfterRace: true, RaceLegs: true, Food: true, Sleep: true, Strength: true, RaceMorning: true, HowHard: true}

// ownMonth reports whether a month is named beside the race and not as the time of it: a block in July
// for the TT in August.
func (p *Part) ownMonth(s Span) bool {
	if p.Race == nil {
		return true
	}
	return p.Race.Date < s.From || p.Race.Date > s.To
}

// looksBackAlways are topics whose days are over.
var looksBackAlways = map[Topic]bool{Missed: true, TellRide: true}

// looksBackMostly are topics whose days are over where nothing says that they lie ahead.
var looksBackMostly = map[Topic]bool{Sick: true, Injury: true, FlatLegs: true, RedFlag: true}

// pastVerbs are verbs of what is over.
const pastVerbs = `gave|lay|left me|left my legs|i left|took|told|began|begun|started|ended|stopped|finished|turned|lost|blew|broke|caught|drove|ate|drank|found|forgot|froze|kept|saw|spent|stood|swam|threw|tore|woke|ran|pulled|tweaked|twisted|bonked|cracked|cramped|crawled|ached|tried|managed|collapsed|killed|destroyed|wrecked|smashed|nailed|finished|puked|vomited|sweated|trained|worked|lifted|squatted|walked|jogged|raced|tossed|hurt me|knackered me|didnt|wasnt|werent`

var (
	remains    = plain.Compile(` (?:remain|remains|remaining|left|stay|stays|still|to go) `)
	overThen   = plain.Compile(` (?:until|once|when|before|after|til|till) (?:the |my )?(?:RACE|race|DAY|SPAN|season) (?:is |are |has been |was )?(?:over|done|finished|gone|ridden|raced|past|out of the way) `)
	saysAhead  = plain.Compile(` (?:am (?:binning|skipping|missing|dropping|cancelling|leaving)|can|may|might|shall|should|will|would|could|wont|ought|going to|tomorrow|next|coming|does|do i|am i|is it|go|got on|got|must|to be|has to|have to|need to) `)
	saysBack   = plain.Compile(` (?:did|was|were|rode|had|missed|skipped|since|fell|came|crashed|slept|felt|been|made|went|gone|won|happened|done|log|logged|struck|blacked|fainted|passed|could not|` + pastVerbs + `) `)
	willMiss   = plain.Compile(` (?:(?:may|might|can|could|should|shall|must|do) i (?:just |not |please |then )?(?:skip|miss|drop|bin|leave|give)|will not|wont|not happening|not going to|going to|can not|am (?:binning|skipping|missing|dropping)|will be|will have to|have to (?:skip|miss|drop)|ill|must skip|not be able) `)
	toChange   = plain.Compile(` (?:cut|bin|skip|drop|move|swap|change|shorten|scrap|cancel|reduce|off until|off sick until|still (?:ride|spin|do|race|train|go|openers|intervals|session|workout|training|ok|okay|on|up for|good)) (?:the |my |out |on |for |with )*$`)
	hadTo      = plain.Compile(` (?:should|could|would|might|must|ought to)(?: not)? have (?:been )?`)
	asksBehind = plain.Compile(`^ (?:ok|okay|fine|alright|possible|safe|doable|realistic|still|too|can i|may i|should i|shall i|could i|will i|do i|am i|or not|yes or|y n) `)
	asksBefore = plain.Compile(` (?:what is|what about|how about|what happens with|what happens to|is|ready for|ok for|fit for|fine for|well for|better by|better for|in time for|by|be fine|make) (?:the |my |on |for )*$`)
	makesUp    = plain.Compile(` (?:(?:make|making) (?:it |that |this |them )?up|catch up|(?:move|shift|squeeze|fit|push|put|slot|cram|squash|stick|tack|do) (?:it|that|them|these|both|the missed)) (?:(?:in|to|it|that|them|this|the|my|missed|lost|work|hours|time|session|sessions|intervals|threshold|one|ride|hard|instead|on|at|for|into|with|all|onto) )*$`)
	stillFrom  = plain.Compile(` (?:sore|stiff|tired|dead|heavy|tight|ache|aching|achy|hurting|hurt|wrecked|bruised|knackered|fried|cooked|cramped|flat|empty|recovered|recovering) (?:\w+ ){0,2}(?:from|since|after) (?:the |my )*$`)
	badNight   = plain.Compile(` (?:terrible|awful|bad|dreadful|worst|horrible|rubbish|short|rough|restless|no) (?:night|nights|sleep) `)
)

// sentence is where the sentence of a word begins.
func (p *Part) sentence(at int) int {
	for at > 0 && p.words[at-1].end != '.' {
		at--
	}
	return at
}

// clause are the words around a day, up to where sentences end.
func (p *Part) clause(s Span) string {
	from, to := p.sentence(s.at), s.end
	for to > 0 && to < len(p.words) && p.words[to-1].end != '.' {
		to++
	}
	return " " + slotText(p.words[from:to]) + " "
}

// sinceThen are words behind which a day is over.
var sinceThen = wordSet("after since from following on in during")

// looksBack reports whether a day is over, as far as the words around it say.
func (p *Part) looksBack(s Span) bool {
	clause := overThen.ReplaceAllString(hadTo.ReplaceAllString(strings.ReplaceAll(p.clause(s), " next door ", " "), " "), " ")
	if looksBackAlways[p.Topic] {
		if p.Topic == Missed && makesUp.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") {
			return false
		}
		return p.Topic != Missed || !willMiss.MatchString(clause) || saysBack.MatchString(clause)
	}
	if stillFrom.MatchString(" " + slotText(p.words[p.sentence(s.at):s.at]) + " ") {
		return true
	}
	ahead, back := saysAhead.MatchString(clause), saysBack.MatchString(clause)
	switch {
	case looksBackMostly[p.Topic] && s.end > 0 && s.end < len(p.words) && sessionNext[p.words[s.end].low] && !back && (s.at == 0 || !sinceThen[p.words[s.at-1].low]) && !sinceThen[p.words[s.at].low]:
		return false // saturday ride yes or no
	case looksBackMostly[p.Topic] && s.end > 0 && asksBehind.MatchString(" "+slotText(p.words[s.end:min(len(p.words), s.end+3)])+" ") && !saysBack.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") && (s.at == 0 || !sinceThen[p.words[s.at-1].low]):
		return false // is Saturday ok; the club run is Saturday, can I go
	case looksBackMostly[p.Topic]:
		before := " " + slotText(p.words[max(0, s.at-7, p.sentence(s.at)):s.at]) + " "
		if last := strings.LastIndex(before, " still "); last > 0 && saysAhead.MatchString(before[:last+1]) || toChange.MatchString(before) || strings.Contains(before, " if ") || asksBefore.MatchString(before) || strings.HasSuffix(before, " until ") && !strings.HasSuffix(before, "DAY until ") && !back {
			return false
		}
		return !saysAhead.MatchString(before) || saysBack.MatchString(before)
	case p.Topic == Sleep && badNight.MatchString(clause):
		return !saysAhead.MatchString(" " + slotText(p.words[p.sentence(s.at):s.at]) + " ")
	case p.Topic == Away || p.Topic == AddRace || p.Topic == MayI || p.Topic == Why:
		return false
	default:
		near := overThen.ReplaceAllString(hadTo.ReplaceAllString(p.segment(s), " "), " ")
		if remains.MatchString(near) && untilDay.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") {
			return false // ridden since Monday, how much remains until Sunday
		}
		if nearAhead, nearBack := saysAhead.MatchString(near), saysBack.MatchString(near); nearAhead != nearBack {
			return nearBack
		} else if !nearBack && asksThis.MatchString(near) {
			return false // it was long, what is this Sunday
		}
		return back && !ahead
	}
}

// segment are the words around a day up to the nearest signs.
func (p *Part) segment(s Span) string {
	from, to := s.at, s.end
	for from > 0 && p.words[from-1].end == 0 {
		from--
	}
	for to > 0 && to < len(p.words) && p.words[to-1].end == 0 {
		to++
	}
	return " " + slotText(p.words[from:to]) + " "
}

// direction is how a day is read.
func (p *Part) direction(s Span, today planner.Date) func(string, planner.Date) (planner.Date, error) {
	switch {
	case p.looksBack(s), p.Topic == AfterRace && p.Race != nil && p.Race.Last() < today:
		return typed.DateBack
	case p.Topic == AddRace, p.Topic == Away && !strings.Contains(p.plain, "today"):
		return typed.DateComing
	}
	return typed.Date
}
