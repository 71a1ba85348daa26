package asked

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
)

// commonNames are words of races' names that say nothing of which race it is.
var commonNames = wordSet("race the of de la le grand tour criterium crit time trial road gravel classic challenge cup prix gran fondo sportive stage day loop hill valley ride and")

// insideName are small words that people put into a race's name.
var insideName = wordSet("of the at in on and")

// findRace finds the race that is meant: by its name however it is misspelt, by its
// priority or kind, or as the next one.
func (p *Part) findRace(races []planner.Race, today planner.Date) {
	if p.Race != nil {
		return
	}
	best, ties, at, end := 0.0, []int(nil), 0, 0
	for i := range races {
		score, a, e := p.named(&races[i])
		if races[i].Last() < today {
			score *= 0.99
		}
		if score >= leastName && (e < len(p.words) && p.words[e].low == "be" || e+1 < len(p.words) && p.words[e].low == "one" && p.words[e+1].low == "be") {
			score += subjectMore // should Fox Hill be my A instead of Hill Loop
		}
		switch {
		case score < leastName || score < best-1e-9:
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

// nameParts are the words of a race's name.
func nameParts(name string) []string {
	return strings.FieldsFunc(strings.ToLower(accents.Replace(name)), func(c rune) bool { return !('a' <= c && c <= 'z' || '0' <= c && c <= '9') })
}

// leastName is how much of a name must be said.
const leastName = 0.6

// subjectMore is how much more a race says of which something is asked than others beside it.
const subjectMore = 0.5

// slipCosts is how much less a word says that is not written as in the name.
const slipCosts = 0.05

// shortKinds are short forms of words in names.
var shortKinds = map[string]string{"tt": "trial", "rr": "road", "gp": "prix", "crit": "criterium", "criterium": "crit"}

// named is how well words of the part fit a race's name, and where they are.
func (p *Part) named(r *planner.Race) (score float64, at, end int) {
	name := nameParts(r.Name)
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
	joined := strings.Join(name, "")
	for i := range p.words {
		if low := strings.ToLower(p.words[i].raw); len(low) >= 6 && strings.HasPrefix(joined, low) && len(low) > len(name[0]) {
			return 1, i, i + 1
		}
		sum, last, own := 0.0, i, false
		rest := slices.Clone(name)
		for j := i; j < len(p.words) && j < i+len(name)+1 && p.words[j].slot == ""; j++ {
			for n, w := range rest {
				if sameWord(p.words[j], w) || p.soundsLike(j, n, name) {
					sum += worth(w)
					if low := strings.ToLower(p.words[j].raw); low != w && p.words[j].low != w {
						sum -= slipCosts
					}
					own = own || !commonNames[w]
					rest[n] = "\x00"
					last = j + 1
					break
				}
			}
			if last <= j && (last == i || !insideName[p.words[j].low]) {
				break
			}
		}
		s := sum / total
		if own && last > i && p.owns(i, last, name) {
			s = max(s, 0.62+0.2*s)
		}
		if s > score {
			score, at, end = s, i, last
		}
	}
	for at > 0 && end > at && p.words[at-1].end == 0 && slices.ContainsFunc(name, func(w string) bool { return len(w) > 3 && sameWord(p.words[at-1], w) }) {
		at-- // the time trial at the harbour
	}
	return score, at, end
}

// soundsLike reports whether a word stands for one of a name because the next one of
// the name follows it: "heel loop".
func (p *Part) soundsLike(j, n int, name []string) bool {
	low := strings.ToLower(p.words[j].raw)
	return n+1 < len(name) && j+1 < len(p.words) && !smallInName[low] && p.words[j+1].low == name[n+1] && low != "" && low[0] == name[n][0] && len(low) > 2 && distance(low, name[n], 3) < 3
}

// owns reports whether a part of a race's name is enough to mean it: more than a
// word, or a word that means nothing else, or one that is spoken of as a race.
func (p *Part) owns(at, end int, name []string) bool {
	w := p.words[at]
	low := strings.ToLower(w.raw)
	if end-at > 1 {
		return true
	}
	if !learned().known[low] {
		return len(low) >= 6 || slices.Contains(name, low)
	}
	next := ""
	if end < len(p.words) && w.end == 0 {
		next = p.words[end].low
	}
	before := ""
	if at > 0 {
		before = p.words[at-1].low
	}
	ofWeek := before == "the" && at > 2 && p.words[at-2].low == "of" && p.words[at-3].low == "week"
	return ofWeek || next == "week" || next == "one" || next == "race" || next == "loop" || next == "tt" || next == "crit" || before == "the" && w.raw != w.low
}

// sameWord reports whether a word is one of a name, a slip or two apart.
func sameWord(w word, name string) bool {
	low := strings.ToLower(w.raw)
	if low == name || w.low == name || strings.TrimSuffix(low, "'s") == name || shortKinds[low] == name || shortKinds[w.low] == name {
		return true
	}
	switch n := len(name); {
	case n < 4 || learned().known[low]:
		return false
	case n < 7:
		return distance(low, name, 2) < 2
	default:
		return distance(low, name, 3) < 3
	}
}

var (
	ofPriority = plain.Compile(` (?:(?:my|the|next|first|big|main|one|only|last|second|other) )+([abc]) (?:race|event|priority|goal|one)| ([abc]) (?:race|event) (?:is|start|on|taper) `)
	anyRace    = plain.Compile(` (?:the|my|next|this|a|big|main|before|after|for) (?:big |main |next |important |a )?(?:race|races|event|competition|raceday|one) | race (?:week|day|morning|eve) | until race | i race | the day (?:of|before) race | for race `)
)

// byKind finds a race by what it is.
func (p *Part) byKind(races []planner.Race, today planner.Date) {
	plain := p.canonical()
	if m := ofPriority.FindStringSubmatch(plain); m != nil {
		want := strings.ToUpper(m[1] + m[2])
		p.Any = true
		p.Race = planner.FirstAhead(races, today, func(r *planner.Race) bool { return r.Priority.String() == want })
		return
	}
	if p.kindAlone(races, today, otherKind) || p.partOfName(races, today) {
		return
	}
	if bigRace.MatchString(plain) {
		p.Any = true
		p.Race = planner.FirstAhead(races, today, func(r *planner.Race) bool { return r.Priority == planner.PriorityA })
		return
	}
	if nextRace.MatchString(plain) {
		p.Any = true
		p.Race = nextOf(races, today)
		return
	}
	p.Any = anyRace.MatchString(plain)
}

// partOfName finds the race that is called by a word of its name: the hill one.
func (p *Part) partOfName(races []planner.Race, today planner.Date) bool {
	for i := 1; i < len(p.words); i++ {
		w, end := p.words[i].low, p.partEnds(i)
		if end == 0 || p.words[i-1].low != "the" && p.words[i-1].low != "my" || p.words[i].slot != "" || raceSorts[w] {
			continue
		}
		for place := range 2 {
			r := planner.FirstAhead(races, today, func(r *planner.Race) bool {
				name := nameParts(r.Name)
				return place < len(name) && (name[place] == w || name[place]+"y" == w || name[place]+"s" == w)
			})
			if r == nil {
				continue
			}
			for j := i; j < end; j++ {
				p.words[j].slot = "RACE"
			}
			p.Race, p.Any = r, true
			return true
		}
	}
	return false
}

// partEnds is where a word ends that calls a race by a part of its name: the hill one, the week of the hills. It is 0
// where nothing says that it does.
func (p *Part) partEnds(i int) int {
	if i+1 < len(p.words) && (p.words[i+1].low == "one" || p.words[i+1].low == "race") {
		return i + 2
	}
	if i > 2 && p.words[i-1].end == 0 && p.words[i-2].low == "of" && p.words[i-3].low == "week" {
		return i + 1
	}
	return 0
}

// raceSorts are words before "race" that are of no name.
var raceSorts = wordSet("road race day time")

var (
	bigRace   = plain.Compile(` (?:the|my|our) (?:big|main|biggest|important|goal|target|key) (?:race|one|event|day|goal|target) `)
	nextRace  = plain.Compile(` (?:next|nearest|upcoming|coming|closest) (?:race|event|competition) | race (?:next|comes next|comes first) `)
	raceKinds = map[string]string{"crit": "crit", "criterium": "crit", "tt": "time trial", "gravel": "gravel", "fondo": "fondo", "loop": "loop"}
	otherKind = wordSet("a an another club lane green new called some local evening night league")
)

// kindAlone finds the race that is the only one of its kind: the crit, the TT. Behind
// some words it is another one.
func (p *Part) kindAlone(races []planner.Race, today planner.Date, other map[string]bool) bool {
	for i, w := range p.words {
		want, end := raceKinds[w.low], i+1
		if w.low == "time" && i+1 < len(p.words) && p.words[i+1].low == "trial" {
			want, end = "time trial", i+2
		}
		if want == "" || w.slot != "" || w.low == "loop" && !p.theLoop(i) || i > 0 && (other[p.words[i-1].low] || p.words[i-1].raw != strings.ToLower(p.words[i-1].raw) && i > 1 && !months[p.words[i-1].low]) {
			continue
		}
		if other != nil && i > 0 && w.low != "loop" && p.ownName(i-1) {
			continue // the brewery crit
		}
		r := ofRaceKind(races, today, want)
		if r == nil {
			continue
		}
		for j := i; j < end; j++ {
			p.words[j].slot = "RACE"
		}
		p.Race, p.Any = r, true
		return true
	}
	return false
}

// theLoop reports whether "loop" is spoken of as a race: the loop, loop week.
func (p *Part) theLoop(i int) bool {
	return i > 0 && p.words[i-1].low == "the" || i+1 < len(p.words) && p.words[i].end == 0 && ofRace[p.words[i+1].low]
}

// ofRace are words behind the name of a race.
var ofRace = wordSet("week day taper tapering morning eve weekend")

// ofRaceKind is the first race to come of a kind.
func ofRaceKind(races []planner.Race, today planner.Date, kind string) *planner.Race {
	return planner.FirstAhead(races, today, func(r *planner.Race) bool { return strings.Contains(strings.ToLower(r.Name+" "+r.Kind), kind) })
}

// ownName reports whether a word that is no ordinary one stands before a kind of race: then it
// is another race.
func (p *Part) ownName(i int) bool {
	w := p.words[i]
	return w.slot == "" && w.end == 0 && len(w.low) > 4 && !learned().known[w.low] && !strings.ContainsAny(w.low, "0123456789")
}

// besidesRace finds a race that is left out: anything in July besides Fox Hill.
var besidesRace = plain.Compile(` (?:besides|except|except for|apart from|other than) (?:the |my )?RACE `)

// raceOfDay is the race on a day that was named, for topics that are about races.
func (p *Part) raceOfDay(k Known) {
	if p.Topic == NextRace && p.Race != nil && raceAfter.MatchString(p.plain) {
		if later := planner.FirstAhead(k.Races, p.Race.Last().AddDays(1), func(*planner.Race) bool { return true }); later != nil {
			p.Race = later
			return
		}
	}
	if p.Race != nil && p.Topic == NextRace && p.Race.Last() < k.Today {
		p.Race = nil
	}
	if p.Topic == RaceLegs || p.Topic == Overload {
		p.lastNamed(k.Races)
	}
	if p.Topic == RaceLegs && p.Race != nil && len(p.Dates) > 0 {
		if r := raceOn(k, p.Dates[0]); r != nil {
			p.Race = r
		}
	}
	if p.Race != nil {
		return
	}
	if ofKind[p.Topic] && p.kindAlone(k.Races, k.Today, nil) {
		return
	}
	if p.Topic == NextRace && p.Race == nil {
		p.Race = nextOf(k.Races, k.Today)
		return
	}
	from, to, ok := p.Stretch()
	if !ok || notOfRace[p.Topic] || from != to && (p.Topic != Races || from.DaysUntil(to) > 6) {
		return
	}
	if p.raceBeside(k, from) {
		return
	}
	eve := planner.Date(0)
	if p.Topic == Sleep || p.Topic == Food {
		eve = 1
	}
	for i := range k.Races {
		if r := &k.Races[i]; r.Date <= to+eve && from <= r.Last() {
			p.Race = r
			return
		}
	}
}

// lastNamed takes of several races the one that is named last, unless it is the one before: will I
// have the form of Hill Loop at Fox Hill?
func (p *Part) lastNamed(races []planner.Race) {
	if p.Race == nil || p.Any {
		return
	}
	last := slices.IndexFunc(p.words, func(w word) bool { return w.slot == "RACE" })
	for i := range races {
		score, at, end := p.named(&races[i])
		if score < leastName || end <= at || at <= last || &races[i] == p.Race {
			continue
		}
		before := p.words[at-1].low
		if (before == "the" || before == "my") && at > 1 {
			before = p.words[at-2].low
		}
		if leadsTo[before] {
			p.Race, last = &races[i], at
		}
	}
}

// leadsTo are words before the race that is meant.
var leadsTo = wordSet("for at to and in")

// raceBeside is the race that is told to be some days from the day that was named: the 16th, five
// days out from the race; 22 June, the morning after.
func (p *Part) raceBeside(k Known, day planner.Date) bool {
	n := 0
	switch m := besideRace.FindStringSubmatch(p.plain); {
	case m != nil:
		n = daysBeside(m)
	case p.Topic == AfterRace || morningAfter.MatchString(p.plain):
		n = 1
	}
	if n == 0 {
		return false
	}
	for i := range k.Races {
		r := &k.Races[i]
		if n < 0 && r.Date == day.AddDays(-n) || n > 0 && r.Last() == day.AddDays(-n) {
			p.Race = r
			return true
		}
	}
	return false
}

var morningAfter = plain.Compile(` (?:morning|day|evening|night) after `)

// raceAfter asks for the race that follows another.
var raceAfter = plain.Compile(`^ (?:and |so |what |whats )*after (?:the |my )?RACE |(?:next|following|another|other) (?:race |one )?(?:.* )?after (?:the |my )?RACE `)

// raceOn is the race on a day, nil where none is.
func raceOn(k Known, s Span) *planner.Race {
	if s.Ask != nil || s.From != s.To {
		return nil
	}
	return planner.FirstAhead(k.Races, s.From, func(r *planner.Race) bool { return r.Date <= s.From })
}

// ofKind are topics where "a crit" is the rider's own.
var ofKind = map[Topic]bool{Food: true, RaceMorning: true, HowHard: true, RaceLegs: true, TaperLength: true, TaperStart: true, Season: true, Overload: true, AfterRace: true, Races: true, NextRace: true, Strength: true, Sleep: true}

// notOfRace are topics where a day on which a race is does not mean the race.
var notOfRace = map[Topic]bool{AddRace: true, Week: true, TellRide: true, Away: true, Missed: true, Unknown: true, Thanks: true, Help: true}

// nextOf is the next race to come.
func nextOf(races []planner.Race, today planner.Date) *planner.Race {
	return planner.FirstAhead(races, today, func(*planner.Race) bool { return true })
}

// asksOf is a question about somebody.
var asksOf = plain.Compile(`^(?:and |so |hi |hey |coach )*(?:what|how|when|whats|hows|whens)(?: is| are| does| did| has| will|)? ?$`)

// findStranger takes a name that the club does not have for one of a rider, where somebody
// asks how they are or what they ride.
func (p *Part) findStranger() {
	for i, w := range p.words {
		if p.Rider != "" || i == 0 || i > 4 || w.slot != "" || len(w.raw) < 3 || w.raw[0] < 'A' || w.raw[0] > 'Z' || w.raw[1:] != strings.ToLower(w.raw[1:]) {
			continue
		}
		if !learned().known[strings.ToLower(w.raw)] && !commonNames[w.low] && asksOf.MatchString(lowText(p.words[:i])) {
			p.words[i].slot = "RIDER"
			p.Stranger = w.raw
			return
		}
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
			if low != first[0] && (len(first[0]) < 5 || learned().known[low] || distance(low, first[0], 2) > 1) {
				continue
			}
			p.words[i].slot = "RIDER"
			p.Rider = name
			for j := 1; j < len(first) && i+j < len(p.words) && strings.EqualFold(p.words[i+j].raw, first[j]); j++ {
				p.words[i+j].slot = "RIDER"
			}
			return
		}
		if at := p.heardName(first[0]); at >= 0 {
			p.words[at].slot, p.words[at+1].slot, p.Rider = "RIDER", "RIDER", name
			return
		}
	}
}

// smallWords are no part of a name that dictation has taken apart.
var smallWords = wordSet("to in on at for the a an is it i and or if my his her no so as of we you by do be he she am me us up go not too has was are")

// smallAlone are words that stay what they are behind a small word: how does one use you.
var smallAlone = wordSet("use used uses")

// heardName is where two words sound as a name that dictation has taken apart, toe mass, else -1.
func (p *Part) heardName(name string) int {
	for i := 0; i+1 < len(p.words) && len(name) > 3; i++ {
		a, b := folded(p.words[i].raw), folded(p.words[i+1].raw)
		if p.words[i].slot+p.words[i+1].slot == "" && p.words[i].end == 0 && !smallWords[a] && !smallWords[b] && !smallAlone[b] && sound(a+b) == sound(name) && distance(a+b, name, 4) < 4 {
			return i
		}
	}
	return -1
}
