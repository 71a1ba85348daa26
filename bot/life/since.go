package life

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// mostBack is how many days back the first day of an illness is read from a line.
const mostBack = 60

// How people say since when: since monday, started on monday, for two days, three days ago.
var (
	sinceWords = regexp.MustCompile(`\b(?:since|started|starting|began|begun)\s+(?:on\s+|the\s+|about\s+)*(.+)`)
	lastNight  = regexp.MustCompile(`\b(yesterday|yday|last night)\b`)
	now        = regexp.MustCompile(`\b(today|this morning|tonight|this afternoon|now)\b`)
	lasting    = regexp.MustCompile(`\b(?:for\s+(?:the\s+)?(?:last\s+|past\s+)?(\w+)\s+(day|night|week)s?|(\w+)\s+(day|night|week)s?\s+(?:ago|now|already))\b`)
	few        = []string{"", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
)

// sinceWhen is the first day of what a line tells, where it says which.
func sinceWhen(text string, today planner.Date) (day planner.Date, ok bool) {
	text = strings.ToLower(text)
	if m := sinceWords.FindStringSubmatch(text); m != nil {
		day, ok = firstDay(m[1], today)
	} else if m := lasting.FindStringSubmatch(text); m != nil {
		n, read := many(m[1] + m[3])
		if m[2]+m[4] == "week" {
			n *= 7
		}
		day, ok = today.AddDays(-n), read
	} else if lastNight.MatchString(text) && !now.MatchString(text) {
		day, ok = today-1, true
	}
	return day, ok && day <= today && day.DaysUntil(today) <= mostBack
}

// firstDay is the day with which a text begins.
func firstDay(text string, today planner.Date) (planner.Date, bool) {
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,.;:!?()", r) })
	for n := min(4, len(words)); n > 0; n-- {
		said := strings.Join(words[:n], " ")
		if said == "last night" {
			return today - 1, true
		}
		if day, err := typed.DateBack(said, today); err == nil {
			return day, true
		}
	}
	return 0, false
}

// many reads a small number.
func many(word string) (int, bool) {
	if word == "a" || word == "couple" {
		return map[string]int{"a": 1, "couple": 2}[word], true
	}
	if n, err := strconv.Atoi(word); err == nil {
		return n, n >= 0 && n <= mostBack
	}
	n := slices.Index(few, word)
	return n, n > 0
}

// injured are the parts that an injury is named by.
var injured = []string{"knee", "lower back", "back", "ankle", "achilles", "hamstring", "calf", "groin", "hip", "shoulder", "wrist", "elbow", "neck"}

// injuryIn is the part that hurts in a line, "" where it names none.
func injuryIn(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' })
	for _, part := range injured {
		at := strings.Index(" "+strings.Join(words, " ")+" ", " "+part+" ")
		if at >= 0 && (part != "back" || slices.Contains(words, "hurts") || slices.Contains(words, "pain")) {
			return part
		}
	}
	return ""
}
