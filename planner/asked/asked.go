// Package asked reads what riders ask and tell in plain English: which topic, which
// days, which race, how long, how sure. It is pure: the same text, day and names
// give the same reading. Topics are weighed by a small classifier, which is trained
// on the lines in testdata/asked (weights.bin).
package asked

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/care"
	"musette/planner/typed"
)

// Known is what the reader knows of the person who writes.
type Known struct {
	Today  planner.Date
	Races  []planner.Race
	Riders []string // names of the club's riders
	Last   *Part    // what the talk was about before; nil: nothing
	Judged bool     // somebody has looked for danger in the text already, and found none that must not wait

	dated []datedName // the races whose names hold a day, worked out once for a text
}

// Message is a text as it was read.
type Message struct {
	Parts   []Part
	Foreign Lang // the language, where it is not English
	Long    bool // too long to be a question
}

// Part is one question or one thing told.
type Part struct {
	Text       string
	Topic      Topic
	Offers     []Topic // what it can be, the likeliest first, where that is not sure
	Confidence float64 // of the topic, 0 to 1

	Dates    []Span
	Offset   *int          // days from the race, where a day was named by the race
	Race     *planner.Race // the race that was named, in any way
	Any      bool          // a race was meant and not named
	Others   []int         // further races that fit as well, by their place in Known.Races
	NewRace  string        // the name of a race that is told, where none of Known has it
	Rider    string
	Stranger string // a name that is none of the club's riders

	Minutes int     // a length of time, 0 where none was entered
	RPE     float64 // 0 where none was entered
	Percent int
	Kinds   []planner.Kind // sessions that were named, in their order
	Hard    bool           // it was called hard
	Follow  bool           // it goes on from what was asked before

	words  []word
	plain  string    // the words as rules see them
	shares []float64 // of each topic

	evidence float64 // for a question of its own
}

// Span is one day or a stretch of days. Ask has the readings where it can mean more
// than one, and Value writes the part again with one of them.
type Span struct {
	From, To planner.Date
	Ask      []typed.Reading

	at, end int
	set     bool // it was counted from something else, and does not look either way
}

// MaxLength is how many characters a question may have.
const MaxLength = 1500

const (
	mostParts  = 5
	mostOffers = 3
	mostHead   = 7 // words before questions that only say of which day they are
)

// Read reads a text.
func Read(text string, k Known) Message {
	if len([]rune(text)) > MaxLength {
		return Message{Long: true}
	}
	k.dated = datedNames(k.Races)
	forced, text := cutTopic(text)
	all := cut(text)
	if len(all) == 0 {
		return Message{}
	}
	if lang := foreign(all); lang != English {
		return Message{Foreign: lang}
	}
	if forced != "" {
		return Message{Parts: []Part{read(all, k, forced)}}
	}
	if !k.Judged && dangerIn(text, k) {
		return Message{Parts: []Part{read(all, k, RedFlag)}}
	}
	whole := read(all, k, "")
	if whole.holdsWeek() {
		if both := weekAndRace(all, k); both != nil {
			return Message{Parts: both}
		}
	}
	if whole.Topic == Week && (len(whole.Offers) == 0 || slices.Contains(whole.Offers, AddRace)) {
		if both := weekAndRace(all, k); both != nil {
			return Message{Parts: both}
		}
		if whole.Confidence >= wholeWeek && len(whole.Offers) == 0 {
			return Message{Parts: []Part{whole}}
		}
	}
	var parts []Part
	pieces := split(all)
	for i, piece := range pieces {
		p := whole
		if len(piece.words) < len(all) {
			p = read(piece.words, k, "")
			p.evidence = p.speaksFor(&whole, len(pieces), i > 0, piece.joined)
		}
		parts = append(parts, p)
	}
	parts = tidy(parts, whole, func(t Topic) Part { return read(all, k, t) })
	if len(parts) == 1 && !parts[0].Follow {
		if two := twoParts(all, parts[0], k); two != nil {
			parts = two
		} else if two := pairOf(all, &parts[0], k); two != nil {
			parts = two
		} else if parts[0].asksLength() {
			parts = append(parts, read(all, k, TaperLength))
		}
	}
	return Message{Parts: afterThanks(all, parts, k)}
}

// tidy leaves the parts that are surely about something of their own, else the whole.
// as reads the whole with the topic of one of its parts.
func tidy(parts []Part, whole Part, as func(Topic) Part) []Part {
	if len(parts) == 1 {
		return parts
	}
	var sure []Part
	var head *Part
	for _, p := range parts {
		if head != nil && len(p.Dates) == 0 && (p.Race == nil || p.Race == head.Race) {
			p.Dates, p.Race, p.Offset = []Span{{From: head.Dates[0].From, To: head.Dates[0].To, set: true}}, head.Race, head.Offset
		}
		if head = p.heads(head); head != nil && len(sure) == 0 && head.Text == p.Text {
			continue
		}
		if onlyWhen.MatchString(p.plain) || len(p.Offers) > 0 || p.Topic == Unknown || p.Topic == Thanks || isGreeting(&p) || p.Follow || !p.standsAlone(&whole) {
			continue
		}
		if n := len(sure); n > 0 && p.Topic == MayI && p.leans() && (sure[n-1].Topic == Missed || sure[n-1].Topic == Away) {
			continue // I will miss it, can I skip it?
		}
		if n := len(sure); n > 0 && sure[n-1].Topic == p.Topic && (len(p.Dates) == 0 || len(sure[n-1].Dates) == 0) {
			sure[n-1] = fuller(sure[n-1], p)
			continue
		}
		if n := len(sure); n > 0 {
			p.inherit(&sure[n-1])
		}
		sure = append(sure, p)
	}
	switch {
	case len(sure) == 0, len(sure) == 1 && len(whole.Offers) == 0 && (whole.Topic == sure[0].Topic || whole.Confidence >= sure[0].Confidence):
		return []Part{whole}
	case len(sure) == 1 && len(whole.Offers) == 0 && sure[0].Confidence < overShare:
		whole.Offers = []Topic{whole.Topic, sure[0].Topic}
		return []Part{whole}
	case len(sure) == 1 && len(whole.Offers) > 0 && sure[0].Topic == whole.Topic && sure[0].Confidence < aloneShare:
		return []Part{whole}
	case len(sure) == 1 && len(whole.Offers) > 0 && sure[0].Topic != whole.Topic && (sure[0].Confidence < overShare || !slices.Contains(whole.Offers, sure[0].Topic)):
		if !slices.Contains(whole.Offers, sure[0].Topic) {
			whole.Offers = append([]Topic{sure[0].Topic}, whole.Offers[:min(len(whole.Offers), mostOffers-1)]...)
		}
		return []Part{whole}
	case len(sure) == 1:
		p := as(sure[0].Topic)
		p.Confidence = sure[0].Confidence
		return []Part{p}
	}
	if len(whole.Dates) == 1 && whole.Dates[0].Ask == nil && !slices.ContainsFunc(sure, func(p Part) bool { return len(p.Dates) > 0 }) && ofOneDay[sure[0].Topic] {
		sure[0].Dates = []Span{{From: whole.Dates[0].From, To: whole.Dates[0].To, set: true}} // it was told before
	}
	return sure[:min(len(sure), mostParts)]
}

// heads is the few words before questions that say of which day they are, the evening before the
// crit: what do I eat, when do I sleep? Else it is what stood before.
func (p *Part) heads(before *Part) *Part {
	if len(p.words) <= mostHead && len(p.Dates) == 1 && p.Dates[0].Ask == nil && p.words[len(p.words)-1].end == ',' && !opens(p.words) {
		return p
	}
	return before
}

// inherit takes the race, and where a part asks of a ride the day, of the part before.
func (p *Part) inherit(before *Part) {
	if p.Race == nil && before.NewRace == "" {
		p.Race = before.Race
		if p.Race != nil && len(p.Dates) > 0 && besideAtEnd.MatchString(p.behind(p.Dates[0])) {
			p.weekdayBeside(p.Race)
		}
	}
	if week := before.Dates; len(week) == 1 && len(p.Dates) == 1 && week[0].Ask == nil && week[0].From.DaysUntil(week[0].To) == 6 && before.Race != nil && p.bareWeekday(p.Dates[0]) && len(before.words) <= mostHead {
		day := week[0].From.AddDays((int(p.Dates[0].From.Weekday()) - int(week[0].From.Weekday()) + 7) % 7)
		p.Dates = []Span{{From: day, To: day, set: true}} // Hill Loop week, Tuesday: what is it?
	}
	if race := p.Race; race != nil && before.Race == race && len(p.Dates) == 1 && len(before.Dates) > 0 && before.Dates[0].From == race.Date && p.bareWeekday(p.Dates[0]) && strings.Contains(p.plain, " then ") {
		day := race.Last().AddDays(1)
		day = day.AddDays((int(p.Dates[0].From.Weekday()) - int(day.Weekday()) + 7) % 7)
		p.Dates = []Span{{From: day, To: day, set: true}}
	}
	if race := p.Race; race != nil && len(p.Dates) == 0 && (p.Topic == Plan || p.Topic == Hours) && thatWeek.MatchString(p.plain) {
		monday := race.Date.AddDays(-int(race.Date.Weekday()))
		p.Dates = []Span{{From: monday, To: monday.AddDays(6), set: true}}
	}
	if len(p.Dates) == 0 && (p.Topic == HowHard || p.Topic == Why) && len(before.Dates) > 0 && before.Dates[0].Ask == nil {
		from, to, _ := before.Stretch()
		p.Dates = []Span{{From: from, To: to, set: true}} // it stands in other words
	}
}

// fuller is the one of two parts about one topic that says more, with what only the
// other says.
func fuller(a, b Part) Part {
	if len(a.Dates) == 0 && len(b.Dates) > 0 {
		a.Dates, a.words, a.plain = b.Dates, b.words, b.plain
	}
	if a.Minutes == 0 {
		a.Minutes = b.Minutes
	}
	if a.RPE == 0 {
		a.RPE = b.RPE
	}
	if a.Race == nil {
		a.Race, a.Any = b.Race, a.Any || b.Any
	}
	if len(a.Kinds) == 0 {
		a.Kinds = b.Kinds
	}
	a.Text += ". " + b.Text
	return a
}

func isGreeting(p *Part) bool { return p.Topic == Help && len(p.words) <= 2 }

// read reads one part.
func read(words []word, k Known, forced Topic) Part {
	words = slices.Clone(words)
	p := Part{Text: rawText(words), words: words}
	p.find(k)
	if forced != "" {
		p.Topic, p.Confidence = forced, 1
	} else {
		p.judge(k)
		p.ofTalk(k)
	}
	if besidesRace.MatchString(p.plain) && (p.Topic == Races || p.Topic == NextRace) {
		p.Race = nil
	}
	p.settleDates(k.Today)
	p.findBeside(k)
	p.raceOfDay(k)
	if p.Topic == AddRace {
		p.NewRace = p.newRace()
	}
	return p
}

// find finds what is named: riders, days, lengths, races, sessions.
func (p *Part) find(k Known) {
	p.findRider(k.Riders)
	p.markDated(k.dated)
	p.markTimed(k.Races, k.Today)
	p.findDates(k.Today)
	p.findLengths()
	p.findRace(k.Races, k.Today)
	p.findStranger()
	p.findKinds()
	p.plain = p.canonical()
}

// Mended is the text as it was read: slips mended, short forms written out.
func (p *Part) Mended() string {
	parts := make([]string, len(p.words))
	for i, w := range p.words {
		if parts[i] = w.low; w.end != 0 && i+1 < len(p.words) {
			parts[i] += string(w.end)
		}
	}
	return strings.Join(parts, " ")
}

// shortSaturday is a weekday that could be taken for a sign of illness.
var shortSaturday = plain.Compile(`(?i)\bsat\b`)

// dangerIn reports whether a text holds a stop word that needs a doctor or a word with
// somebody; names of races hold none.
func dangerIn(text string, k Known) bool {
	year, _, _ := k.Today.Civil()
	f := care.ReadIn(year, shortSaturday.ReplaceAllString(text, "saturday"), k.names()...)
	return f.Verdict == care.Stop && f.Level >= care.Doctor
}

// names are the rider's own names of races and places.
func (k *Known) names() (names []string) {
	for i := range k.Races {
		names = append(names, k.Races[i].Name, k.Races[i].Place)
	}
	return names
}
