package asked

import (
	"errors"
	"regexp"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

var (
	inDate   = wordSet(dateWords)
	weekdays = wordSet("monday tuesday wednesday thursday friday saturday sunday")
	months   = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")
	nearDays = wordSet("today tomorrow yesterday tonight weekend fortnight")
	ordinal  = regexp.MustCompile(`^\d{1,2}(?:st|nd|rd|th)$`)
	digits   = regexp.MustCompile(`^\d{1,4}$`)
	isoLike  = regexp.MustCompile(`^\d{4}-\d{1,2}-\d{1,2}$|^\d{1,2}[/.]\d{1,2}(?:[/.]\d{2,4})?$`)
	numerals = wordSet("one two three four five six seven eight nine ten a couple")
)

// isDatePart reports whether a word can stand in a date.
func isDatePart(w string) bool {
	return inDate[w] || ordinal.MatchString(w) || digits.MatchString(w) || isoLike.MatchString(w) || numerals[w]
}

// anchors reports whether a date can be built around a word.
func (p *Part) anchors(i int) bool {
	w := p.words[i].low
	near := func(j int, fits func(string) bool) bool {
		return j >= 0 && j < len(p.words) && p.words[j].slot == "" && fits(p.words[j].low)
	}
	number := func(s string) bool { return ordinal.MatchString(s) || digits.MatchString(s) }
	switch {
	case p.words[i].slot != "":
		return false
	case weekdays[w], nearDays[w], isoLike.MatchString(w), ordinal.MatchString(w):
		return true
	case months[w]:
		return near(i-1, number) || near(i+1, number) || near(i-1, func(s string) bool { return s == "of" }) && near(i-2, number)
	case w == "week" || w == "month":
		return near(i-1, func(s string) bool { return s == "next" || s == "this" || s == "last" || s == "coming" })
	case w == "days" || w == "weeks" || w == "months" || w == "day":
		return near(i-2, func(s string) bool { return s == "in" }) || near(i+1, func(s string) bool { return s == "ago" }) || near(i+1, func(s string) bool { return s == "from" })
	case w == "morning" || w == "evening" || w == "night" || w == "afternoon":
		return near(i-1, func(s string) bool { return s == "this" || s == "last" })
	}
	return false
}

// findDates finds the days that are named; settleDates reads them, once it is known
// which way the topic looks.
func (p *Part) findDates(today planner.Date) {
	for i := 0; i < len(p.words); i++ {
		if !p.anchors(i) {
			continue
		}
		from, to := i, i+1
		for from > 0 && i-from < 4 && p.words[from-1].slot == "" && isDatePart(p.words[from-1].low) && p.words[from-1].end == 0 {
			from--
		}
		for to < len(p.words) && to-i < 5 && p.words[to].slot == "" && isDatePart(p.words[to].low) && p.words[to-1].end != '.' {
			to++
		}
		p.widest(i, from, to, today)
	}
}

// widest takes the longest run of words around i that is a day.
func (p *Part) widest(i, from, to int, today planner.Date) {
	for n := to - from; n > 0; n-- {
		for a := from; a+n <= to; a++ {
			if a > i || a+n <= i {
				continue
			}
			if s, ok := readSpan(lowText(p.words[a:a+n]), today, typed.Date); ok {
				s.at, s.end = a, a+n
				p.Dates = append(p.Dates, s)
				slot := "DAY"
				if s.From != s.To {
					slot = "SPAN"
				}
				for j := a; j < a+n; j++ {
					p.words[j].slot = slot
				}
				return
			}
		}
	}
}

// readSpan reads a day or a stretch of days with the reader of one direction.
func readSpan(text string, today planner.Date, day func(string, planner.Date) (planner.Date, error)) (Span, bool) {
	for _, idle := range []string{"on ", "the ", "for ", "of "} {
		text = strings.TrimPrefix(text, idle)
	}
	d, err := day(text, today)
	if err == nil {
		return Span{From: d, To: d}, true
	}
	from, err1 := typed.DateFrom(text, today)
	to, err2 := typed.DateTo(text, today)
	if err1 == nil && err2 == nil && from < to {
		return Span{From: from, To: to}, true
	}
	var asks *typed.Ambiguous
	if errors.As(err, &asks) {
		return Span{Ask: asks.Readings}, true
	}
	return Span{}, false
}

var pastTense = regexp.MustCompile(` (did|was|were|rode|had|missed|skipped) `)

// settleDates reads the days anew in the direction of the topic: what is told looks
// back, absences and new races look ahead.
func (p *Part) settleDates(today planner.Date) {
	read := typed.Date
	switch {
	case p.Topic == Missed, p.Topic == TellRide, p.Topic == Sick, p.Topic == Injury, p.Topic == FlatLegs, p.Topic == Ride && pastTense.MatchString(p.plain):
		read = typed.DateBack
	case p.Topic == AddRace, p.Topic == Away && !strings.Contains(p.plain, "today"):
		read = typed.DateComing
	}
	for i, s := range p.Dates {
		if anew, ok := readSpan(lowText(p.words[s.at:s.end]), today, read); ok {
			p.Dates[i].From, p.Dates[i].To, p.Dates[i].Ask = anew.From, anew.To, anew.Ask
		}
	}
	if len(p.Dates) > 1 && p.Dates[0].Ask == nil && p.Dates[1].Ask == nil && p.Dates[1].From < p.Dates[0].From && p.joined(0) {
		if later, ok := readSpan(lowText(p.words[p.Dates[1].at:p.Dates[1].end]), p.Dates[0].From, typed.Date); ok && later.Ask == nil {
			p.Dates[1].From, p.Dates[1].To = later.From, later.To
		}
	}
}

// joined reports whether a day and the next one are the ends of a stretch.
func (p *Part) joined(i int) bool {
	if i+1 >= len(p.Dates) || p.Dates[i+1].at-p.Dates[i].end > 1 {
		return false
	}
	if p.Dates[i+1].at == p.Dates[i].end {
		return false
	}
	switch p.words[p.Dates[i].end].low {
	case "to", "until", "till", "through", "thru", "untill", "til":
		return true
	case "and":
		return p.Dates[i+1].From == p.Dates[i].To+1
	}
	return false
}

// Stretch is the first stretch of days that was named.
func (p *Part) Stretch() (from, to planner.Date, ok bool) {
	if len(p.Dates) == 0 || p.Dates[0].Ask != nil {
		return 0, 0, false
	}
	from, to = p.Dates[0].From, p.Dates[0].To
	for i := 0; p.joined(i) && p.Dates[i+1].Ask == nil; i++ {
		to = p.Dates[i+1].To
	}
	return from, max(from, to), true
}

// Written is the part's text with a day in place of one that can mean several.
func (p *Part) Written(s Span, day string) string {
	return strings.Join(strings.Fields(rawText(p.words[:s.at])+" "+day+" "+rawText(p.words[s.end:])), " ")
}
