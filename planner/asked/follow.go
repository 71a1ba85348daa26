package asked

import (
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

var (
	bareWhy    = plain.Compile(`^ (?:but |and |ok |so )?(?:why|how come|why not|why is that|why that|why so|what for)(?: is that| that| so| please)? $`)
	andThen    = plain.Compile(`^ (?:and |ok |so |what about |how about |and what about |and how about |then |also |no |not |i mean |i meant |sorry )+`)
	otherRace  = plain.Compile(` (?:the )?other (?:race|one|event) `)
	fewContent = plain.Compile(`^(?: (?:on|the|for|in|my|at|is|DAY|RACE|RIDER|race|crit|one|next|other|a|b|c|event|then|it|please|that|day|after|before))* $`)
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
	if !fewContent.MatchString(strings.ReplaceAll(rest, "  ", " ")) || strings.TrimSpace(rest) == "" {
		return false
	}
	p.besideTalk(last)
	named := len(p.Dates) > 0 || p.Offset != nil || p.Race != nil || otherRace.MatchString(p.plain)
	if !named {
		return false
	}
	p.Topic, p.Confidence, p.Follow = last.Topic, 1, true
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
	p.nearTalk(last, k.Today)
	return true
}

var (
	whenIsIt = plain.Compile(`^ (?:and |so |ok |but )*(?:(?:when|what day|what date|which day) is (?:it|that)(?: again| on)?|is (?:it|that) an? [abc] race) $`)
	ofIt     = plain.Compile(` (?:it|that|this one) `)
)

// ofTalk takes the race that the talk was about for "it": when is it, how long is the taper for that.
func (p *Part) ofTalk(k Known) {
	if k.Last == nil || k.Last.Race == nil || p.Race != nil || len(p.Dates) > 0 || !ofIt.MatchString(p.plain) {
		return
	}
	if whenIsIt.MatchString(p.plain) {
		p.Topic, p.Confidence, p.Offers = Races, 1, nil
	}
	if len(p.Offers) == 0 && (p.Topic == Races || p.Topic == TaperStart || p.Topic == TaperLength || p.Topic == RaceMorning || p.Topic == RaceLegs || p.Topic == AfterRace) {
		p.Race = k.Last.Race
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

// nearTalk takes the weekday that is nearest to the day that the talk was about, or the one
// in its week: "and Monday?" behind Sunday 21 June is 22 June.
func (p *Part) nearTalk(last *Part, today planner.Date) {
	from, to, ok := last.Stretch()
	if !ok || len(p.Dates) != 1 || p.Dates[0].Ask != nil || !p.bareWeekday(p.Dates[0]) || from == to && last.looksBack(last.Dates[0]) {
		return
	}
	first := from
	if from == to {
		first = from.AddDays(-3)
	}
	day := first.AddDays((int(p.Dates[0].From.Weekday()) - int(first.Weekday()) + 7) % 7)
	if from == to && day < today && day.AddDays(7) >= today {
		day = day.AddDays(7)
	}
	p.Dates[0].From, p.Dates[0].To, p.Dates[0].set = day, day, true
}

// OtherRace reports whether the race is meant that the talk was not about.
func (p *Part) OtherRace() bool { return otherRace.MatchString(p.plain) }
