package typed

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
)

const weekExample = "mon recovery 40min; tue intervals 1h30 5x3min; thu off"

// maxWeekText is enough for seven full days with their names.
const maxWeekText = 7*(planner.MaxText+6) + 100

// Weekday reads the sessions of one weekday, parted by ; or a new line
// or +, as in recovery 40min; strength 30min. rest, off or nothing is a day that
// is free by habit, busy one on which riding is never possible. A day holds up to
// 6 sessions and 24 hours.
func Weekday(s string) (planner.WeekdayPlan, error) {
	const example = "recovery 40min; strength 30min"
	if err := checkLength(s, example); err != nil {
		return planner.WeekdayPlan{}, err
	}
	var p planner.WeekdayPlan
	total, rest, pieces := 0, false, 0
	for _, clause := range splitClauses(s) {
		for _, piece := range splitPlus(clause) {
			session, busy, err := readSession(piece)
			if err != nil {
				return planner.WeekdayPlan{}, err
			}
			pieces++
			switch {
			case busy:
				p.Busy = true
			case session.Kind == planner.Rest:
				rest = true
			default:
				p.Sessions = append(p.Sessions, session)
				total += int(session.Minutes)
			}
		}
	}
	switch {
	case p.Busy && pieces > 1:
		return planner.WeekdayPlan{}, planner.BadInput("", "a busy day holds no session. Write busy alone, or for example %s", example)
	case rest && p.RideMinutes() > 0:
		return planner.WeekdayPlan{}, planner.BadInput("", "a free day and a ride cannot share a day. Write rest alone, or for example %s", example)
	case len(p.Sessions) > maxSessionsPerDay:
		return planner.WeekdayPlan{}, planner.BadInput("", "%d sessions on a day are more than %d. For example %s", len(p.Sessions), maxSessionsPerDay, example)
	case total > minutesPerDay:
		return planner.WeekdayPlan{}, planner.BadInput("", "%s on one day are over 24 hours. For example %s", planner.Duration(total), example)
	}
	// What is written out must be readable again.
	if err := checkLength(p.String(), example); err != nil {
		return planner.WeekdayPlan{}, err
	}
	return p, nil
}

// splitClauses parts a text at ; and new lines and leaves out empty clauses.
func splitClauses(s string) []string {
	var out []string
	for _, c := range strings.FieldsFunc(s, func(r rune) bool { return r == ';' || r == '\n' || r == '\r' }) {
		if c = strings.TrimSpace(c); c != "" {
			out = append(out, c)
		}
	}
	return out
}

// splitPlus parts a clause at + where another session follows and not another
// group of repetitions.
func splitPlus(clause string) []string {
	var out []string
	from := 0
	for i, r := range clause {
		if r != '+' {
			continue
		}
		next := lex(clause[i+1:], true)
		if len(next) > 1 && next[0].kind == numberToken && next[1].isWord("x") {
			continue
		}
		out = append(out, clause[from:i])
		from = i + 1
	}
	return append(out, clause[from:])
}

// Week reads a typical week. Clauses are parted by ; or new lines; one that
// starts with weekdays (mon, tue-thu, sat and sun) opens them, any other belongs
// to the days before it. Days that are not named are rest.
func Week(s string) (planner.Week, error) {
	if n := utf8.RuneCountInString(s); n > maxWeekText {
		return planner.Week{}, planner.BadInput("", "%d characters are more than %d. For example %s", n, maxWeekText, weekExample)
	}
	var texts [7][]string
	var open []planner.Weekday
	for _, clause := range splitClauses(s) {
		days, rest, err := readDays(clause)
		if err != nil {
			return planner.Week{}, err
		}
		if len(days) > 0 {
			open = days
		}
		if len(open) == 0 {
			return planner.Week{}, noWeekday(clause)
		}
		for _, day := range open {
			if len(days) > 0 && texts[day] != nil {
				return planner.Week{}, planner.BadInput("", "%s is named twice. Write its sessions together, for example mon recovery 40min; strength 30min", day)
			}
			texts[day] = append(texts[day], rest)
		}
	}
	if len(open) == 0 {
		return planner.Week{}, planner.BadInput("", "a week names its days. For example %s", weekExample)
	}
	var w planner.Week
	for i, text := range texts {
		p, err := Weekday(strings.Join(text, "; "))
		if fault, ok := err.(*planner.InputError); ok {
			return planner.Week{}, &planner.InputError{Field: fault.Field, Msg: planner.Weekday(i).String() + ": " + fault.Msg}
		}
		w[i] = p
	}
	return w, nil
}

func noWeekday(clause string) error {
	word, _ := cutWord(clause)
	var names []string
	for d := planner.Monday; d <= planner.Sunday; d++ {
		names = append(names, strings.ToLower(d.String()), strings.ToLower(d.Short()))
	}
	hint := ""
	if _, kind := kindWords[strings.ToLower(word)]; !kind {
		hint = didYouMean(word, names)
	}
	return planner.BadInput("", "%s stands before the first weekday%s. For example %s", quoted(clause), hint, weekExample)
}

// readDays takes the weekdays off the start of a clause: mon, mon: mon, wed, or
// tue-thu. Without any, rest is the whole clause.
func readDays(clause string) (days []planner.Weekday, rest string, err error) {
	word, rest := cutWord(clause)
	first, ok := weekdayWord(word)
	if !ok {
		return nil, clause, nil
	}
	days = []planner.Weekday{first}
	for {
		link, after := cutLink(rest)
		word, tail := cutWord(after)
		day, ok := weekdayWord(word)
		if link == "" || !ok {
			break
		}
		if link == "-" {
			for d := (days[len(days)-1] + 1) % 7; d != day; d = (d + 1) % 7 {
				days = append(days, d)
			}
		}
		days = append(days, day)
		rest = tail
	}
	seen := [7]bool{}
	for _, d := range days {
		if seen[d] {
			return nil, "", planner.BadInput("", "%s is named twice in %s. Write for example mon, wed: recovery 40min", d, quoted(clause))
		}
		seen[d] = true
	}
	rest = strings.TrimSpace(rest)
	for _, mark := range []string{":", "-", "–", "—", "=", ",", "."} {
		if after, ok := strings.CutPrefix(rest, mark); ok {
			rest = strings.TrimSpace(after)
			break
		}
	}
	return days, rest, nil
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
