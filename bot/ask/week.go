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
	hourRide    = regexp.MustCompile(`(?i)\b(\d+(?:[.,]\d+)?) ?(?:hour|hr|h)s? rides?\b`)
	spelled     = strings.NewReplacer("half an hour", "30min", "an hour and a half", "1h30", "a half hour", "30min", "an hour", "1h", "one hour", "1h", "two hours", "2h", "three hours", "3h", "four hours", "4h", "long ride", "long", "club run", "group", "club ride", "group ride", "group ride", "group ride")
)

// week makes a typical week of free text, day by day.
func (t *talk) week(p *asked.Part) (say.Reply, error) {
	text, ok := weekText(t.req.Get(Question))
	reply := say.Reply{Date: t.today}
	var page say.Page
	if ok {
		if w, err := typed.Week(text); err == nil && w.RideMinutes() > 0 && timed(&w) {
			page.Addf("Nothing is stored yet. Your usual week: %s.", show.WeekSum(&w))
			page.Addf("I read: %s. Days that you did not name are rest.", text)
			reply.Offer(&page, "Use this week", "week share", map[string]string{"week": text})
			reply.Lines = page.Done()
			return reply, nil
		}
	}
	page.Addf("I would like to know how long each ride of your week is, too.")
	page.Addf("For example: my week is tue intervals 1h, thu group 1h30, sat long 3h.")
	if text != "" {
		page.Addf("I read so far: %s", text)
	}
	reply.Lines, reply.Buttons = page.Done(), t.req.WeekForm()
	return reply, nil
}

// timed reports whether every ride of a week has a length.
func timed(w *planner.Week) bool {
	for _, d := range w {
		for _, s := range d.Sessions {
			if s.Kind.IsRide() && s.Minutes == 0 {
				return false
			}
		}
	}
	return true
}

// weekText is free text as typed.Week reads it: "tue intervals 1h; thu group 2h".
// Days that are named together share what is told of the last of them.
func weekText(text string) (string, bool) {
	text = spelled.Replace(strings.ToLower(text))
	text = hourRide.ReplaceAllString(text, "${1}h")
	at := weekdayWord.FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 {
		return "", false
	}
	before := clause(text[:at[0][0]])
	var out, waiting []string
	flush := func(what string) {
		for _, day := range waiting {
			out = append(out, day+" "+what)
		}
		waiting = nil
	}
	leads := before != ""
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		waiting = append(waiting, text[m[2]:m[2]+3])
		what := clause(text[m[1]:end])
		if leads { // "intervals on tuesday and 3h on saturday": the words come first
			flush(before)
			before = what
			continue
		}
		if what != "" {
			flush(what)
		}
	}
	if len(waiting) > 0 {
		return strings.Join(out, "; "), false
	}
	return strings.Join(out, "; "), len(out) > 0
}

func clause(text string) string {
	text = weekIdle.ReplaceAllString(text, " ")
	return strings.Join(strings.Fields(strings.Trim(strings.TrimSpace(text), ",.;-")), " ")
}
