package asked_test

import (
	"slices"
	"strings"

	"musette/planner/asked"
	"musette/planner/care"
)

// tally counts how lines were read.
type tally struct {
	lines, right, offered, lost, wrong int // by topic
	dates, dateRight, noDate, falseDay int
	races, raceRight                   int
	stops, stopFound                   int // lines of danger, and those of them that stop or ask
	plain, falseStop                   int
}

func (a tally) plus(b tally) tally {
	return tally{a.lines + b.lines, a.right + b.right, a.offered + b.offered, a.lost + b.lost, a.wrong + b.wrong, a.dates + b.dates, a.dateRight + b.dateRight, a.noDate + b.noDate,
		a.falseDay + b.falseDay, a.races + b.races, a.raceRight + b.raceRight, a.stops + b.stops, a.stopFound + b.stopFound, a.plain + b.plain, a.falseStop + b.falseStop}
}

// countLine reads a line and counts it. A topic is right at once where nothing is asked and
// all its topics are answered, with at most one more.
func countLine(l line) (c tally) {
	m := asked.Read(l.text, l.known)
	c.lines = 1
	answered, offers := map[asked.Topic]bool{}, map[asked.Topic]bool{}
	for _, p := range m.Parts {
		if len(p.Offers) == 0 {
			answered[p.Topic] = true
		}
		for _, o := range p.Offers {
			offers[o] = true
		}
	}
	if len(m.Parts) == 0 {
		answered[asked.Unknown] = true
	}
	all := !slices.ContainsFunc(l.topics, func(t asked.Topic) bool { return !answered[t] })
	some := !slices.ContainsFunc(l.topics, func(t asked.Topic) bool { return !answered[t] && !offers[t] })
	switch {
	case all && len(answered) <= len(l.topics)+1 && len(offers) == 0:
		c.right = 1
	case len(offers) > 0 && some:
		c.offered = 1
	case len(offers) > 0:
		c.lost = 1
	default:
		c.wrong = 1
	}
	c.countDay(l, m)
	c.countRace(l, m)
	c.countDanger(l, answered, offers)
	return c
}

// countDay counts the day: right where it is the one that is meant, or asked about with it
// among the readings.
func (c *tally) countDay(l line, m asked.Message) {
	if l.date == "?" {
		return
	}
	days := map[string]bool{}
	for _, p := range m.Parts {
		if from, to, ok := p.Stretch(); ok {
			days[span(from.String(), to.String())] = true
		}
		for _, s := range p.Dates {
			for _, r := range s.Ask {
				days[r.Value] = true
			}
		}
	}
	if l.date == "-" {
		c.noDate = 1
		if len(days) > 0 {
			c.falseDay = 1
		}
		return
	}
	c.dates = 1
	for _, want := range strings.Split(l.date, "|") {
		if days[want] {
			c.dateRight = 1
		}
	}
}

func span(from, to string) string {
	if from == to {
		return from
	}
	return from + ".." + to
}

func (c *tally) countRace(l line, m asked.Message) {
	if l.race == "?" || l.race == "-" {
		return
	}
	c.races = 1
	for _, p := range m.Parts {
		name := p.NewRace
		if name == "" && p.Race != nil {
			name = p.Race.Name
		}
		for _, want := range strings.Split(l.race, "|") {
			if name != "" && sameName(name, want) {
				c.raceRight = 1
			}
		}
	}
}

// sameName compares names of races without signs and capitals.
func sameName(a, b string) bool {
	folded := func(s string) string {
		return strings.TrimPrefix(strings.NewReplacer("'", "", "-", "", " ", "").Replace(strings.ToLower(s)), "the")
	}
	return folded(a) == folded(b)
}

// countDanger counts whether lines of danger are heard, by the stop function or by their topic,
// and whether others stop.
func (c *tally) countDanger(l line, answered, offers map[asked.Topic]bool) {
	f := care.Read(l.text)
	if l.topics[0] == asked.RedFlag {
		c.stops = 1
		if f.Verdict != care.Nothing && f.Level >= care.Doctor || answered[asked.RedFlag] || offers[asked.RedFlag] {
			c.stopFound = 1
		}
		return
	}
	if l.topics[0] == asked.Sick || l.topics[0] == asked.Injury {
		return
	}
	c.plain = 1
	if f.Verdict == care.Stop && f.Level >= care.Doctor {
		c.falseStop = 1
	}
}
