package ask

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
)

// What people write of a race that is over, or off.
var (
	stopped   = regexp.MustCompile(`(?i)\b(?:dnf(?:['’]?e?d)?|d\.n\.f|did ?n['’]?o?t (?:finish|complete)|(?:never|couldn['’]?t) finish(?:ed)?|pulled (?:out|the plug)|abandon(?:ed)?|bailed|dropped out|(?:got|was) pulled|gave up|climbed off|packed it in|retired from|had to (?:stop|quit|abandon))\b`)
	stayedOut = regexp.MustCompile(`(?i)\b(?:dns(?:['’]?e?d)?|did ?n['’]?o?t (?:start|race|line up)|never started|no[- ]show|(?:missed|skipped) the (?:start|race))\b`)
	placing   = regexp.MustCompile(`(?i)\b(?:(?:came|finished|placed|was|got|took|ended up|rolled in|made)(?: in)?(?: home)? (?:a |the )?)(\d{1,3}(?:st|nd|rd|th)(?: (?:out )?of \d{1,3})?|first|second|third|last|top ?(?:\d{1,2}|three|five|ten))\b|\b(?:p|pos(?:ition)? )(\d{1,3})\b|\b((?:\d{1,3}(?:st|nd|rd|th)|first|second|third|last)(?: (?:out )?of \d{1,3}| place| overall)|top ?(?:\d{1,2}|three|five|ten))\b`)
	ordinals  = regexp.MustCompile(`(?i)\b(\d{1,3}(?:st|nd|rd|th))\b`)
	ofMonth   = regexp.MustCompile(`(?i)\bthe \d{1,2}(?:st|nd|rd|th)\b|\b\d{1,2}(?:st|nd|rd|th) (?:of )?(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)|\b(?:jan|feb|mar|apr|may|june?|july?|aug|sep|oct|nov|dec)[a-z]* \d{1,2}(?:st|nd|rd|th)\b`)
	winning   = regexp.MustCompile(`(?i)\b(?:i|we|just)? ?won (?:it|the|my|our|today|yesterday|on|in|at)?\b`)
	legsOf    = regexp.MustCompile(`(?i)\blegs?\b[^.!?\d]{0,30}?\b(10|[1-9])\b(?: ?(?:/|of|out of) ?(?:10|ten))?`)
	outOfTen  = regexp.MustCompile(`(?i)\b(10|[1-9]) ?(?:/|of|out of) ?(?:10|ten)\b`)
	byEffort  = regexp.MustCompile(`(?i)\b(?:rpe|effort)\b`)
	expected  = regexp.MustCompile(`(?i)\b(?:(better|worse) than (?:i |i had |i'd )?(?:expected|hoped|thought|planned)|as expected)\b`)
	fallen    = regexp.MustCompile(`(?i)\b(?:crash(?:ed|es|ing)?|fell|fall|went down|came off|taken out|hit the deck)\b`)

	ofRace    = regexp.MustCompile(`(?i)\b(?:race|raced|racing|event|crit|criterium|tt|time trial|sportive|tour|stage|gravel|cyclocross|cx|dn[fs])`)
	ofRide    = regexp.MustCompile(`(?i)\b(?:ride|session|intervals?|workout|training|commute|spin|sets?|group|reps?|gym|meal|work)\b`)
	maybeOnly = regexp.MustCompile(`(?i)\?|^(?:is|was|has|does|do|how|why|when|what|which|did (?:i|you|we))\b|\b(?:if|unless|might|should|shall|can|could|would|may|will|want to|wanna|going to|gonna|almost|nearly|last (?:year|season))\b`)
	ofOthers  = regexp.MustCompile(`(?i)\b(?:he|she|they|my (?:friend|mate|teammate|wife|husband|son|daughter|brother|sister)) `)
)

const (
	overDays  = 14 // a race that was named is looked for so far back
	justRaced = 3  // and one that was not
	mostAlone = 5  // words that may say no more than how a race went
)

// raceOver proposes what somebody tells of a race that is over, or of one that is off and
// was not named. False where they tell nothing of a race.
func (t *talk) raceOver(text string, parts []asked.Part) (say.Reply, bool, error) {
	if maybeOnly.MatchString(text) || !t.has("race result", "outcome") || slices.ContainsFunc(parts, func(p asked.Part) bool { return p.Topic == asked.RedFlag && len(p.Offers) == 0 }) {
		return say.Reply{}, false, nil
	}
	switch ended := stopped.MatchString(text); {
	case ofRide.MatchString(text) && !ofRace.MatchString(text) && !named(parts):
		return say.Reply{}, false, nil
	case named(parts) && (isOff.MatchString(text) || putsOff.MatchString(text)):
		if race := t.ofSeries(parts); race != nil && isOff.MatchString(text) {
			return t.cancels(race)
		} else if race != nil && !dated(parts) {
			return t.toWhichDay(race), true, nil
		}
		return say.Reply{}, false, nil // changesRace proposes the rest
	case isOff.MatchString(text) && ofRace.MatchString(text):
		return t.calledOff(text, parts)
	case putsOff.MatchString(text) && ofRace.MatchString(text):
		return t.putOff(text, parts)
	case ofOthers.MatchString(text):
		return say.Reply{}, false, nil
	case ended || stayedOut.MatchString(text):
		race := t.raced(text, parts, true)
		if race == nil {
			return say.Reply{}, false, nil
		}
		options := show.ByRace(race, "outcome", planner.NotStarted.String())
		line, label := "Not saved yet. You did not start in "+raceOn(race)+"?", "I did not start"
		if ended {
			options["outcome"] = planner.GaveUp.String()
			line, label = "Not saved yet. You did not finish "+raceOn(race)+"?", "I did not finish"
			if day, ok := t.day(&parts[0]); ok && race.Days > 1 && race.Date <= day && day <= min(race.Last(), t.today) {
				options["day"] = day.String()
				line = "Not saved yet. You gave up " + race.Name + " on " + day.Long() + ", " + dayOf(race, day) + "?"
			}
		}
		return t.proposeOver(text, race, line, label, options)
	}
	return t.resultTold(text, parts)
}

// resultTold proposes a placing, legs and how they compare with what was expected.
func (t *talk) resultTold(text string, parts []asked.Part) (say.Reply, bool, error) {
	place := placed(text)
	context := ofRace.MatchString(text) || legsOf.MatchString(text) || named(parts)
	if bare := ordinals.FindString(text); place == "" && bare != "" && context && !ofMonth.MatchString(text) {
		place = strings.ToLower(bare)
	}
	legs := legsOf.FindStringSubmatch(text)
	if legs == nil && !byEffort.MatchString(text) && (place != "" || ofRace.MatchString(text)) {
		legs = outOfTen.FindStringSubmatch(text)
	}
	than := expected.FindStringSubmatch(text)
	alone := len(strings.Fields(text)) <= mostAlone
	if place == "" && legs == nil && (than == nil || !alone && !ofRace.MatchString(text)) {
		return say.Reply{}, false, nil
	}
	race := t.raced(text, parts, false)
	if race == nil || place == "" && !ofRace.MatchString(text) && t.rated(race, legs != nil) { // then it may be about a ride
		return say.Reply{}, false, nil
	}
	options, said := show.ByRace(race), []string{}
	if place != "" {
		options["result"] = place
		said = append(said, place)
	}
	if legs != nil {
		options["feeling"] = legs[1]
		said = append(said, "legs "+legs[1]+" of 10")
	}
	if than != nil {
		compared := planner.ComparedSame
		switch strings.ToLower(than[1]) {
		case "better":
			compared = planner.ComparedBetter
		case "worse":
			compared = planner.ComparedWorse
		}
		options["compared"] = compared.String()
		said = append(said, show.ComparedWords(compared))
	}
	return t.proposeOver(text, race, "Not saved yet. "+raceOn(race)+": "+strings.Join(said, ", ")+"?", "Note this result", options)
}

// rated reports that legs, or how it went compared with what was expected, are known of a race.
func (t *talk) rated(race *planner.Race, legs bool) bool {
	told := t.facts.Now.ResultOf(race)
	return told != nil && (legs && told.Feeling > 0 || !legs && told.Compared != planner.ComparedNot)
}

// nearest is the race that is nearest to today, one that is over with a result apart.
func (t *talk) nearest(text string, parts []asked.Part) *planner.Race {
	race := t.raced(text, parts, true)
	if race != nil && t.facts.Now.ResultOf(race) != nil {
		race = nil
	}
	if next := t.facts.Now.NextRace(t.today); next != nil && (race == nil || t.today.DaysUntil(next.Date) <= race.Date.DaysUntil(t.today)) {
		race = next
	}
	return race
}

// putOff proposes another day for the race that is nearest to today, or asks for it.
func (t *talk) putOff(text string, parts []asked.Part) (say.Reply, bool, error) {
	race := t.nearest(text, nil)
	if race == nil {
		return say.Reply{}, false, nil
	}
	for i := range parts {
		if day, ok := t.day(&parts[i]); ok && day > t.today && day != race.Date {
			reply, err := t.propose("Not saved yet. Move "+race.Name+" from "+race.Date.Long()+" to "+day.Long()+"?", "Move "+race.Name, "race change", show.ByRace(race, "date", day.String()), &asked.Part{Race: race})
			return t.ofRaces(reply, race), err == nil, err
		}
	}
	return t.toWhichDay(race), true, nil
}

// toWhichDay asks for the new day of a race.
func (t *talk) toWhichDay(race *planner.Race) say.Reply {
	var reply say.Reply
	reply.Addf("To which day is %s moved? Not saved yet.", raceOn(race))
	reply.Addf("For example: %s is moved to %s.", race.Name, max(race.Date, t.today).AddDays(7).Long())
	return t.ofRaces(reply, race)
}

// dated reports that a day was named.
func dated(parts []asked.Part) bool {
	return slices.ContainsFunc(parts, func(p asked.Part) bool { _, _, ok := p.Stretch(); return ok })
}

// calledOff proposes that the race is cancelled that is nearest to today.
func (t *talk) calledOff(text string, parts []asked.Part) (say.Reply, bool, error) {
	race := t.nearest(text, parts)
	if race == nil {
		return say.Reply{}, false, nil
	}
	return t.cancels(race)
}

// ofSeries is the race that was named, or where it is over the nearest to today of its series.
func (t *talk) ofSeries(parts []asked.Part) (nearest *planner.Race) {
	for _, p := range parts {
		if p.Race == nil || p.Any {
			continue
		}
		if p.Race.Date >= t.today {
			return p.Race
		}
		for i := range t.facts.Now.Races {
			r := &t.facts.Now.Races[i]
			if away := abs(t.today.DaysUntil(r.Date)); show.SameName(r.Name, p.Race.Name) && r.Status.Counts() && t.facts.Now.ResultOf(r) == nil && (nearest == nil || away < abs(t.today.DaysUntil(nearest.Date))) {
				nearest = r
			}
		}
	}
	return nearest
}

func abs(n int) int { return max(n, -n) }

func (t *talk) cancels(race *planner.Race) (say.Reply, bool, error) {
	if !t.has("race change", "status") {
		return say.Reply{}, false, nil
	}
	reply, err := t.propose("Not saved yet. "+raceOn(race)+" is cancelled?", "It is cancelled", "race change", show.ByRace(race, "status", "cancelled"), &asked.Part{Race: race})
	return t.ofRaces(reply, race), err == nil, err
}

// proposeOver proposes a result. After a fall health comes first.
func (t *talk) proposeOver(text string, race *planner.Race, line, label string, options map[string]string) (say.Reply, bool, error) {
	if fallen.MatchString(text) && !t.req.Heeded {
		var page say.Page
		var reply say.Reply
		page.Addf("! You fell? If you hit your head, feel dizzy or sick, or anything hurts in riding: do not ride, and have it looked at today.")
		page.Addf("%s", line)
		reply.Offer(&page, label, "race result", options)
		reply.Offer(&page, "I hit my head", "tell injured", map[string]string{"what": "knock to the head"})
		reply.Offer(&page, "Something hurts", "tell injured", nil)
		reply.Lines = page.Done()
		return t.ofRaces(reply, race), true, nil
	}
	reply, err := t.propose(line, label, "race result", options, &asked.Part{Race: race})
	return t.ofRaces(reply, race), err == nil, err
}

// ofRaces is a reply about a race.
func (t *talk) ofRaces(reply say.Reply, race *planner.Race) say.Reply {
	reply.Topic, reply.Topics = string(asked.Races), []string{string(asked.Races)}
	reply.Date, reply.Race = race.Date, race.Name
	return reply
}

// dayOf is a day of a race: day 2 of 4.
func dayOf(race *planner.Race, day planner.Date) string {
	return "day " + strconv.Itoa(race.Date.DaysUntil(day)+1) + " of " + strconv.Itoa(race.Days)
}

func raceOn(race *planner.Race) string { return race.Name + " on " + race.Date.Long() }

// named reports that a race was named.
func named(parts []asked.Part) bool {
	return slices.ContainsFunc(parts, func(p asked.Part) bool { return p.Race != nil && !p.Any })
}

// raced is the race that somebody tells of: the one that is named, the one of the day that is named, or one
// of the last days. byDay leaves out others where a day was named.
func (t *talk) raced(text string, parts []asked.Part, byDay bool) *planner.Race {
	var over []*planner.Race // the last one first
	for i := range t.facts.Now.Races {
		if r := &t.facts.Now.Races[i]; r.Date <= t.today && r.Last() >= t.today.AddDays(-overDays) && r.Status != planner.Cancelled {
			over = append(over, r)
		}
	}
	slices.SortStableFunc(over, func(a, b *planner.Race) int { return int(b.Date - a.Date) })
	for _, p := range parts {
		if p.Race != nil && !p.Any {
			if i := slices.IndexFunc(over, func(r *planner.Race) bool { return show.SameName(r.Name, p.Race.Name) }); i >= 0 {
				return over[i]
			}
			return nil
		}
	}
	said := desk.WordsOf(text)
	if i := slices.IndexFunc(over, func(r *planner.Race) bool {
		return slices.ContainsFunc(desk.WordsOf(r.Name), func(w string) bool { return (len(w) > 3 || w == "tt") && w != "race" && slices.Contains(said, w) })
	}); i >= 0 {
		return over[i]
	}
	for i := range parts {
		day, ok := t.day(&parts[i])
		if !ok {
			continue
		}
		for day > t.today { // "sunday" may have been read as the coming one
			day = day.AddDays(-7)
		}
		if k := slices.IndexFunc(over, func(r *planner.Race) bool { return r.Date <= day && day <= r.Last() }); k >= 0 {
			return over[k]
		}
		if byDay {
			return nil
		}
	}
	if len(over) > 0 && over[0].Last() >= t.today.AddDays(-justRaced) {
		return over[0]
	}
	return nil
}

// placed is the placing that a text tells, "" for none.
func placed(text string) string {
	found := placing.FindStringSubmatch(text)
	if found == nil {
		if winning.MatchString(text) {
			return "1st"
		}
		return ""
	}
	place := strings.TrimSuffix(strings.ToLower(found[1]+found[3]), " place")
	if n := slices.Index(places[:], place); n >= 0 {
		return ordinal(n + 1)
	}
	if n, err := strconv.Atoi(found[2]); err == nil {
		return ordinal(n)
	}
	return place
}

var places = [...]string{"first", "second", "third"}

// ordinal is a number as a place: 12th.
func ordinal(n int) string {
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return strconv.Itoa(n) + end
}
