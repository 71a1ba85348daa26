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
	aboutNow = plain.Compile(`^(?:today|yesterday|tonight|now|this morning|this evening|last night)$`)
	notUntil = plain.Compile(` or (?:is it |am i |does it |)(?:not|only) (?:until|from|before|after)(?: the)? $`)
	theLast  = plain.Compile(` (?:the|that|in|my|these|of|only) (?:(?:in|the) )*last week`)
)

// included are words behind so many days with which today counts.
var included = plain.Compile(`^ today (?:included|inclusive|as well) `)

// mainDate puts first the day that counts where a topic looks one way and another
// day that is named lies in it.
func (p *Part) mainDate(today planner.Date) {
	if n := len(p.Dates); n > 1 && p.Dates[n-1].end > 0 && included.MatchString(" "+lowText(p.words[p.Dates[n-1].at:])+" ") {
		p.Dates = p.Dates[:n-1]
	}
	if n := len(p.Dates); n > 1 && p.Topic == Away && p.Dates[n-1].end > 0 && comesBack.MatchString(" "+slotText(p.words[p.Dates[n-2].end:p.Dates[n-1].at])+" ") {
		p.Dates = p.Dates[:n-1]
	}
	if len(p.Dates) > 1 && p.Topic == AddRace && p.Dates[0].end > 0 && p.Dates[1].end > 0 && aboutNow.MatchString(lowText(p.words[p.Dates[0].at:p.Dates[0].end])) {
		p.Dates = p.Dates[1:] // signed up this morning, it is on 19 July
	}
	if len(p.Dates) > 1 && !(manyDaysAsked[p.Topic] && p.Dates[0].set && p.Dates[1].end > 0 && aboutNow.MatchString(lowText(p.words[p.Dates[1].at:p.Dates[1].end]))) {
		if narrow := slices.DeleteFunc(slices.Clone(p.Dates), func(s Span) bool { return s.Ask == nil && s.set && s.From.DaysUntil(s.To) > 8 }); len(narrow) > 0 {
			p.Dates = narrow
		}
	}
	p.correctedDate(today)
	p.whichDay(today)
	p.closerDate()
	if len(p.Dates) < 2 || p.joined(0) || p.Dates[0].Ask != nil || !asksAhead[p.Topic] || !p.looksBack(p.Dates[0]) {
		return
	}
	for i := 1; i < len(p.Dates); i++ {
		if p.Dates[i].Ask == nil && !p.looksBack(p.Dates[i]) {
			p.Dates = p.Dates[i:]
			return
		}
	}
}

// manyDaysAsked are topics about many days: an overview of June, which somebody needs tonight.
var manyDaysAsked = map[Topic]bool{Plan: true, Hours: true, Calendar: true}

// asksAhead are topics that are about days to come.
var asksAhead = map[Topic]bool{Ride: true, MayI: true, Plan: true, RaceMorning: true, AddRace: true, Why: true, HowHard: true, Hours: true}

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
		case p.Topic == TaperStart && s.From != s.To && notUntil.MatchString(" "+lowText(p.words[p.sentence(s.at):s.at])+" "):
			return true // has it begun, or not until next week?
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
const pastVerbs = `gave|lay|left me|left my legs|i left|took|told|began|begun|started|ended|stopped|finished|turned|lost|blew|broke|caught|drove|ate|drank|found|forgot|froze|kept|saw|spent|stood|swam|threw|tore|woke|ran|pulled|tweaked|twisted|bonked|cracked|cramped|crawled|ached|tried|managed|collapsed|killed|destroyed|wrecked|smashed|nailed|finished|puked|vomited|sweated|trained|worked|lifted|squatted|walked|jogged|raced|tossed|hurt me|knackered me|didnt|wasnt|werent|rained|poured|snowed|hailed`

var (
	remains    = plain.Compile(` (?:remain|remains|remaining|left|stay|stays|still|to go) `)
	overThen   = plain.Compile(` (?:until|once|when|before|after|til|till) (?:the |my )?(?:RACE|race|DAY|SPAN|season) (?:is |are |has been |was )?(?:over|done|finished|gone|ridden|raced|past|out of the way) `)
	saysAhead  = plain.Compile(` (?:am (?:binning|skipping|missing|dropping|cancelling|leaving)|can|may|might|shall|should|will|would|could|wont|ought|going to|tomorrow|next|coming|does|do i|am i|is it|go|got on|got|must|to be|has to|have to|need to) `)
	saysBack   = plain.Compile(` (?:did|was|were|rode|had|missed|skipped|since|fell|came|crashed|slept|felt|been|made|went|gone|won|happened|done|log|logged|struck|blacked|fainted|passed|could not|` + pastVerbs + `) `)
	willMiss   = plain.Compile(` (?:(?:may|might|can|could|should|shall|must|do) i (?:just |not |please |then )?(?:skip|miss|drop|bin|leave|give)|will not|wont|not happening|not going to|going to|can not|am (?:binning|skipping|missing|dropping)|will be|will have to|have to (?:skip|miss|drop)|ill|must skip|not be able) `)
	toChange   = plain.Compile(` (?:cut|bin|skip|drop|move|swap|change|shorten|scrap|cancel|reduce|off until|off sick until|still (?:ride|spin|do|race|train|go|openers|intervals|session|workout|training|ok|okay|on|up for|good)) (?:the |my |out |on |for |with )*$`)
	hadTo      = plain.Compile(` (?:should|could|would|might|must|ought to)(?: not)? have (?:been )?`)
	asksBehind = plain.Compile(`^ (?:ok|okay|fine|alright|possible|safe|doable|realistic|still|too|can i|may i|should i|shall i|could i|will i|do i|am i|or not|or (?:rest|leave|stay|stop|skip|wait|better)|yes or|y n) `)
	asksBefore = plain.Compile(` (?:what is|what about|how about|what happens with|what happens to|is|ready for|ok for|fit for|fine for|well for|better by|better for|in time for|by|be fine|make) (?:the |my |on |for )*$`)
	makesUp    = plain.Compile(` (?:(?:make|making) (?:it |that |this |them )?up|catch up|(?:move|shift|squeeze|fit|push|put|slot|cram|squash|stick|tack|do) (?:it|that|them|these|both|the missed)) (?:(?:in|to|it|that|them|this|the|my|missed|lost|work|hours|time|session|sessions|intervals|threshold|one|ride|hard|instead|on|at|for|into|with|all|onto) )*$`)
	stillFrom  = plain.Compile(` (?:sore|stiff|tired|dead|heavy|tight|ache|aching|achy|hurting|hurt|wrecked|bruised|knackered|fried|cooked|cramped|flat|empty|recovered|recovering) (?:\w+ ){0,2}(?:from|since|after) (?:the |my )*$`)
	badNight   = plain.Compile(` (?:terrible|awful|bad|dreadful|worst|horrible|rubbish|short|rough|restless|no) (?:night|nights|sleep) `)
)

// toldOfSelf is what riders tell of a day that went badly, and wasGiven what they ask of its plan.
var (
	toldOfSelf = plain.Compile(` (?:i|we|legs) (?:just |really |then )?(?:was|were|felt|had|rode|got|could|went|did|died|suffered|` + pastVerbs + `) | (?:were|was|felt|did) (?:i|my legs|the legs) | happened (?:to|with) me `)
	wasGiven   = plain.Compile(` (?:given|got given|planned|told|down for|put|moved|swapped|prescribed|scheduled|meant|supposed|did i (?:get|have|only get)|i (?:got|had) (?:a |an |the |only |no )?(?:rest|day|easy|hard|intervals|ride|session|spin)) `)
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
	case p.Topic == Why:
		return toldOfSelf.MatchString(p.segment(s)) && !saysAhead.MatchString(p.segment(s)) && !wasGiven.MatchString(clause)
	case p.Topic == Away || p.Topic == AddRace || p.Topic == MayI:
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
