package typed

import (
	"fmt"
	"strings"

	"musette/planner"
)

// maxDaysAway bounds "in 3 days" and "3 weeks ago".
const maxDaysAway = 3660

// direction is where the field looks in which a day was typed.
type direction uint8

const (
	ahead  direction = iota // to come, today included
	coming                  // to come; a weekday is never today
	back                    // over, today included
)

// Date reads a day as people write it: 2026-06-13, 13 June, June 13 2027, 13/6,
// sat, sat 13, sunday week, first sunday in july, tomorrow, in 2 weeks. Without a
// year it is the next such day, today included: for questions about a ride. What can
// mean two days is an *Ambiguous error, and what is not understood to the last word
// is refused. The year is within planner.MinYear to MaxYear.
func Date(s string, today planner.Date) (planner.Date, error) { return readDay(s, today, ahead) }

// DateComing is Date for races and plans: on a Thursday, thursday is the one in a week.
func DateComing(s string, today planner.Date) (planner.Date, error) {
	return readDay(s, today, coming)
}

// DateBack is Date for what is over. A weekday is the last such one, today included;
// a day without a year is the nearest that is not in a year to come, and may lie ahead.
func DateBack(s string, today planner.Date) (planner.Date, error) { return readDay(s, today, back) }

// DateFrom is DateComing for the first day of something: next week is its Monday, the
// weekend its Saturday, next month its first day.
func DateFrom(s string, today planner.Date) (planner.Date, error) {
	from, _, err := readStretch(s, today, coming)
	return from, err
}

// DateTo is DateComing for the last day of something: next week is its Sunday, next
// month its last day.
func DateTo(s string, today planner.Date) (planner.Date, error) {
	_, to, err := readStretch(s, today, coming)
	return to, err
}

func readDay(s string, today planner.Date, dir direction) (planner.Date, error) {
	from, to, err := readStretch(s, today, dir)
	switch {
	case err != nil:
		return 0, err
	case from == to:
		return from, nil
	case from.DaysUntil(to) > 6:
		return 0, planner.BadInput("", "%s has %d days. Name one of them, for example %s", quoted(strings.TrimSpace(s)), from.DaysUntil(to)+1, dayMonthName(to))
	}
	var days []planner.Date
	for d := from; d <= to; d++ {
		days = append(days, d)
	}
	question := askDays(strings.TrimSpace(s), days...)
	if len(days) > 2 {
		question.fault = planner.BadInput("", "%s has %d days. Name one of them, for example %s", quoted(strings.TrimSpace(s)), len(days), dayMonthName(to))
	}
	return 0, question
}

// readStretch reads a day, or the days of a weekend, a week or a month.
func readStretch(s string, today planner.Date, dir direction) (from, to planner.Date, err error) {
	r := dateReader{text: strings.TrimSpace(s), today: today, dir: dir}
	if err := checkLength(s, dayMonthName(r.sample())); err != nil {
		return 0, 0, err
	}
	from, to, err = r.read()
	if err != nil {
		return 0, 0, err
	}
	for _, d := range []planner.Date{from, to} {
		if y, _, _ := d.Civil(); y < planner.MinYear || y > planner.MaxYear {
			return 0, 0, r.outside()
		}
	}
	return from, to, nil
}

type dateReader struct {
	text  string
	today planner.Date
	dir   direction
	atoms []dateAtom
}

func (r *dateReader) read() (from, to planner.Date, err error) {
	toks := lex(respell(r.text), false)
	if len(toks) == 0 {
		return 0, 0, planner.BadInput("", "a day is missing. %s", r.like())
	}
	if d, ok, err := r.numericDay(toks); ok || err != nil {
		return d, d, err
	}
	unknown, ok := r.understand(toks)
	if unknown != "" {
		return 0, 0, r.unreadable(didYouMean(unknown, dateWords()))
	}
	if !ok {
		return 0, 0, r.unreadable("")
	}
	key := r.key()
	if form, ok := stretchForms[key]; ok && r.isStretch() {
		from, to = form(r)
		return from, to, nil
	}
	form, ok := dateForms[key]
	if !ok {
		form, ok = dateForms[strings.ReplaceAll(key, "o", "n")]
	}
	if !ok {
		return 0, 0, r.unreadable(r.missingDay())
	}
	d, err := form(r)
	return d, d, err
}

// sample is a day that the field would take, for examples: a Saturday a week ahead or
// more, or in fields that look back the one before today.
func (r *dateReader) sample() planner.Date {
	d := r.today.AddDays(7)
	if r.dir == back {
		d = r.today.AddDays(-7)
	}
	for d.Weekday() != planner.Saturday {
		d++
	}
	return d
}

// like shows how days are written.
func (r *dateReader) like() string {
	d := r.sample()
	if r.dir == back {
		return fmt.Sprintf("Write it like %s, %s, sat or yesterday", dayMonthName(d), d)
	}
	return fmt.Sprintf("Write it like %s, %s, sat, next sat or tomorrow", dayMonthName(d), d)
}

// likeDate shows how dates are written.
func (r *dateReader) likeDate() string {
	d := r.sample()
	return fmt.Sprintf("Write it like %s or %s", dayMonthName(d), d)
}

func (r *dateReader) unreadable(hint string) error {
	if far, _, ok := Distance(r.text); ok {
		return planner.BadInput("", "%s is a distance, and a day belongs here. %s", far, r.like())
	}
	return planner.BadInput("", "I cannot read %s as a day%s. %s", quoted(r.text), hint, r.like())
}

func (r *dateReader) outside() error {
	return planner.BadInput("", "%s is outside the years %d to %d. Write for example %s", quoted(r.text), planner.MinYear, planner.MaxYear, r.sample())
}

// missingDay is a hint where a month was named without one of its days.
func (r *dateReader) missingDay() string {
	hint := ""
	for _, a := range r.atoms {
		switch a.kind {
		case 'm':
			hint = " (which day of " + a.month.String() + "?)"
		case 'n', 'o', 'w':
			return ""
		}
	}
	return hint
}
