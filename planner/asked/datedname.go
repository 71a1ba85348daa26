package asked

import (
	"slices"
	"strings"

	"musette/planner"
)

// datedName is a race whose name holds a day or a number, and the words of the name.
type datedName struct {
	race  *planner.Race
	words []word
}

func datedNames(races []planner.Race) (out []datedName) {
	for i := range races {
		if name := learned().names.of(races[i].Name); name != nil {
			out = append(out, datedName{&races[i], name})
		}
	}
	return out
}

// datedWords are the words of a name that holds a day or a number, nil where it holds none.
func datedWords(name string) []word {
	if !slices.ContainsFunc(nameParts(name), func(w string) bool { return isDatePart(w) || isDatePart(shortForms[w]) }) {
		return nil
	}
	words := nameWords(name)
	if len(words) < 2 || !slices.ContainsFunc(words, func(w word) bool { return isDatePart(w.low) }) || !slices.ContainsFunc(words, func(w word) bool { return !numbered(w.low) }) {
		return nil
	}
	return words
}

// markDated takes the words of such a race before days are looked for: the day before
// Tuesday Ten. The name must be said whole.
func (p *Part) markDated(names []datedName) {
	for _, n := range names {
		for at := 0; at+len(n.words) <= len(p.words); at++ {
			if !p.saysAt(at, n.words) {
				continue
			}
			for j := range n.words {
				p.words[at+j].slot = "RACE"
			}
			if p.Race == nil {
				p.Race = n.race
			}
		}
	}
}

// markTimed finds a race that is called by its month, and by its weekday where several are in that month: the July one,
// the Wednesday one in July.
func (p *Part) markTimed(races []planner.Race, today planner.Date) {
	for i := 1; i < len(p.words) && p.Race == nil; i++ {
		w := p.words[i]
		if w.slot != "" || w.low != "one" && w.low != "race" && w.low != "event" {
			continue
		}
		from, end, month, weekday := i-1, i+1, "", ""
		if months[p.words[from].low] {
			month = p.words[from].low
			from--
		}
		if from >= 0 && weekdays[p.words[from].low] {
			weekday = p.words[from].low
			from--
		}
		if month == "" && w.end == 0 && i+2 < len(p.words) && (p.words[i+1].low == "in" || p.words[i+1].low == "of") && months[p.words[i+2].low] {
			month, end = p.words[i+2].low, i+3
		}
		if month == "" || from < 0 || p.words[from].low != "the" && p.words[from].low != "my" || end < len(p.words) && p.words[end-1].end == 0 && numbered(p.words[end].low) {
			continue
		}
		if r := raceTimed(races, today, month, weekday); r != nil {
			for j := from + 1; j < end; j++ {
				p.words[j].slot = "RACE"
			}
			p.Race, p.Any = r, true
		}
	}
}

// raceTimed is the one race to come in a month, on a weekday where one is named; nil where none or several are.
func raceTimed(races []planner.Race, today planner.Date, month, weekday string) (only *planner.Race) {
	for i := range races {
		_, of, _ := races[i].Date.Civil()
		if races[i].Last() < today || !strings.HasPrefix(strings.ToLower(of.String()), month[:3]) || weekday != "" && !namedBefore(weekday, races[i].Date) {
			continue
		}
		if only != nil {
			return nil
		}
		only = &races[i]
	}
	return only
}

// nameWords are the words of a race's name as those of a text are read.
func nameWords(name string) []word {
	words := cut(name)
	for len(words) > 0 && words[0].low == "the" {
		words = words[1:]
	}
	return words
}

// saysAt reports whether the words at a place are those of a name.
func (p *Part) saysAt(at int, name []word) bool {
	for j, w := range name {
		said := p.words[at+j]
		if said.slot != "" || j+1 < len(name) && said.end == '.' || said.low != w.low && !sameWord(said, w.low) && shortKinds[said.low] != w.low {
			return false
		}
	}
	return true
}

// leaveName gives a weekday back to the name of a new race that begins with it: add Tuesday Ten on 27 June.
func (p *Part) leaveName() {
	if p.Topic != AddRace || len(p.Dates) < 2 {
		return
	}
	at := slices.IndexFunc(p.Dates, func(s Span) bool { return s.Ask != nil || s.end > 0 && !p.bareWeekday(s) && s.From == s.To })
	if at < 0 {
		return
	}
	for i, s := range p.Dates {
		weekday := s.end > 0 && p.bareWeekday(s)
		if s.Ask != nil || s.end == 0 || !weekday && lowText(p.words[s.at:s.end]) != "weekend" {
			continue
		}
		followed := s.end < len(p.words) && p.words[s.end-1].end == 0 && p.words[s.end].slot == "" && !behindWeekday[p.words[s.end].low]
		another := weekday && p.Dates[at].Ask == nil && p.Dates[at].From.Weekday() != s.From.Weekday() && (s.at == 0 || !behindWeekday[p.words[s.at-1].low])
		if !followed && !another {
			continue
		}
		for j := s.at; j < s.end; j++ {
			p.words[j].slot = ""
		}
		p.Dates = slices.Delete(p.Dates, i, i+1)
		p.plain = p.canonical()
		return
	}
}

// behindWeekday are words behind a weekday that begin no name.
var behindWeekday = wordSet("on the at in i we is a an it its for my and or to but with this that there theres of morning evening afternoon week next coming fortnight")

// beginsName reports whether a month, a number or the like is the first word of a name: May Day,
// june jaunt, 24 Hour Loop, Next Door Crit.
func beginsName(name string) bool {
	w := strings.Fields(strings.ToLower(name))
	return len(w) > 1 && (months[w[0]] || weekdays[w[0]] || digits.MatchString(w[0]) || oddFirst[w[0]]) && !strings.ContainsAny(w[1], "0123456789") && !smallInName[w[1]] && !noNameBehind[w[1]] && !months[w[1]] && !weekdays[w[1]]
}

var (
	oddFirst     = wordSet("next last b c sat sun one")
	noNameBehind = wordSet("race races event week weekend month year prio priority one is as it its please pls thanks i we am days weeks km k miles june july")
)
