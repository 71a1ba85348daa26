package asked

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
)

// sessionNext are words behind a day that speak of what is planned on it.
var sessionNext = wordSet("ride rides session race intervals training workout")

var (
	nowToEnd    = regexp.MustCompile(` (?:now|here|today|DAY) (?:to|until|through|up to) (?:the )?end $`)
	fromNow     = regexp.MustCompile(` (?:now|here) (?:to|until|through|up to|up until) (?:the )?$| between (?:now|DAY) and (?:the )?$`)
	aboutNow    = regexp.MustCompile(`^(?:today|yesterday|tonight|now|this morning|this evening|last night)$`)
	forDays     = regexp.MustCompile(`^(\d{1,2}|two|three|four|five|six|seven|ten) days from `)
	included    = regexp.MustCompile(`^ today (?:included|inclusive|as well) `)
	comesBack   = regexp.MustCompile(` (?:back|return|returning|home)(?: on| by)?(?: the)? $`)
	theWeek     = regexp.MustCompile(` (?:the|my|this) week `)
	untilDay    = regexp.MustCompile(` (?:until|up to) (?:the )?$`)
	daysFrom    = regexp.MustCompile(`^ (?:starting|from|beginning|start)(?: from| on)? $`)
	neverSince  = regexp.MustCompile(` (?:not|no|nothing|never|havent|hasnt) .*since (?:the )?$`)
	idleBefore  = regexp.MustCompile(`^(?:(?:on|the|a|in) )+`)
	partOfDay   = regexp.MustCompile(` (?:morning|evening|afternoon|night)$`)
	theLastWeek = regexp.MustCompile(` (?:the|that|in|my|these|of|only) $`)
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
		switch {
		case s.From == s.To && s.From > today && fromNow.MatchString(before) && (i == 0 || p.Dates[i-1].From <= today):
			s.From = today
			p.Dates = p.Dates[i:]
			return
		case s.set && s.From < today && s.To > today && nowToEnd.MatchString(before):
			s.From = today
			p.Dates = p.Dates[i:]
			return
		case i == 0 && ranOn[p.Topic] && s.From == s.To && s.From > today && untilDay.MatchString(before):
			s.From = today
		case s.From == s.To && s.end > 0 && strings.HasSuffix(before, " for ") && forDays.MatchString(lowText(p.words[s.at:s.end])):
			m := forDays.FindStringSubmatch(lowText(p.words[s.at:s.end]))
			n, err := strconv.Atoi(m[1])
			if err != nil {
				n = manyDays[m[1]]
			}
			s.From, s.To = s.From.AddDays(-n), s.From.AddDays(-1)
		case i == 0 && p.Topic == Hours && s.From == s.To && strings.HasSuffix(before, " since ") && theWeek.MatchString(p.plain):
			s.From = s.From.AddDays(-int(s.From.Weekday()))
			s.To = s.From.AddDays(6)
		case p.Topic == Away && s.From == s.To && i+1 < len(p.Dates) && p.Dates[i+1].Ask == nil && p.Dates[i+1].From > s.From && s.end > 0 && p.Dates[i+1].at > s.end && comesBack.MatchString(" "+slotText(p.words[s.end:p.Dates[i+1].at])+" "):
			s.To = p.Dates[i+1].To
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
			return
		case p.Topic == Missed && s.From < today && neverSince.MatchString(before):
			s.To = today
		case s.set && i+1 < len(p.Dates) && p.Dates[i+1].Ask == nil && p.Dates[i+1].at > s.end && daysFrom.MatchString(" "+lowText(p.words[s.end:p.Dates[i+1].at])+" "):
			days := s.From.DaysUntil(s.To)
			s.From, s.To = p.Dates[i+1].From, p.Dates[i+1].From.AddDays(days)
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
			return
		}
	}
}

// ranOn are topics where until a day is from today on.
var ranOn = map[Topic]bool{Away: true, Overload: true, Hours: true, Plan: true}

// daysOfWeek puts weekdays into the week that is named before or behind them: tuesday and
// wednesday next week; next week from Monday to Friday.
func (p *Part) daysOfWeek() bool {
	week := slices.IndexFunc(p.Dates, func(s Span) bool {
		return s.Ask == nil && s.end > 0 && s.From.Weekday() == 0 && s.From.DaysUntil(s.To) == 6
	})
	from, to := 0, week
	if week == 0 {
		from, to = 1, len(p.Dates)
	}
	if week < 0 || week > 3 || from == to {
		return false
	}
	for i := from; i < to; i++ {
		if p.Dates[i].Ask != nil || !p.bareWeekday(p.Dates[i]) {
			return false
		}
	}
	for i := from; i < to; i++ {
		day := p.Dates[week].From.AddDays(int(p.Dates[i].From.Weekday()))
		p.Dates[i].From, p.Dates[i].To = day, day
	}
	p.Dates = p.Dates[from:to]
	return true
}

// correction are words that take back the day before them.
var correction = regexp.MustCompile(` (?:sorry|i mean|i meant|no wait|wait no|correction|scratch that|make that) `)

// correctedDate leaves away days that are taken back: Wednesday, no sorry, Thursday.
func (p *Part) correctedDate() {
	for i := len(p.Dates) - 1; i > 0; i-- {
		before, s := p.Dates[i-1], p.Dates[i]
		if before.end > 0 && s.at > before.end && s.at-before.end < 6 && correction.MatchString(" "+lowText(p.words[before.end:s.at])+" ") {
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
	case isWeekend(first) && p.joined(1) && second.From <= first.From && p.Dates[2].To >= first.To:
		p.Dates = p.Dates[1:]
	case p.bareWeekday(first) && !p.bareWeekday(second) && second.From == second.To && second.From.Weekday() == first.From.Weekday():
		p.Dates = p.Dates[1:]
	case p.joined(0) && p.bareWeekday(first) && p.bareWeekday(second) && len(p.Dates) > 2 && p.Dates[2].Ask == nil && p.Dates[2].set && p.Dates[2].From.DaysUntil(p.Dates[2].To) == 6:
		p.Dates = p.Dates[2:]
	case p.joined(0) && p.bareWeekday(first) && strings.HasSuffix(lowText(p.words[second.at:second.end]), " this week"):
		p.Dates[0].From = second.From.AddDays(int(first.From.Weekday()) - int(second.From.Weekday()))
		p.Dates[0].To = p.Dates[0].From
		p.Dates[1].From, p.Dates[1].To = second.From, second.From
	case first.set && first.From.DaysUntil(first.To) >= 6 && p.joined(1) && p.Dates[2].From > second.From && p.Dates[1].From >= first.From.AddDays(-3) && p.Dates[1].From <= first.To:
		p.Dates = p.Dates[1:]
	}
}

func isWeekend(s Span) bool {
	return s.From.Weekday() == planner.Saturday && s.From.DaysUntil(s.To) == 1
}

// bareWeekday reports whether a day is named by nothing but its weekday.
func (p *Part) bareWeekday(s Span) bool {
	if s.end == 0 {
		return false
	}
	text := strings.TrimSuffix(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), " the")
	return weekdays[partOfDay.ReplaceAllString(text, "")]
}

// dropIdle leaves away days that are none of this topic: those of any week, a week before
// a race, the months of a season.
func (p *Part) dropIdle(today planner.Date) {
	p.Dates = slices.DeleteFunc(p.Dates, func(s Span) bool {
		if p.Topic == Week {
			return true
		}
		if s.Ask != nil || s.end == 0 {
			return false
		}
		text := lowText(p.words[s.at:s.end])
		before := " " + lowText(p.words[max(0, s.at-1):s.at]) + " "
		switch {
		case p.Topic == TellRide && s.From > today, p.Topic == NextRace && aboutNow.MatchString(text):
			return true
		case looksBackAlways[p.Topic]:
			return s.From > today && strings.Contains(text, "in ")
		case strings.HasPrefix(text, "last week") && !looksBackMostly[p.Topic] && theLastWeek.MatchString(before):
			return true
		case p.Topic == Season || p.Topic == Overload || p.Topic == TaperStart || p.Topic == TaperLength:
			return s.set && s.From.DaysUntil(s.To) > 20
		case p.Topic == Races && p.Race != nil:
			return s.set && s.From.DaysUntil(s.To) > 20 || p.bareWeekday(s) || strings.HasSuffix(text, "weekend")
		}
		return false
	})
}
