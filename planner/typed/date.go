package typed

import (
	"strings"
	"time"

	"musette/planner"
)

// maxDaysAway bounds "in 3 days" and "3 days ago".
const maxDaysAway = 3660

var dayPhrases = map[string]int{
	"today": 0, "tomorrow": 1, "tmrw": 1, "yesterday": -1,
	"day after tomorrow": 2, "the day after tomorrow": 2,
	"day before yesterday": -2, "the day before yesterday": -2,
}

// Date reads a day as people write it: 2026-06-13, 13 June, June 13 2027,
// 13/6, sat, next saturday, tomorrow, in 3 days. Without a year it is the next
// such day, today included. 6/7 is refused with both readings, and so is
// whatever is not understood to the last word. The year is within planner.MinYear to MaxYear.
func Date(s string, today planner.Date) (planner.Date, error) {
	if err := checkLength(s, "13 June"); err != nil {
		return 0, err
	}
	r := dateReader{text: strings.TrimSpace(s), toks: lex(s, false), today: today}
	d, err := r.read()
	if err != nil {
		return 0, err
	}
	if y, _, _ := d.Civil(); y < planner.MinYear || y > planner.MaxYear {
		return 0, planner.BadInput("", "%s is outside the years %d to %d. Write for example 2026-06-13", quoted(r.text), planner.MinYear, planner.MaxYear)
	}
	return d, nil
}

type dateReader struct {
	text  string
	toks  []token
	today planner.Date
}

func (r *dateReader) read() (planner.Date, error) {
	if len(r.toks) == 0 {
		return 0, planner.BadInput("", "a day is missing. Write it like 13 June, 2026-06-13, sat or tomorrow")
	}
	if n, ok := dayPhrases[strings.Join(strings.Fields(strings.ToLower(r.text)), " ")]; ok {
		return r.today.AddDays(n), nil
	}
	if d, ok, err := r.numeric(); ok || err != nil {
		return d, err
	}
	return r.named()
}

func (r *dateReader) unreadable() error {
	hint := ""
	for _, t := range r.toks {
		if t.kind == wordToken && !r.understood(t.text) {
			hint = didYouMean(t.text, dateWords())
			break
		}
	}
	return planner.BadInput("", "%s is not a day that is clear to me%s. Write it like 13 June, 2026-06-13, sat, next sat or tomorrow", quoted(r.text), hint)
}

func (r *dateReader) understood(word string) bool {
	_, day := planner.ParseWeekday(word)
	_, month := parseMonth(word)
	return day || month || word == "on" || word == "the" || word == "of"
}

// dateWords are what a mistyped word may have meant.
func dateWords() []string {
	out := []string{"today", "tomorrow", "yesterday"}
	for d := planner.Monday; d <= planner.Sunday; d++ {
		name := d.String()
		out = append(out, strings.ToLower(name))
	}
	for m := time.January; m <= time.December; m++ {
		out = append(out, strings.ToLower(m.String()))
	}
	return out
}

// dateAtom is a token with its meaning: n a number, o one with st or th, m a
// month, w a weekday, t any other word.
type dateAtom struct {
	kind    byte
	value   int
	digits  int
	month   time.Month
	weekday planner.Weekday
	text    string
}

// atoms gives the tokens meaning and leaves out what carries none: commas, the
// dots and dashes around a month's name, "on" in front, "the" and "of" beside a number.
func (r *dateReader) atoms() ([]dateAtom, bool) {
	var out []dateAtom
	for i, t := range r.toks {
		next := token{kind: markToken}
		if i+1 < len(r.toks) {
			next = r.toks[i+1]
		}
		_, nextMonth := parseMonth(next.text)
		month, isMonth := parseMonth(t.text)
		weekday, isWeekday := planner.ParseWeekday(t.text)
		last := len(out) - 1
		switch {
		case t.kind == markToken:
			sign := !t.glued && next.glued // the dash of -3
			if !t.isMark(",") && !t.isMark(".") && !t.isMark("/") && !t.isMark("-") || sign {
				return nil, false
			}
		case t.kind == numberToken:
			out = append(out, dateAtom{kind: 'n', value: int(t.value), digits: t.digits, text: t.text})
		case t.glued && last >= 0 && out[last].kind == 'n' && ordinalOf(out[last].value) == t.text:
			out[last].kind = 'o'
		case i == 0 && t.text == "on", t.text == "the" && next.kind == numberToken, t.text == "of" && nextMonth && last >= 0:
		case isMonth:
			out = append(out, dateAtom{kind: 'm', month: month, text: t.text})
		case isWeekday:
			out = append(out, dateAtom{kind: 'w', weekday: weekday, text: t.text})
		default:
			out = append(out, dateAtom{kind: 't', text: t.text})
		}
	}
	return out, true
}

func ordinalOf(n int) string {
	if n%100 >= 11 && n%100 <= 13 {
		return "th"
	}
	switch n % 10 {
	case 1:
		return "st"
	case 2:
		return "nd"
	case 3:
		return "rd"
	}
	return "th"
}

// parseMonth reads a month's English name, whole or shortened to three letters or more.
func parseMonth(s string) (time.Month, bool) {
	if len(s) < 3 {
		return 0, false
	}
	for m := time.January; m <= time.December; m++ {
		if strings.HasPrefix(strings.ToLower(m.String()), s) {
			return m, true
		}
	}
	return 0, false
}

// named reads all forms that hold a word.
func (r *dateReader) named() (planner.Date, error) {
	atoms, ok := r.atoms()
	if !ok {
		return 0, r.unreadable()
	}
	form := make([]byte, len(atoms))
	for i, a := range atoms {
		form[i] = a.kind
		if a.kind == 'o' && len(atoms) > 1 {
			form[i] = 'n'
		}
	}
	switch string(form) {
	case "w":
		return nextWeekday(r.today, atoms[0].weekday), nil
	case "tw":
		switch atoms[0].text {
		case "this":
			return nextWeekday(r.today, atoms[1].weekday), nil
		case "next":
			monday := r.today.AddDays(-int(r.today.Weekday()))
			return monday.AddDays(7 + int(atoms[1].weekday)), nil
		}
	case "tnt":
		if atoms[0].text == "in" && isDays(atoms[2].text) && atoms[1].value <= maxDaysAway {
			return r.today.AddDays(atoms[1].value), nil
		}
	case "ntt":
		if atoms[2].text == "ago" && isDays(atoms[1].text) && atoms[0].value <= maxDaysAway {
			return r.today.AddDays(-atoms[0].value), nil
		}
	case "o":
		return r.dayOfMonth(atoms[0].value)
	case "wnm", "wmn", "wnmn", "wmnn":
		d, err := r.monthName(atoms[1:])
		if err == nil && d.Weekday() != atoms[0].weekday {
			return 0, planner.BadInput("", "%s is a %s, not a %s. Write for example %d %s", d.Long()[len(d.Weekday().String())+1:],
				d.Weekday(), atoms[0].weekday, dayOf(d), monthOf(d))
		}
		return d, err
	case "nm", "mn", "nmn", "mnn":
		return r.monthName(atoms)
	}
	return 0, r.unreadable()
}

func isDays(s string) bool { return s == "day" || s == "days" }

// next is the first such weekday from d on, d included.
func nextWeekday(d planner.Date, w planner.Weekday) planner.Date {
	return d.AddDays((int(w) - int(d.Weekday()) + 7) % 7)
}

func dayOf(d planner.Date) int {
	_, _, day := d.Civil()
	return day
}

func monthOf(d planner.Date) time.Month {
	_, m, _ := d.Civil()
	return m
}

// monthName reads a day and a month's name in either order, and a year of four digits.
func (r *dateReader) monthName(atoms []dateAtom) (planner.Date, error) {
	day, month := atoms[0], atoms[1]
	if day.kind == 'm' {
		day, month = month, day
	}
	year := 0
	if len(atoms) == 3 {
		if atoms[2].digits != 2 && atoms[2].digits != 4 || atoms[2].kind == 'o' || strings.ContainsAny(r.text, "/+") {
			return 0, r.unreadable()
		}
		if atoms[2].digits != 4 {
			return 0, planner.BadInput("", "the year in %s needs four digits. Write it like 13 June 2027", quoted(r.text))
		}
		year = atoms[2].value
	}
	return r.dayMonth(day.value, month.month, year)
}

// dayOfMonth is the next day with that number: the 20th.
func (r *dateReader) dayOfMonth(day int) (planner.Date, error) {
	if day < 1 || day > 31 {
		return 0, planner.BadInput("", "no month has a day %d. Write it like 13 June or 13th", day)
	}
	d := r.today
	for dayOf(d) != day {
		d++
	}
	return d, nil
}
