package asked

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

var (
	bareWhy    = plain.Compile(`^ (?:but |and |ok |so )?(?:why|how come|why not|why is that|why that|why so|what for|really|seriously|are you sure|you sure|sure about that)(?: is that| that| so| please| is it)?(?: so)?(?: long| short| hard| easy| much| little| far| early| late| many)? $`)
	andThen    = plain.Compile(`^ (?:and |ok |so |what about |how about |and what about |and how about |then |also |no |not |nope |wait |actually |but |same |the same |again |for |on |i mean |i meant |i was asking about |sorry |just |only )+`)
	corrects   = plain.Compile(`^ (?:ok |sorry |wait |oh )*(?:no |not |nope |actually |i mean |i meant |but )`)
	otherRace  = plain.Compile(` (?:the )?other (?:race|one|event) |^ (?:no |nope |sorry )?not (?:that|this)(?: one| race)? $`)
	fewContent = plain.Compile(`^(?: (?:on|the|for|in|my|at|is|DAY|SPAN|RACE|RIDER|race|crit|one|next|other|a|b|c|event|then|it|please|that|day|after|before|week|weekend|following|same|again|from|to|until|not|this|i|meant|mean|and|just|only|all))* $`)
	weekLater  = plain.Compile(` (?:week after(?: that)?(?: one)?|following week|one after(?: that)?|week after next) $`)
	ofItsWeek  = plain.Compile(` (?:race week|week of (?:the )?RACE|RACE week) `)
)

// follows reads a part that goes on from the last one: "and thursday?", "why?",
// "what about the other race?", "no, the crit".
func (p *Part) follows(k Known) bool {
	last := k.Last
	if last == nil {
		return false
	}
	if bareWhy.MatchString(p.plain) {
		p.Topic, p.Confidence, p.Follow = Why, 1, true
		p.Dates, p.Race, p.Offset, p.Any = last.Dates, last.Race, last.Offset, last.Any
		p.words = last.words
		return true
	}
	rest := p.plain
	if m := andThen.FindString(rest); m != "" {
		rest = " " + rest[len(m):]
	}
	if p.asksMore(last) {
		return true
	}
	if !fewContent.MatchString(strings.ReplaceAll(rest, "  ", " ")) || strings.TrimSpace(rest) == "" {
		return false
	}
	if p.nextOfRaces(last, k) {
		return true
	}
	p.besideTalk(last)
	p.laterWeek(last)
	named := len(p.Dates) > 0 || p.Offset != nil || p.Race != nil || otherRace.MatchString(p.plain) || ofItsWeek.MatchString(p.plain)
	if !named {
		return false
	}
	if len(p.Dates) == 2 && strings.Contains(p.plain, " not DAY ") {
		p.Dates = p.Dates[1:] // not today, tomorrow
	}
	p.Topic, p.Confidence, p.Follow = last.Topic, 1, true
	if len(p.Dates) == 1 && p.Race == nil && ofNoDay[last.Topic] {
		p.Topic = Ride
	}
	if p.Minutes == 0 {
		p.Minutes = last.Minutes
	}
	if len(p.Kinds) == 0 {
		p.Kinds, p.Hard = last.Kinds, last.Hard
	}
	if p.Rider == "" {
		p.Rider = last.Rider
	}
	if p.Race == nil && len(p.Dates) > 0 && !otherRace.MatchString(p.plain) {
		p.Race = last.Race
	}
	p.inNextWeek(last)
	p.nearTalk(last, k.Today)
	return true
}

// ofNoDay are topics whose answer is the same on each day: what about tomorrow, behind one, asks
// for a ride.
var ofNoDay = map[Topic]bool{FlatLegs: true, Medicine: true, Help: true, TaperStart: true, TaperLength: true, RaceLegs: true, Calendar: true}

var (
	askHard    = plain.Compile(`^ (?:and |so |ok |but )*how (?:hard|easy|fast)(?: is (?:it|that)| should (?:it|that|i)(?: be| ride| go| do it)?| do i (?:ride|go)(?: it)?| then)? $`)
	askLong    = plain.Compile(`^ (?:and |so |ok |but )*how long(?: is (?:it|that)| does (?:it|that) (?:last|take))?(?: then)? $`)
	askFood    = plain.Compile(`^ (?:and |so |ok |what about |how about )*(?:during|in|on|before|after|at|between)(?: it| the RACE| RACE| the race| a race| the ride| that| then)* $`)
	askRest    = plain.Compile(`^ (?:and |so |ok |but )*(?:should|can|may|shall|do|could) i (?:still |just )?(?:rest|ride|train|skip|stop|go)(?: it| out)?(?: then| now| anyway| today)? $`)
	tooLong    = plain.Compile(`^ (?:and |so |ok |but |hm )*(?:that|it|this) (?:is|seems|looks|sounds) (?:way |far |much |a bit |very |so |too |quite |really )+(?:long|short|hard|easy|much|little|late|early) (?:for me |no |is it not )?$`)
	easierSo   = plain.Compile(`^ (?:(?:and|so|ok|okay|but|then|well|what about|how about|what if|maybe|perhaps|or|just|only|even|not even|if|would|could|can|may|is|fine) )*(?:(?:i|it|we|that|go|do|did|ride|rode|keep|kept|stay|stayed|take|took|make|made|cut|turn|turned|sit|sat|for|of|at|the|a|an|in|on|to|with|only|just|then|too|there|as|very|really|super|nice|and|but|instead|ok|okay|possible|allowed|alright|fine|please|not|all|LEN|easy|easily|easier|gentle|gently|short|shorter|steady|slow|slowly|slower|light|lightly|relaxed|back|half|zone|two|one|first|part|bit|little|spin|pace|effort|group|bunch|wheel|wheels|early|home|outside|alone|solo|my|own|by|myself|riding|rides) )+$`)
	saysEasier = plain.Compile(` (?:LEN|easy|easily|easier|gentle|gently|short|shorter|steady|slow|slowly|slower|light|lightly|relaxed|half|early) `)
	askMakeUp  = plain.Compile(` (?:make|making) (?:it|them|that) up | catch (?:it|them|up) `)
)

// asksMore reads what asks for more of what the talk was about, with words that would say little
// alone: how hard, and during, should I rest then.
func (p *Part) asksMore(last *Part) bool {
	topic := Topic("")
	_, _, dated := last.Stretch()
	switch {
	case askHard.MatchString(p.plain) && dated && (last.Topic == Ride || last.Topic == Why || last.Topic == HowHard || last.Topic == MayI):
		topic = HowHard
	case tooLong.MatchString(p.plain) && dated && (last.Topic == Ride || last.Topic == Why || last.Topic == HowHard):
		topic = Why
	case askLong.MatchString(p.plain) && dated && (last.Topic == Ride || last.Topic == HowHard || last.Topic == Why):
		topic = Ride
	case askLong.MatchString(p.plain) && last.Topic == TaperStart:
		topic = TaperLength
	case last.Topic == MayI && dated && len(p.Dates) == 0 && p.Race == nil && len(p.words) <= mostEasier && easierSo.MatchString(p.plain) && saysEasier.MatchString(p.plain):
		topic = MayI // no? and an hour easy then?
	case askFood.MatchString(p.plain) && last.Topic == Food, askMakeUp.MatchString(p.plain) && last.Topic == Missed,
		askRest.MatchString(p.plain) && (last.Topic == FlatLegs || last.Topic == Sick || last.Topic == Injury || last.Topic == Missed):
		topic = last.Topic
	default:
		return false
	}
	p.Topic, p.Confidence, p.Follow = topic, 1, true
	if len(p.Dates) == 0 {
		p.Dates, p.Offset = last.days(), last.Offset
	}
	if p.Race == nil {
		p.Race = last.Race
	}
	return true
}

const mostEasier = 12 // words of an easier wish behind "may I"

// days are the days of a part for another that stands in other words.
func (p *Part) days() []Span {
	from, to, ok := p.Stretch()
	if !ok {
		return nil
	}
	return []Span{{From: from, To: to, set: true}}
}

// nextOfRaces reads "and the one after that?" behind a race as the race after it.
func (p *Part) nextOfRaces(last *Part, k Known) bool {
	if last.Race == nil || p.Race != nil || len(p.Dates) > 0 || last.Topic != NextRace && last.Topic != Races || !weekLater.MatchString(p.plain) || strings.Contains(p.plain, " week ") {
		return false
	}
	next := planner.FirstAhead(k.Races, last.Race.Last().AddDays(1), func(*planner.Race) bool { return true })
	if next == nil {
		return false
	}
	p.Topic, p.Confidence, p.Follow, p.Race = Races, 1, true, next
	return true
}

// laterWeek reads "and the week after?" as a week behind the days that the talk was about.
func (p *Part) laterWeek(last *Part) {
	from, to, ok := last.Stretch()
	if !ok || len(p.Dates) > 0 || p.Race != nil || !weekLater.MatchString(p.plain) {
		return
	}
	if from == to && !strings.Contains(p.plain, " week ") {
		return
	}
	p.Dates = []Span{{From: from.AddDays(7), To: to.AddDays(7), set: true}}
}

// inNextWeek reads "I meant next week" behind a day as that weekday of the week.
func (p *Part) inNextWeek(last *Part) {
	from, to, ok := last.Stretch()
	if !ok || from != to || len(p.Dates) != 1 || p.Dates[0].Ask != nil || p.Dates[0].To != p.Dates[0].From.AddDays(6) || !corrects.MatchString(p.plain) {
		return
	}
	day := p.Dates[0].From.AddDays(int(from.Weekday()))
	p.Dates[0].From, p.Dates[0].To, p.Dates[0].set = day, day, true
}

var (
	whenIsIt = plain.Compile(`^ (?:and |so |ok |but )*(?:(?:when|what day|what date|which day) is (?:it|that)(?: again| on)?|is (?:it|that) an? [abc] race) $`)
	ofIt     = plain.Compile(` (?:it|that|this one|then) `)
	makeItA  = plain.Compile(`^ (?:no |ok |so |then |and |please |can you |could you )*(?:make|change|turn|put|set) (?:it|that|this one|that one) (?:to |into |in to |as )?(?:an? )?[abc] `)
	goesOn   = plain.Compile(`^ (?:and|ok|so|but|then|do|should|can|may|what if) `)
)

// ofOneDay are topics of a day, which may be one of the week that the talk was about.
var ofOneDay = map[Topic]bool{Ride: true, Why: true, HowHard: true, MayI: true}

const mostFollow = 7 // words of what goes on from a talk where its topic is not sure

// ofTalk takes what a text leaves open from what the talk was about: the race for "it", when is it,
// the day, I only have 45 min, and the topic where that is among those that it can be.
func (p *Part) ofTalk(k Known) {
	last := k.Last
	if last == nil {
		return
	}
	race := last.Race
	if race == nil && last.NewRace != "" {
		for i := range k.Races {
			if strings.EqualFold(k.Races[i].Name, last.NewRace) {
				race = &k.Races[i] // it was told, and has been entered since
			}
		}
	}
	if race != nil && p.Race == nil && len(p.Dates) == 0 && ofIt.MatchString(p.plain) {
		p.raceOfTalk(race)
	}
	from, to, dated := last.Stretch()
	if dated && from < to && from > k.Today && ofOneDay[p.Topic] && !strings.Contains(p.plain, " this ") {
		p.nearTalk(last, k.Today) // show me next week, why is Tuesday hard
	}
	if dated && from == to && len(p.Dates) == 0 && p.Topic == Away && len(p.Offers) == 0 && p.Minutes > 0 && (last.Topic == Ride || last.Topic == HowHard || last.Topic == Why) {
		p.Dates = []Span{{From: from, To: to, set: true}}
	}
	if len(p.Offers) > 0 && slices.Contains(p.Offers, last.Topic) && !slices.Contains(p.Offers, RedFlag) && len(p.words) <= mostFollow && (goesOn.MatchString(p.plain) || p.leans()) {
		p.Topic, p.Offers = last.Topic, nil
		if len(p.Dates) == 0 {
			p.Dates, p.Offset = last.days(), last.Offset
		}
		if p.Race == nil {
			p.Race = last.Race
		}
	}
}

// raceOfTalk takes the race that the talk was about where a text says "it".
func (p *Part) raceOfTalk(race *planner.Race) {
	switch {
	case whenIsIt.MatchString(p.plain):
		p.Topic, p.Confidence, p.Offers = Races, 1, nil
	case makeItA.MatchString(p.plain):
		p.Topic, p.Confidence, p.Offers = Season, 1, nil
		p.Race = race
	}
	if len(p.Offers) == 0 && (p.Topic == Races || p.Topic == NextRace || p.Topic == TaperStart || p.Topic == TaperLength || p.Topic == RaceMorning || p.Topic == RaceLegs || p.Topic == AfterRace || p.Topic == Food || p.Topic == Plan) {
		p.Race = race
	}
}

var dayBeside = plain.Compile(` (?:(?:the )?(?:next day|day after|following day|day afterwards)|(the )?day before)(?: that| it)? $`)

// besideTalk reads "and the day after?" from the day that the talk was about.
func (p *Part) besideTalk(last *Part) {
	from, to, ok := last.Stretch()
	m := dayBeside.FindStringSubmatchIndex(p.plain)
	if !ok || m == nil || len(p.Dates) > 0 || p.Race != nil {
		return
	}
	day := to.AddDays(1)
	if strings.Contains(p.plain[m[0]:], " before") {
		day = from.AddDays(-1)
	}
	p.Dates = []Span{{From: day, To: day, set: true}}
}

// nearTalk takes the weekdays that are nearest to the day that the talk was about, or those
// in its week: "and Monday?" behind Sunday 21 June is 22 June.
func (p *Part) nearTalk(last *Part, today planner.Date) {
	from, to, ok := last.Stretch()
	if !ok || len(p.Dates) == 0 || from == to && (last.looksBack(last.Dates[0]) || len(p.Dates) > 1) {
		return
	}
	first := from
	if from == to {
		first = from.AddDays(-3)
	}
	for i, s := range p.Dates {
		if s.Ask != nil || s.set || !p.bareWeekday(s) {
			continue
		}
		day := first.AddDays((int(s.From.Weekday()) - int(first.Weekday()) + 7) % 7)
		if from == to && day < today && day.AddDays(7) >= today {
			day = day.AddDays(7)
		}
		p.Dates[i].From, p.Dates[i].To, p.Dates[i].set = day, day, true
	}
}

// OtherRace reports whether the race is meant that the talk was not about.
func (p *Part) OtherRace() bool { return otherRace.MatchString(p.plain) }
