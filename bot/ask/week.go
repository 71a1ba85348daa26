package ask

import (
	"regexp"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/typed"
)

var (
	weekdayWord = regexp.MustCompile(`(?i)\b(mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday)s?\b`)
	weekIdle    = regexp.MustCompile(`(?i)\b(?:my|typical|usual|normal|training|week|is|are|i|usually|normally|typically|always|do|ride|train|riding|on|the|a|an|every|each|for|with|and|then|at|of|in|looks|like|have|go|me|it|hour ride|to|also|coach)\b|:`)
	freeTyped   = regexp.MustCompile(`\bof[ \t]*([,;.\n]|$)`)
	hourRide    = regexp.MustCompile(`(?i)\b(\d+(?:[.,]\d+)?) ?(?:hour|hr|h)s? rides?\b`)
	spelled     = strings.NewReplacer("half an hour", "30min", "an hour and a half", "1h30", "a half hour", "30min", "half an hr", "30min", "an hr", "1h", "an hour", "1h", "one hour", "1h", "two hours", "2h", "three hours", "3h", "four hours", "4h", "long ride", "long", "club run", "group", "club ride", "group ride", "group ride", "group ride")
)

// week makes a typical week of free text, day by day.
func (t *talk) week(p *asked.Part) (say.Reply, error) {
	reply := say.Reply{Date: t.today}
	var page say.Page
	if w, text, guessed := readWeek(p); text != "" {
		page.Addf("Not saved yet. Your usual week: %s.", show.WeekSum(&w))
		page.Addf("I read: %s. Days that you did not name are rest.", text)
		switch guessed {
		case lengths:
			page.Addf("Where you gave no length, I guessed one. You can give me better ones now, or change them later.")
		case distances:
			page.Addf("I plan by time, not by distance, so I guessed how long your rides take. Send the week again with your own times if they differ.")
		case days:
			page.Addf("You named no days, so I guessed them. Tell me your own, for example: my week is tue intervals 1h, thu group 1h30, sat long 3h.")
		}
		reply.Offer(&page, "Use this week", "week share", map[string]string{"week": text})
		reply.Lines = page.Done()
		return reply, nil
	}
	page.Addf("Tell me your week day by day, with the length of each ride.")
	page.Addf("For example: my week is tue intervals 1h, thu group 1h30, sat long 3h.")
	reply.Lines, reply.Buttons = page.Done(), t.req.WeekForm()
	return reply, nil
}

// What of a week was guessed.
const (
	nothing = iota
	lengths
	distances
	days
)

// readWeek is the week that a part tells: as it was written, else of its words that say something of
// rides, else of its hours alone. The text is "" where there is none.
func readWeek(p *asked.Part) (w planner.Week, text string, guessed int) {
	mended := typed.Timed(p.Mended())
	for _, told := range []string{typed.Timed(p.Text), mended, onlyRides(mended)} {
		text, ok := weekText(told)
		if !ok {
			continue
		}
		var parts []string
		for _, part := range strings.Split(text, "; ") {
			parts = append(parts, bareHours(part))
		}
		text = strings.Join(parts, "; ")
		once := onceADay(text)
		text = spreadHours(once, p.Mended())
		spread := text != once
		text, some := withGuesses(text)
		w, err := typed.Week(text)
		if err != nil { // two sessions of a day
			text = partedSessions(text)
			w, err = typed.Week(text)
		}
		if err == nil && w.RideMinutes() > 0 {
			switch {
			case typed.Timed(p.Text) != p.Text:
				guessed = distances
			case some || spread:
				guessed = lengths
			}
			return w, text, guessed
		}
	}
	if text = weekOfHours(p.Mended()); text != "" {
		if w, err := typed.Week(text); err == nil {
			return w, text, days
		}
	}
	return planner.Week{}, "", nothing
}

// weekText is free text as typed.Week reads it: "tue intervals 1h; thu group 2h".
func weekText(text string) (string, bool) {
	text = spelled.Replace(freeTyped.ReplaceAllString(strings.ToLower(text), "off$1"))
	text = hourRide.ReplaceAllString(text, "${1}h")
	text = bothWays(daysInRange(text))
	var out []string
	for _, part := range clausesOf(text) {
		part = weekendDays(part)
		days := weekdayWord.FindAllStringSubmatchIndex(part, -1)
		if len(days) == 0 {
			if what := clause(part); what != "" && len(out) > 0 {
				out[len(out)-1] += " " + what
			}
			continue
		}
		out = append(out, dayClauses(part, days)...)
	}
	return strings.Join(out, "; "), len(out) > 0
}

// clausesOf parts a text at commas, and at an "and" between two days of which each
// has words of its own.
func clausesOf(text string) []string {
	var out []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '.' || r == '\n' }) {
		for {
			left, right, ok := strings.Cut(part, " and ")
			if !ok || !ownDay(left) || !ownDay(right) {
				break
			}
			out, part = append(out, left), right
		}
		out = append(out, part)
	}
	return out
}

// ownDay reports whether a text names a day and what is ridden on it.
func ownDay(text string) bool {
	return weekdayWord.MatchString(text) && clause(weekdayWord.ReplaceAllString(text, " ")) != ""
}

// dayClauses are the days of a clause. Where words stand before the first day and none
// behind it they are its own; days without words share those of the next.
func dayClauses(part string, days [][]int) []string {
	var out, waiting []string
	before := clause(part[:days[0][0]])
	if lengthTold.MatchString(before) {
		return daysBehind(part, days)
	}
	for i, m := range days {
		end := len(part)
		if i+1 < len(days) {
			end = days[i+1][0]
		}
		waiting = append(waiting, part[m[2]:m[2]+3])
		what := clause(part[m[1]:end])
		if what == "" && i+1 < len(days) {
			continue
		}
		if before != "" {
			what, before = strings.TrimSpace(before+" "+what), ""
		}
		for _, day := range waiting {
			out = append(out, strings.TrimSpace(day+" "+what))
		}
		waiting = nil
	}
	return out
}

// guesses are lengths of rides that were not told.
var guesses = []struct{ word, length string }{{"rest", ""}, {"off", ""}, {"busy", ""}, {"long", "2h30"}, {"group", "1h30"}, {"club", "1h30"}, {"chaingang", "1h30"}, {"bunch", "1h30"},
	{"recovery", "45min"}, {"spin", "45min"}, {"commute", "30min"}, {"gym", "45min"}, {"strength", "45min"}, {"", "1h"}}

var lengthTold = regexp.MustCompile(`\d`)

// withGuesses gives each day without a length one, and says whether it did.
func withGuesses(text string) (string, bool) {
	parts, guessed := strings.Split(text, "; "), false
	for i, part := range parts {
		if lengthTold.MatchString(part) {
			continue
		}
		for _, g := range guesses {
			if strings.Contains(part, g.word) {
				if g.length != "" {
					parts[i], guessed = part+" "+g.length, true
				}
				break
			}
		}
	}
	return strings.Join(parts, "; "), guessed
}

func clause(text string) string {
	text = weekIdle.ReplaceAllString(text, " ")
	return strings.Join(strings.Fields(strings.Trim(strings.TrimSpace(text), ",.;-")), " ")
}
