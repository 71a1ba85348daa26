package asked

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/typed"
)

var (
	inDate    = wordSet(dateWords)
	weekdays  = wordSet("monday tuesday wednesday thursday friday saturday sunday")
	months    = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")
	nearDays  = wordSet("today tomorrow yesterday tonight weekend fortnight")
	ordinal   = plain.Compile(`^\d{1,2}(?:st|nd|rd|th)$`)
	digits    = plain.Compile(`^\d{1,4}$`)
	isoLike   = plain.Compile(`^\d{4}-\d{1,2}-\d{1,2}$|^\d{1,2}[/.]\d{1,2}(?:[/.]\d{2,4})?$`)
	dateUnits = wordSet("day days week weeks fortnight month months")
	numerals  = wordSet("one two three four five six seven eight nine ten a couple")
)

// isDatePart reports whether a word can be part of a date.
func isDatePart(w string) bool {
	return inDate[w] || ordinal.MatchString(w) || digits.MatchString(w) || isoLike.MatchString(w) || numerals[w]
}

// ordinals makes the 13 of "on the 13" a day of the month, and takes "wed 10" as one.
func (p *Part) ordinals() {
	for i := range p.words {
		w := &p.words[i]
		if !digits.MatchString(w.low) || len(w.low) > 2 || w.slot != "" || i == 0 {
			continue
		}
		next := ""
		if i+1 < len(p.words) && w.end == 0 {
			next = p.words[i+1].low
		}
		if n := plain.Number(w.low); i > 1 && p.words[i-1].low == "of" && p.words[i-1].end == 0 && n > 0 && n <= 31 && (raceKinds[p.words[i-2].low] != "" || raceWords[p.words[i-2].low]) && (next == "" || asksNext[next]) {
			w.low = plain.Ordinal(w.low) // the crit of 13
			continue
		}
		if p.words[i-1].low == "the" && p.words[i-1].end == 0 && (i < 2 || p.words[i-2].low != "of" || i > 2 && ofDay[p.words[i-3].low]) && !plain.Counted[next] && !months[next] && next != "though" && next != "only" && (i < 2 || p.words[i-2].low != "just" && p.words[i-2].low != "only") {
			w.low = plain.Ordinal(w.low)
		}
	}
}

// raceWords are words for a race, whichever its kind.
var raceWords = wordSet("race event trial competition")

// asksNext are words of a question behind a day.
var asksNext = wordSet("what how when which do does is am i can may should will it who where")

// ofDay are words behind which "of the 21" is a day.
var ofDay = wordSet("morning evening night afternoon day eve week weekend session ride plan training workout")

// satBehind are words behind which "sat" is no Saturday.
var satBehind = wordSet("i just am im been was were still being")

// seats are what somebody sat on.
var seats = wordSet("sofa couch chair desk bench floor kerb curb verge bed bus train car van settee armchair table office toilet loo wall stairs step grass ground sofas")

// satAhead are words behind which "sat" is a Saturday.
var satAhead = wordSet("on for this next last by till until from is and to since of every")

// beforeOrdinal are words behind which 13th is a day and no place in a race.
var beforeOrdinal = wordSet("why what whats how about around with does starting beginning commencing ending the on until to from by and for since of before after till then not or is week coming upcoming")

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
	case weekdays[w] && p.words[i].raw != strings.ToLower(p.words[i].raw) && i+1 < len(p.words) && inRaceName[p.words[i+1].raw]:
		return false // the Wednesday Night Dash
	case weekdays[w] && i > 0 && p.words[i-1].low == "the" && p.words[i].end == 0 && p.words[i].raw != strings.ToLower(p.words[i].raw) && i+1 < len(p.words) && isCapital(p.words[i+1].raw) && !digits.MatchString(p.words[i+1].low) && !ordinal.MatchString(p.words[i+1].low) && !months[p.words[i+1].low] && !weekdays[p.words[i+1].low] && p.words[i+1].raw != "I":
		return false // the Sunday Scramble
	case w == "saturday" && strings.EqualFold(p.words[i].raw, "sat") && !near(i-1, func(s string) bool { return satAhead[s] }) && (near(i-1, func(s string) bool { return satBehind[s] }) || near(i+1, func(s string) bool {
		return s == "here" || s == "about" || s == "there" || s == "around" || s == "down" || s == "still" || s == "up"
	}) || p.words[i].end == 0 && (near(i+2, func(s string) bool { return s == "my" || s == "me" }) || near(i+3, func(s string) bool { return seats[s] }))):
		return false // somebody sat there
	case weekdays[w] && p.everyWeek(i):
		return false
	case weekdays[w]:
		return w != "wednesday" || !near(i-1, func(s string) bool { return s == "getting" || s == "get" || s == "be" })
	case nearDays[w]:
		return w != "weekend" || !near(i-1, func(s string) bool {
			return s == "every" || s == "each" || s == "most" || s == "my" && strings.HasSuffix(strings.ToLower(p.words[i].raw), "ends")
		})
	case ordinal.MatchString(w):
		return i == 0 || near(i+1, func(s string) bool { return s == "and" }) && near(i+2, ordinal.MatchString) || p.words[i].end == ',' && near(i+1, ordinal.MatchString) || p.words[i-1].slot != "" || p.words[i-1].end != 0 || p.words[i-1].low == "day" && near(i-2, func(s string) bool { return s == "race" || s == "match" || s == "the" }) || beforeOrdinal[p.words[i-1].low] || weekdays[p.words[i-1].low] || months[p.words[i-1].low] || near(i+1, func(s string) bool { return s == "of" || s == "to" || months[s] })
	case isoLike.MatchString(w):
		return p.isDay(i) && !near(i+1, func(s string) bool {
			return s == "hours" || s == "hour" || s == "h" || s == "km" || s == "effort" || s == "kg"
		})
	case p.allows(i):
		return false
	case months[w]:
		return near(i-1, number) && p.words[i-1].end == 0 || near(i+1, number) && p.words[i].end == 0 || near(i-1, func(s string) bool { return s == "of" }) && near(i-2, number)
	case (w == "week" || w == "weeks" || w == "month") && near(i-1, func(s string) bool { return s == "next" || s == "this" || s == "last" || s == "coming" }):
		return true
	case w == "week" && near(i-1, func(s string) bool { return s == "one" || s == "a" }) && near(i+1, func(s string) bool { return s == "from" }) && near(i+2, func(s string) bool { return s == "now" || s == "here" }):
		return true
	case (w == "week" || w == "month" || w == "fortnight") && near(i+1, func(s string) bool { return s == "ago" }) && p.words[i].end == 0:
		return true
	case w == "weeks" && i+1 < len(p.words) && p.wholeWeek(i):
		return false
	case w == "days" || w == "weeks" || w == "months" || w == "month" || w == "day":
		return near(i-2, func(s string) bool { return s == "in" }) && !p.lengthOf(i) || near(i+1, func(s string) bool { return s == "ago" }) || near(i+1, func(s string) bool { return s == "from" })
	case w == "morning" || w == "evening" || w == "night" || w == "afternoon":
		return near(i-1, func(s string) bool { return s == "this" || s == "last" })
	}
	return false
}

// shines reports whether "sun" is no Sunday: two weeks in the sun, too much sun, if the sun is out.
func (p *Part) shines(i int) bool {
	if !strings.EqualFold(p.words[i].raw, "sun") || i == 0 || p.words[i-1].end != 0 {
		return false
	}
	before, ahead := p.words[i-1].low, ""
	if i > 1 && p.words[i-2].end == 0 {
		ahead = p.words[i-2].low
	}
	next := ""
	if p.words[i].end == 0 && i+1 < len(p.words) {
		next = p.words[i+1].low
	}
	switch {
	case sunny[before] || before == "of" && (dateUnits[ahead] || ahead == "bit" || ahead == "lot") && !numbered(next):
		return true
	case before == "the":
		return sunPlace[ahead] && !numbered(next) || sunDoes[next] && (next != "is" && next != "was" || i+2 < len(p.words) && sunIs[p.words[i+2].low])
	}
	return false
}

var (
	sunny    = wordSet("blazing hot full strong much direct burning bright scorching midday summer some no more proper")
	sunPlace = wordSet("in under into from out chasing chase seeing see need needing want love enjoying enjoy following")
	sunDoes  = wordSet("is was shines comes burns goes sets rises cream hat")
	sunIs    = wordSet("out up down hot shining strong brutal too blazing back gone high")
)

// lengthOf reports whether "in" says how long something takes: four races in three weeks.
func (p *Part) lengthOf(i int) bool {
	if i > 3 && p.words[i-4].end == 0 && thoseThat[p.words[i-4].low] {
		return false // those efforts in five days
	}
	if i > 2 && p.words[i-3].low == "session" && (i == 3 || p.words[i-4].end != 0 || !countsUnits(p.words[i-4].low)) {
		return false // session in seven days please
	}
	return i > 2 && p.words[i-3].end == 0 && (plain.Counted[p.words[i-3].low] && p.words[i-3].low != "ride" && !dateUnits[p.words[i-3].low] || p.words[i-1].low == "one" && strings.HasPrefix(p.words[i].low, "day"))
}

// thoseThat are words before what is planned, which is not counted: these intervals in five days.
var thoseThat = wordSet("the them those these that this my our")

// everyWeek reports whether a weekday is that of any week: the intervals on Tuesdays should burn.
func (p *Part) everyWeek(i int) bool {
	raw := strings.ToLower(p.words[i].raw)
	if i+3 < len(p.words) && p.words[i].end == 0 && (p.words[i+2].low == "every" || p.words[i+2].low == "each") && p.words[i+3].low == "week" {
		return true // saturday intervals every week
	}
	if !strings.HasSuffix(raw, "days") || i == 0 || !beforeHabit[p.words[i-1].low] {
		return false
	}
	return p.words[i].end != 0 || i+1 == len(p.words) || behindHabit[p.words[i+1].low]
}

var (
	beforeHabit = wordSet("on the my keep most all usual missing and normally usually always")
	behindHabit = wordSet("should because and or do is are i my but so when to as for in if since will can must always normally usually while when during")
)

// inRaceName are words behind which a weekday is a part of a race's name.
var inRaceName = wordSet("Night Nights Evening League Series Handicap Club Worlds Morning")

var (
	outOfTen = plain.Compile(`^(?:10|\d)/10$`)
	beforeOf = wordSet("on from until till the by to since monday tuesday wednesday thursday friday saturday sunday")
	ofClock  = wordSet("am pm h uhr oclock km watts")
	atClock  = wordSet("at average avg around about speed off")
)

// isDay reports whether numbers can be a day: no rating out of ten, no time of day.
func (p *Part) isDay(i int) bool {
	w := p.words[i].low
	before, next := "", ""
	if i > 0 {
		before = p.words[i-1].low
	}
	if i+1 < len(p.words) {
		next = p.words[i+1].low
	}
	if outOfTen.MatchString(w) {
		return beforeOf[before]
	}
	if head, tail, ok := strings.Cut(w, "."); ok && !strings.Contains(tail, ".") {
		return !ofClock[next] && !atClock[before] && len(head) > 0 && (len(tail) == 2 && tail < "13" || len(tail) == 1 && tail != "0")
	}
	return w != "24/7"
}

// findDates finds the days that are named; settleDates reads them, once it is known
// which way the topic looks.
func (p *Part) findDates(today planner.Date) {
	p.ordinals()
	for i := range p.words {
		if weekdays[p.words[i].low] && p.shines(i) {
			p.words[i].low = "sunshine"
		}
	}
	p.findStretches(today)
	for i := 0; i < len(p.words); i++ {
		if p.words[i].slot != "" || !p.anchors(i) {
			continue
		}
		from, to := i, i+1
		for from > 0 && i-from < 4 && p.words[from-1].slot == "" && isDatePart(p.words[from-1].low) && p.words[from-1].end == 0 && !p.wholeWeek(from-1) && (!numerals[p.words[from-1].low] || dateUnits[p.words[from].low]) {
			from--
		}
		for to < len(p.words) && to-i < 5 && p.words[to].slot == "" && isDatePart(p.words[to].low) && !p.looseNumber(to) && !p.allows(to) && !p.wholeWeek(to-1) && p.words[to-1].end != '.' && (p.words[to-1].end == 0 || p.words[to].low != "week") {
			to++
		}
		p.widest(i, from, to, today)
	}
	slices.SortStableFunc(p.Dates, func(a, b Span) int { return a.at - b.at })
	p.aroundDay()
}

// thisWeek are words behind which "week from" is a week and no length of time.
var thisWeek = wordSet("my the this your our whole last next coming all entire")

// wholeWeek reports whether a word is the week of a day that follows: the week of Monday 8,
// my week from today.
func (p *Part) wholeWeek(i int) bool {
	if i+1 >= len(p.words) {
		return false
	}
	if p.words[i].low == "weeks" && p.words[i+1].low == "from" && (i == 0 || !numerals[p.words[i-1].low] && !digits.MatchString(p.words[i-1].low)) {
		return true // both weeks from Monday
	}
	return p.words[i].low == "week" && (p.words[i+1].low == "of" || p.words[i+1].low == "from" && i > 0 && (thisWeek[p.words[i-1].low] || p.words[i-1].slot == "RIDER"))
}

// allows reports whether "may" is no month: on the 10th, may I.
func (p *Part) allows(i int) bool {
	if p.words[i].low != "may" || i+1 == len(p.words) || !asksWho[p.words[i+1].low] {
		return false
	}
	if i > 0 && digits.MatchString(p.words[i-1].low) && p.words[i-1].end == 0 {
		return false
	}
	dated := i > 0 && ordinal.MatchString(p.words[i-1].low)
	return !dated || i+2 == len(p.words) || !saysBack.MatchString(" "+p.words[i+2].low+" ")
}

var asksWho = wordSet("i we he she they one my the")

// looseNumber reports whether a word counts something else than days: wednesday evening one hour.
func (p *Part) looseNumber(i int) bool {
	return numerals[p.words[i].low] && (i+1 == len(p.words) || !dateUnits[p.words[i+1].low])
}

// widest takes the longest run of words around i that is a day.
func (p *Part) widest(i, from, to int, today planner.Date) {
	for n := to - from; n > 0; n-- {
		for a := from; a+n <= to; a++ {
			if p.besideRide(a, a+n) {
				continue
			}
			if a > i || a+n <= i || a+n < len(p.words) && n > 1 && dateUnits[p.words[a+n].low] && countsUnits(p.words[a+n-1].low) {
				continue
			}
			s, ok := readSpan(lowText(p.words[a:a+n]), today, typed.Date)
			if !ok && n > 2 { // a weekday beside a date that is over
				s, ok = readSpan(lowText(p.words[a:a+n]), today, typed.DateBack)
			}
			if ok {
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

// besideRide reports whether words are before or after the ride of a day, which is no day by itself:
// an espresso before tomorrow's ride.
func (p *Part) besideRide(from, to int) bool {
	return (p.words[from].low == "before" || p.words[from].low == "after") && to < len(p.words) && p.words[to].slot == "" && strings.HasSuffix(folded(p.words[to-1].raw), "s") && nearDays[p.words[to-1].low]
}

// countsUnits reports whether a word before days or weeks is how many they are: Wednesday, three days before.
func countsUnits(w string) bool { return numerals[w] || digits.MatchString(w) }

// readSpan reads a day or a stretch of days with the reader of one direction.
func readSpan(text string, today planner.Date, day func(string, planner.Date) (planner.Date, error)) (Span, bool) {
	for _, idle := range []string{"on ", "the ", "for ", "of "} {
		text = strings.TrimPrefix(text, idle)
	}
	text = strings.ReplaceAll(text, " of next week", " next week")
	if m := weekAgo.FindStringSubmatch(text); m != nil {
		if last, err := typed.DateBack(m[1]+m[2], today); err == nil {
			back := 7
			if m[1] != "" && last <= today.AddDays(-4) {
				back = 0 // the one that is nearest to a week ago
			}
			if m[2] != "" && last == today {
				back = 14
			}
			return Span{From: last.AddDays(-back), To: last.AddDays(-back)}, true
		}
	}
	switch text {
	case "weekend weekend", "in weekend":
		text = "weekend"
	case "this weeks", "next weeks", "last weeks":
		text = strings.TrimSuffix(text, "s")
	case "coming week", "the coming week":
		text = "next week"
	case "today in one week", "in one week today":
		text = "in 7 days"
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
	if d, ok := weekdayOfMonth(text, today); ok {
		return Span{From: d, To: d}, true
	}
	return Span{}, false
}

var weekdayAndDay = plain.Compile(`^(monday|tuesday|wednesday|thursday|friday|saturday|sunday) (?:the )?(\d{1,2})(?:st|nd|rd|th)$`)

// soonEnough is how many days ahead a weekday and a day of the month are looked for.
const soonEnough = 100

// weekdayOfMonth is the next day on which a weekday and a day of the month agree: Sunday the 30th.
func weekdayOfMonth(text string, today planner.Date) (planner.Date, bool) {
	m := weekdayAndDay.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	for n := range soonEnough {
		day := today.AddDays(n)
		if _, _, of := day.Civil(); strconv.Itoa(of) == m[2] && namedBefore(m[1], day) {
			return day, true
		}
	}
	return 0, false
}

// weekAgo are days of the week before: Thursday a week ago, a week last Sunday.
var weekAgo = plain.Compile(`^(?:(monday|tuesday|wednesday|thursday|friday|saturday|sunday) (?:a|one) week ago|(?:a |one )?week last (monday|tuesday|wednesday|thursday|friday|saturday|sunday))$`)

// settleDates reads the days again in the direction of the topic and of the words
// next to them: reports look back, absences and new races look ahead.
func (p *Part) settleDates(today planner.Date) {
	p.leaveName()
	for i, s := range p.Dates {
		if s.set {
			if text := lowText(p.words[s.at:s.end]); s.Ask == nil && s.From > today.AddDays(150) && p.looksBack(s) {
				if from, to, ok := stretchOf(text, today.AddDays(-300)); ok && to <= today {
					p.Dates[i].From, p.Dates[i].To = from, to
				}
			}
			continue
		}
		if anew, ok := readSpan(lowText(p.words[s.at:s.end]), today, p.direction(s, today)); ok {
			p.Dates[i].From, p.Dates[i].To, p.Dates[i].Ask = anew.From, anew.To, anew.Ask
		}
		if s := p.Dates[i]; p.looksBack(s) && s.Ask == nil && s.From > today && strings.Contains(lowText(p.words[s.at:s.end]), "weekend") {
			p.Dates[i].From, p.Dates[i].To = s.From-7, s.To-7
		}
	}
	if len(p.Dates) > 1 && p.Dates[0].Ask == nil && p.Dates[1].Ask == nil && p.Dates[1].From < p.Dates[0].From && p.joined(0) && !strings.HasSuffix(lowText(p.words[p.Dates[1].at:p.Dates[1].end]), " this week") {
		if later, ok := readSpan(lowText(p.words[p.Dates[1].at:p.Dates[1].end]), p.Dates[0].From, typed.Date); ok && later.Ask == nil {
			p.Dates[1].From, p.Dates[1].To = later.From, later.To
		}
	}
	p.laterInMonth()
	p.stretched(today)
	p.bounded(today)
	p.mainDate(today)
	p.dropIdle(today)
	p.wholeMonth(today)
}

// laterInMonth reads a day of a month behind one of a later month as the next one: from 11 July, until the 25th.
func (p *Part) laterInMonth() {
	for i := 1; i < len(p.Dates); i++ {
		before, s := p.Dates[i-1], p.Dates[i]
		if before.Ask != nil || s.Ask != nil || s.set || before.end == 0 || s.at < before.end || s.From != s.To || s.From >= before.From || before.From.DaysUntil(s.From) < -60 {
			continue
		}
		text := strings.TrimPrefix(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), "of ")
		if !ordinal.MatchString(text) || !untilDay.MatchString(" "+slotText(p.words[before.end:s.at])+" ") {
			continue
		}
		if later, ok := readSpan(text, before.To, typed.Date); ok && later.Ask == nil {
			p.Dates[i].From, p.Dates[i].To = later.From, later.To
		}
	}
}

// joined reports whether a day and the next one are the ends of a stretch.
func (p *Part) joined(i int) bool {
	if i+1 >= len(p.Dates) || p.Dates[i].end == 0 || p.Dates[i+1].at-p.Dates[i].end > 1 && !p.andAgain(i) {
		return false
	}
	follows := p.Dates[i+1].From == p.Dates[i].To+1
	if p.Dates[i+1].at == p.Dates[i].end {
		if p.words[p.Dates[i].end-1].glued && p.Dates[i].From == p.Dates[i].To && p.bareWeekday(p.Dates[i+1]) {
			return true // next week mon-sun
		}
		return follows || (p.words[p.Dates[i].end-1].dash || p.words[p.Dates[i].end-1].glued) && p.Dates[i+1].From > p.Dates[i].To
	}
	switch p.words[p.Dates[i].end].low {
	case "to", "until", "through":
		return true
	case "and":
		before := " " + lowText(p.words[max(0, p.Dates[i].at-2):p.Dates[i].at]) + " "
		return follows || p.Dates[i+1].From > p.Dates[i].To && (strings.HasSuffix(before, " between ") || strings.HasSuffix(before, " between the "))
	case "no", "or", "nor", "nothing", "plus":
		return follows
	}
	return false
}

// andAgain reports whether only "and again" or the like parts a day from the next.
func (p *Part) andAgain(i int) bool {
	s, next := p.Dates[i], p.Dates[i+1]
	return next.at-s.end == 2 && p.words[s.end-1].end == 0 && p.words[s.end].low == "and" && againWords[p.words[s.end+1].low]
}

var againWords = wordSet("again also then even the on")

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
