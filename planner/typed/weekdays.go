package typed

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"musette/planner"
)

// dayGroups are words for several weekdays.
var dayGroups = map[string][]planner.Weekday{
	"weekdays": {0, 1, 2, 3, 4}, "weekday": {0, 1, 2, 3, 4}, "weekend": {5, 6}, "weekends": {5, 6},
	"everyday": {0, 1, 2, 3, 4, 5, 6}, "daily": {0, 1, 2, 3, 4, 5, 6},
}

// shortDays are names of two letters. "we" is a word too: isWednesday reads it.
var shortDays = map[string]planner.Weekday{
	"mo": planner.Monday, "tu": planner.Tuesday, "th": planner.Thursday, "fr": planner.Friday, "sa": planner.Saturday, "su": planner.Sunday,
}

// letterDays are usual ways to name days by their first letters, at the start of a clause.
var letterDays = [][2]string{{"m-f", "mon-fri"}, {"m/w/f", "mon/wed/fri"}, {"mwf", "mon/wed/fri"}, {"t/th", "tue/thu"}}

// weekdayNames are the names of weekdays, long and short.
var weekdayNames = sync.OnceValue(func() (names []string) {
	for d := planner.Monday; d <= planner.Sunday; d++ {
		names = append(names, strings.ToLower(d.String()), strings.ToLower(d.Short()))
	}
	return names
})

// splitDays parts a week into clauses: at ; and new lines, and at a comma, full stop or slash
// before a weekday where something stands before it that is no weekday.
func splitDays(s string) []string {
	var out []string
	for _, clause := range splitClauses(twoLetters(s)) {
		for {
			at := dayAfterComma(clause)
			if at == 0 {
				break
			}
			out = append(out, strings.TrimSpace(clause[:at]))
			clause = strings.TrimSpace(clause[at+1:])
		}
		out = append(out, clause)
	}
	return out
}

// dayAfterComma is where such a mark before a weekday is, 0 where none is.
func dayAfterComma(clause string) int {
	_, rest, err := readDays(clause)
	if err != nil {
		return 0
	}
	from := len(clause) - len(rest)
	for i := from; i < len(clause); i++ {
		if !strings.ContainsRune(",./|", rune(clause[i])) || strings.TrimSpace(clause[from:i]) == "" {
			continue
		}
		days, content, err := readDays(strings.TrimSpace(clause[i+1:]))
		if err == nil && len(days) > 0 && strings.TrimSpace(content) != "" && strings.HasPrefix(clause[i+1:], " ") {
			return i
		}
	}
	return 0
}

// readDays takes the weekdays off the start of a clause: mon, mon: mon, wed, tue-thu or
// weekdays. Without any, rest is the whole clause.
func readDays(clause string) (days []planner.Weekday, rest string, err error) {
	start := strings.TrimSpace(clause)
	for _, l := range letterDays {
		if n := len(l[0]); len(start) > n && strings.EqualFold(start[:n], l[0]) && strings.ContainsRune(" :,", rune(start[n])) {
			start = l[1] + start[n:]
		}
	}
	for _, lead := range []string{"every", "each", "on", "most"} {
		if word, after := cutWord(start); strings.EqualFold(word, lead) {
			if next, _ := cutWord(strings.TrimSpace(after)); startsDay(next) || strings.EqualFold(next, "day") && lead == "every" {
				start = strings.TrimSpace(after)
				if strings.EqualFold(next, "day") {
					start = "everyday" + start[len(next):]
				}
			}
			break
		}
	}
	word, rest := cutWord(start)
	days, ok := daysOfWord(word)
	if !ok && isWednesday(word, rest) {
		days, ok = []planner.Weekday{planner.Wednesday}, true
	}
	if !ok {
		return nil, clause, nil
	}
	for {
		link, after := cutLink(rest)
		if link == "" {
			break
		}
		word, tail := cutWord(after)
		more, ok := daysOfWord(word)
		if !ok && strings.EqualFold(word, "we") {
			more, ok = []planner.Weekday{planner.Wednesday}, true
		}
		if !ok || link == "-" && len(more) > 1 {
			break
		}
		if link == "-" {
			for d := (days[len(days)-1] + 1) % 7; d != more[0]; d = (d + 1) % 7 {
				days = append(days, d)
			}
		}
		days = append(days, more...)
		rest = tail
	}
	seen := [7]bool{}
	for _, d := range days {
		if seen[d] {
			return nil, "", planner.BadInput("", "%s is named twice in %s. Write for example mon, wed: recovery 40min", d, quoted(clause))
		}
		seen[d] = true
	}
	return days, cutOpening(rest), nil
}

// isWednesday reports whether we is the weekday: nothing follows it, or a length, a mark, a
// kind of session or another day, but not what we do.
func isWednesday(word, rest string) bool {
	if !strings.EqualFold(word, "we") {
		return false
	}
	next := strings.TrimLeft(rest, " \t")
	if next == "" || !unicode.IsLetter([]rune(next)[0]) {
		return !strings.HasPrefix(next, "'") && !strings.HasPrefix(next, "’")
	}
	follows, after := cutWord(next)
	follows = strings.ToLower(follows)
	if second, _ := cutWord(strings.TrimSpace(after)); follows == "and" || follows == "to" {
		return startsDay(second)
	}
	_, kind := kindWords[follows]
	return kind && !doing[follows]
}

// doing are kinds that are verbs too: we ride.
var doing = wordSet("ride spin race commute run jog swim walk hike chill sprint stretch")

// twoLetters writes wed for we at the start of a day where another day has two letters.
func twoLetters(s string) string {
	starts, short := []int{}, false
	for i, opens := 0, true; i < len(s); i++ {
		if word, _ := cutWord(s[i:]); opens && word != "" {
			_, two := shortDays[strings.ToLower(word)]
			short = short || two
			if strings.EqualFold(word, "we") {
				starts = append(starts, i+len(word))
			}
		}
		opens = strings.ContainsRune(";\n\r,./|", rune(s[i])) || opens && s[i] == ' '
	}
	if short {
		for _, at := range slices.Backward(starts) {
			s = s[:at] + "d" + s[at:]
		}
	}
	return s
}

func startsDay(word string) bool { _, ok := daysOfWord(word); return ok }

// daysOfWord are the days that a word at the start of a clause names.
func daysOfWord(word string) ([]planner.Weekday, bool) {
	word = strings.ToLower(word)
	if group, ok := dayGroups[word]; ok {
		return append([]planner.Weekday(nil), group...), true
	}
	if d, ok := shortDays[word]; ok {
		return []planner.Weekday{d}, true
	}
	if d, ok := weekdayWord(word); ok {
		return []planner.Weekday{d}, true
	}
	if near := soleNear(strings.TrimSuffix(word, "s"), weekdayNames()); near != "" {
		d, _ := planner.ParseWeekday(near)
		return []planner.Weekday{d}, true
	}
	return nil, false
}

// dayInside takes the one weekday out of a clause that has it inside: commute mon 35min.
func dayInside(clause string) (days []planner.Weekday, rest string) {
	words := strings.Fields(clause)
	at := -1
	for i, w := range words {
		if _, ok := weekdayWord(strings.TrimRight(w, ",.:")); !ok {
			continue
		}
		if at >= 0 {
			return nil, clause
		}
		at = i
	}
	if at < 0 {
		return nil, clause
	}
	day, _ := weekdayWord(strings.TrimRight(words[at], ",.:"))
	return []planner.Weekday{day}, strings.Join(append(words[:at:at], words[at+1:]...), " ")
}

// cutOpening takes off the mark between the days and what they hold.
func cutOpening(rest string) string {
	rest = strings.TrimSpace(rest)
	for _, mark := range []string{":", "-", "–", "—", "=", ",", "."} {
		if after, ok := strings.CutPrefix(rest, mark); ok {
			return strings.TrimSpace(after)
		}
	}
	return rest
}

// cutLink reads what may join two weekdays: "-" for a stretch, "," for a list.
func cutLink(s string) (link, rest string) {
	s = strings.TrimSpace(s)
	for _, l := range []struct{ text, link string }{{",", ","}, {"&", ","}, {"/", ","}, {"+", ","}, {"-", "-"}, {"–", "-"}, {"—", "-"}} {
		if after, ok := strings.CutPrefix(s, l.text); ok {
			return l.link, strings.TrimSpace(after)
		}
	}
	switch word, after := cutWord(s); strings.ToLower(word) {
	case "and":
		return ",", strings.TrimSpace(after)
	case "to":
		return "-", strings.TrimSpace(after)
	}
	return "", s
}

// cutWord takes the letters off the start of s.
func cutWord(s string) (word, rest string) {
	end := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		return s, ""
	}
	return s[:end], s[end:]
}

// weekdayWord reads a weekday's name, also with the s of "mondays" and "weds".
func weekdayWord(s string) (planner.Weekday, bool) {
	if d, ok := planner.ParseWeekday(s); ok {
		return d, true
	}
	return planner.ParseWeekday(strings.TrimSuffix(strings.ToLower(s), "s"))
}

// firstWord is the first word of a text, without marks.
func firstWord(s string) string {
	word, _ := cutWord(strings.TrimSpace(s))
	return word
}
