package typed

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
)

// busyWord marks a weekday on which riding is never possible; it is no session.
const busyWord = "busy"

// rideWord is a kind when alone, and adds nothing to another kind: long ride.
const rideWord = "ride"

// kindWords are the words for a session's kind. Phrases of several words are in phrases.
var kindWords = kindsOf(map[planner.Kind]string{
	planner.Rest:      "rest off busy nothing none nil nowt repose resting",
	planner.Recovery:  "recovery rec easy spin gentle calm chill chilled zone1",
	planner.Endurance: "endurance base steady tempo ride zone2 zone3",
	planner.Long:      "long lsd",
	planner.Intervals: "intervals interval int ints hard threshold vo2 efforts effort hills hill reps repeats series sprints sprint zone4 zone5 fartlek fartleks overunders sweetspot pyramid pyramids tabata tabatas",
	planner.Openers:   "openers opener",
	planner.RaceRide:  "race",
	planner.Group:     "group club bunch clubspin chaingang clubrun clubride weeklyrace peloton",
	planner.Commute:   "commute commutes commuting",
	planner.Indoor:    "indoor indoors turbo trainer rollers spinbike spinclass",
	planner.Strength:  "strength gym weights lifting core",
	planner.Other:     "other run running jog jogging parkrun swim swimming pool piscine walk walking hike hiking yoga pilates stretching stretch football tennis rugby basketball netball hockey badminton squash rowing skiing dancing boxing physio massage",
})

func kindsOf(words map[planner.Kind]string) map[string]planner.Kind {
	out := map[string]planner.Kind{}
	for kind, list := range words {
		for _, w := range strings.Fields(list) {
			out[w] = kind
		}
	}
	return out
}

// adjectives are words for a kind that may also say how another kind is ridden.
var adjectives = map[string]planner.Effort{"easy": planner.Easy, "gentle": planner.Easy, "calm": planner.Easy, "steady": planner.Steady, "hard": planner.Hard}

// eachWayWord doubles a session: 25min each way.
const eachWayWord = "eachway"

// fillers say nothing about a session.
var fillers = wordSet(`ride rides riding session sessions day training workout the a an with my our in on at of for total all altogether usual usually normally about around roughly approx
	circa ish so just one evening morning night afternoon lunch lunchtime i we do make go some local outside outdoor outdoors road bike legs dog pace nice little short big solo gravel and n
	is it its planned always every coffee cafe cake stop active complete mtb repetitions roll rolling smart static watt w incl include includes including inc`)

// socials may follow a session and are none: then cafe.
var socials = wordSet("cafe coffee cake pub breakfast brunch shower bed home after then stop")

// openWords leave open what a day holds.
var openWords = wordSet(`depends depending depend whatever whichever maybe perhaps possibly or either sometimes alternate alternating alternately everyother unless if varies variable dunno unsure tbc tbd
	anything something flexible`)

// phrases are several words that mean one.
var phrases = map[string]string{
	"chain gang": "chaingang", "weekly race": "weeklyrace", "club run": "clubrun", "club ride": "clubride", "park run": "parkrun", "vo 2 max": "vo2", "vo2 max": "vo2", "vo 2": "vo2",
	"zone 1": "zone1", "zone 2": "zone2", "zone 3": "zone3", "zone 4": "zone4", "zone 5": "zone5", "z 1": "zone1", "z 2": "zone2", "z 3": "zone3", "z 4": "zone4", "z 5": "zone5",
	"each way": eachWayWord, "both ways": eachWayWord, "and the same back": eachWayWord, "and same back": eachWayWord, "the same back": eachWayWord, "and back the same": eachWayWord, "and the same home": eachWayWord,
	"to work": "commute", "into work": "commute", "in to work": "commute", "to uni": "commute", "to school": "commute", "to the office": "commute", "to college": "commute", "from work": "commute",
	"ride to work": "commute", "home from work": "commute", "back from work": "commute", "way to work": "commute", "ride home": "commute", "way home": "commute", "to the station": "commute",
	"the long way": "", "long way": "", "long way round": "", "the long way round": "", "at home": "", "off road": "", "all in": "", "in all": "", "in total": "", "or so": "", "more or less": "",
	"before work": "", "after work": "", "before school": "", "after school": "", "before breakfast": "", "after lunch": "", "at lunch": "", "before dinner": "", "after dinner": "", "with the dog": "", "per day": "", "every week": "", "each week": "",
	"legs up": "rest", "feet up": "rest", "day off": "rest", "off day": "rest", "no ride": "rest", "no riding": "rest", "no training": "rest", "no bike": "rest", "dont ride": "rest", "dont train": "rest", "not riding": "rest", "nothing at all": "rest",
	"every other": "everyother", "every second": "everyother", "not sure": "depends", "no idea": "depends", "hill reps": "hills", "hill repeats": "hills", "with mates": "", "with the mates": "", "with friends": "", "with my mates": "", "sweet spot": "sweetspot", "over unders": "overunders", "over under": "overunders", "over and unders": "overunders",
	"club spin": "clubspin", "group spin": "clubspin", "bunch spin": "clubspin", "spin bike": "spinbike", "exercise bike": "spinbike", "static bike": "spinbike", "spin class": "spinclass", "spinning class": "spinclass", "spinning bike": "spinbike",
	"no riding possible": nochance, "no ride possible": nochance, "riding not possible": nochance, "no bike possible": nochance, "easy does it": "easy",
	"no chance": nochance, "no way": nochance, "cant ride": nochance, "cannot ride": nochance, "can not ride": nochance, "cant ever ride": nochance, "can never ride": nochance,
	"never can ride": nochance, "never can": nochance, "can never": nochance, "cannot ever ride": nochance, "never ride": nochance, "never possible": nochance, "not possible": nochance, "never free": nochance, "never able": nochance, "not available": nochance, "cant do": nochance,
	"cant train": nochance, "can never train": nochance, "wont ever": nochance, "never any time": nochance, "no time ever": nochance, "unable to ride": nochance, "impossible to ride": nochance, "not able to ride": nochance,
}

// nochance is a phrase for a day on which riding is never possible.
const nochance = "nochance"

// neverWords make a busy day together with words that say why: work, kids.
var neverWords = wordSet("busy nochance impossible unavailable never cant cannot")

// restricting words next to one of these change what is meant.
var restricting = wordSet(`outside outdoors hard fast far much more miss skip unless except without but only if when while before after often group turbo club bunch chaingang clubrun clubride long intervals
	commute indoor indoors rollers endurance easy spin gym ride`)

// reasons are words that say why, with never and can't.
var reasons = wordSet(`work double overtime works working nights night shift shifts late early kids kid children family school uni college football swimming class classes lessons lesson course the my i at all day always ever
	til until till to and a of on im with have is in job office meeting meetings church band practice choir so for me we our because its it daughter son wife husband evening morning that then`)

// kindList names what a session can be, for messages.
var kindList = strings.Join(append(planner.KindNames(), busyWord), ", ")

// raceKindWords are the words of kinds of race. What is near to one of them is mended, other words stay.
var raceKindWords = wordSet("criterium crit road race time trial gravel stage endurance circuit kermesse handicap sportive cyclocross mountain bike track hill climb relay marathon randonnee audax brevet ultra fondo gran " +
	"granfondo triathlon duathlon pursuit madison omnium points eliminator enduro downhill cross country team individual evening league club championship prologue tour criteriums reliability roubaix trail century charity classic circuits night series racing")

// joinedKinds are kinds of two words that people write as one, or with another word that is near.
var joinedKinds = map[string]string{
	"roadrace": "road race", "timetrial": "time trial", "timetrail": "time trial", "stagerace": "stage race", "hillclimb": "hill climb", "gravelrace": "gravel race", "trackrace": "track race",
	"time trail": "time trial", "rode race": "road race", "rood race": "road race", "raod race": "road race", "raod": "road", "gravle": "gravel", "kriterium": "criterium", "krit": "crit",
}

// RaceKind is a kind of race as it was meant: with slips of the pen mended, else as it was written.
func RaceKind(text string) string {
	words := strings.Fields(text)
	for i := 0; i < len(words); i++ {
		low := strings.ToLower(words[i])
		if i+1 < len(words) {
			if both := joinedKinds[low+" "+strings.ToLower(words[i+1])]; both != "" {
				words[i] = both
				words = slices.Delete(words, i+1, i+2)
				continue
			}
		}
		if mended := mendedKind(low); mended != low {
			words[i] = mended
		}
	}
	return strings.Join(words, " ")
}

// Lengths of words from which on a slip is mended: one letter of a short word, two of a long one.
const (
	shortKind = 5
	longKind  = 7
)

// mendedKind is the word of a kind that a mistyped one must mean, the word itself where it means none.
func mendedKind(word string) string {
	if joined := joinedKinds[word]; joined != "" {
		return joined
	}
	n := utf8.RuneCountInString(word)
	if raceKindWords[word] || raceKindWords[strings.TrimSuffix(word, "s")] || n < shortKind {
		return word
	}
	best, least, tied := word, 3, false
	for w := range raceKindWords {
		d := editDistance([]rune(word), []rune(w))
		switch {
		case len(w) < shortKind || d > 1 && n < longKind || d == 1 && n == len(w) && n < longKind && !swapped(word, w):
			continue // state is no stage
		case d < least:
			best, least, tied = w, d, false
		case d == least:
			tied = true
		}
	}
	if tied {
		return word
	}
	return best
}

// swapped reports whether two words have the same letters.
func swapped(a, b string) bool {
	sorted := func(s string) string {
		r := []rune(s)
		slices.Sort(r)
		return string(r)
	}
	return sorted(a) == sorted(b)
}

// saidKinds are the kinds that people name when they tell of a race, and how.
var saidKinds = []struct{ word, kind string }{{"criterium", "criterium"}, {"time trial", "time trial"}, {"gravel", "gravel"}, {"stage race", "stage race"}, {"road race", "road race"}, {"crit", "criterium"}}

// RaceKindIn is the kind of race that a text names, "" where it names none, and whether a slip was mended.
func RaceKindIn(text string) (kind string, mended bool) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	said := " " + strings.Join(words, " ") + " "
	for _, k := range saidKinds {
		if strings.Contains(said, " "+k.word+" ") {
			return k.kind, false
		}
	}
	for i, w := range words {
		if utf8.RuneCountInString(w) < longKind && joinedKinds[w] == "" {
			continue
		}
		words[i] = mendedKind(w)
	}
	said = " " + strings.Join(words, " ") + " "
	for wrong, right := range joinedKinds {
		if strings.Contains(wrong, " ") {
			said = strings.ReplaceAll(said, " "+wrong+" ", " "+right+" ")
		}
	}
	for _, k := range saidKinds {
		if strings.Contains(said, " "+k.word+" ") {
			return k.kind, true
		}
	}
	return "", false
}
