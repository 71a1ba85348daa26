package asked

import (
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

var (
	raceIsOn     = plain.Compile(` (?:RACE|race|crit|tt) (?:is |s |it |on |in |falls |a |an |the |always |this |done |over |which |that )*$`)
	besideAtEnd  = plain.Compile(`^ (?:evening |morning |night |session |ride )?(before|after) (?:it |that |this )?(?:$|(?:must|can|may|should|shall|do|am|will) i |what |is |how )`)
	afterRaceOn  = plain.Compile(` (?:after|following|post) (?:the )?RACE .*(?:on|the|by) $| RACE (?:is )?(?:done|over|finished|behind me) (?:and |then |so |what )*$`)
	inTheWeek    = plain.Compile(`^ (?:\w+ ){0,3}(?:of|in|during|for|from) (?:the |my )?(?:\w+ ){0,3}week `)
	daysFromRace = plain.Compile(` (?:the|first|these|next|those) (\d|two|three|four|five|six|seven|ten) (days|weeks) (?:right |just |straight |directly |immediately )?(?:after|following|behind) ` + raceForm)
	daysInARow   = plain.Compile(` (\d|two|three|four|five|six|seven|ten) (days) (?:straight|in a row|running|on end) (?:after|following|behind) ` + raceForm)
	daysToRace   = plain.Compile(` (?:(last|final|those|these) |for (?:the )?|the )?(\d{1,2}|two|three|four|five|six|seven|ten|fourteen|fortnight) (?:days? |weeks? )?(?:right |just |straight |directly |immediately )?(before|until|up to|leading to|leading up to|leading into|running up to|that end with|ending with|ending on|in the run up to) ` + raceForm)
)

// behind is what stands behind a day, up to the end of the sentence: nothing of a day that was
// worked out from other words.
func (p *Part) behind(s Span) string {
	if s.end == 0 {
		return " "
	}
	at := s.end
	for at > s.at+1 && (p.words[at-1].low == "of" || p.words[at-1].low == "the" || p.words[at-1].low == "in") {
		at--
	}
	out := " "
	for _, w := range p.words[at:s.end] {
		out += w.low + " "
	}
	return out + slotText(p.words[s.end:p.sentenceEnd(s.end-1)]) + " "
}

// travelTo are words before the day on which somebody travels to a race.
var travelTo = plain.Compile(` (?:travel|travels|travelling|traveling|drive|driving|fly|flying|train|ferry|going|go|head|heading|off|set) (?:\w+ )*(?:to|for) (?:the )?RACE (?:\w+ ){0,5}$`)

// sideOf is whether a weekday is the one before a race or after it: "before", "after", or none.
func (p *Part) sideOf(s Span, behind string, race *planner.Race) string {
	if m := besideDay.FindStringSubmatch(behind); m != nil {
		if m[1] == "behind" {
			return "after"
		}
		return m[1]
	}
	if p.Race == nil {
		return ""
	}
	before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
	bareAhead := p.Race.Date > s.From && p.bareWeekday(s)
	straight, atEnd := straightDay.FindStringSubmatch(behind), besideAtEnd.FindStringSubmatch(p.behind(s))
	switch {
	case straight != nil:
		return straight[1]
	case beforeRaceOn.MatchString(before) && s.From.Weekday() != race.Date.Weekday(), p.Topic == Why && ridingBefore.MatchString(before), beforehand.MatchString(behind):
		return "before"
	case thereafter.MatchString(behind):
		return "after"
	case atEnd != nil:
		return atEnd[1]
	case bareAhead && travelTo.MatchString(before):
		return "before"
	case bareAhead && (p.Topic == AfterRace && !raceIsOn.MatchString(before) || afterRaceOn.MatchString(before)):
		return "after"
	}
	return ""
}

// sentenceEnd is where the sentence of a word ends.
func (p *Part) sentenceEnd(at int) int {
	for at < len(p.words) && p.words[at].end != '.' {
		at++
	}
	return min(at+1, len(p.words))
}

// dropRaceDay leaves away a weekday that says when a race is, where another day is named
// besides: the crit is on Saturday, may I go hard on the Tuesday after?
func (p *Part) dropRaceDay(race *planner.Race) {
	if p.Race == nil || len(p.Dates) < 2 && !dayBesideIt.MatchString(p.plain) || p.Topic == AddRace {
		return
	}
	for i, s := range p.Dates {
		if s.Ask == nil && s.end > 0 && (p.bareWeekday(s) && s.From.Weekday() == race.Date.Weekday() || s.From == s.To && s.From == race.Date && s.end < len(p.words) && p.words[s.end].low != "or") && !p.joined(i) && raceIsOn.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") {
			p.Dates = slices.Delete(p.Dates, i, i+1)
			return
		}
	}
}

// dayBesideIt is the day before or after a race whose weekday was told: the crit is Saturday, the day after it.
var dayBesideIt = plain.Compile(` (?:day|evening|night|morning) (?:before|after|behind) (?:it|that) `)

// numberOfRace reads a day of a month as that of the race that is named: Fox Hill is on the 8th.
func (p *Part) numberOfRace() bool {
	if p.Race == nil || p.Any || p.Topic == AddRace || len(p.Dates) != 1 || p.Dates[0].Ask != nil || p.Dates[0].end == 0 {
		return false
	}
	s := p.Dates[0]
	text := strings.TrimPrefix(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), "of ")
	_, _, day := p.Race.Date.Civil()
	if !ordinal.MatchString(text) || text != plain.Ordinal(strconv.Itoa(day)) || !raceIsOn.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") && !raceKindOn.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") {
		return false
	}
	p.Dates = []Span{{From: p.Race.Date, To: p.Race.Date}}
	return true
}

var raceKindOn = plain.Compile(` RACE is an? (?:\w+ ){0,3}(?:on )?(?:the )?$`)

// forRace are words behind the days on which somebody gets ready for a race.
var forRace = plain.Compile(`^ (?:for|ready for|in view of) (?:the |my )?RACE `)

// daysForRace puts weekdays on which somebody eats or sleeps for a race before it: Saturday and Sunday for Hill Loop.
func (p *Part) daysForRace(race *planner.Race) bool {
	n := len(p.Dates)
	if n == 0 || p.Race == nil || p.Topic != Food && p.Topic != Sleep || !forRace.MatchString(p.behind(p.Dates[n-1])) {
		return false
	}
	for _, s := range p.Dates {
		if s.Ask != nil || !p.bareWeekday(s) || s.From > race.Date {
			return false
		}
	}
	for i, s := range p.Dates {
		day := race.Date.AddDays(-((int(race.Date.Weekday()) - int(s.From.Weekday()) + 7) % 7))
		p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = day, day, true
	}
	return true
}

// inRaceWeek reads a weekday of a race's week: the Tuesday of Hill Loop week.
func (p *Part) inRaceWeek(race *planner.Race) bool {
	if race == nil {
		return false
	}
	if p.firstOfWeek(race) {
		return true
	}
	if len(p.Dates) == 0 {
		return false
	}
	if p.daysOfRace(race) || p.daysOfRaceWeek(race) {
		return true
	}
	first := p.Dates[0] // crit week Monday is no Monday week
	behindWeek := p.Race != nil && first.Ask == nil && first.at > 0 && first.end-first.at == 2 && p.words[first.at-1].slot == "RACE" && p.words[first.at].low == "week" && weekdays[p.words[first.at+1].low]
	if !behindWeek && (!p.bareWeekday(first) || !weekOfRace.MatchString(p.plain)) {
		return false
	}
	if len(p.Dates) == 2 && p.joined(0) && p.bareWeekday(p.Dates[1]) && p.Dates[0].From.Weekday() < p.Dates[1].From.Weekday() && weekThenDays.MatchString(p.plain) {
		for i, s := range p.Dates { // crit week, Monday to Friday
			day := race.Date.AddDays(int(s.From.Weekday()) - int(race.Date.Weekday()))
			p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = day, day, true
		}
		return true
	}
	if len(p.Dates) != 1 {
		return false
	}
	s := p.Dates[0]
	if whole := p.Topic == Plan || p.Topic == Hours; whole && !behindWeek && !inTheWeek.MatchString(p.behind(s)) {
		return false
	}
	day := race.Date.AddDays(int(s.From.Weekday()) - int(race.Date.Weekday()))
	p.Dates[0].From, p.Dates[0].To, p.Dates[0].set = day, day, true
	return true
}

// daysOfRace reads weekdays that are said to be those of a race: the Friday and Saturday of the crit.
func (p *Part) daysOfRace(race *planner.Race) bool {
	return p.Dates[len(p.Dates)-1].end != 0 && p.weekdaysIn(race, ofTheRace)
}

// daysOfRaceWeek reads several weekdays of a race's week: Wednesday and Thursday of crit week.
func (p *Part) daysOfRaceWeek(race *planner.Race) bool {
	return len(p.Dates) > 1 && p.weekdaysIn(race, ofRaceWeek)
}

// weekdaysIn takes bare weekdays in a row, with that pattern behind the last, for those of the race's week.
func (p *Part) weekdaysIn(race *planner.Race, behind *plain.Pattern) bool {
	if p.Race == nil || !behind.MatchString(p.behind(p.Dates[len(p.Dates)-1])) {
		return false
	}
	for i, s := range p.Dates {
		if s.Ask != nil || !p.bareWeekday(s) || i > 0 && s.at-p.Dates[i-1].end > 1 {
			return false
		}
	}
	for i, s := range p.Dates {
		day := race.Date.AddDays(int(s.From.Weekday()) - int(race.Date.Weekday()))
		p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = day, day, true
	}
	return true
}

// firstOfWeek reads so many days at one end of a race's week: the first three days of Hill Loop week.
func (p *Part) firstOfWeek(race *planner.Race) bool {
	m := endOfWeek.FindStringSubmatch(p.plain)
	weekMonday := len(p.Dates) > 0 && p.Dates[0].end > 0 && p.words[p.Dates[0].at].low == "week" // crit week Monday is no Monday week
	if m == nil || p.Race == nil || !p.bareRun() && !weekMonday && len(p.Dates) > 0 || strings.HasSuffix(m[0], " DAY ") && !weekMonday {
		return false
	}
	from := race.Date.AddDays(-int(race.Date.Weekday()))
	to, n := from.AddDays(6), min(7, max(1, countOf(m[2])))
	if m[1] == "last" || m[1] == "final" {
		from = to.AddDays(1 - n)
	} else {
		to = from.AddDays(n - 1)
	}
	p.Dates = []Span{{From: from, To: to, set: true}}
	return true
}

var (
	ofRaceWeek = plain.Compile(`^ (?:of|in|during) ` + raceForm + `(?:race )?week `)
	endOfWeek  = plain.Compile(` (first|opening|last|final) (\d|two|three|four|five|six) days (?:of|in) ` + raceForm + `(?:(?:race )?week|DAY) `)
)

var ofTheRace = plain.Compile(`^ of (?:the |my )?RACE (?:$|what |do |can |may |is |how |i |please )`)

// weekThenDays is a race's week with its days behind it.
var weekThenDays = plain.Compile(` (?:RACE|race) (?:week )?(?:from )?DAY (?:to|until|through) DAY `)

// raceWeekend reads the weekend of a race, the one before it and the one after.
func (p *Part) raceWeekend(race *planner.Race) bool {
	if race == nil || p.Topic == AddRace {
		return false
	}
	for i, s := range p.Dates {
		if s.Ask != nil || s.end == 0 || !isWeekend(s) || idleBehind.ReplaceAllString(idleBefore.ReplaceAllString(lowText(p.words[s.at:s.end]), ""), "") != "weekend" {
			continue
		}
		saturday := race.Date.AddDays(5 - int(race.Date.Weekday()))
		m := weekendBeside.FindStringSubmatch(p.behind(s))
		before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
		switch {
		case m != nil && m[1] == "before":
			saturday = saturday.AddDays(-7)
		case m != nil && (m[1] == "after" || m[1] == "following"):
			if race.Date.Weekday() >= planner.Saturday {
				saturday = saturday.AddDays(7)
			}
		case race.Date.Weekday() < planner.Saturday:
			continue
		case m == nil && (p.Race == nil || !strings.HasSuffix(before, " RACE ")) && !strings.HasSuffix(before, " race "):
			continue
		}
		p.Dates[i].From, p.Dates[i].To = saturday, saturday.AddDays(1)
		if day := p.Dates[0]; i == 1 && day.Ask == nil && p.bareWeekday(day) && day.From.Weekday() >= planner.Friday { // the Saturday of Hill Loop weekend
			day.From = saturday.AddDays(int(day.From.Weekday()) - int(planner.Saturday))
			day.To, day.set = day.From, true
			p.Dates = []Span{day}
		}
		return true
	}
	return false
}

var weekendBeside = plain.Compile(`^ (?:just |right |straight |directly )?(of|before|after|following|with|around) ` + raceForm)

// runOfDays reads the last seven days before a race.
func (p *Part) runOfDays(race *planner.Race) bool {
	m := daysFromRace.FindStringSubmatch(p.plain)
	if m == nil {
		m = daysInARow.FindStringSubmatch(p.plain)
	}
	if m != nil && race != nil && (len(p.Dates) == 0 || p.bareRun()) {
		n := countOf(m[1])
		if m[2] == "weeks" {
			n *= 7
		}
		p.Dates = []Span{{From: race.Last().AddDays(1), To: race.Last().AddDays(n)}}
		return n > 1
	}
	if p.daysThen(race) {
		return true
	}
	m = daysToRace.FindStringSubmatch(p.plain)
	if m == nil || race == nil || len(p.Dates) > 0 || m[1] == "" && !runTopic[p.Topic] {
		return false
	}
	n := countOf(m[2])
	if p.Topic == Away && !forRun.MatchString(m[0]) {
		return false
	}
	if weeksBefore.MatchString(m[0]) {
		n *= 7
	}
	if m[2] == "fortnight" {
		n = 14
	}
	from, to := race.Date.AddDays(-n), race.Date.AddDays(-1)
	if endsWith.MatchString(m[0]) {
		from, to = from+1, to+1
	}
	if n < 2 || n > 60 {
		return false
	}
	p.Dates = []Span{{From: from, To: to}}
	return true
}

// daysThen reads so many days that are named behind the race they follow: after Hill Loop, the three days that follow.
func (p *Part) daysThen(race *planner.Race) bool {
	if p.Race == nil || notOfRace[p.Topic] {
		return false
	}
	n := 0
	switch m := daysThen.FindStringSubmatch(p.plain); {
	case m != nil && len(p.Dates) == 0:
		if n = countOf(m[1]); m[2] == "weeks" {
			n *= 7
		}
	case len(p.Dates) == 1 && p.Dates[0].Ask == nil && p.Dates[0].end > 0 && nextDays.MatchString(lowText(p.words[p.Dates[0].at:p.Dates[0].end])) && spanThen.MatchString(p.plain):
		n = p.Dates[0].From.DaysUntil(p.Dates[0].To) + 1
	}
	if n < 2 {
		return false
	}
	p.Dates = []Span{{From: race.Last().AddDays(1), To: race.Last().AddDays(n), set: true}}
	return true
}

const raceIsOver = ` (?:(?:after|following|post) (?:the |my )?RACE|RACE (?:is |are |was |has been )?(?:done|over|finished|ridden|behind me)) `

var (
	daysThen = plain.Compile(raceIsOver + `(?:(?:and|then|so|what|do|does|i|ride|is|are|in|for|on|during|happens|with|about|of|over) ){0,5}(?:the|those|these) (?:first |next |following )?(\d|two|three|four|five|six|seven|ten) (days|weeks) `)
	spanThen = plain.Compile(raceIsOver + `(?:(?:and|then|so|what|do|i|ride|is|are|in|for|the|my) ){0,4}SPAN `)
)

// bareRun reports whether all days are weekdays one after the other: the first three days after it (mon tue wed).
func (p *Part) bareRun() bool {
	for i, s := range p.Dates {
		if s.Ask != nil || !p.bareWeekday(s) || i > 0 && (s.From.Weekday() != (p.Dates[i-1].From.Weekday()+1)%7 || s.at-p.Dates[i-1].end > 1) {
			return false
		}
	}
	return len(p.Dates) > 1
}

// runTopics are topics where so many days before a race are all of them.
var runTopic = map[Topic]bool{Plan: true, Hours: true, Away: true}

var (
	forRun      = plain.Compile(`^ (?:for|the|last|final) | weeks? | fortnight `)
	weeksBefore = plain.Compile(` weeks? `)
	endsWith    = plain.Compile(` end(?:ing|s)? (?:with|on) `)
)

var (
	betweenTwo  = plain.Compile(` (?:between|from) `)
	betweenThem = plain.Compile(` between (?:(?:my|the|these|both|two|next|a|june|july|august|summer) )*races `)
)

// betweenRaces reads all days from one race to another.
func (p *Part) betweenRaces(k Known) bool {
	if p.Topic != Plan && p.Topic != Hours && p.Topic != Away && p.Topic != AfterRace || len(p.Dates) > 0 {
		return false
	}
	first, second := p.Race, (*planner.Race)(nil)
	switch {
	case betweenThem.MatchString(p.plain):
		if first = nextOf(k.Races, k.Today); first != nil {
			second = nextOf(k.Races, first.Last().AddDays(1))
		}
	case first != nil && betweenTwo.MatchString(p.plain):
		second = p.secondRace(k, first)
	}
	if first == nil || second == nil || first.Date == second.Date {
		return false
	}
	if second.Date < first.Date {
		first, second = second, first
	}
	p.Race, p.Dates = second, []Span{{From: first.Date, To: second.Date, set: true}}
	if p.Topic == AfterRace {
		p.Race, p.Dates[0].From, p.Dates[0].To = first, first.Last().AddDays(1), second.Date.AddDays(-1)
	}
	return true
}

// secondRace is a race that is named beside another one, by its name or its kind.
func (p *Part) secondRace(k Known, other *planner.Race) *planner.Race {
	for i := range k.Races {
		r := &k.Races[i]
		if score, at, end := p.named(r); r != other && score >= leastName && end > at && p.words[at].slot == "" {
			return r
		}
	}
	for i, w := range p.words {
		if kind := raceKinds[w.low]; kind != "" && w.slot == "" && i > 0 && p.words[i-1].slot == "" {
			if r := ofRaceKind(k.Races, k.Today, kind); r != nil && r != other {
				return r
			}
		}
	}
	return nil
}

// sayItsDay reports whether the one day that is named only says when the race is: up to Hill Loop on the 21st.
func (p *Part) sayItsDay() bool {
	if p.Race == nil || p.Any || p.Topic == AddRace || p.Topic == Away || len(p.Dates) != 1 {
		return false
	}
	s := p.Dates[0]
	return s.Ask == nil && s.end > 0 && s.From == s.To && s.From == p.Race.Date && raceIsOn.MatchString(" "+slotText(p.words[p.sentence(s.at):s.at])+" ") && sidesOfRace.MatchString(p.plain)
}

// sidesOfRace are words that name days by a race besides its own.
var sidesOfRace = plain.Compile(` (?:up to|until|before|to|between) (?:the |my )?RACE | RACE week | week (?:of|before|with) (?:the |my )?RACE `)
