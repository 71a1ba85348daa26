package asked

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/typed"
)

var (
	nextDays    = plain.Compile(`^(?:next|coming) (\d{1,2}|two|three|four|five|six|seven|ten|fourteen) (days|weeks)$`)
	lastDays    = plain.Compile(`^(?:last|past) (\d{1,2}|two|three|four|five|six|seven|ten|fourteen) days$`)
	toTheEnd    = plain.Compile(`^(?:to|until|till|through|now and|today and) (?:the )?end of (?:the |this )?(week|month|january|february|march|april|may|june|july|august|september|october|november|december)$`)
	restMonth   = plain.Compile(`^rest of (january|february|march|april|may|june|july|august|september|october|november|december)$`)
	restOf      = plain.Compile(`^(?:rest|remainder|remaining days|left|remains|left over) of (?:the |this |my )?week$`)
	weekIn      = plain.Compile(`^(first|second|third|fourth|last|final) (?:full |whole |complete |entire |proper )?(week|fortnight|weekend|half) (?:of|in) (january|february|march|april|may|june|july|august|september|october|november|december)$|^(first|last) (?:two|2) weeks (?:of|in) (january|february|march|april|may|june|july|august|september|october|november|december)$`)
	daysOfMonth = plain.Compile(`^(first|last|final) (\d{1,2}|two|three|four|five|six|seven|ten|fourteen) days (?:of|in) (january|february|march|april|may|june|july|august|september|october|november|december)$`)
	wholeOf     = plain.Compile(`^(?:actual|current|present|running|ongoing) week$|^(?:following|coming) week$`)
	edgeDay     = plain.Compile(`^(first|last|very last|final) day (?:of|in) (january|february|march|april|may|june|july|august|september|october|november|december)$`)
	nthDay      = plain.Compile(`^(first|second|third|fourth|last) (monday|tuesday|wednesday|thursday|friday|saturday|sunday) (?:of|in) (january|february|march|april|may|june|july|august|september|october|november|december)$`)
	inMonth     = plain.Compile(`^(?:in|of|for|all|this|during|about) (january|february|march|april|june|july|august|september|october|november|december)$`)
	twoMonths   = plain.Compile(`^(?:in|of|for|all|during|about) (january|february|march|april|june|july|august|september|october|november|december) (?:and|or|to) (january|february|march|april|may|june|july|august|september|october|november|december)$`)

	dayOfNear        = plain.Compile(`^(\d{1,2})(?:st|nd|rd|th) of (?:the )?(this|current|next|coming|last) month$`)
	beforeLast       = plain.Compile(`^(?:(monday|tuesday|wednesday|thursday|friday|saturday|sunday)|(week|weekend)) before last$`)
	monthNear        = plain.Compile(`^(.+?)(?: of| in)? (?:(?:the |this )(?:current )?|(?:the )?(next |coming ))month$`)
	weekendsOn       = plain.Compile(`^(?:in )?(two|three|four|2|3|4) weekends? (?:from now|from today|away|hence|on|time|later)$`)
	todayAnd         = plain.Compile(`^(?:today|now) and (?:the )?(?:next |following |coming )?(\d{1,2}|two|three|four|five|six|seven|ten) days$`)
	nextFortnight    = plain.Compile(`^(?:next|coming) fortnight$`)
	afterNext        = plain.Compile(`^week (?:after|following) next$|^week after the next$|^next week but the (?:one|week) after$`)
	weekAhead        = plain.Compile(`^week (?:to come|ahead|that comes|after this|after this one|after this week)$`)
	weekendAfterThis = plain.Compile(`^weekend after (?:this|the next|the coming|this coming|that)(?: one| weekend)?$`)
	endOfThisWeek    = plain.Compile(`^(?:last|final) day of (?:this|the) week$`)

	manyDays  = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "ten": 10, "fourteen": 14}
	longForms = 7 // how many words the longest of these has
)

// toWhat are words behind which days are counted back from what follows.
var toWhat = wordSet("before until till up leading ahead prior")

// weekEnds are words behind "week 22" that make the number a day.
var weekEnds = wordSet("to until through till and of bis")

// untilWords begin what ends a stretch: from the 18th to the end of June.
var untilWords = wordSet("to until through till")

// partOfIt are words for a part of a month that nobody can count.
var partOfIt = wordSet("end start beginning middle part bit")

// findStretches finds weeks and months that are named in more words than typed days have.
func (p *Part) findStretches(today planner.Date) {
	for i := 0; i < len(p.words); i++ {
		for n := min(longForms, len(p.words)-i); n > 1; n-- {
			words := p.words[i : i+n]
			if slices.ContainsFunc(words, func(w word) bool { return w.slot != "" }) {
				continue // the week of June Jaunt
			}
			from, to, ok := stretchOf(lowText(words), today)
			if ok && isoWeek.MatchString(lowText(words)) && (words[0].end != 0 || words[n-1].dash || words[n-1].glued || i+n < len(p.words) && (weekEnds[p.words[i+n].low] || plain.Counted[p.words[i+n].low] || months[p.words[i+n].low])) {
				continue // week 22 to 28 June
			}
			if ok && i > 0 && p.words[i].low == "of" && months[words[n-1].low] && partOfIt[p.words[i-1].low] {
				continue // the end of September
			}
			if ok && i+n < len(p.words) && toWhat[p.words[i+n].low] && lastDays.MatchString(lowText(words)) {
				continue // the last seven days before the race
			}
			if !ok || months[words[n-1].low] && !untilWords[words[0].low] && (i+n < len(p.words) && digits.MatchString(p.words[i+n].low) || i > 0 && (digits.MatchString(p.words[i-1].low) || ordinal.MatchString(p.words[i-1].low) || p.words[i-1].low == "days" || p.words[i-1].low == "weeks" || p.words[i-1].low == "fortnight" || weekdays[p.words[i-1].low])) {
				continue
			}
			p.Dates = append(p.Dates, Span{From: from, To: to, at: i, end: i + n, set: true})
			slot := "SPAN"
			if from == to {
				slot = "DAY"
			}
			for j := range words {
				words[j].slot = slot
			}
			i += n - 1
			break
		}
	}
}

func stretchOf(text string, today planner.Date) (from, to planner.Date, ok bool) {
	monday := today.AddDays(-int(today.Weekday()))
	if from, to, ok, found := countedDays(text, today); found {
		return from, to, ok
	}
	if m := restMonth.FindStringSubmatch(text); m != nil {
		from, to, ok := monthFrom(m[1], today)
		return max(from, today), to, ok
	}
	if m := toTheEnd.FindStringSubmatch(text); m != nil {
		if m[1] == "week" {
			return today, monday.AddDays(6), true
		}
		if m[1] != "month" {
			_, to, ok := monthFrom(m[1], today)
			return today, to, ok
		}
		year, month, _ := today.Civil()
		return today, planner.NewDate(year, month+1, 1).AddDays(-1), true
	}
	if m := isoWeek.FindStringSubmatch(text); m != nil {
		return weekOfYear(m[1]+m[2], today)
	}
	if m := weekendsOn.FindStringSubmatch(text); m != nil {
		saturday := monday.AddDays(5 + 7*plain.Number(m[1]))
		return saturday, saturday + 1, true
	}
	if m := dayOfNear.FindStringSubmatch(text); m != nil {
		return dayOfMonthNear(plain.Number(m[1]), m[2], today)
	}
	if m := beforeLast.FindStringSubmatch(text); m != nil {
		switch m[2] {
		case "week":
			return monday.AddDays(-14), monday.AddDays(-8), true
		case "weekend":
			return monday.AddDays(-9), monday.AddDays(-8), true
		}
		day, err := typed.DateBack(m[1], today.AddDays(-1))
		return day.AddDays(-7), day.AddDays(-7), err == nil
	}
	switch {
	case nextFortnight.MatchString(text):
		return monday.AddDays(7), monday.AddDays(20), true
	case afterNext.MatchString(text):
		return monday.AddDays(14), monday.AddDays(20), true
	case weekAhead.MatchString(text):
		return monday.AddDays(7), monday.AddDays(13), true
	case weekendAfterThis.MatchString(text):
		return monday.AddDays(12), monday.AddDays(13), true
	case endOfThisWeek.MatchString(text):
		return monday.AddDays(6), monday.AddDays(6), true
	case partOfWeek.MatchString(text):
		return inPartOfWeek(partOfWeek.FindStringSubmatch(text), monday)
	case restOf.MatchString(text):
		return today, monday.AddDays(6), true
	case wholeOf.MatchString(text) && strings.HasPrefix(text, "following"), wholeOf.MatchString(text) && strings.HasPrefix(text, "coming"):
		return monday.AddDays(7), monday.AddDays(13), true
	case wholeOf.MatchString(text):
		return monday, monday.AddDays(6), true
	}
	if nth, rest, ok := strings.Cut(text, " "); ok && nthWords[nth] != "" {
		text = nthWords[nth] + " " + rest // the 4th week of June
	}
	return inMonths(text, today)
}

var nthWords = map[string]string{"1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth"}

// dayOfMonthNear is a day of this month, the next or the last one.
func dayOfMonthNear(day int, which string, today planner.Date) (from, to planner.Date, ok bool) {
	year, month, _ := today.Civil()
	switch which {
	case "next", "coming":
		month++
	case "last":
		month--
	}
	first := planner.NewDate(year, month, 1)
	from = first.AddDays(day - 1)
	return from, from, day >= 1 && from < planner.NewDate(year, month+1, 1)
}

// isoWeek is a week by its number in the year; small numbers alone are weeks of a plan.
var isoWeek = plain.Compile(`^(?:iso week|calendar week|week number|kw|cw) (\d{1,2})$|^week (2\d|3\d|4\d|5[0-3])$`)

// weekOfYear is the next week of a number (ISO 8601): week 1 has the year's first Thursday.
func weekOfYear(number string, today planner.Date) (from, to planner.Date, ok bool) {
	n, err := strconv.Atoi(number)
	year, _, _ := today.AddDays(3 - int(today.Weekday())).Civil()
	for range 2 {
		fourth := planner.NewDate(year, time.January, 4)
		from = fourth.AddDays(7*(n-1) - int(fourth.Weekday()))
		if to = from.AddDays(6); to >= today {
			break
		}
		year++
	}
	return from, to, err == nil && n >= 1 && n <= 53
}

// partOfWeek is the start, the middle or the end of the week to come.
var partOfWeek = plain.Compile(`^(?:(start|beginning|middle|end|first day|last day) of|(early|late|mid)) (?:the )?(?:next|coming|following) week( after| but one)?$|^(start|beginning|middle|end|first day|last day) of (?:the )?week after next()$`)

func inPartOfWeek(m []string, monday planner.Date) (from, to planner.Date, ok bool) {
	next := monday.AddDays(7)
	if m[3] != "" || m[4] != "" {
		next = monday.AddDays(14)
	}
	switch m[1] + m[2] + m[4] {
	case "last day":
		return next.AddDays(6), next.AddDays(6), true
	case "start", "beginning", "first day":
		return next, next, true
	case "early":
		return next, next.AddDays(1), true
	case "middle", "mid":
		return next.AddDays(2), next.AddDays(2), true
	case "late":
		return next.AddDays(3), next.AddDays(4), true
	}
	return next.AddDays(4), next.AddDays(6), true
}

// countedDays are so many days or weeks before or after today.
func countedDays(text string, today planner.Date) (from, to planner.Date, ok, found bool) {
	monday := today.AddDays(-int(today.Weekday()))
	if m := nextDays.FindStringSubmatch(text); m != nil {
		n := countOf(m[1])
		if m[2] == "weeks" {
			return monday.AddDays(7), monday.AddDays(6 + 7*n), n <= 8, true
		}
		return today, today.AddDays(n - 1), n > 0, true
	}
	if m := todayAnd.FindStringSubmatch(text); m != nil {
		n := countOf(m[1])
		return today, today.AddDays(n), n > 0, true
	}
	if m := lastDays.FindStringSubmatch(text); m != nil {
		n := countOf(m[1])
		return today.AddDays(-n), today.AddDays(-1), n > 0, true
	}
	return 0, 0, false, false
}

// countOf is how many a number or its word is, 0 for others.
func countOf(number string) int {
	if n, err := strconv.Atoi(number); err == nil {
		return n
	}
	return manyDays[number]
}

// inMonths is a day or a stretch that is named by its month.
func inMonths(text string, today planner.Date) (from, to planner.Date, ok bool) {
	if m := monthNear.FindStringSubmatch(text); m != nil { // the last Sunday of this month
		year, month, _ := today.Civil()
		if m[2] == "next " || m[2] == "coming " {
			month++
		}
		_, month, _ = planner.NewDate(year, month, 1).Civil()
		text = m[1] + " of " + strings.ToLower(month.String())
	}
	if m := twoMonths.FindStringSubmatch(text); m != nil {
		from, _, ok := monthFrom(m[1], today)
		_, to, ok2 := monthFrom(m[2], today)
		return from, to, ok && ok2 && from < to
	}
	if m := inMonth.FindStringSubmatch(text); m != nil {
		return monthFrom(m[1], today)
	}
	if m := edgeDay.FindStringSubmatch(text); m != nil {
		from, to, ok := monthFrom(m[2], today)
		if m[1] == "first" {
			return from, from, ok
		}
		return to, to, ok
	}
	if m := nthDay.FindStringSubmatch(text); m != nil {
		from, to, ok := monthFrom(m[3], today)
		day := withinMonthDay(m[1], m[2], from, to)
		return day, day, ok
	}
	if m := daysOfMonth.FindStringSubmatch(text); m != nil {
		from, to, ok := monthFrom(m[3], today)
		if n := countOf(m[2]); m[1] == "first" {
			to = from.AddDays(n - 1)
		} else {
			from = to.AddDays(1 - n)
		}
		return from, to, ok
	}
	if m := weekIn.FindStringSubmatch(text); m != nil {
		unit := m[2]
		if unit == "" {
			unit = "fortnight"
		}
		from, to, ok := monthFrom(m[3]+m[5], today)
		from, to = withinMonth(m[1]+m[4], unit, from, to)
		return from, to, ok
	}
	return 0, 0, false
}

// monthFrom is the first and the last day of the next month of a name.
func monthFrom(name string, today planner.Date) (from, to planner.Date, ok bool) {
	month, err := time.Parse("January", strings.ToUpper(name[:1])+name[1:])
	if err != nil {
		return 0, 0, false
	}
	year, now, _ := today.Civil()
	if month.Month() < now {
		year++
	}
	return planner.NewDate(year, month.Month(), 1), planner.NewDate(year, month.Month()+1, 1).AddDays(-1), true
}

// withinMonthDay is the second Sunday, or the last one, of the month between two days.
func withinMonthDay(which, weekday string, from, to planner.Date) planner.Date {
	day := from
	for strings.ToLower(time.Weekday((int(day.Weekday())+1)%7).String()) != weekday {
		day++
	}
	day = day.AddDays(7 * map[string]int{"second": 1, "third": 2, "fourth": 3}[which])
	for which == "last" && day.AddDays(7) <= to {
		day = day.AddDays(7)
	}
	return day
}

// withinMonth is a week, a weekend or a half of the month between two days.
func withinMonth(which, unit string, from, to planner.Date) (planner.Date, planner.Date) {
	n := map[string]int{"first": 0, "second": 1, "third": 2, "fourth": 3}[which]
	last := which == "last" || which == "final"
	switch {
	case unit == "half" || unit == "fortnight":
		if last || n > 0 {
			return from.AddDays(14), to
		}
		return from, from.AddDays(13)
	case unit == "weekend": // the first and the last Saturday
		from = withinMonthDay(map[bool]string{true: "last", false: which}[last], "saturday", from, to)
		return from, from + 1
	case last: // the last week has most of its days in the month too
		fourth := to.AddDays(-3)
		from = fourth.AddDays(-int(fourth.Weekday()))
	default: // the first week has most of its days in the month
		fourth := from.AddDays(3)
		from = fourth.AddDays(7*n - int(fourth.Weekday()))
	}
	return from, from.AddDays(6)
}

var (
	weekAround    = plain.Compile(` week (?:ahead )?(?:of|from|starting|beginn?ing|commencing|with|on)?(?: the)?(?: the)? ?$| (?:that|one|which) (?:begins|starts|beginning|starting) (?:on )?(?:the )?$| week (?:starting|beginning|commencing|opening)(?: on| at| with| from)?(?: the)? $| week (?:that|which|what) (?:begins|starts|commences|opens|kicks off|goes)(?: on| at| with| from| in)?(?: the)? $`)
	weekendAround = plain.Compile(` weekend (?:of |on )?(?:the )?$| SPAN of (?:the )?$| SPAN (?:the )?$`)
)

// aroundDay reads the week of the 15th and the weekend of the 13th.
func (p *Part) aroundDay() {
	for i, s := range p.Dates {
		if s.Ask != nil || s.From != s.To || s.at == 0 {
			continue
		}
		if i > 0 && p.Dates[i-1].set && p.Dates[i-1].end == s.at-1 {
			continue // seven days from tomorrow
		}
		if i > 0 && p.Dates[i-1].end == s.at && isWeekend(p.Dates[i-1]) && p.bareWeekday(s) && s.From >= p.Dates[i-1].From && s.From <= p.Dates[i-1].To {
			continue // at the weekend, on Saturday
		}
		before := " " + lowText(p.words[max(0, s.at-6):s.at]) + " "
		switch {
		case weekAround.MatchString(before) && p.words[s.at-1].end == 0 && (i+1 >= len(p.Dates) || !p.joined(i)):
			from := s.From.AddDays(-int(s.From.Weekday()))
			p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = from, from.AddDays(6), true
		case weekendAround.MatchString(before) && s.From.Weekday() >= planner.Saturday:
			from := s.From.AddDays(5 - int(s.From.Weekday()))
			p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = from, from.AddDays(1), true
			if i > 0 && strings.Contains(lowText(p.words[p.Dates[i-1].at:p.Dates[i-1].end]), "weekend") {
				p.Dates = append(p.Dates[:i-1], p.Dates[i:]...)
				return
			}
		}
	}
}

var (
	beforeDay = plain.Compile(` (?:before|until after|prior to) (?:the )?$`)
	weeksFrom = plain.Compile(`( in)? (a|one|two|three|four|\d) weeks? (?:[a-z]+ ){0,6}(?:from|starting|beginning)(?: on)?(?: the)? $`)
	fortnight = plain.Compile(` fortnight (?:off |away |abroad |holiday |leave )?(?:from|starting|beginning)(?: on)?(?: the)? $`)
)

// wholeMonth reads a month that is named by itself in questions about many days: hours for June,
// my July plan. "In June" was read before.
func (p *Part) wholeMonth(today planner.Date) {
	whole := ofMonths[p.Topic] || p.Topic == Away
	if len(p.Dates) > 0 || betweenThem.MatchString(p.plain) || !whole || p.Topic == Races && p.Race != nil {
		return
	}
	for i, w := range p.words {
		if !months[w.low] || w.low == "may" || w.low == "march" || w.slot != "" || i > 0 && numbered(p.words[i-1].low) || i+1 < len(p.words) && numbered(p.words[i+1].low) {
			continue
		}
		if i+1 < len(p.words) && p.words[i+1].low == "is" {
			continue // once June is over
		}
		if from, _, ok := monthFrom(w.low, today); ok && fromNow.MatchString(" "+slotText(p.words[p.sentence(i):i])+" ") {
			p.Dates = []Span{{From: today, To: from.AddDays(-1), set: true, at: i, end: i + 1}} // between now and September
			return
		}
		if i > 0 && p.words[i-1].end == 0 && (toMonth[p.words[i-1].low] || i > 1 && p.words[i-1].low == "the" && toMonth[p.words[i-2].low]) {
			continue // how many races before September
		}
		if p.Topic == Away && i > 0 && !wholly[p.words[i-1].low] && p.words[i-1].end == 0 {
			continue // back by August
		}
		if from, to, ok := stretchOf("in "+w.low, today); ok {
			p.Dates = []Span{{From: from, To: to, set: true, at: i, end: i + 1}}
			return
		}
	}
}

// toMonth are words before a month that is only an end or a beginning.
var toMonth = wordSet("before after until till to by since past following")

// wholly are words before a month in which somebody is away.
var wholly = wordSet("all whole in during throughout most entire and so the")

// ofMonths are topics that are asked of whole months.
var ofMonths = map[Topic]bool{Plan: true, Hours: true, Calendar: true, Races: true, WhoTapers: true}

func numbered(w string) bool { return digits.MatchString(w) || ordinal.MatchString(w) }

// bounded reads days that another one ends or begins: not before Tuesday, two weeks from 29 June.
func (p *Part) bounded(today planner.Date) {
	if p.Topic != Away && !ofMonths[p.Topic] || len(p.Dates) != 1 || p.Dates[0].Ask != nil || p.Dates[0].end == 0 || p.Dates[0].From != p.Dates[0].To {
		return
	}
	s := &p.Dates[0]
	before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
	if m := weeksFrom.FindStringSubmatch(before); m != nil && m[1] == "" {
		s.To = s.From.AddDays(7*max(1, plain.Number(m[2])) - 1)
		return
	}
	if fortnight.MatchString(before) {
		s.To = s.From.AddDays(13)
		return
	}
	if p.Topic == Away && s.From > today.AddDays(1) && beforeDay.MatchString(before) && !strings.Contains(before, " day before ") {
		s.From, s.To = today, s.From.AddDays(-1)
	}
}
