package plain

import "strings"

const (
	dayAhead    = `(\d{1,2}|two|three|four|five|six|seven|ten)`
	dayNumber   = `([1-9]|[12]\d|3[01])`
	ordinalPart = `(?:twenty|thirty)?[ -]?(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth)`
	endOfIt     = `(\s*[.,;:!?]|\s*$|\s+(?:what|whats|how|i|we|because|cos|as|no|not|without|please|for|at|is|are)\b)`
	raceNamed   = `((?:the |my |our )(?:race|crit|criterium|tt|time trial|event)\b|(?:the |my |our )?(?-i:[A-Z][a-z]))`
	raceAhead   = `((?:the |my |our |next |this )*(?:[A-Z]|race|crit|criterium|tt|time trial|event))`
)

// turned are days in the order or with the words of other languages, and of old-fashioned
// writers, and how they are commonly said.
var turned = []struct {
	pattern *Pattern
	plain   string
}{
	{Compile(`(?i)\b(?:past|over|after)[ -](tomorrow|tmrw|tmw)\b`), "day after $1"},
	{Compile(`(?i)\bto[ -]morrow\b`), "tomorrow"},
	{Compile(`(?i)\bthr(?:u|oo)\b`), "through"},
	{Compile(`(?i)\b(tomorrow|tmrw|tmw|today),? (and|&|n|or|nor) (?:on )?(?:the )?(?:day after|following day|next day|one after)` + endOfIt), "$1 $2 the day after $1$3"},
	{Compile(`(?i)\bvigil of\b`), "eve of"},
	{Compile(`(?i)\bto days? (ride|session|training|one|workout)\b`), "today's $1"},
	{Compile(`(?i)\b(?:the |on the )?morrow (?:of|after|following)\b`), "the day after"},
	{Compile(`(?i)\b(today|now) ?\+ ?(\d{1,2})\b(?: days?)?`), "in $2 days"},
	{Compile(`(?i)\b(?:in )?the (?:week next|week coming|week (?:that|which) comes|coming week)\b`), "next week"},
	{Compile(`(?i)(^|[,.!?] ?|\band )after ` + countPart + ` (days|weeks),? (what|which|do|will|is|can|may)\b`), "${1}in $2 $3 $4"},
	{Compile(`(?i)(^|[,.!?] ?|\band )before ` + countPart + ` (days|weeks),? (i|we|my)\b`), "$1$2 $3 ago $4"},
	{Compile(`(?i)(^\s*|[,.;:!?-] ?|\b(?:did|rode|done|from|was|went|had|it|that|ride|hour|km|min|mins|minutes|h|intervals|about|around|and|log|session) )` + countPart + ` (days?|weeks?|nights?) back(\s*[,.;:!?]|\s*$|\s+(?:i|we|my|was|did|rode|had|the|it|a|an|with|and|went|for|\d+|one|two|three|four|five|[a-z]+ (?:loop|ride|hill|run|club|group|intervals|session|spin|commute)|easy|hard|steady|long|short|solo|commute|club|group|rpe|felt|about|around)\b)`), "$1$2 $3 ago$4"},
	{Compile(`(?i)\b(before|after) (one|a|two|three|1|2|3) (days?) (?:of|from|to) `), "$2 $3 $1 "},
	{Compile(`(?i)\b(the|my|these|those|in)? ?\b` + dayAhead + ` (last|past|next|coming|first|following) (days|weeks|nights)\b`), "$1 $3 $2 $4"},
	{Compile(`(?i)\b(?:on |in )?(?:the )?days? (?:of )?(?:the )?(\d{1,2})(?:st|nd|rd|th)? (?:and|&|y|e) (?:the )?(\d{1,2})\b(\s*[,.?!]|\s*$|\s+[a-z]+)`), "the ${1}th and ${2}th$3"},
	{Compile(`(?i)\b(?:the )?(?:last but one|next to last|penultimate|second to last|second last) day (before|of|to)\b`), "2 days before"},
	{Compile(`(?i)\b` + weekdayPart + ` next but one\b`), "$1 week"},
	{Compile(`(?i)\b(before|after) of (the|my|this|[a-z]{3,})\b`), "$1 $2"},
	{Compile(`(?i)\bin (?:the )?` + dayAhead + ` (days|weeks) (after|before|following) ` + raceAhead), "the $1 $2 $3 $4"},
	{Compile(`(?i)\b` + weekdayPart + ` following ` + raceAhead), "$1 after $2"},
	{Compile(`(?i)\bw(?:ee)?ks?\.? (?:beg|begin|beginn?in|comm|cmncing|commencin|startin|start|strting)\b\.?`), "week starting"},
	{Compile(`(?i)\b(day|morning|evening|night) (?:next to|next after|following to|that comes behind|which comes behind) ` + raceNamed), "$1 after $2"},
	{Compile(`(?i)\b(?:following|next) (?:day|morning) (?:to|from|of) ` + raceNamed), "day after $1"},
	{Compile(`(?i)\b(?:following|next) (?:day|morning) after ((?:the |my |our )?(?:race|crit|criterium|tt|time trial|event|(?-i:[A-Z][a-z])))`), "day after $1"},
	{Compile(`(?i)\b(days?|weeks?) following on (?:from|after|to)\b`), "$1 after"},
	{Compile(`(?i)\b(preceding|prior to|in advance of) ` + raceAhead), "before $2"},
	{Compile(`(?i)\b(succeeding|subsequent to) ` + raceAhead), "after $2"},
	{Compile(`(?i)\b` + weekdayPart + `,? over ` + countPart + ` weeks\b`), "$2 weeks on $1"},
	{Compile(`(?i)\bof the (\d{1,2})(\.?\s*$|\.\s|[,?!]| (?:how|what|when|do|can|may|is|i)\b)`), "of the ${1}th$2"},
	{Compile(`(?i)\b(away|out|gone|off|busy|travelling|traveling|abroad|camping) (\d{1,2}) ?(?:-|to|until|till) ?(\d{1,2})(\s*[.,;!?]|\s*$)`), "$1 from the $2 to $3$4"},
	{Compile(`(?i)\b(on|for) (?:the )?` + dayNumber + `, ?` + dayNumber + ` (?:and|&|or) ` + dayNumber + `(\s*[.,;!?]|\s*$| (?:i|we|because|cos|there|no)\b)`), "$1 the ${2}th, ${3}th and ${4}th$5"},
	{Compile(`(?i)\b(on|for) (?:the )?` + dayNumber + ` (?:and|&|or) ` + dayNumber + `(\s*[.,;!?]|\s*$| (?:i|we|because|cos|there|no)\b)`), "$1 the ${2}th and ${3}th$4"},
	{Compile(`(?i)\bwhile ((?:the )?(?:` + weekdayPart + `|tomorrow|next week|` + ordinalPart + `|\d{1,2}(?:st|nd|rd|th)))(\s*[.,;!?]|\s*$| (?:of|no|on|what|how|do|can|if|then|please|ta|because|cos|january|february|march|april|may|june|july|august|september|october|november|december)\b)`), "until $1$3"},
	{Compile(`(?i)\bfor the fourth(?: of july)?(\s*[,:(-])`), "for the holiday$1"}, // the Fourth, Friday July 3 to Sunday
	{Compile(`(?i)^\s*([1-9]\d?) ?(?:to|-|until|till) ?(1[3-9]|2\d|3[01])(\s*[.,;:!?]|\s*$)`), "from the $1 to $2$3"},
}

var (
	namedDay = Compile(`(?i)(\b[a-z]+ )?\bday (?:the )?(\d{1,2})(\s*[,.?!:]|\s*$|\s+(?:of )?[a-z]+)`)
	leadsDay = WordSet("the on in for at from until till to is what since monday tuesday wednesday thursday friday saturday sunday")
	ofCourse = WordSet("of into in after before without with race later stage since on")
)

// namedDays writes day 15 as the 15th, unless it is a day of something that runs: day 3 of my cold.
func namedDays(text string) string {
	return namedDay.ReplaceAllStringFunc(text, func(s string) string {
		m := namedDay.FindStringSubmatch(s)
		before, n := strings.ToLower(strings.TrimSpace(m[1])), Number(m[2])
		next := strings.Fields(strings.ToLower(m[3]))
		month := len(next) > 1 && next[0] == "of"
		if month {
			_, month = monthOf(next[1])
		}
		runs := len(next) > 0 && (ofCourse[next[0]] || Counted[next[0]]) && !month
		if n < 1 || n > 31 || runs || before == "" && !strings.HasPrefix(text, s) || before != "" && !leadsDay[before] || n < 8 && before != "the" {
			return s
		}
		if before == "the" {
			m[1] = ""
		}
		return m[1] + "the " + Ordinal(m[2]) + m[3]
	})
}

// turnDays puts days that are named in the order of another language into that of English.
func turnDays(text string) string {
	text = namedDays(namedDays(text)) // what stands between two days belongs to both
	for _, t := range turned {
		text = t.pattern.ReplaceAllString(text, t.plain)
	}
	return text
}
