package asked

import (
	"regexp"
	"strings"
)

var (
	bareWhy    = regexp.MustCompile(`^ (?:but |and |ok |so )?(?:why|how come|why not|why is that|why that|why so|what for)(?: is that| that| so| please)? $`)
	andThen    = regexp.MustCompile(`^ (?:and |ok |so |what about |how about |and what about |and how about |then |also |no |not |i mean |i meant |sorry )+`)
	otherRace  = regexp.MustCompile(` (?:the )?other (?:race|one|event) `)
	fewContent = regexp.MustCompile(`^(?: (?:on|the|for|in|my|at|is|DAY|RACE|RIDER|race|crit|one|next|other|a|b|c|event|then|it|please|that|day|after|before))* $`)
)

// follows reads a part that goes on from the last one: "and thursday?", "why?",
// "what about the other race?", "no, the crit".
func (p *Part) follows(last *Part) bool {
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
	return true
}

// OtherRace reports whether the race is meant that the talk was not about.
func (p *Part) OtherRace() bool { return otherRace.MatchString(p.plain) }
