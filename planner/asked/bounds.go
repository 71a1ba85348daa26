package asked

import (
	"regexp"
	"strings"

	"musette/planner"
)

var (
	beforeDay   = regexp.MustCompile(` (?:before|until after|prior to) (?:the )?$`)
	weeksFrom   = regexp.MustCompile(`( in)? (a|one|two|three|four|\d) weeks? (?:\w+ ){0,2}(?:from|starting|beginning)(?: on)?(?: the)? $`)
	betweenTwo  = regexp.MustCompile(` (?:between|from) `)
	betweenThem = regexp.MustCompile(` between (?:(?:my|the|these|both|two|next|a|june|july|august|summer) )*races `)
)

// wholeMonth reads a month that is named by itself in questions about many days: hours for June,
// my July plan. "In June" was read before.
func (p *Part) wholeMonth(today planner.Date) {
	if len(p.Dates) > 0 || p.Topic != Plan && p.Topic != Hours && p.Topic != Calendar {
		return
	}
	for i, w := range p.words {
		if !months[w.low] || w.low == "may" || w.low == "march" || w.slot != "" || i > 0 && numbered(p.words[i-1].low) || i+1 < len(p.words) && numbered(p.words[i+1].low) {
			continue
		}
		if from, to, ok := stretchOf("in "+w.low, today); ok {
			p.Dates = []Span{{From: from, To: to, set: true, at: i, end: i + 1}}
			return
		}
	}
}

func numbered(w string) bool { return digits.MatchString(w) || ordinal.MatchString(w) }

// bounded reads days that another one ends or begins: not before Tuesday, two weeks from 29 June.
func (p *Part) bounded(today planner.Date) {
	if p.Topic != Away || len(p.Dates) != 1 || p.Dates[0].Ask != nil || p.Dates[0].end == 0 || p.Dates[0].From != p.Dates[0].To {
		return
	}
	s := &p.Dates[0]
	before := " " + slotText(p.words[p.sentence(s.at):s.at]) + " "
	if m := weeksFrom.FindStringSubmatch(before); m != nil && m[1] == "" {
		s.To = s.From.AddDays(7*max(1, spoken(m[2])) - 1)
		return
	}
	if s.From > today.AddDays(1) && beforeDay.MatchString(before) && !strings.Contains(before, " day before ") {
		s.From, s.To = today, s.From.AddDays(-1)
	}
}

// betweenRaces reads all days from one race to another.
func (p *Part) betweenRaces(k Known) bool {
	if p.Topic != Plan && p.Topic != Hours && p.Topic != Away || len(p.Dates) > 0 {
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
var sidesOfRace = regexp.MustCompile(` (?:up to|until|before|to|between) (?:the |my )?RACE | RACE week | week (?:of|before|with) (?:the |my )?RACE `)
