package typed

import (
	"slices"
	"strings"
	"time"

	"musette/planner"
)

// spellings are words that are written in more than one way, as one that is read.
var spellings = map[string]string{
	"tmw": "tomorrow", "tmrw": "tomorrow", "tmr": "tomorrow", "tmoz": "tomorrow", "tomoz": "tomorrow", "tmoro": "tomorrow", "tomoro": "tomorrow", "tommorow": "tomorrow",
	"2moro": "tomorrow", "2moz": "tomorrow", "2mrw": "tomorrow", "2morrow": "tomorrow", "2mw": "tomorrow", "tomo": "tomorrow", "morrow": "tomorrow",
	"2day": "today", "tdy": "today", "2nite": "tonight", "tonite": "tonight", "y'day": "yesterday", "y’day": "yesterday", "yday": "yesterday", "ystd": "yesterday", "yest": "yesterday",
	"nite": "night", "mornin": "morning", "satdy": "saturday", "aft": "afternoon", "arvo": "afternoon", "eve": "evening", "eves": "evening", "am": "morning", "pm": "afternoon",
	"nxt": "next", "wk": "week", "wks": "weeks", "wkend": "weekend", "wknd": "weekend", "weekends": "weekend", "fortnights": "fortnight", "fornight": "fortnight", "mnth": "month", "mth": "month",
	"b4": "before", "bfore": "before", "comming": "coming", "upcoming": "coming", "previous": "last", "prev": "last", "final": "last",
	"wensday": "wednesday", "wendsday": "wednesday", "wednesdy": "wednesday", "saterday": "saturday", "thirsday": "thursday", "thurday": "thursday", "overmorrow": "day after tomorrow", "jly": "july", "jne": "june",
	"it's": "its", "it’s": "its", "that's": "its", "thats": "its", "time's": "time", "days'": "days", "weeks'": "weeks", "week's": "week", "month's": "month",
}

// otherMonths are months as neighbours write them, where they mean one month only.
var otherMonths = map[string]time.Month{
	"januar": 1, "janvier": 1, "enero": 1, "janeiro": 1, "gennaio": 1, "februar": 2, "fevrier": 2, "février": 2, "febrero": 2, "fevereiro": 2, "febbraio": 2,
	"märz": 3, "maerz": 3, "mars": 3, "marzo": 3, "março": 3, "avril": 4, "abril": 4, "aprile": 4, "mai": 5, "mayo": 5, "maio": 5, "maggio": 5,
	"juni": 6, "juin": 6, "junio": 6, "junho": 6, "giugno": 6, "juli": 7, "juillet": 7, "julio": 7, "julho": 7, "luglio": 7, "août": 8, "aout": 8, "agosto": 8,
	"septembre": 9, "septiembre": 9, "setembro": 9, "settembre": 9, "oktober": 10, "octobre": 10, "octubre": 10, "outubro": 10, "ottobre": 10,
	"novembre": 11, "noviembre": 11, "novembro": 11, "dezember": 12, "décembre": 12, "decembre": 12, "diciembre": 12, "dezembro": 12, "dicembre": 12,
}

// idleWords say nothing about the day.
var idleWords = map[string]bool{"of": true, "de": true, "le": true, "its": true, "it": true, "is": true, "please": true, "i": true, "think": true, "reckon": true, "that": true}

var dayParts = map[string]bool{"morning": true, "afternoon": true, "evening": true, "night": true, "lunchtime": true}

var relativeDays = map[string]int{"today": 0, "tonight": 0, "tomorrow": 1, "yesterday": -1}

// unitDays are the days of a unit; a month has its own length.
var unitDays = map[string]int{"day": 1, "days": 1, "nights": 1, "week": 7, "weeks": 7, "fortnight": 14, "month": 0, "months": 0}

// formWords carry the sense of a form and are compared as they are.
var formWords = []string{
	"in", "on", "this", "next", "last", "past", "passed", "gone", "just", "coming", "after", "before", "ago", "from", "now", "time", "weekend", "back", "earlier", "later",
	"end", "early", "late", "mid", "middle", "beginning", "sometime",
}

// dateWords are what a mistyped word may have meant.
func dateWords() []string {
	out := []string{"today", "tomorrow", "yesterday", "weekend", "fortnight", "next", "last"}
	for d := planner.Monday; d <= planner.Sunday; d++ {
		out = append(out, strings.ToLower(d.String()))
	}
	for m := time.January; m <= time.December; m++ {
		out = append(out, strings.ToLower(m.String()))
	}
	return out
}

// respell writes each word of a text as it is read.
func respell(s string) string {
	words := strings.Fields(strings.ToLower(s))
	for i, w := range words {
		bare := strings.TrimRight(w, ".,!")
		if plain, ok := spellings[bare]; ok {
			words[i] = plain
		}
	}
	s = strings.Join(words, " ")
	return strings.ReplaceAll(s, "week end", "weekend")
}

// dateAtom is a word or number with its meaning: n a number, o one with st or th, m
// a month, w a weekday, r a day beside today, u a unit, t a word of a form.
type dateAtom struct {
	kind    byte
	value   int
	digits  int
	month   time.Month
	weekday planner.Weekday
	text    string
}

// understand gives the tokens meaning and leaves out what carries none. It reports the
// first word that it does not know, or that the signs are none of a date.
func (r *dateReader) understand(toks []token) (unknown string, ok bool) {
	for i := 0; i < len(toks); i++ {
		t, next := toks[i], token{kind: markToken}
		if i+1 < len(toks) {
			next = toks[i+1]
		}
		last := len(r.atoms) - 1
		switch {
		case t.kind == markToken:
			sign := !t.isMark("(") && !t.glued && next.glued // the dash of -3
			if !slices.Contains([]string{",", ".", "/", "-", "(", ")"}, t.text) || sign {
				return "", false
			}
		case t.kind == numberToken:
			r.atoms = append(r.atoms, dateAtom{kind: 'n', value: int(t.value), digits: t.digits, text: t.text})
			if the := i > 0 && toks[i-1].isWord("the"); the && t.digits <= 2 {
				r.atoms[last+1].kind = 'o'
			}
		case t.glued && last >= 0 && r.atoms[last].digits > 0 && ordinalOf(r.atoms[last].value) == t.text:
			r.atoms[last].kind = 'o'
		case t.isWord("the"), i == 0 && (t.isWord("on") || t.isWord("since")), idleWords[t.text]:
		case (t.isWord("a") || t.isWord("an")) && unitWord(next.text):
			r.atoms = append(r.atoms, dateAtom{kind: 'n', value: 1, text: t.text})
		case t.isWord("a") && isWeekday(next.text):
		case dayParts[t.text] && last >= 0 && (r.atoms[last].kind == 'r' || r.atoms[last].kind == 'w'):
		default:
			if unknown = r.word(t.text); unknown != "" {
				return unknown, false
			}
		}
	}
	return "", len(r.atoms) > 0
}

func isWeekday(s string) bool { _, ok := weekdayWord(s); return ok }

func unitWord(s string) bool { _, ok := unitDays[s]; return ok }

// word adds a word's atom, or returns the word where it is none of a date.
func (r *dateReader) word(s string) (unknown string) {
	a, ok := dateWord(s)
	if !ok {
		near := soleNear(s, dateWords())
		if near == "" {
			return s
		}
		a, _ = dateWord(near)
	}
	last := len(r.atoms) - 1
	if tens := last >= 0 && a.digits == 0 && (a.kind == 'n' || a.kind == 'o') && a.value < 10 && r.atoms[last].kind == 'n' && r.atoms[last].digits == 0 &&
		r.atoms[last].value >= 20 && r.atoms[last].value%10 == 0; tens { // twenty first
		r.atoms[last].value += a.value
		r.atoms[last].kind = a.kind
		return ""
	}
	r.atoms = append(r.atoms, a)
	return ""
}

func dateWord(s string) (dateAtom, bool) {
	if w, ok := weekdayWord(s); ok {
		return dateAtom{kind: 'w', weekday: w, text: s}, true
	}
	if m, ok := parseMonth(s); ok {
		return dateAtom{kind: 'm', month: m, text: s}, true
	}
	if n, ok := relativeDays[s]; ok {
		return dateAtom{kind: 'r', value: n, text: s}, true
	}
	if unitWord(s) {
		return dateAtom{kind: 'u', value: unitDays[s], text: s}, true
	}
	if n, ok := numberWords[s]; ok {
		return dateAtom{kind: 'n', value: n, text: s}, true
	}
	if n := slices.Index(ordinalWords, s); n > 0 {
		return dateAtom{kind: 'o', value: n, text: s}, true
	}
	return dateAtom{kind: 't', text: s}, slices.Contains(formWords, s) || dayParts[s]
}

// key is the form of what was typed: its kinds, and its words of forms as they are.
func (r *dateReader) key() string {
	parts := make([]string, len(r.atoms))
	kept := r.atoms[:0:0]
	for i, a := range r.atoms {
		if a.kind == 't' {
			parts[i] = strings.ToUpper(a.text)
			continue
		}
		parts[i] = string(a.kind)
		kept = append(kept, a)
	}
	r.atoms = kept
	return strings.Join(parts, " ")
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

// parseMonth reads a month's name, whole or shortened to three letters or more.
func parseMonth(s string) (time.Month, bool) {
	if m, ok := otherMonths[s]; ok {
		return m, true
	}
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
