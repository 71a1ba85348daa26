package typed

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"musette/planner"
)

const weekExample = "mon recovery 40min; tue intervals 1h30 5x3min; thu off"

// maxWeekText is enough for seven full days with their names.
const maxWeekText = 7*(planner.MaxText+6) + 100

// Weekday reads the sessions of one weekday, parted by ; or a new line or +, as in
// recovery 40min; strength 30min. rest, off or nothing is a day that is free by habit,
// busy one on which riding is never possible. A day holds up to 6 sessions and 24 hours.
// Its words have no wrong letter.
func Weekday(s string) (planner.WeekdayPlan, error) { return readWeekday(s, false) }

// Day is Weekday for what a person types and sees again: one wrong letter in a long
// word is made good.
func Day(s string) (planner.WeekdayPlan, error) { return readWeekday(s, true) }

func readWeekday(s string, mend bool) (planner.WeekdayPlan, error) {
	if err := checkLength(s, dayExample); err != nil {
		return planner.WeekdayPlan{}, err
	}
	var parts []part
	var unknown unknownWords
	for _, clause := range splitClauses(s) {
		more, err := readClause(clause, mend)
		if words := (unknownWords)(nil); errors.As(err, &words) {
			unknown = append(unknown, words...)
		} else if err != nil {
			return planner.WeekdayPlan{}, err
		}
		parts = append(parts, more...)
	}
	if len(unknown) > 0 {
		return planner.WeekdayPlan{}, unknown
	}
	return joinParts(parts)
}

const dayExample = "recovery 40min; strength 30min"

// joinParts makes a day of its sessions.
func joinParts(parts []part) (planner.WeekdayPlan, error) {
	var p planner.WeekdayPlan
	total, rest := 0, false
	for _, part := range parts {
		switch {
		case part.busy:
			p.Busy = true
		case part.session.Kind == planner.Rest:
			rest = true
		default:
			p.Sessions = append(p.Sessions, part.session)
			total += int(part.session.Minutes)
		}
	}
	switch {
	case p.Busy && len(parts) > 1:
		return planner.WeekdayPlan{}, planner.BadInput("", "a busy day holds no session. Write busy alone, or for example %s", dayExample)
	case rest && p.RideMinutes() > 0:
		return planner.WeekdayPlan{}, planner.BadInput("", "a free day and a ride cannot share a day. Write rest alone, or for example %s", dayExample)
	case len(p.Sessions) > maxSessionsPerDay:
		return planner.WeekdayPlan{}, planner.BadInput("", "%d sessions on a day are more than %d. For example %s", len(p.Sessions), maxSessionsPerDay, dayExample)
	case total > minutesPerDay:
		return planner.WeekdayPlan{}, planner.BadInput("", "%s on one day are over 24 hours. For example %s", planner.Duration(total), dayExample)
	}
	// What is written out must be readable again.
	if err := checkLength(p.String(), dayExample); err != nil {
		return planner.WeekdayPlan{}, err
	}
	return p, nil
}

// Weekdays reads which weekdays are meant: tue, tue+thu, mon-fri, weekdays, weekend.
func Weekdays(s string) ([]planner.Weekday, error) {
	days, rest, err := readDays(strings.TrimSpace(s))
	if err != nil {
		return nil, err
	}
	if len(days) == 0 || strings.TrimSpace(rest) != "" {
		return nil, planner.BadInput("", "%s names no weekday%s. Write it like tue, mon-fri, tue+thu or weekend", quoted(s), didYouMean(firstWord(s), weekdayNames()))
	}
	return days, nil
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

// Week reads a typical week. Clauses are parted by ; or new lines, and by a comma before
// a weekday; one that starts with weekdays (mon, tue-thu, sat and sun, weekdays) opens
// them, any other belongs to the days before it, or to the weekday inside it. Days that
// are not named are rest. All words that are not known are named in one error.
func Week(s string) (planner.Week, error) {
	if n := utf8.RuneCountInString(s); n > maxWeekText {
		return planner.Week{}, planner.BadInput("", "%d characters are more than %d. For example %s", n, maxWeekText, weekExample)
	}
	texts, err := dayTexts(s)
	if err != nil {
		return planner.Week{}, err
	}
	var w planner.Week
	var unknown dayWords
	var others []*planner.InputError
	for i, text := range texts {
		p, err := Day(strings.Join(text, "; "))
		if words := (unknownWords)(nil); errors.As(err, &words) {
			unknown.add(planner.Weekday(i), words)
		} else if fault := (*planner.InputError)(nil); errors.As(err, &fault) {
			others = append(others, &planner.InputError{Field: fault.Field, Msg: planner.Weekday(i).String() + ": " + fault.Msg})
		}
		w[i] = p
	}
	if err := weekFault(unknown, others); err != nil {
		return planner.Week{}, err
	}
	return w, nil
}

// mostFaults bounds how many days a message names beside unknown words.
const mostFaults = 3

// weekFault says at once what is wrong with the days of a week, nil where nothing is.
func weekFault(unknown dayWords, others []*planner.InputError) error {
	var all []string
	if len(unknown) > 0 {
		all = append(all, unknown.fault().Error())
	}
	for _, fault := range others[:min(len(others), mostFaults)] {
		all = append(all, fault.Msg)
	}
	if more := len(others) - mostFaults; more > 0 {
		all = append(all, fmt.Sprintf("%d more days cannot be read", more))
	}
	switch {
	case len(all) == 0:
		return nil
	case len(unknown) == 0 && len(others) == 1:
		return others[0]
	}
	return planner.BadInput("", "%s", strings.Join(all, ". "))
}

// dayTexts are the clauses of each weekday.
func dayTexts(s string) (texts [7][]string, err error) {
	var open []planner.Weekday
	for _, clause := range splitDays(s) {
		days, rest, err := readDays(clause)
		if err != nil {
			return texts, err
		}
		if len(days) == 0 {
			days, rest = dayInside(clause)
		}
		if len(days) > 0 {
			open = days
		}
		if weekendLong(clause, days) {
			return texts, planner.BadInput("", "%s names both days of the weekend, and a long ride is on one of them. Write for example sat long 3h; sun easy 1h", quoted(clause))
		}
		if len(open) == 0 {
			return texts, noWeekday(clause)
		}
		for _, day := range open {
			if len(days) > 0 && texts[day] != nil {
				return texts, planner.BadInput("", "%s is named twice. Write its sessions together, for example mon recovery 40min; strength 30min", day)
			}
			texts[day] = append(texts[day], rest)
		}
	}
	if len(open) == 0 {
		return texts, planner.BadInput("", "a week names its days. For example %s", weekExample)
	}
	return texts, nil
}

// weekendLong reports whether a clause has a long ride on both days of a weekend without naming them.
func weekendLong(clause string, days []planner.Weekday) bool {
	group, _ := cutWord(strings.TrimSpace(clause))
	return len(days) == 2 && len(dayGroups[strings.ToLower(group)]) == 2 && slices.Contains(strings.Fields(strings.ToLower(clause)), "long")
}

// Named are the weekdays that a typical week names, none where it cannot be read.
func Named(s string) (named []planner.Weekday) {
	texts, err := dayTexts(s)
	for i, text := range texts {
		if err == nil && text != nil {
			named = append(named, planner.Weekday(i))
		}
	}
	return named
}

func noWeekday(clause string) error {
	word := firstWord(clause)
	hint := ""
	if _, kind := kindWords[strings.ToLower(word)]; !kind {
		hint = didYouMean(word, weekdayNames())
	}
	return planner.BadInput("", "%s stands before the first weekday%s. For example %s", quoted(clause), hint, weekExample)
}
