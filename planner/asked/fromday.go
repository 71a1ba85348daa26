package asked

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

var (
	nowToEnd    = plain.Compile(` (?:now|here|today|DAY) (?:to|until|through|up to) (?:the )?end $`)
	fromNow     = plain.Compile(` (?:now|here) (?:to|until|through|up to|up until) (?:the )?$| between (?:now|DAY) and (?:the )?$`)
	forDays     = plain.Compile(`^(\d{1,2}|two|three|four|five|six|seven|ten) days from `)
	comesBack   = plain.Compile(` (?:back|return|returning|home)(?: on| by)?(?: the)? $`)
	leftOver    = plain.Compile(` (?:left|lacking|remain|remains|remaining|still to go|budget|to come) `)
	theWeek     = plain.Compile(` (?:the|my|this) week `)
	countedFrom = plain.Compile(`( in)? (\d|two|three|four|five|six|seven|ten) (days|weeks) (?:\w+ ){0,4}(?:from|starting|beginning|that (?:begin|start)|which (?:begin|start))(?: on)?(?: the)? $`)
	lastsFor    = plain.Compile(`^ (?:on )?for (?:the |about )?(a|one|two|three|four|five|six|seven|ten|\d{1,2}) (?:whole |full )?(days?|weeks?|fortnight) `)
	nextTo      = plain.Compile(` (?:the |on the )day (?:before|after) (?:the )?$| (?:night|evening) before (?:the )?$`)
	untilDay    = plain.Compile(` (?:until|up to|through|till) (?:the )?$`)
	byDay       = plain.Compile(` (?:until|up to|through|till|by|before|the end of|the end) (?:the )?$`)
	byThen      = plain.Compile(` (?:by|come) (?:the )?(?:end of )?(?:this |coming )?$`)
	toNow       = plain.Compile(`^ (?:to|until|till|up to) (?:now|today) `)
	busyWith    = plain.Compile(` (?:am i|i am|are you|is RIDER|RIDER is) up to (?:on )?(?:the )?$`)
	daysFrom    = plain.Compile(`^ (?:please )?(?:if (?:i|we) )?(?:starting|from|beginning|start|counting|counted|count|as)(?: from| on| with| at| of| off)?(?: the)? $`)
	neverSince  = plain.Compile(` (?:not|no|nothing|never|havent|hasnt) .*since (?:the )?$`)
	idleBehind  = plain.Compile(`(?: the| of| in)+$`)
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
		case i == 0 && p.Topic == Hours && s.From == s.To && strings.HasSuffix(before, " since ") && len(p.Dates) == 2 && p.Dates[1].Ask == nil && p.Dates[1].From <= s.From && p.Dates[1].From.DaysUntil(p.Dates[1].To) == 6:
			p.Dates = p.Dates[1:] // 4 hours since Monday, how much is left this week?
			return
		case i == 0 && p.Topic == Hours && s.From == s.To && strings.HasSuffix(before, " since ") && (theWeek.MatchString(p.plain) || len(p.Dates) == 1 && leftOver.MatchString(p.plain)):
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
	if p.Topic == Hours && len(p.Dates) == 1 && (p.bareWeekday(*s) || p.words[s.at].low == "this") && byThen.MatchString(before) {
		s.From = s.From.AddDays(-int(s.From.Weekday())) // what is to be done by Sunday is of its week
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

// ranOn are topics where until a day is from today on.
var ranOn = map[Topic]bool{Ride: true, Away: true, Overload: true, Hours: true, Plan: true}
