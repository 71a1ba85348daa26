package asked

import (
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

// raceForm is a race that is named, or spoken of without its name.
const raceForm = `(?:the |my |this |next |our |big |main |(?:my|the|next|main|big) [abc] |[bc] )*(?:RACE|race|crit|criterium|tt|time trial|event|competition|big one|main one)(?: day)? `

var (
	besideRace   = plain.Compile(` (?:(\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen) (?:days?|nights?|sleeps?|evenings)|(?:the )?(?:one )?(day|night|evening?|morning?)) (?:straight |right |directly |just |immediately )?(before|out from|out of|after|from|off|for|of|in front of|ahead of|prior to|preceding|to go to|to go before|to go until|left before|left until|past|following|pre|shy of|short of|to|until|behind) ` + raceForm)
	raceEve      = plain.Compile(` (?:the )?(?:eve|evening|dinner|supper|openers) (?:of|before|for) ` + raceForm + `| ` + raceForm + `eve `)
	onRaceDay    = plain.Compile(` (?:RACE|crit|tt) (?:race )?(?:day|morning?) | race ?day | (?:on|come) the day | (?:to|at) the start (?:of|at) (?:the )?RACE | (?:ride|cycle|drive|pedal|bike|roll) to (?:the )?RACE `)
	weekOfRace   = plain.Compile(` (?:race )?week (?:of|for|before|with|in front of|to|in which (?:is|there is|falls|comes|lies)|in which|(?:in which |that |when |where )?(?:i|we) (?:do|race|ride|have|start|am doing)|that|when|where|(?:that |which )?(?:ends?|ending|finishes|finishing|closes|culminates|culminating) (?:in|with|on|at)|(?:that )?(?:leads|leading|runs|running|builds|building) (?:up )?(?:in|into|to)(?: to)?) ` + raceForm + `| week (?:look |looks |like |go |going |is |be )+(?:that |which )(?:(?:leads|runs|builds) (?:up )?(?:in|into|to)|ends (?:in|with|on|at)) ` + raceForm + `| ` + raceForm + `(?:race )?week | (?:(?:last|final) week|SPAN) (?:before|of) ` + raceForm + `| race week `)
	weekAfter    = plain.Compile(` (?:the )?week (?:straight |right )?(?:after|following|behind) ` + raceForm + `| post RACE .* (?:first|next) week | (?:first|next) week post RACE `)
	untilRace    = plain.Compile(` (?:(?:from )?(?:now|DAY|here|today) (?:to|until|till|til|up to|up until|2)(?: and including)?|between (?:now|DAY) (?:to|until|and)) ` + raceForm)
	toRace       = plain.Compile(`^ (?:and|to|until|till|through|up to|up until) ` + raceForm)
	upToRace     = plain.Compile(` (?:until|up to|up until) ` + raceForm + `| (?:all|every|each)(?: \w+){1,3} (?:to|before) ` + raceForm)
	besideAlone  = plain.Compile(` (?:the |on |or )*(day|evening|night) (before|after|behind) (?:just |or |to |is |can |i )?| next day | the day thereafter `)
	weekBeside   = plain.Compile(` (?:(a|one|two|three|four|five|six|\d) weeks?|(fortnight)) (?:straight |right |exactly |just )?(before|after|out from|ahead of|prior to|following|past) ` + raceForm)
	twoWeeks     = plain.Compile(` (?:fortnight|two weeks) (?:before|to|until|up to) ` + raceForm)
	raceAtEnd    = plain.Compile(` week .*(?:with|in|at|on).* (?:middle|end) `)
	lengthBefore = plain.Compile(` (?:hour|hours|minutes|min|LEN) before (?:the |my )?RACE `)
	onItsDay     = plain.Compile(` RACE (?:is |s |it |on |a |an |the |always |this )*$`)
	morningOf    = plain.Compile(` race ?morning? `)
	startsAt     = plain.Compile(` (?:start|starts|starting|timetable|schedule|that day|that morning|whole day|off at|slot|evening|\d{1,2}(?:pm|am|h)) `)
	getsUp       = plain.Compile(` (?:(?:get|getting|wake|waking|be|am i|i am) up|rise|alarm|awake) .*RACE | RACE .*(?:get up|wake up|rise|alarm) `)
	rodeEarlier  = plain.Compile(` (?:at lunchtime|at lunch time|this lunchtime|over lunch|before work|before breakfast|before school|first thing) `)
	raceDayOf    = plain.Compile(` race day (?:of|for|at) `)
	justNow      = plain.Compile(` (?:woke up|woken up|waking up|woke|wake up with|just now|just in|just back|in just now|just (?:got|come|came|returned|arrived) (?:back|in|home|from)|in from|off the bike|just return|just returned|just (?:back|finished|done|did|home)|home now|this lunch|at lunch|since the morning) | (?:back|home) from .* (?:now|just) `)
	rideNow      = plain.Compile(` (?:(?:ride|riding|do|doing|got|have|on|session|training|train) (?:right |just )?now|right now|straight away|this minute|this moment) `)
	besideDay    = plain.Compile(`^ (?:night |evening |morning |straight |right |directly |just )*(before|after|behind) ` + raceForm)
	raceMinus    = plain.Compile(` RACE minus (\d|one|two|three|four|five|six|seven) `)
)

// findBeside reads days that are named by a race: the eve, race week, two days before it.
func (p *Part) findBeside(k Known) {
	race := p.Race
	if race == nil {
		race = nextOf(k.Races, k.Today)
	}
	if p.Topic == TellRide && len(p.Dates) == 0 && p.Race != nil && p.Race.Last() < k.Today && !besideRace.MatchString(p.plain) {
		p.Dates = []Span{{From: p.Race.Last(), To: p.Race.Last()}}
		return
	}
	if len(p.Dates) == 0 && p.Topic == Ride && p.Race == nil && rideNow.MatchString(p.plain) {
		p.Dates = []Span{{From: k.Today, To: k.Today}}
		return
	}
	if len(p.Dates) == 0 && p.Topic == TellRide && rodeEarlier.MatchString(p.plain) {
		p.Dates = []Span{{From: k.Today, To: k.Today}}
		return
	}
	if len(p.Dates) == 0 && (p.Topic == TellRide || looksBackMostly[p.Topic]) && justNow.MatchString(p.plain) {
		p.Dates = []Span{{From: k.Today, To: k.Today}}
		return
	}
	if p.Topic == Rider && p.Rider != "" && len(p.Dates) == 0 && weekOfRider.MatchString(p.plain) {
		monday := k.Today.AddDays(-int(k.Today.Weekday()))
		p.Dates = []Span{{From: monday, To: monday.AddDays(6)}}
		return
	}
	p.onRaceDay(k)
	p.askedOfRace(k)
	p.dropRaceDay(race)
	if p.sayItsDay() {
		p.Dates = nil
	}
	if p.betweenRaces(k) || p.numberOfRace() {
		return
	}
	if p.daysForRace(race) || p.inRaceWeek(race) || p.runOfDays(race) || p.raceWeekend(race) {
		return
	}
	whole := len(p.Dates) > 0 && p.bareWeekday(p.Dates[0]) && p.joined(0) && p.Race != nil && (p.Topic == Plan || p.Topic == Hours) && p.weekOf()
	if !whole && (p.weekdayBeside(race) || p.sameWeekday() || p.dayOfNamed() || p.eveOf(race)) {
		return
	}
	if len(p.Dates) == 1 && p.Race != nil && ofMonths[p.Topic] && p.Dates[0].Ask == nil && p.Dates[0].From == p.Dates[0].To && p.Dates[0].From < p.Race.Date && !weekOfRace.MatchString(p.plain) && upToRace.MatchString(p.plain) && beginsAt.MatchString(" "+slotText(p.words[p.sentence(p.Dates[0].at):p.Dates[0].at])+" ") {
		p.Dates[0].To, p.Dates[0].set = p.Race.Date, true // up to the crit, from today
		return
	}
	if p.Topic == NextRace || len(p.Dates) > 0 && !untilRace.MatchString(p.plain) && (!p.weekOf() || p.Topic == Ride || p.Topic == MayI || p.joined(0) && !p.bareWeekday(p.Dates[0])) {
		return
	}
	from, to, day, ok := p.beside(race, k.Today)
	if !ok {
		return
	}
	if day {
		offset := from
		p.Offset, p.Any = &offset, p.Any || p.Race == nil
	}
	if race == nil {
		return
	}
	base := race.Date
	if day && from > 0 {
		base = race.Last()
	}
	p.Dates = []Span{{From: base.AddDays(from), To: base.AddDays(to)}}
}

// onRaceDay leaves the day of a race where its morning is asked about and another day is told besides: work until
// late on Friday, race Saturday 13th.
func (p *Part) onRaceDay(k Known) {
	if p.Topic != RaceMorning || len(p.Dates) < 2 {
		return
	}
	for _, s := range p.Dates {
		if r := raceOn(k, s); r != nil {
			p.Race, p.Dates = r, []Span{s}
			return
		}
	}
}

// askedOfRace leaves the reading of a day that is the day of the race: Fox Hill on 7/8.
func (p *Part) askedOfRace(k Known) {
	if p.Topic == AddRace {
		return
	}
	for i, s := range p.Dates {
		for _, r := range s.Ask {
			day, err := planner.ParseISODate(r.Value)
			if err != nil {
				continue
			}
			on := Span{From: day, To: day, at: s.at, end: s.end}
			switch {
			case p.Race != nil && !p.Any && p.Race.Date == day:
				p.Dates[i] = on
			case p.Race == nil && p.Topic == RaceMorning && raceOn(k, on) != nil:
				p.Dates[i], p.Race = on, raceOn(k, on)
			}
		}
	}
}

// beginsAt are words before the day with which a stretch begins.
var beginsAt = plain.Compile(` (?:from|starting|beginning|starting from|beginning from|as of)(?: on)?(?: the)? $`)

// weekOfRider is the week of a rider with nothing that says which: Ines's week.
var weekOfRider = plain.Compile(` RIDER (?:training |riding )?week (?:$|please |go |look |going |so |in |looks |look )| RIDER .*(?:the|her|his|their) week $`)

// weekOf reports whether the week of a race is named.
func (p *Part) weekOf() bool {
	return weekOfRace.MatchString(p.plain) || p.Race != nil && (p.Topic == Plan || p.Topic == Hours) && thatWeek.MatchString(p.plain)
}

// beside is a stretch as days from a race; day says that it is one named day.
func (p *Part) beside(race *planner.Race, today planner.Date) (from, to int, day, ok bool) {
	weekday := 0
	if race != nil {
		weekday = int(race.Date.Weekday())
	}
	if m := besideRace.FindStringSubmatch(p.plain); m != nil && !p.sortOfDay() {
		n := daysBeside(m)
		if m[1] == "" && raceDayOf.MatchString(p.plain) {
			n = 0
		}
		if race != nil && race.Last() < today && n < 0 && !strings.HasPrefix(m[3], "before") {
			return 0, 0, false, false // it is eleven days from a race that is over
		}
		return n, n, true, n >= -60 && n <= 60
	}
	if m := weekBeside.FindStringSubmatch(p.plain); m != nil {
		n := 7 * max(1, plain.Number(m[1]))
		if m[2] != "" {
			n = 14
		}
		if m[3] != "after" && m[3] != "following" && m[3] != "past" {
			n = -n
		}
		return n, n, true, true
	}
	if m := raceMinus.FindStringSubmatch(p.plain); m != nil {
		n := plain.Number(m[1])
		return -n, -n, true, n > 0
	}
	switch {
	case p.Race != nil && (p.Topic == Plan || p.Topic == Hours) && twoWeeks.MatchString(p.plain):
		return -14, -1, false, true
	case raceEve.MatchString(p.plain):
		return -1, -1, true, true
	case race != nil && untilRace.MatchString(p.plain):
		return race.Date.DaysUntil(p.startOfRun(race, today)), 0, false, true
	case weekAfter.MatchString(p.plain):
		return 7 - weekday, 13 - weekday, false, true
	case weekOfRace.MatchString(p.plain) && p.Topic != Overload && (p.Race != nil || p.Topic == Plan || p.Topic == Hours):
		return -weekday, 6 - weekday, false, true
	case p.onItsDay():
		return 0, 0, true, true
	case p.Race == nil && p.Topic == Hours && len(p.Dates) == 0 && ofTheWeek.MatchString(p.plain), looksBackAlways[p.Topic] && len(p.Dates) == 0 && allWeek.MatchString(p.plain):
		if race == nil {
			return 0, 0, false, false
		}
		monday := race.Date.DaysUntil(today) - int(today.Weekday())
		return monday, monday + 6, false, true
	case p.Race != nil && p.Topic == Plan && raceAtEnd.MatchString(p.plain), p.Race != nil && (p.Topic == Plan || p.Topic == Hours) && thatWeek.MatchString(p.plain):
		return -weekday, 6 - weekday, false, true
	case p.Race != nil && (p.Topic == Calendar || p.Topic == Plan || p.Topic == Hours) && upToRace.MatchString(p.plain):
		return race.Date.DaysUntil(today), 0, false, true
	case p.Race != nil && besideAlone.MatchString(p.plain):
		if strings.Contains(besideAlone.FindString(p.plain), " before ") {
			return -1, -1, true, true
		}
		return 1, 1, true, true
	case onRaceDay.MatchString(p.plain):
		if race != nil && p.Topic == Ride {
			return 0, 0, true, true
		}
		zero := 0
		p.Offset = &zero
	}
	return 0, 0, false, false
}

// onItsDay reports whether a part is about the day of the race that it names.
func (p *Part) onItsDay() bool {
	if p.Race == nil {
		return false
	}
	switch {
	case onRaceDay.MatchString(p.plain):
		return true
	case p.Topic == Food:
		return lengthBefore.MatchString(p.plain)
	case p.Topic == RaceMorning:
		return startsAt.MatchString(p.plain) || getsUp.MatchString(p.plain) || morningOf.MatchString(p.plain) || lengthBefore.MatchString(p.plain)
	}
	return false
}

// sortDay is a sort of day before a race, which need not be the eve: the last gym day before it.
var sortDay = plain.Compile(` (?:race|gym|leg|legs|heavy|hard|lifting|squat|squats|strength|rest|training|intervals?|interval|weights|ride|riding|long) day before `)

// sortOfDay reports whether the day before a race is only a sort of day, or whether days
// before it tell how far away it is or how long something lasts.
func (p *Part) sortOfDay() bool {
	return (p.Topic == TaperStart || p.Topic == TaperLength) && taperDay.MatchString(p.plain) || sortDay.MatchString(p.plain) || tellsHowFar[p.Topic] && farFromRace.MatchString(p.plain) || daysLeft.MatchString(p.plain) && (!asksAhead[p.Topic] || p.Topic == Plan || p.Topic == Hours)
}

// taperDay is a day of a taper and not one beside the race: the first taper day for the crit.
var taperDay = plain.Compile(` (?:taper|tapering|easier|easy|lighter|first|last) day (?:for|of|before|to) `)

var daysLeft = plain.Compile(` (?:days?|nights?|sleeps?) (?:to|until) ` + raceForm)

var farFromRace = plain.Compile(` (?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen) (?:days|nights|sleeps) (?:\w+ ){0,2}` + raceForm)

// tellsHowFar are topics in which days before a race are no day that is asked about: a cold
// nine days before it, a taper of four days for it.
var tellsHowFar = map[Topic]bool{Sick: true, Injury: true, FlatLegs: true, RedFlag: true, TaperLength: true, Season: true, NextRace: true}

// startOfRun is the first day of what goes up to a race: from Monday to the crit, else today.
func (p *Part) startOfRun(race *planner.Race, today planner.Date) planner.Date {
	for _, s := range p.Dates {
		if s.Ask == nil && p.bareWeekday(s) && weekOfRace.MatchString(p.plain) {
			return race.Date.AddDays(int(s.From.Weekday()) - int(race.Date.Weekday())) // the week of it, from Monday
		}
		if s.From == s.To && s.Ask == nil && s.end > 0 && s.From > today && s.From < race.Date && toRace.MatchString(" "+slotText(p.words[s.end:min(len(p.words), s.end+6)])+" ") {
			return s.From
		}
	}
	return today
}

// sideAfter are words between days and the race that they follow.
var sideAfter = wordSet("after past following behind")

// daysBeside is how many days from the race a day is that besideRace has found.
func daysBeside(m []string) int {
	n := 1
	if m[1] != "" {
		var err error
		if n, err = strconv.Atoi(m[1]); err != nil {
			n = plain.Number(m[1])
		}
	}
	switch {
	case m[3] == "before" || m[3] == "in front of" || m[3] == "ahead of" || m[3] == "prior to" || m[3] == "preceding" || strings.HasPrefix(m[3], "out") || m[3] == "pre" || m[3] == "shy of" || m[3] == "short of" || m[1] != "" && !sideAfter[m[3]] || m[3] == "for" && !strings.HasPrefix(m[2], "mornin"):
		n = -n
		if m[1] == "" && strings.HasPrefix(m[2], "mornin") {
			n = 0
		}
	case m[2] == "day" && (m[3] == "to" || m[3] == "until" || strings.HasPrefix(m[3], "to go") || strings.HasPrefix(m[3], "left")):
		n = -n // one day to the crit
	case !sideAfter[m[3]]:
		n = 0
		if m[2] == "night" || strings.HasPrefix(m[2], "evenin") {
			n = -1
		}
	}
	return n
}

// weekdayBeside reads the Monday after a race and the Saturday before it.
func (p *Part) weekdayBeside(race *planner.Race) bool {
	if race == nil {
		return false
	}
	for i, s := range p.Dates {
		if s.Ask != nil || s.From != s.To || s.end == 0 || !slices.ContainsFunc(p.words[s.at:s.end], func(w word) bool { return weekdays[w.low] }) {
			continue
		}
		behind := " " + slotText(p.words[s.end:min(len(p.words), s.end+7)]) + " "
		side := p.sideOf(s, behind, race)
		if side == "" {
			continue
		}
		step := (int(s.From.Weekday())-int(race.Date.Weekday())+6)%7 + 1
		if side == "before" {
			step -= 7
			if step == 0 {
				step = -7
			}
		}
		if i+1 < len(p.Dates) && p.Dates[i+1].at == s.end+1 && p.bareWeekday(p.Dates[i+1]) {
			length := (int(p.Dates[i+1].From.Weekday()) - int(s.From.Weekday()) + 7) % 7
			p.Dates[i+1].From, p.Dates[i+1].To = race.Date.AddDays(step+length), race.Date.AddDays(step+length)
		}
		if i > 0 && p.joined(i-1) && p.bareWeekday(p.Dates[i-1]) {
			if step == -7 {
				step = 0 // up to the race itself
			}
			first := race.Date.AddDays(step - (int(s.From.Weekday())-int(p.Dates[i-1].From.Weekday())+7)%7)
			p.Dates[i-1].From, p.Dates[i-1].To, p.Dates[i-1].set = first, first, true
		}
		p.Dates[i].From, p.Dates[i].To = race.Date.AddDays(step), race.Date.AddDays(step)
		p.Dates[i].set = true
		if i+1 < len(p.Dates) && p.bareWeekday(p.Dates[i+1]) && untilThe.MatchString(" "+slotText(p.words[s.end:p.Dates[i+1].at])+" ") {
			p.Dates[i].To = race.Date.AddDays(step + (int(p.Dates[i+1].From.Weekday())-int(s.From.Weekday())+7)%7)
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
		} else if i+1 < len(p.Dates) && p.Dates[i+1].Ask == nil && p.Dates[i+1].From > p.Dates[i].From && untilThe.MatchString(" "+slotText(p.words[s.end:p.Dates[i+1].at])+" ") {
			p.Dates[i].To = p.Dates[i+1].To
			p.Dates = slices.Delete(p.Dates, i+1, i+2)
		}
		if straightDay.MatchString(behind) || thereafter.MatchString(behind) {
			p.Dates = p.Dates[i:]
		}
		return true
	}
	return false
}

var (
	straightDay  = plain.Compile(`^ (?:straight|right|directly) (after|before) `)
	thereafter   = plain.Compile(`^ (?:that follows|which follows|that comes after|afterwards|afterward|thereafter|after that|following it) `)
	thatWeek     = plain.Compile(` that (?:whole )?week | (?:week of (?:it|that)|its week) `)
	beforehand   = plain.Compile(`^ (?:and (?:the )?DAY |DAY )?beforehand |^ before (?:it |that )?$`)
	ofTheWeek    = plain.Compile(` (?:for|of|in|over) the week (?:$|in |all |altogether |please |as )`)
	allWeek      = plain.Compile(` (?:all|whole|entire) week `)
	untilThe     = plain.Compile(` (?:RACE|race) (?:until|to|through) (?:the )?$`)
	ridingBefore = plain.Compile(` before (?:the )?RACE .*(?:on|the) $`)
	beforeRaceOn = plain.Compile(` before (?:the )?RACE(?: on)? $`)
)

var nightBefore = plain.Compile(` (?:night|evening|day) before (?:a |any |the |my )*(?:race|races|RACE|racing) `)

// eveOf reads a weekday that is the eve of a race: on Friday, the eve of the crit.
func (p *Part) eveOf(race *planner.Race) bool {
	if race == nil || len(p.Dates) == 0 || !raceEve.MatchString(p.plain) && !(p.Race != nil && nightBefore.MatchString(p.plain)) || !p.bareWeekday(p.Dates[0]) || p.Dates[0].From.Weekday() != race.Date.AddDays(-1).Weekday() {
		return false
	}
	p.Dates = []Span{{From: race.Date.AddDays(-1), To: race.Date.AddDays(-1)}}
	return true
}

// sameWeekday reads a weekday that is told by the race as well: the Tuesday ride two days after it.
func (p *Part) sameWeekday() bool {
	m := besideRace.FindStringSubmatch(p.plain)
	if p.Race == nil || m == nil || len(p.Dates) != 1 || !p.bareWeekday(p.Dates[0]) {
		return false
	}
	day := p.Race.Date.AddDays(daysBeside(m))
	if day.Weekday() != p.Dates[0].From.Weekday() {
		return false
	}
	p.Dates = []Span{{From: day, To: day}}
	return true
}

// dayOfNamed reads a weekday that tells on which day a race is: Hill Loop is on a Sunday.
func (p *Part) dayOfNamed() bool {
	if p.Race == nil || len(p.Dates) == 0 || p.Topic == AddRace {
		return false
	}
	s := p.Dates[0]
	if s.Ask != nil || !p.bareWeekday(s) || s.From.Weekday() != p.Race.Date.Weekday() {
		return false
	}
	before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
	switch {
	case p.Topic == Plan && raceAtEnd.MatchString(p.plain) || p.Topic == Plan && onItsDay.MatchString(before):
		monday := p.Race.Date.AddDays(-int(p.Race.Date.Weekday()))
		p.Dates = []Span{{From: monday, To: monday.AddDays(6)}}
	case onItsDay.MatchString(before) || p.Topic == RaceMorning:
		p.Dates = []Span{{From: p.Race.Date, To: p.Race.Date}}
	default:
		return false
	}
	return true
}

// slotText are words with what was found in them as slots.
func slotText(words []word) string {
	var out []string
	for _, w := range words {
		text := w.low
		if w.slot != "" {
			text = w.slot
		}
		if n := len(out); w.slot == "" || n == 0 || out[n-1] != text {
			out = append(out, text)
		}
	}
	return strings.Join(out, " ")
}
