package asked

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
)

// raceForm is a race that is named, or spoken of without its name.
const raceForm = `(?:the |my |a |an |this |next |our |big |main |[abc] )*(?:RACE|race|crit|criterium|tt|time trial|event|competition)(?: day)? `

var (
	besideRace  = regexp.MustCompile(` (?:(\d+|two|three|four|five|six|seven) days?|(?:the )?(?:one )?(day|night|evening|morning)) (?:straight |right |directly |just )?(before|out from|out of|after|from|off|for|of) ` + raceForm)
	raceEve     = regexp.MustCompile(` (?:the )?eve(?:ning)? (?:of|before|for) ` + raceForm + `| ` + raceForm + `eve `)
	onRaceDay   = regexp.MustCompile(` (?:RACE|crit|tt) (?:day|morning) | race ?day | on the day `)
	weekOfRace  = regexp.MustCompile(` (?:race )?week (?:of|for|before|with|in front of|to) ` + raceForm + `| ` + raceForm + `(?:race )?week | (?:(?:last|final) week|SPAN) (?:before|of) ` + raceForm + `| race week `)
	weekAfter   = regexp.MustCompile(` (?:the )?week (?:straight |right )?after ` + raceForm)
	untilRace   = regexp.MustCompile(` (?:(?:from )?(?:now|DAY|here|today)|between (?:now|DAY)) (?:to|until|till|til|up to|up until|and|2) ` + raceForm)
	besideDay   = regexp.MustCompile(`^ (?:night |evening |morning |straight |right |directly |just )*(before|after) ` + raceForm)
	numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
)

// findBeside reads days that are named by a race: the eve, race week, two days before it.
func (p *Part) findBeside(k Known) {
	race := p.Race
	if race == nil {
		race = firstRace(k.Races, k.Today, func(*planner.Race) bool { return true })
	}
	if p.Topic == TellRide && len(p.Dates) == 0 && p.Race != nil && p.Race.Last() < k.Today {
		p.Dates = []Span{{From: p.Race.Last(), To: p.Race.Last()}}
		return
	}
	if p.weekdayBeside(race) {
		return
	}
	if len(p.Dates) > 0 && !untilRace.MatchString(p.plain) && !weekOfRace.MatchString(p.plain) {
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

// beside is a stretch as days from a race; day says that it is one named day.
func (p *Part) beside(race *planner.Race, today planner.Date) (from, to int, day, ok bool) {
	weekday := 0
	if race != nil {
		weekday = int(race.Date.Weekday())
	}
	if m := besideRace.FindStringSubmatch(p.plain); m != nil {
		n := 1
		if m[1] != "" {
			var err error
			if n, err = strconv.Atoi(m[1]); err != nil {
				n = numberWords[m[1]]
			}
		}
		switch {
		case m[3] == "before" || strings.HasPrefix(m[3], "out") || m[1] != "" && m[3] != "after" || m[3] == "for" && m[2] != "morning":
			n = -n
			if m[1] == "" && m[2] == "morning" {
				n = 0
			}
		case m[3] != "after":
			n = 0
			if m[2] == "night" || m[2] == "evening" {
				n = -1
			}
		}
		return n, n, true, n >= -60 && n <= 60
	}
	switch {
	case raceEve.MatchString(p.plain):
		return -1, -1, true, true
	case race != nil && untilRace.MatchString(p.plain):
		return race.Date.DaysUntil(today), 0, false, true
	case weekAfter.MatchString(p.plain):
		return 7 - weekday, 13 - weekday, false, true
	case weekOfRace.MatchString(p.plain) && (p.Race != nil || p.Topic == Plan || p.Topic == Hours):
		return -weekday, 6 - weekday, false, true
	case onRaceDay.MatchString(p.plain) && p.Race != nil:
		return 0, 0, true, true
	case onRaceDay.MatchString(p.plain):
		zero := 0
		p.Offset = &zero
	}
	return 0, 0, false, false
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
		m := besideDay.FindStringSubmatch(" " + slotText(p.words[s.end:min(len(p.words), s.end+7)]) + " ")
		if m == nil {
			continue
		}
		step := (int(s.From.Weekday())-int(race.Date.Weekday())+6)%7 + 1
		if m[1] == "before" {
			step -= 7
			if step == 0 {
				step = -7
			}
		}
		p.Dates[i].From, p.Dates[i].To = race.Date.AddDays(step), race.Date.AddDays(step)
		p.Dates[i].set = true
		return true
	}
	return false
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
