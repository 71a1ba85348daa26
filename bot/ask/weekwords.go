package ask

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// ofRides are the words of a week that say something of its rides: days, lengths, sets, sorts. All
// else is left out where a week cannot be read as it was written.
var ofRides = regexp.MustCompile(`^(?:mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday)s?$|^\d+(?:[.,:]\d+)?(?:h\d*|hr|hrs|hour|hours|min|mins|minutes|m)?$|^\d+x\d+(?:min|m)?$` +
	`|^(?:hours?|hrs?|mins?|minutes|h|an?|half|one|two|three|four|five|six|quarter|and|to|till|until|through|on|each|way|hard|intervals?|vo2|threshold|tempo|group|club|chaingang|bunch|long|easy|recovery|soft|gentle|steady|endurance|spin|commute|commuting|gym|strength|weights|rest|off|nothing|free|never|indoor|trainer|turbo|rollers|ride|run)$`)

// sortsOf are other words for sorts of rides.
var sortsOf = strings.NewReplacer(" soft", " easy", " gentle", " easy", " chaingang", " group", " bunch", " group", " club", " group", " vo2", " intervals", " threshold", " intervals", " tempo", " hard", " commuting", " commute", " nothing", " rest", " free", " rest", " never", " rest", " trainer", " indoor", " turbo", " indoor", " rollers", " indoor", " weights", " strength")

// hourOfDay is a time at which a ride begins, which is no length.
var hourOfDay = regexp.MustCompile(`\b(?:at )?half (?:past )?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b|\b(?:at |from )\d{1,2}(?:[:.]\d\d)?(?: ?am| ?pm)?\b|\b\d{1,2}(?:[:.]\d\d)? ?(?:am|pm)\b`)

// onlyRides is a text without what says nothing of rides.
func onlyRides(text string) string {
	var out []string
	text = strings.ReplaceAll(hourOfDay.ReplaceAllString(text, " "), ". ", ", ")
	for _, clause := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		var kept []string
		for _, w := range strings.Fields(clause) {
			if bare := strings.Trim(w, ".?!:()"); ofRides.MatchString(bare) {
				kept = append(kept, bare)
			}
		}
		if text := sortsOf.Replace(" " + strings.Join(kept, " ")); strings.TrimSpace(text) != "" {
			out = append(out, strings.ReplaceAll(strings.ReplaceAll(text, " intervals intervals", " intervals"), " group group", " group"))
		}
	}
	return strings.Join(out, ",")
}

var weekend = regexp.MustCompile(`(?i)\b(?:at |on |over )?(?:the )?weekends?\b`)

// weekendDays names the days of a weekend. A long ride is on one of them.
func weekendDays(clause string) string {
	if strings.Contains(clause, "long") {
		return weekend.ReplaceAllString(clause, "sat")
	}
	return weekend.ReplaceAllString(clause, "sat and sun")
}

var dayRange = regexp.MustCompile(`(?i)\b(mon|tue|wed|thu|fri|sat|sun)[a-z]* ?(?:to|-|till|until|through|thru) ?(mon|tue|wed|thu|fri|sat|sun)[a-z]*\b`)

// daysInRange names each day of mon to fri.
func daysInRange(text string) string {
	return dayRange.ReplaceAllStringFunc(text, func(s string) string {
		m := dayRange.FindStringSubmatch(s)
		var list []string
		for d := planner.Monday; d <= planner.Sunday; d++ {
			list = append(list, strings.ToLower(d.Short()))
		}
		from, to := slices.Index(list, strings.ToLower(m[1])), slices.Index(list, strings.ToLower(m[2]))
		if from < 0 || to < from {
			return s
		}
		return strings.Join(list[from:to+1], " ")
	})
}

var eachWay = regexp.MustCompile(`(\d+) ?(?:min|mins|minutes) each way`)

// bothWays doubles what is ridden each way.
func bothWays(text string) string {
	return eachWay.ReplaceAllStringFunc(text, func(s string) string {
		n, _ := strconv.Atoi(eachWay.FindStringSubmatch(s)[1])
		return strconv.Itoa(2*n) + "min"
	})
}

// daysBehind are the days of a clause that says first how long: an hour tue wed thu and 3h on sunday.
func daysBehind(part string, days [][]int) []string {
	var out, run []string
	what, from := clause(part[:days[0][0]]), 0
	for i, m := range days {
		if between := clause(part[from:m[0]]); i > 0 && between != "" {
			for _, day := range run {
				out = append(out, day+" "+what)
			}
			what, run = between, nil
		}
		run = append(run, part[m[2]:m[2]+3])
		from = m[1]
	}
	if rest := clause(part[from:]); rest != "" {
		what += " " + rest
	}
	for _, day := range run {
		out = append(out, day+" "+what)
	}
	return out
}

// soundsHard says how hard a ride is, and nothing else of it.
var soundsHard = regexp.MustCompile(`^(?:hard|easy|long|intervals)$`)

// onceADay joins what is said of a day in two places where one of them tells no length: tue 1h, hard on tuesdays.
func onceADay(text string) string {
	var out []string
	for _, part := range strings.Split(text, "; ") {
		day, what, _ := strings.Cut(part, " ")
		at := slices.IndexFunc(out, func(o string) bool { return strings.HasPrefix(o, day+" ") || o == day })
		if at >= 0 && (soundsHard.MatchString(what) || !lengthTold.MatchString(out[at]) && lengthTold.MatchString(what) && !strings.Contains(what, " ")) {
			out[at] = strings.TrimSpace(out[at] + " " + what)
			continue
		}
		if at >= 0 && what != "" {
			out = slices.Insert(out, at+1, what) // a second session of the day
			continue
		}
		out = append(out, part)
	}
	return strings.Join(out, "; ")
}

// partedSessions parts the sessions of a day that stand side by side, each with its kind and its length:
// tue commute 40min intervals 1h 5x4min. What was between them, a plus or an "and", is lost by then.
func partedSessions(text string) string {
	parts := strings.Split(text, "; ")
	for i, part := range parts {
		day, what, _ := strings.Cut(part, " ")
		if _, err := typed.Day(what); err == nil {
			continue
		}
		if list := sessionsOf(strings.Fields(what)); list != nil {
			parts[i] = day + " " + strings.Join(list, "; ")
		}
	}
	return strings.Join(parts, "; ")
}

// sessionsOf are the sessions that words are made of, nil where they are not.
func sessionsOf(words []string) []string {
	if aSession(words) {
		return []string{strings.Join(words, " ")}
	}
	for n := len(words) - 2; n > 1; n-- { // what may belong to the first one does
		if !aSession(words[:n]) {
			continue
		}
		if rest := sessionsOf(words[n:]); rest != nil {
			return append([]string{strings.Join(words[:n], " ")}, rest...)
		}
	}
	return nil
}

var (
	sortOfRide = regexp.MustCompile(`\b[a-z]{3,}`)
	unitOf     = regexp.MustCompile(`\b(?:min|mins|minutes|hour|hours|hrs)\b`)
)

// aSession reports words that are one session with its kind and its length. A set is of intervals.
func aSession(words []string) bool {
	text := strings.Join(words, " ")
	s, err := typed.Session(text)
	return err == nil && lengthTold.MatchString(text) && sortOfRide.MatchString(unitOf.ReplaceAllString(text, "")) && (s.Sets.IsZero() || s.Kind == planner.Intervals)
}

// bareHours gives a small number without a unit one: sunday 2.
func bareHours(text string) string {
	return bareNumber.ReplaceAllString(text, "$1${2}h$3")
}

var bareNumber = regexp.MustCompile(`(^| )([1-8](?:[.,]5)?)( *$| (?:hard|easy|long|group|intervals|recovery|endurance)\b)`)

// ofWeek is how many hours somebody rides in a week.
var ofWeek = regexp.MustCompile(`\b(\d+(?:[.,]\d+)?) ?(?:h|hrs?|hours?) (?:a|per|in a|each|every|in the|of riding a) (?:normal |usual |typical )?week\b`)

// spreadHours spreads the hours of a week on the days that are named, where no day has a length of its own.
func spreadHours(text, told string) string {
	m := ofWeek.FindStringSubmatch(told)
	parts := strings.Split(text, "; ")
	if m == nil || slices.ContainsFunc(parts, lengthTold.MatchString) {
		return text
	}
	var rides []int
	long := -1
	for i, part := range parts {
		day, what, _ := strings.Cut(part, " ")
		if what == "rest" || what == "off" {
			continue
		}
		rides = append(rides, i)
		if strings.Contains(what, "long") || day == "sun" || day == "sat" && (long < 0 || !strings.HasPrefix(parts[long], "sun")) {
			long = i
		}
	}
	hours := count(m[1])
	if len(rides) < 2 || hours < leastWeek || hours > mostWeek {
		return text
	}
	if long < 0 {
		long = rides[len(rides)-1]
	}
	for _, i := range rides {
		minutes := hours * 60 * (1 - shareOfLong) / float64(len(rides)-1)
		if i == long {
			minutes = hours * 60 * shareOfLong
		}
		parts[i] += fmt.Sprintf(" %dmin", int(minutes/5+0.5)*5)
	}
	return strings.Join(parts, "; ")
}

var (
	hoursTold = regexp.MustCompile(`(\d+(?:[.,]\d+)?) ?(?:h|hrs?|hours?)\b|\b(three|four|five|six|seven|eight|nine|ten|eleven|twelve) (?:hours|hrs)\b`)
	ridesTold = regexp.MustCompile(`\b(\d|two|three|four|five|six) (?:rides|days|times|sessions)\b`)
	hardTold  = regexp.MustCompile(`\b(1|2|3|one|two|three)(?: of (?:them|which|those|these))?(?: are| being| is)? (?:hard|intense|intervals|quality)\b`)
	inWords   = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12}
)

// spread are the days on which so many rides are put, the long one on Sunday.
var spread = []string{"", "sun", "wed sun", "tue thu sun", "tue thu sat sun", "tue wed thu sat sun", "tue wed thu fri sat sun", "mon tue wed thu fri sat sun"}

const (
	shareOfLong = 0.4 // of a week's hours
	usualRide   = 1.75
	leastWeek   = 1
	mostWeek    = 30
)

// weekOfHours is a week of which only the hours are told, and perhaps how many rides and hard days: 7 hours, 4 rides, two
// of them hard. It is "" where there are no hours, or days are named.
func weekOfHours(text string) string {
	m := hoursTold.FindStringSubmatch(text)
	if m == nil || weekdayWord.MatchString(text) {
		return ""
	}
	hours := count(m[1] + m[2])
	if hours < leastWeek || hours > mostWeek {
		return ""
	}
	rides := max(2, min(6, int(hours/usualRide+0.5)))
	if m := ridesTold.FindStringSubmatch(text); m != nil {
		rides = max(1, min(7, int(count(m[1]))))
	}
	hard := 0
	if m := hardTold.FindStringSubmatch(text); m != nil {
		hard = int(count(m[1]))
	}
	list := strings.Fields(spread[rides])
	long := hours * shareOfLong
	if rides == 1 {
		long = hours
	}
	var out []string
	for i, day := range list {
		minutes, sort := (hours-long)/float64(max(1, rides-1))*60, "easy"
		switch {
		case i == len(list)-1:
			minutes, sort = long*60, "long"
		case day == "tue" && hard > 0 || day == "thu" && hard > 1 || day == "sat" && hard > 2:
			sort = "hard"
		}
		out = append(out, fmt.Sprintf("%s %s %dmin", day, sort, int(minutes/5+0.5)*5))
	}
	return strings.Join(out, "; ")
}

func count(word string) float64 {
	if n, ok := inWords[word]; ok {
		return n
	}
	n, _ := strconv.ParseFloat(strings.ReplaceAll(word, ",", "."), 64)
	return n
}
