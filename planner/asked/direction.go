package asked

import (
	"regexp"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// looksBackAlways are topics whose days are over.
var looksBackAlways = map[Topic]bool{Missed: true, TellRide: true}

// looksBackMostly are topics whose days are over where nothing says that they lie ahead.
var looksBackMostly = map[Topic]bool{Sick: true, Injury: true, FlatLegs: true, RedFlag: true}

// pastVerbs are verbs of what is over.
const pastVerbs = `gave|lay|left me|left my legs|i left|took|told|began|begun|started|ended|stopped|finished|turned|lost|blew|broke|caught|drove|ate|drank|found|forgot|froze|kept|saw|spent|stood|swam|threw|tore|woke|ran|pulled|tweaked|twisted|bonked|cracked|cramped|crawled|ached|tried|managed|collapsed|killed|destroyed|wrecked|smashed|nailed|finished|puked|vomited|sweated|trained|worked|lifted|squatted|walked|jogged|raced|tossed|hurt me|knackered me|didnt|wasnt|werent`

var (
	saysAhead  = regexp.MustCompile(` (?:am (?:binning|skipping|missing|dropping|cancelling|leaving)|can|may|might|shall|should|will|would|could|wont|ought|going to|tomorrow|next|coming|does|do i|am i|is it|go|got on|got|must|to be|has to|have to|need to) `)
	saysBack   = regexp.MustCompile(` (?:did|was|were|rode|had|missed|skipped|since|fell|came|crashed|slept|felt|been|made|went|gone|won|happened|done|log|logged|struck|blacked|fainted|passed|could not|` + pastVerbs + `) `)
	willMiss   = regexp.MustCompile(` (?:will not|wont|not happening|not going to|going to|can not|am (?:binning|skipping|missing|dropping)|will be|will have to|have to (?:skip|miss|drop)|ill|must skip|not be able) `)
	toChange   = regexp.MustCompile(` (?:cut|bin|skip|drop|move|swap|change|shorten|scrap|cancel|reduce|off until|off sick until|still (?:ride|spin|do|race|train|go)) (?:the |my |out |on )*$`)
	hadTo      = regexp.MustCompile(` (?:should|could|would|might|must|ought to)(?: not)? have (?:been )?`)
	asksBehind = regexp.MustCompile(`^ (?:ok|okay|fine|alright|possible|safe|doable|realistic|still|too|can i|may i|should i|shall i|could i|will i|do i|am i|or not|yes or|y n) `)
	asksBefore = regexp.MustCompile(` (?:what is|what about|how about|is|ready for|ok for|fit for|fine for|well for|better by|better for|in time for|by|be fine|make) (?:the |my |on |for )*$`)
	makesUp    = regexp.MustCompile(` (?:(?:make|making) (?:it |that |this |them )?up|catch up|(?:move|shift|squeeze|fit|push|put|slot|cram|squash|stick|tack|do) (?:it|that|them|these|both|the missed)) (?:(?:in|to|it|that|them|this|the|my|missed|lost|work|hours|time|session|sessions|intervals|threshold|one|ride|hard|instead|on|at|for|into|with|all|onto) )*$`)
	stillFrom  = regexp.MustCompile(` (?:sore|stiff|tired|dead|heavy|tight|ache|aching|achy|hurting|hurt|wrecked|bruised|knackered|fried|cooked|cramped|flat|empty|recovered|recovering) (?:\w+ ){0,2}(?:from|since|after) (?:the |my )*$`)
	badNight   = regexp.MustCompile(` (?:terrible|awful|bad|dreadful|worst|horrible|rubbish|short|rough|restless|no) (?:night|nights|sleep) `)
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
	clause := hadTo.ReplaceAllString(strings.ReplaceAll(p.clause(s), " next door ", " "), " ")
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
		near := hadTo.ReplaceAllString(p.segment(s), " ")
		if nearAhead, nearBack := saysAhead.MatchString(near), saysBack.MatchString(near); nearAhead != nearBack {
			return nearBack
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
