package asked

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
)

// commonNames are words of races' names that say nothing of which race it is.
var commonNames = wordSet("race the of de la le grand tour criterium crit time trial road gravel classic challenge cup prix gran fondo sportive stage day loop hill valley ride and")

// findRace finds the race that is meant: by its name however it is misspelt, by its
// priority or kind, or as the next one.
func (p *Part) findRace(races []planner.Race, today planner.Date) {
	best, ties, at, end := 0.0, []int(nil), 0, 0
	for i := range races {
		score, a, e := p.named(&races[i])
		if races[i].Last() < today {
			score *= 0.99
		}
		switch {
		case score < 0.6 || score < best-1e-9:
		case score > best+1e-9:
			best, ties, at, end = score, []int{i}, a, e
		default:
			ties = append(ties, i)
		}
	}
	if len(ties) > 0 {
		for j := at; j < end; j++ {
			p.words[j].slot = "RACE"
		}
		p.Race, p.Others = &races[ties[0]], ties[1:]
		return
	}
	p.byKind(races, today)
}

// named is how well words of the part fit a race's name, and where they stand.
func (p *Part) named(r *planner.Race) (score float64, at, end int) {
	name := strings.FieldsFunc(strings.ToLower(accents.Replace(r.Name)), func(c rune) bool { return !('a' <= c && c <= 'z' || '0' <= c && c <= '9') })
	total := 0.0
	worth := func(w string) float64 {
		if commonNames[w] {
			return 0.4
		}
		return 1
	}
	for _, w := range name {
		total += worth(w)
	}
	if total == 0 {
		return 0, 0, 0
	}
	for i := range p.words {
		sum, last := 0.0, i
		rest := slices.Clone(name)
		for j := i; j < len(p.words) && j < i+len(name)+1 && p.words[j].slot == ""; j++ {
			for n, w := range rest {
				if sameWord(p.words[j], w) {
					sum += worth(w)
					rest[n] = "\x00"
					last = j + 1
					break
				}
			}
			if j == i && last == i {
				break
			}
		}
		if s := sum / total; s > score {
			score, at, end = s, i, last
		}
	}
	return score, at, end
}

// sameWord reports whether a word is one of a name, a slip or two apart.
func sameWord(w word, name string) bool {
	low := strings.ToLower(w.raw)
	if low == name || w.low == name || strings.TrimSuffix(low, "'s") == name {
		return true
	}
	switch n := len(name); {
	case n < 4 || vocabulary()[low]:
		return false
	case n < 7:
		return distance(low, name, 2) < 2
	default:
		return distance(low, name, 3) < 3
	}
}

var (
	ofPriority = regexp.MustCompile(` (?:my |the |next )+([abc]) (?:race|event|priority|goal)| ([abc]) (?:race|event) (?:is|start|on) `)
	ofKind     = regexp.MustCompile(` (?:the|my|this|a|next) (crit|criterium|tt|time trial|gravel|stage race|road race|fondo|gran fondo) `)
	anyRace    = regexp.MustCompile(` (?:the|my|next|this|a|big|main|before|after|for) (?:big |main |next |important |a )?(?:race|races|event|competition|raceday|one) | race (?:week|day|morning|eve) | until race | i race | the day (?:of|before) race | for race `)
)

// byKind finds a race by what it is.
func (p *Part) byKind(races []planner.Race, today planner.Date) {
	plain := p.canonical()
	if m := ofPriority.FindStringSubmatch(plain); m != nil {
		want := strings.ToUpper(m[1] + m[2])
		p.Any = true
		p.Race = firstRace(races, today, func(r *planner.Race) bool { return r.Priority.String() == want })
		return
	}
	if m := ofKind.FindStringSubmatch(plain); m != nil {
		word := m[1]
		p.Any = true
		p.Race = firstRace(races, today, func(r *planner.Race) bool {
			text := strings.ToLower(r.Name + " " + r.Kind)
			return strings.Contains(text, word) || (word == "crit" || word == "criterium") && strings.Contains(text, "crit") || word == "tt" && strings.Contains(text, "time trial")
		})
		return
	}
	p.Any = anyRace.MatchString(plain)
}

// firstRace is the next race to come that fits.
func firstRace(races []planner.Race, today planner.Date, fits func(*planner.Race) bool) *planner.Race {
	var out *planner.Race
	for i := range races {
		if r := &races[i]; r.Last() >= today && fits(r) && (out == nil || r.Date < out.Date) {
			out = r
		}
	}
	return out
}

var (
	besideRace = regexp.MustCompile(` (?:(\d+|two|three|four|five) days?|(?:the )?(day|night|evening|morning)) (before|after|of) (?:the |my )?(?:[abc] |big |next )*(?:race|RACE|event|competition|crit|criterium)(?: day)? `)
	onRaceDay  = regexp.MustCompile(` race ?day | RACE day | day of the race `)
	raceEve    = regexp.MustCompile(` race eve | eve of (?:the |my )?(?:race|RACE) | before race day `)
)

var smallNumbers = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5}

// findOffset reads days that are named by a race: the day before it, race day.
func (p *Part) findOffset(k Known) {
	set := func(n int) { p.Offset, p.Any = &n, p.Race == nil }
	if m := besideRace.FindStringSubmatch(p.plain); m != nil {
		n := 1
		if m[1] != "" {
			var err error
			if n, err = strconv.Atoi(m[1]); err != nil {
				n = smallNumbers[m[1]]
			}
		}
		switch m[3] {
		case "before":
			n = -n
		case "of":
			n = 0
		}
		if n >= -60 && n <= 60 {
			set(n)
		}
	} else if raceEve.MatchString(p.plain) {
		set(-1)
	} else if onRaceDay.MatchString(p.plain) {
		set(0)
	}
}

// findRider finds a rider of the club by name.
func (p *Part) findRider(riders []string) {
	for _, name := range riders {
		first := strings.Fields(strings.ToLower(accents.Replace(name)))
		if len(first) == 0 || len(first[0]) < 3 {
			continue
		}
		for i := range p.words {
			low := strings.TrimSuffix(strings.TrimSuffix(strings.ToLower(p.words[i].raw), "'s"), "’s")
			if low != first[0] && (len(first[0]) < 5 || vocabulary()[low] || distance(low, first[0], 2) > 1) {
				continue
			}
			p.words[i].slot = "RIDER"
			p.Rider = name
			for j := 1; j < len(first) && i+j < len(p.words) && strings.EqualFold(p.words[i+j].raw, first[j]); j++ {
				p.words[i+j].slot = "RIDER"
			}
			return
		}
	}
}
