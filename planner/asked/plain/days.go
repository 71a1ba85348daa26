// Package plain puts days that people name in many ways into plainer words, before a text is
// taken apart: the thirteenth as 13th, 13./14.06. as two days, june thirteen, two saturdays from now.
package plain

import (
	"strconv"
	"strings"
	"time"
)

const (
	monthPart = `((?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*)`
	dayPart   = `(\d{1,2})(?:st|nd|rd|th)?\.?`
	untilPart = `\s*(?:-|to|until|untill|till|til|through|and|&|/|\+|,)\s*(?:the\s+)?`
)

// rewritten are ways to write days that are put in plainer words before a text is cut.
var rewritten = []struct {
	pattern *Pattern
	plain   string
}{
	{Compile(`\b(20\d\d)([./] ?)(0?[1-9]|1[0-2])[./] ?(0?[1-9]|[12]\d|3[01])\b\.?(\s|[,;:!?)]|$)`), "$1-$3-$4$5"}, // 2026.07.25.
	{Compile(`(?i)\b(\d{1,2}(?:st|nd|rd|th)?) n (\d{1,2}(?:st|nd|rd|th)?)\b`), "$1 and $2"},
	{Compile(`(?i)\b(\d{1,2})\.\s*` + monthPart + `\b`), "$1 $2"},
	{Compile(`(^|[^\d.])(\d{1,2})\.?\s*(?:-|to|and|until|till|bis)\s*(\d{1,2})\.(\d{1,2})\.`), "$1$2.$4. to $3.$4."},
	{Compile(`\b(\d{1,2})\.([1-9])\.(\s|$|[,;!?)])`), "$1.0$2.$3"},
	{Compile(`\b(\d{1,2}\.\d{1,2})\.(\s+[a-z(]|\s*[-,?!)])`), "$1$2"},
	{Compile(`\b(\d{1,2}\.\d{1,2})\.?\s*-\s*(\d{1,2}\.\d{1,2})\b`), "$1 to $2"},
	{Compile(`\b(\d{1,2})\s*(?:-|bis)\s*(\d{1,2})\.(\d{1,2})\b\.?`), "$1.$3 to $2.$3"},
	{Compile(`(?i)\bbetween (?:the )?(\d{1,2}) and (?:the )?(\d{1,2})\.(\d{1,2})\b\.?`), "$1.$3 to $2.$3"},
	{Compile(`(\b[A-Z][a-z]+ \d{1,3}), (\d{1,2}(?:st|nd|rd|th)? (?:of )?(?i)` + monthPart + `\b)`), "$1 on $2"}, // Brick Kiln 10, 19th July
	{Compile(`(?i)\b` + dayPart + `,\s*\d{1,2}(?:st|nd|rd|th)?\s*(?:,|and|&)\s*` + dayPart + `(?: of)?\s+` + monthPart + `\b`), "$1 $3 to $2 $3"},
	{Compile(`(?i)\b` + dayPart + untilPart + dayPart + `(?: of)?\s+` + monthPart + `\b`), "$1 $3 to $2 $3"},
	{Compile(`(?i)\b` + monthPart + `\s+` + dayPart + `\s*(?:-|to|until|till|through|thru)\s*(?:the )?` + dayPart + `(\s|[,.?!]|$)`), "$2 $1 to $3 $1$4"},
	{Compile(`(?i)\bw/?c\b`), "week of"},
	{Compile(`(?i)\bweek (?:from|starting|beginning) (mon(?:day)?) (?:the )?(\d)`), "week of $1 $2"},
	{Compile(`(?i)\bweek next\b(\s+(?:of|for)\b)`), "next week$1"},
	{Compile(`(?i)\b(bike|away|holidays?|off|week|wk|trip|camp|out|abroad|block|leave) from (\d{1,2}) (to|until|till) (\d{1,2})\b`), "$1 from the $2 to $4"},
	{Compile(`(?i)\bweekend (?:of )?(?:the )?(\d{1,2})\s*(?:/|-|and|&)\s*(\d{1,2})\b`), "weekend from the $1 to $2"},
	{Compile(`(?i)\b(\d{1,2})-(\d{1,2})-(\d{4})\b`), "$1.$2.$3"},
	{Compile(`(?i)\bthis (?:very )?day(?:['’]s)?\b`), "today"},
	{Compile(`(?i)\bthis (?:morn|mornin|mornin['’])(\s|[.,;!?]|$)`), "this morning$1"},
	{Compile(`(?i)\bthis mornin['’]?s\b`), "this morning's"},
	{Compile(`(?i)\bthe morn(?:in['’]?)? (of|before|after)\b`), "the morning $1"},
	{Compile(`(?i)\b(?:the|on the|in the) (?:morn|morra|morrow|morro|morran)\b`), "tomorrow"},
	{Compile(`(?i)\b([a-z]+) morn\b`), "$1 morning"},
	{Compile(`(?i)\b(this|tomorrow|yesterday|today|(?:mon|tues|wednes|thurs|fri|satur|sun)day) (?:arvo|aft|avo|arv)\b`), "$1 afternoon"},
	{Compile(`(?i)\bthis eve\b`), "this evening"},
	{Compile(`(?i)\b2day(['’]?s)?\b`), "today$1"},
	{Compile(`(?i)\b2(?:moro|morrow|moz|mora)(['’]?s)?\b`), "tomorrow$1"},
	{Compile(`(?i)\b2ni(?:te|ght)(['’]?s)?\b`), "tonight$1"},
	{Compile(`(?i)\b(day|night|evening|morning) (?:preceding|previous to|prior to|(?:that|which) precedes|(?:that|which) comes before)\b`), "$1 before"},
	{Compile(`(?i)\bprevious (day|night|evening|morning) (?:to|of)\b`), "$1 before"},
	{Compile(`(?i)\b(days?|weeks?) (?:that|which) (?:follows?|comes? after)\b`), "$1 after"},
	{Compile(`(?i)\b(?:until|till|til|to|through) (?:the )?(?:month['’]?s end|end of that month)\b`), "until the end of the month"},
	{Compile(`(?i)\bweek on (today|tomorrow)\b`), "week $1"},
	{Compile(`(?i)\bnext weekend(?:['’]?s)? (?:on )?(?:the )?(saturday|sunday)\b`), "$1 next week"},
	{Compile(`(?i)\b(saturday|sunday) (?:of |on )?next weekend\b`), "$1 next week"},
	{Compile(`(?i)\bnot this ((?:mon|tues|wednes|thurs|fri|satur|sun)day|sat|sun),? (?:but )?(?:the )?(?:one after that|one after|next one|following one|following|next)\b`), "$1 week"},
	{Compile(`(?i)\b(?:right |all the way )?(?:through|thru) (?:to|until|till)\b`), "until"},
	{Compile(`(?i)\b(?:up )?(?:to|until|untill|till|through|on) and (?:with|including|incl\.?|inclusive)\b`), "until"},
	{Compile(`(?i)\b((?:mon|tues|wednes|thurs|fri|satur|sun)day|today|tomorrow) (?:over|in) (?:a|one) week\b`), "$1 week"},
	{Compile(`(?i)\bin (?:a|one) week,? on ((?:mon|tues|wednes|thurs|fri|satur|sun)day)\b`), "$1 week"},
	{Compile(`(?i)\b[dt] minus one\b`), "T minus 1"},
	{Compile(`(?i)\b[dt] minus (two|three|four|five|six|seven) (?:to|for|of|from|before|until|ahead of) `), "$1 days before "},
	{Compile(`(?i)\b[dt] minus (two|three|four|five|six|seven)\b`), "$1 days before the race"},
	{Compile(`\b[DdTt](?:-| ?- ?| minus )([1-9])\b (?:to|for|of|from|before|until|ahead of) `), "$1 days before "},
	{Compile(`\b[DdTt](?:-| minus )([1-9])\b`), "$1 days before the race"},
	{Compile(`(?i)\b(\d{1,2})\.?(?:er|º|°)? ?(?:de |di )?(?:juni|juin|junio|junho|giugno|giu)\b`), "$1 june"},
	{Compile(`(?i)\b(\d{1,2})\.?(?:er|º|°)? ?(?:de |di )?(?:juli|juillet|julio|julho|luglio)\b`), "$1 july"},
	{Compile(`(?i)\b(\d{1,2})\.?(?:er|º|°)? ?(?:de |di )?(?:août|aout|agosto|augusti|augustus|sierpnia)\b`), "$1 august"},
	{Compile(`(?i)\b(starts?|starting|gun|slot|kick-?off)((?: is| at| time| goes)*) (\d{1,2})\.(\d\d)\b`), "$1$2 $3:$4"},
	{Compile(`(?i)\b(?:at |only |just )?this (?:very )?moment (come|got|back|home|finished|returned)`), "just now $1"},
}

var ordinalWords = map[string]string{
	"fourth": "4th", "fifth": "5th", "sixth": "6th", "seventh": "7th", "eighth": "8th", "ninth": "9th", "tenth": "10th", "eleventh": "11th", "twelfth": "12th", "thirteenth": "13th",
	"fourteenth": "14th", "fifteenth": "15th", "sixteenth": "16th", "seventeenth": "17th", "eighteenth": "18th", "nineteenth": "19th", "twentieth": "20th", "thirtieth": "30th",
}

var (
	bigOrdinal   = Compile(`(?i)\b(twenty|thirty)[ -](first|second|third|fourth|fifth|sixth|seventh|eighth|ninth)\b`)
	firstOf      = Compile(`(?i)\b(first|second|third) of ` + monthPart + `\b`)
	otherOrdinal = Compile(`(?i)\b(the|on|until|till|to|from|and|by|since|monday|tuesday|wednesday|thursday|friday|saturday|sunday) (fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)\b`)
	earlyOrdinal = Compile(`(?i)\b(on|since|until|till|from|by|of) the (first|second|third)\b(\s*[.,?!]|\s*$|\s+(?:of|to|until|till|i|we|was|is|the)\b)`)
	tens         = map[string]string{"twenty": "2", "thirty": "3"}
	ending       = [...]string{"th", "st", "nd", "rd", "th"}
	monthOrdinal = Compile(`(?i)\b(january|february|april|june|july|august|september|october|november|december) (?:the )?(first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)\b`)
	ordinalsTo   = Compile(`(?i)\b(first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth) (?:to|until|till|through) (?:the )?(first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth|\d{1,2}(?:st|nd|rd|th))\b`)
	// turnedOrdinal is the four and twentieth.
	turnedOrdinal = Compile(`(?i)\b(one|two|three|four|five|six|seven|eight|nine) and (twentieth|thirtieth)\b`)
	bareOrdinal   = Compile(`(?i)\b(fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)(?: of)? ` + monthPart + `\b`)
	units         = map[string]string{"first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5", "sixth": "6", "seventh": "7", "eighth": "8", "ninth": "9"}
)

// Days writes days in plainer words: the thirteenth as 13th, 9-11 June as 9 June to 11 June.
func Days(text string) string {
	text = turnedOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := turnedOrdinal.FindStringSubmatch(strings.ToLower(s))
		unit := units[map[string]string{"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth"}[m[1]]]
		if unit == "" {
			unit = units[m[1]+"th"]
		}
		return tens[strings.TrimSuffix(m[2], "ieth")+"y"] + unit + ending[min(int(unit[0]-'0'), 4)]
	})
	text = plainOrdinals(countDays(turnDays(text)))
	text = dayOfScots.ReplaceAllStringFunc(text, func(s string) string {
		m := dayOfScots.FindStringSubmatch(s)
		if beforeTheDay[strings.ToLower(m[1])] {
			return s
		}
		return m[1] + " " + map[string]string{"day": "today", "night": "tonight", "nicht": "tonight"}[strings.ToLower(m[2])] + m[3]
	})
	for _, r := range rewritten {
		text = r.pattern.ReplaceAllString(text, r.plain)
	}
	text = dashedDays(text)
	text = dotted.ReplaceAllStringFunc(text, func(s string) string {
		m := dotted.FindStringSubmatch(s)
		month, _ := strconv.Atoi(m[3])
		if n, _ := strconv.Atoi(m[2]); n < 1 || n > 31 {
			return s
		}
		return m[1] + m[2] + " " + strings.ToLower(time.Month(month).String()) + m[4]
	})
	text = ordinalRange.ReplaceAllStringFunc(text, func(s string) string {
		m := ordinalRange.FindStringSubmatch(s)
		if m[2] == "" && m[4] == "" && !strings.HasPrefix(strings.ToLower(s), "from the") {
			return s
		}
		return Ordinal(m[1]) + " to " + Ordinal(m[3])
	})
	return inItsMonth(text)
}

// bigOrdinals writes twenty first as 21st.
func bigOrdinals(text string) string {
	return bigOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := bigOrdinal.FindStringSubmatch(strings.ToLower(s))
		unit := units[m[2]]
		return tens[m[1]] + unit + ending[min(int(unit[0]-'0'), 4)]
	})
}

// plainOrdinals writes ordinals in figures where they are days.
func plainOrdinals(text string) string {
	text = monthOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := monthOrdinal.FindStringSubmatch(s)
		word := strings.ToLower(m[2])
		if unit := units[word]; unit != "" {
			return m[1] + " " + unit
		}
		return m[1] + " " + ordinalWords[word]
	})
	text = ordinalsTo.ReplaceAllStringFunc(text, func(s string) string {
		m := ordinalsTo.FindStringSubmatch(s)
		return numberOf(m[1]) + " to " + numberOf(m[2])
	})
	text = bareOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := bareOrdinal.FindStringSubmatch(s)
		return ordinalWords[strings.ToLower(m[1])] + " of " + m[2]
	})
	text = firstOf.ReplaceAllStringFunc(text, func(s string) string {
		m := firstOf.FindStringSubmatch(s)
		return units[strings.ToLower(m[1])] + " " + m[2]
	})
	text = earlyOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := earlyOrdinal.FindStringSubmatch(s)
		unit := units[strings.ToLower(m[2])]
		return m[1] + " the " + unit + ending[int(unit[0]-'0')] + m[3]
	})
	text = otherOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := otherOrdinal.FindStringSubmatch(s)
		return m[1] + " " + ordinalWords[strings.ToLower(m[2])]
	})
	return text
}

// dayOfScots is "the day" for today where nothing follows that says which day: whit's ma ride the day?
var dayOfScots = Compile(`(?i)([a-z0-9]+) the (day|night|nicht)\b((?:['’]s)?(?:\s*$|\s*[.,?!]|\s+(?:or|then|please)\b)|['’]s)`)

// beforeTheDay are words behind which "the day" is no today: how do I time the day?
var beforeTheDay = WordSet("of on in at through during all for by tell time plan do organise organize about know what spoil half is was as over after before into with per end rest start whole both only just disturb disturbs ruin ruins affect affects harm harms hurt upset upsets wreck wrecks shorten cost costs me improve help helps break breaks lose steal steals mess name spend out know say which into and")

// leadDashed is a day and a month with a dash behind a word that makes it a day: on 2-6, from 10-6.
var (
	leadDashed = Compile(`(?i)\b((?:on|from|until|till|to|and|since|between|monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues?|weds?|thurs?|thu|fri|sat|sun|race|classic|crit|loop|ten|dash|cup|tt)(?: the)? )(\d{1,2})-(\d{1,2})\b(\s*\w*)`)
	endsDate   = Compile(`(?i)^\s*(?:|i|we|a|an|as|is|it|my|the|what|can|may|should|until|till|to|and|because|prio|priority|no|not|c|b|in|at|for|there|had|have|did|rode|made|with|please|thanks|was)$`)
)

// dashed is a day and a month with a dash: 13-06.
var dashed = Compile(`(?i)(^|[\s(])(\d{1,2})-(\d{1,2})($|[\s,.?!:;)])(\s*(?:km|k|min|mins|minutes|h|hrs?|hours|reps|x|watts|bpm|am|pm|s|sec|seconds|miles|kg|gels|days|weeks|times|` + monthPart + `)\b)?`)

// dashedDays writes 13-06 as 13 June. A number up to 12 before another is a stretch, unless a
// zero or another such day tells otherwise.
func dashedDays(text string) string {
	isDay := func(m []string, sure bool) (time.Month, bool) {
		day, _ := strconv.Atoi(m[2])
		month, _ := strconv.Atoi(m[3])
		fits := m[5] == "" && day >= 1 && day <= 31 && month >= 1 && month <= 12
		return time.Month(month), fits && (sure || day > month || strings.HasPrefix(m[3], "0"))
	}
	for range 2 { // what stands between two days belongs to both
		text = leadDashed.ReplaceAllStringFunc(text, func(s string) string {
			m := leadDashed.FindStringSubmatch(s)
			month, ok := isDay([]string{"", "", m[2], m[3], "", ""}, true)
			if !ok || m[4] != "" && !endsDate.MatchString(m[4]) {
				return s
			}
			return m[1] + m[2] + " " + strings.ToLower(month.String()) + m[4]
		})
	}
	text = strings.ReplaceAll(text, " ", "  ") // a blank for each of two days
	sure := false
	for _, m := range dashed.FindAllStringSubmatch(text, -1) {
		_, ok := isDay(m, false)
		sure = sure || ok
	}
	text = dashed.ReplaceAllStringFunc(text, func(s string) string {
		m := dashed.FindStringSubmatch(s)
		if month, ok := isDay(m, sure); ok {
			return m[1] + m[2] + " " + strings.ToLower(month.String()) + m[4]
		}
		return s
	})
	return strings.ReplaceAll(text, "  ", " ")
}

var (
	partOfMonth = Compile(`(?i)\b(?:weeks?|fortnight|weekend|half|days|end|middle|start|beginning|bit) (?:of|in) ` + monthPart + `\b|\b(?:for|in) ` + monthPart + `\s*[:,]`)
	bareRange   = Compile(`(?i)(\bfrom|\bbetween|^\s*[,:(-])(?: the)? ?(\d{1,2})(?:st|nd|rd|th)? (?:to|until|till|til|and|-)(?: the)? (\d{1,2})(?:st|nd|rd|th)?(\s*[.,;!?)]|\s*$|\s+(?:i|we|no|not|without|there|inclusive)\b)`)
	daysBehind  = Compile(`(?i)\b(\d{1,2}(?:st|nd|rd|th))\b(\s+(?:of\s+)?` + monthPart + `)?`)
)

// inItsMonth adds the month to days behind a week of a month: second week of August (10th to 16th).
func inItsMonth(text string) string {
	at := partOfMonth.FindStringSubmatchIndex(text)
	if at == nil {
		return text
	}
	month := ""
	for i := 2; i < len(at); i += 2 {
		if at[i] >= 0 {
			month = text[at[i]:at[i+1]]
		}
	}
	tail := bareRange.ReplaceAllString(text[at[1]:], "$1 $2 "+month+" to $3 "+month+"$4")
	return text[:at[1]] + daysBehind.ReplaceAllStringFunc(tail, func(s string) string {
		if m := daysBehind.FindStringSubmatch(s); m[2] != "" {
			return s
		}
		return s + " " + month
	})
}

var (
	dotted       = Compile(`(^|[^\d.:,])(\d{1,2})\.(0[1-9]|1[0-2])\b(?:\.20\d\d\b)?($|[^\d.:,hx%]|[.:,](?:\s|$))`)
	ordinalRange = Compile(`(?i)(?:from the )?\b(\d{1,2})(st|nd|rd|th)?\s*(?:-|to|until|till|til)\s*(?:the )?(\d{1,2})(st|nd|rd|th)?\b`)
)

// numberOf is 10th for tenth.
func numberOf(word string) string {
	word = strings.ToLower(word)
	if unit := units[word]; unit != "" {
		return Ordinal(unit)
	}
	if n := ordinalWords[word]; n != "" {
		return n
	}
	return word
}

// Ordinal is 21st for 21.
func Ordinal(number string) string {
	last := int(number[len(number)-1] - '0')
	if last > 3 || len(number) == 2 && number[0] == '1' {
		last = 0
	}
	return number + ending[last]
}
