package plain

import (
	"strconv"
	"strings"
	"time"
)

const (
	weekdayPart = `((?:mon|tues|wednes|thurs|fri|satur|sun)day|mon|tues?|weds?|thur?s?|fri|sat|sun)`
	countPart   = `(\d{1,2}|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen)`
	unitPart    = `(days?|nights?|weeks?|fortnight|months?)`
)

// counted are days that are counted in ways that typed days do not know, and the way they do.
var counted = []struct {
	pattern *Pattern
	plain   string
}{
	{Compile(`(?i)\b(\d{1,2}) / (\d{1,2})\b`), "$1/$2"},
	{Compile(`(?i)\b(?:mo|tu|di|we|mi|th|do|fr|sa|su|so)\.? (\d{1,2}\.\d{1,2})\b`), "$1"},
	{Compile(`(?i)\bday following (tomorrow|tmrw|tmw|tomoz)\b`), "day after $1"},
	{Compile(`(?i)\bin (?:exactly|precisely|just|about|around|roughly|like|only|approx\.?|ca\.?) ` + countPart + ` ` + unitPart + `\b`), "in $1 $2"},
	{Compile(`(?i)\bin (?:a|one) week (?:exactly|precisely|to the day|from (?:now|today))`), "in 7 days"},
	{Compile(`(?i)\b(` + weekdayPart + `|days?|nights?|weeks?) post (the |my )?(race|crit|criterium|tt|time trial|[A-Z])`), "$1 after $3$4"},
	{Compile(`(?i)\b(?:in )?(?:a|one) (?:weeks?['’]?s? time|week hence)\b`), "in 7 days"},
	{Compile(`(?i)(?:\bin |\b(?:exactly|just|about) |\b)` + countPart + ` ` + unitPart + `['’]?s? ?['’]? (?:time|hence)\b`), "in $1 $2"},
	{Compile(`(?i)\b(?:in )?(?:24|twenty[ -]four) ?(?:hours|hrs|h)['’]? (?:from now|hence|time)\b`), "in 1 day"},
	{Compile(`(?i)\b(?:in )?(?:48|forty[ -]eight) ?(?:hours|hrs|h)['’]? (?:from now|hence|time)\b`), "in 2 days"},
	{Compile(`(?i)\bin (?:24|twenty[ -]four) (?:hours|hrs)(,? (?:what|will|i|do|am|is|can|may|we)\b)`), "in 1 day$1"},
	{Compile(`(?i)\bin (?:48|forty[ -]eight) (?:hours|hrs)(,? (?:what|will|i|do|am|is|can|may|we)\b)`), "in 2 days$1"},
	{Compile(`(?i)\b(?:this very day|this day|today|this time|same day) (?:of )?last week\b`), "7 days ago"},
	{Compile(`(?i)\b(?:this very day|this day|today|this time|same day) (?:of )?next week\b`), "in 7 days"},
	{Compile(`(?i)\b(?:this very day|this day|this time|same day) (?:of )?next month\b`), "in 1 month"},
	{Compile(`(?i)\b` + weekdayPart + `,? a week` + endOfIt), "$1 week$2"},
	{Compile(`(?i)\b(?:in )?(?:a|one) week on from (?:now|today)\b`), "in 7 days"},
	{Compile(`(?i)\b(?:in )?` + countPart + ` (?:sleeps|nights)['’]? (?:from now|from today|from tonight|time|hence)\b`), "in $1 days"},
	{Compile(`(?i)^(\s*)` + countPart + ` (days|weeks) on(\s*,|\s+(?:what|whats|can|may|do|is|am)\b)`), "${1}in $2 $3$4"},
	{Compile(`(?i)\b(?:exactly|precisely) ` + countPart + ` (days?|nights?) (before|after|ahead of|prior to)\b`), "$1 $2 $3"},
	{Compile(`(?i)\bfor (?:about )?` + countPart + ` (weeks?|days?|fortnight) (?:from|starting|starting from|as of) (tomorrow|today|` + weekdayPart[1:] + endOfIt), "from $3 for $1 $2$4"},
	{Compile(`\bM ?(?:-|to) ?F\b`), "Monday to Friday"},
	{Compile(`(?i)\bnext ` + weekdayPart + ` but one\b`), "$1 after next"},
	{Compile(`(?i)\b` + weekdayPart + `,? in (?:8|eight) days\b`), "$1 week"}, // as Germans and the French count
	{Compile(`(?i)\b` + weekdayPart + `,? in (?:14|15|fourteen|fifteen) days\b`), "2 weeks on $1"},
	{Compile(`(?i)\b(?:the )?(\d{1,2})(?:st|nd|rd|th)? (?:of|in) (this|next|last|the coming|the current) month\b`), "the ${1}th of $2 month"},
	{Compile(`(?i)\b(of|in|on) the week coming\b`), "$1 next week"},
	{Compile(`(?i)\bweek come ` + weekdayPart + `\b`), "week on $1"},
	{Compile(`(?i)\b` + weekdayPart + ` (?:after|following) (?:this|the coming|the next)(?: (?:one|coming one|coming|` + weekdayPart + `))?(\s*[,.?!;:]|\s*$|\s+(?:what|whats|do|am|is|can|may|and|i|for|at|in|we|please|pls)\b)`), "$1 week$3"},
	{Compile(`(?i)\b` + weekdayPart + `,? (?:in (?:about |exactly )?)?` + countPart + ` weeks?['’]? (?:from now|from today|ahead|away|on|later)\b`), "$2 weeks on $1"},
	{Compile(`(?i)\b` + weekdayPart + `,? in ` + countPart + ` weeks\b`), "$2 weeks on $1"},
	{Compile(`(?i)\b(?:24 hours|twenty four hours|24h|24 h) (before|after|out from|ahead of|prior to)\b`), "1 day $1"},
	{Compile(`(?i)\b(?:48 hours|forty eight hours|48h|48 h) (before|after|out from|ahead of|prior to)\b`), "2 days $1"},
	{Compile(`(?i)\b(?:72 hours|seventy two hours|72h|72 h) (before|after|out from|ahead of|prior to)\b`), "3 days $1"},
	{Compile(`(?i)(^|[^\d./:,])(\d{1,2})\.?\s*(-|to|until|till|til|bis|through|and|&|\+|/)\s*(\d{1,2})\.(0[1-9]|1[0-2])\b\.?`), "$1$2.$5. $3 $4.$5."},
	{Compile(`(?i)(^|[^\d./:,])(\d{1,2})\s*(-|to|until|till|til|through)\s*(\d{1,2})/(0?[1-9]|1[12])\b`), "$1$2/$5 $3 $4/$5"},
	{Compile(`(?i)(^|[^\d./:,])(\d\d)\s*(and|&|\+)\s*(\d\d)/(0?[1-9]|1[12])\b`), "$1$2/$5 $3 $4/$5"},
}

var (
	countedWeekdays = Compile(`(?i)\b(?:in )?(two|three|four|2|3|4) ` + weekdayPart + `s(?: from now| away|['’]? time| on)\b`)
	anyOrdinal      = Compile(`(?i)\b(\d{1,2}) ?(st|nd|rd|th)\b`)
	overMonths      = Compile(`(?i)\b(\d{1,2})(?:st|nd|rd|th)? (to|until|till|til|through) (?:the )?(\d{1,2})(?:st|nd|rd|th)?(?: of)? ` + monthPart + `\b`) // 29 to 3 July
	slashed         = Compile(`(^|[\s(~-])(\d{1,2})/(\d{1,2})(/20\d\d|/\d\d)?($|[\s,.?!:;)~-])`)
	bigNumber       = Compile(`(?i)\b(eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?|thirty)( (?:days|weeks|nights)\b)`) // in fifteen days
	spokenDay       = Compile(`(?i)\b` + strictMonth + `\s+(?:the )?` + spokenNumber + `\b(\s+[a-z]+)?`)
	oneOfMonth      = Compile(`(?i)\b(the|my|that) ` + strictMonth + ` one\b`) // the race in July, and not the first of it
	spokenBefore    = Compile(`(?i)\b` + spokenNumber + `(?: of)?\s+` + strictMonth + `\b(\s+\d{1,2}\b)?`)
)

const (
	strictMonth  = `(january|february|april|june|july|august|september|october|november|december)`
	spokenNumber = `(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|(?:twenty|thirty)(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?)`
)

// couple is two of a unit: a couple of days from now.
var couple = Compile(`(?i)\b(?:a )?couple(?: of)? (days|weeks|nights|months|weekends)\b`)

// weeksAndDays is so many weeks and days from today: in a week and three days.
var weeksAndDays = Compile(`(?i)\bin ` + countPart + ` weeks? and ` + countPart + ` days?\b`)

// firstOfNext is a day of the month to come in words: the first of next month.
var firstOfNext = Compile(`(?i)\b(first|second|third) of (this|next) month\b`)

// romanMonth is a month as it is written in Poland and Hungary: 21 VIII.
var romanMonth = Compile(`\b(\d{1,2})\.? ?(IV|VI{1,3}|IX|XI{1,2})\b\.?`)

var romans = map[string]int{"IV": 4, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "XI": 11, "XII": 12}

// countDays writes days that are counted or spoken as typed days are.
func countDays(text string) string {
	text = couple.ReplaceAllString(text, "2 $1")
	text = firstOfNext.ReplaceAllStringFunc(text, func(s string) string {
		m := firstOfNext.FindStringSubmatch(s)
		return units[strings.ToLower(m[1])] + " of " + m[2] + " month"
	})
	text = weeksAndDays.ReplaceAllStringFunc(text, func(s string) string {
		m := weeksAndDays.FindStringSubmatch(s)
		return "in " + strconv.Itoa(7*Number(m[1])+Number(m[2])) + " days"
	})
	text = romanMonth.ReplaceAllStringFunc(text, func(s string) string {
		m := romanMonth.FindStringSubmatch(s)
		if n := Number(m[1]); n < 1 || n > 31 {
			return s
		}
		return m[1] + " " + monthNames[romans[m[2]]-1]
	})
	text = bigNumber.ReplaceAllStringFunc(text, func(s string) string {
		m := bigNumber.FindStringSubmatch(s)
		return strconv.Itoa(Number(m[1])) + m[2]
	})
	text = anyOrdinal.ReplaceAllStringFunc(text, func(s string) string {
		return Ordinal(anyOrdinal.FindStringSubmatch(s)[1])
	})
	text = spokenDays(bigOrdinals(text))
	text = overMonths.ReplaceAllStringFunc(text, func(s string) string {
		m := overMonths.FindStringSubmatch(s)
		from, to := Number(m[1]), Number(m[3])
		month, ok := monthOf(m[4])
		if !ok || from <= to || from > 31 {
			return s
		}
		return m[1] + " " + monthNames[(int(month)+10)%12] + " " + m[2] + " " + m[3] + " " + m[4]
	})
	text = countedWeekdays.ReplaceAllStringFunc(text, func(s string) string {
		m := countedWeekdays.FindStringSubmatch(s)
		return strconv.Itoa(Number(m[1])-1) + " weeks on " + m[2]
	})
	for _, c := range counted {
		text = c.pattern.ReplaceAllString(text, c.plain)
	}
	return oneOrder(text)
}

// spokenDays writes june thirteen and thirteen june in figures. "In june two races" is none.
func spokenDays(text string) string {
	text = oneOfMonth.ReplaceAllString(text, "$1 one in $2")
	text = spokenDay.ReplaceAllStringFunc(text, func(s string) string {
		m := spokenDay.FindStringSubmatch(s)
		n := Number(m[2])
		if next := strings.ToLower(strings.TrimSpace(m[3])); Counted[next] && n <= 10 || strings.HasSuffix(next, "s") && next != "is" && next != "as" && next != "was" && !strings.HasPrefix(next, "what") {
			return s
		}
		return m[1] + " " + strconv.Itoa(n) + m[3]
	})
	return spokenBefore.ReplaceAllStringFunc(text, func(s string) string {
		m := spokenBefore.FindStringSubmatch(s)
		n := Number(m[1])
		if n < 3 || m[3] != "" { // the Mill Ten June 18
			return s
		}
		return strconv.Itoa(n) + " " + m[2]
	})
}

// monthOf is the month of a name or of its first three letters.
func monthOf(name string) (time.Month, bool) {
	for i, whole := range monthNames {
		if len(name) >= 3 && strings.HasPrefix(whole, strings.ToLower(name)) || strings.EqualFold(name, "sept") && whole == "september" {
			return time.Month(i + 1), true
		}
	}
	return 0, false
}

// Counted are words behind a number that make it no day of a month.
var Counted = WordSet("hours hour h hrs min mins minutes day days week weeks month months year years race races rider riders session sessions sets set reps times x km k of easy hard long short intervals efforts gels gel kilo kilos kg percent night nights people athletes of watts rides o oclock am pm mile miles metre metres meter meters m laps lap beers beer pints guys lads girls women men kids eggs bananas bottles cups cafes climbs hills squats lunges minute second seconds sec bpm degrees euros pounds others sleeps left best worst top fastest slowest")

// rating is so much out of ten.
var rating = Compile(`^(?:10|\d)/10$`)

// WordSet are words as a set.
func WordSet(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

var numerated = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")

// Number is a number that is spoken or written, 0 where it is none.
func Number(word string) int {
	if n, err := strconv.Atoi(word); err == nil {
		return n
	}
	sum := 0
	for _, w := range strings.FieldsFunc(strings.ToLower(word), func(r rune) bool { return r == ' ' || r == '-' }) {
		switch w {
		case "twenty":
			sum += 20
		case "thirty":
			sum += 30
		case "a", "an":
			sum++
		default:
			for n, name := range numerated {
				if name == w {
					sum += n
				}
			}
		}
	}
	return sum
}

// oneOrder reads 10/6 as 14/6 is read beside it: who writes one day first writes all so.
func oneOrder(text string) string {
	dayFirst, monthFirst := false, false
	for _, m := range slashed.FindAllStringSubmatch(strings.ReplaceAll(text, " ", "  "), -1) {
		a, _ := strconv.Atoi(m[2])
		b, _ := strconv.Atoi(m[3])
		dayFirst = dayFirst || a > 12 && a < 32 && b >= 1 && b <= 12
		monthFirst = monthFirst || b > 12 && b < 32 && a >= 1 && a <= 12
	}
	if dayFirst == monthFirst {
		return text
	}
	for range 2 {
		text = slashed.ReplaceAllStringFunc(text, func(s string) string {
			m := slashed.FindStringSubmatch(s)
			day, _ := strconv.Atoi(m[2])
			month, _ := strconv.Atoi(m[3])
			if monthFirst {
				day, month = month, day
			}
			if m[4] != "" || day < 1 || day > 31 || month < 1 || month > 12 || rating.MatchString(m[2]+"/"+m[3]) {
				return s
			}
			return m[1] + strconv.Itoa(day) + " " + monthNames[month-1] + m[5]
		})
	}
	return text
}

var monthNames = strings.Fields("january february march april may june july august september october november december")
