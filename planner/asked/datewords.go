package asked

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

const (
	monthPart = `((?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*)`
	dayPart   = `(\d{1,2})(?:st|nd|rd|th)?\.?`
	untilPart = `\s*(?:-|to|until|untill|till|til|through|and|&|/|,)\s*(?:the\s+)?`
)

// rewritten are ways to write days that are put in plainer words before a text is cut.
var rewritten = []struct {
	pattern *regexp.Regexp
	plain   string
}{
	{regexp.MustCompile(`(?i)\b(\d{1,2})\.\s*` + monthPart + `\b`), "$1 $2"},
	{regexp.MustCompile(`(^|[^\d.])(\d{1,2})\.?\s*(?:-|to|and|until|till|bis)\s*(\d{1,2})\.(\d{1,2})\.`), "$1$2.$4. to $3.$4."},
	{regexp.MustCompile(`\b(\d{1,2})\.([1-9])\.(\s|$|[,;!?)])`), "$1.0$2.$3"},
	{regexp.MustCompile(`\b(\d{1,2}\.\d{1,2})\.(\s+[a-z(]|\s*[-,?!)])`), "$1$2"},
	{regexp.MustCompile(`\b(\d{1,2}\.\d{1,2})\.?\s*-\s*(\d{1,2}\.\d{1,2})\b`), "$1 to $2"},
	{regexp.MustCompile(`\b(\d{1,2})\s*(?:-|bis)\s*(\d{1,2})\.(\d{1,2})\b\.?`), "$1.$3 to $2.$3"},
	{regexp.MustCompile(`(?i)\bbetween (?:the )?(\d{1,2}) and (?:the )?(\d{1,2})\.(\d{1,2})\b\.?`), "$1.$3 to $2.$3"},
	{regexp.MustCompile(`(?i)\b` + dayPart + `,\s*\d{1,2}(?:st|nd|rd|th)?\s*(?:,|and|&)\s*` + dayPart + `(?: of)?\s+` + monthPart + `\b`), "$1 $3 to $2 $3"},
	{regexp.MustCompile(`(?i)\b` + dayPart + untilPart + dayPart + `(?: of)?\s+` + monthPart + `\b`), "$1 $3 to $2 $3"},
	{regexp.MustCompile(`(?i)\b` + monthPart + `\s+` + dayPart + `\s*(?:-|to|until|till)\s*(?:the )?` + dayPart + `(\s|[,.?!]|$)`), "$2 $1 to $3 $1$4"},
	{regexp.MustCompile(`(?i)\b(\d{1,2}(?:st|nd|rd|th)?) n (\d{1,2}(?:st|nd|rd|th)?)\b`), "$1 and $2"},
	{regexp.MustCompile(`(?i)\bw/?c\b`), "week of"},
	{regexp.MustCompile(`(?i)\bweek (?:from|starting|beginning) (mon(?:day)?) (?:the )?(\d)`), "week of $1 $2"},
	{regexp.MustCompile(`(?i)\bweek next\b(\s+(?:of|for)\b)`), "next week$1"},
	{regexp.MustCompile(`(?i)\b(bike|away|holidays?|off|week|wk|trip|camp|out|abroad|block|leave) from (\d{1,2}) (to|until|till) (\d{1,2})\b`), "$1 from the $2 to $4"},
	{regexp.MustCompile(`(?i)\bweekend (?:of )?(?:the )?(\d{1,2})\s*(?:/|-|and|&)\s*(\d{1,2})\b`), "weekend from the $1 to $2"},
	{regexp.MustCompile(`(?i)\b(\d{1,2})-(\d{1,2})-(\d{4})\b`), "$1.$2.$3"},
	{regexp.MustCompile(`(?i)\bthis (?:very )?day(?:['’]s)?\b`), "today"},
	{regexp.MustCompile(`(?i)\b(?:at |only |just )?this (?:very )?moment (come|got|back|home|finished|returned)`), "just now $1"},
}

var ordinalWords = map[string]string{
	"fourth": "4th", "fifth": "5th", "sixth": "6th", "seventh": "7th", "eighth": "8th", "ninth": "9th", "tenth": "10th", "eleventh": "11th", "twelfth": "12th", "thirteenth": "13th",
	"fourteenth": "14th", "fifteenth": "15th", "sixteenth": "16th", "seventeenth": "17th", "eighteenth": "18th", "nineteenth": "19th", "twentieth": "20th", "thirtieth": "30th",
}

var (
	bigOrdinal   = regexp.MustCompile(`(?i)\b(twenty|thirty)[ -](first|second|third|fourth|fifth|sixth|seventh|eighth|ninth)\b`)
	firstOf      = regexp.MustCompile(`(?i)\b(first|second|third) of ` + monthPart + `\b`)
	otherOrdinal = regexp.MustCompile(`(?i)\b(the|on|until|till|to|from|and|by|since|monday|tuesday|wednesday|thursday|friday|saturday|sunday) (fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)\b`)
	tens         = map[string]string{"twenty": "2", "thirty": "3"}
	ending       = [...]string{"th", "st", "nd", "rd", "th"}
	bareOrdinal  = regexp.MustCompile(`(?i)\b(fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)(?: of)? ` + monthPart + `\b`)
	units        = map[string]string{"first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5", "sixth": "6", "seventh": "7", "eighth": "8", "ninth": "9"}
)

// plainDays writes days in plainer words: the thirteenth as 13th, 9-11 June as 9 June to 11 June.
func plainDays(text string) string {
	text = bigOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := bigOrdinal.FindStringSubmatch(strings.ToLower(s))
		unit := units[m[2]]
		return tens[m[1]] + unit + ending[min(int(unit[0]-'0'), 4)]
	})
	text = bareOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := bareOrdinal.FindStringSubmatch(s)
		return ordinalWords[strings.ToLower(m[1])] + " of " + m[2]
	})
	text = firstOf.ReplaceAllStringFunc(text, func(s string) string {
		m := firstOf.FindStringSubmatch(s)
		return units[strings.ToLower(m[1])] + " " + m[2]
	})
	text = otherOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		m := otherOrdinal.FindStringSubmatch(s)
		return m[1] + " " + ordinalWords[strings.ToLower(m[2])]
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
		return ordinalOf(m[1]) + " to " + ordinalOf(m[3])
	})
	return inItsMonth(text)
}

// dashed is a day and a month with a dash: 13-06.
var dashed = regexp.MustCompile(`(?i)(^|[\s(])(\d{1,2})-(\d{1,2})($|[\s,.?!:;)])(\s*(?:km|k|min|mins|minutes|h|hrs?|hours|reps|x|watts|bpm|am|pm|s|sec|seconds|miles|kg|gels|days|weeks|times|` + monthPart + `)\b)?`)

// dashedDays writes 13-06 as 13 June. A number up to 12 before another is a stretch, unless a
// zero or another such day tells otherwise.
func dashedDays(text string) string {
	isDay := func(m []string, sure bool) (time.Month, bool) {
		day, _ := strconv.Atoi(m[2])
		month, _ := strconv.Atoi(m[3])
		fits := m[5] == "" && day >= 1 && day <= 31 && month >= 1 && month <= 12
		return time.Month(month), fits && (sure || day > 12 || strings.HasPrefix(m[3], "0"))
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
	partOfMonth = regexp.MustCompile(`(?i)\b(?:weeks?|fortnight|weekend|half|days|end|middle|start|beginning|bit) (?:of|in) ` + monthPart + `\b`)
	daysBehind  = regexp.MustCompile(`(?i)\b(\d{1,2}(?:st|nd|rd|th))\b(\s+(?:of\s+)?` + monthPart + `)?`)
)

// inItsMonth adds the month to days behind a week of a month: second week of August (10th to 16th).
func inItsMonth(text string) string {
	at := partOfMonth.FindStringSubmatchIndex(text)
	if at == nil {
		return text
	}
	month := text[at[2]:at[3]]
	return text[:at[1]] + daysBehind.ReplaceAllStringFunc(text[at[1]:], func(s string) string {
		if m := daysBehind.FindStringSubmatch(s); m[2] != "" {
			return s
		}
		return s + " " + month
	})
}

var (
	dotted       = regexp.MustCompile(`(^|[^\d.:,])(\d{1,2})\.(0[1-9]|1[0-2])\b(?:\.20\d\d\b)?($|[^\d.:,hx%]|[.:,](?:\s|$))`)
	ordinalRange = regexp.MustCompile(`(?i)(?:from the )?\b(\d{1,2})(st|nd|rd|th)?\s*(?:-|to|until|till|til)\s*(?:the )?(\d{1,2})(st|nd|rd|th)?\b`)
)

// ordinalOf is 21st for 21.
func ordinalOf(number string) string {
	last := int(number[len(number)-1] - '0')
	if last > 3 || len(number) == 2 && number[0] == '1' {
		last = 0
	}
	return number + ending[last]
}
