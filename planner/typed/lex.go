package typed

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
)

type tokenKind uint8

const (
	numberToken tokenKind = iota
	wordToken
	markToken
)

// token is a number, a word in lower case or a single mark. Glued tokens follow
// the one before them without a space.
type token struct {
	kind   tokenKind
	text   string
	value  float64
	whole  bool // a number without decimals
	digits int
	glued  bool
}

func (t token) isWord(s string) bool { return t.kind == wordToken && t.text == s }
func (t token) isMark(s string) bool { return t.kind == markToken && t.text == s }

// maxDigits keeps every number exact; longer ones become marks that nothing accepts.
const maxDigits = 9

// lex splits what a person typed. With decimals, 1.5 and 1,5 are one number.
// The signs for times, minutes and seconds become the words x, ' and ".
func lex(s string, decimals bool) []token {
	runes := []rune(strings.ToLower(s))
	var out []token
	glued := false
	for i := 0; i < len(runes); {
		r := runes[i]
		if unicode.IsSpace(r) {
			glued = false
			i++
			continue
		}
		t, n := token{}, 1
		switch {
		case isDigit(r) || decimals && bareDecimal(runes, i):
			t, n = lexNumber(runes[i:], decimals)
		case unicode.IsLetter(r):
			for i+n < len(runes) && unicode.IsLetter(runes[i+n]) {
				n++
			}
			t = token{kind: wordToken, text: string(runes[i : i+n])}
		default:
			t = lexSign(r)
			if t.isWord("'") && i+1 < len(runes) && lexSign(runes[i+1]).isWord("'") {
				t.text, n = `"`, 2
			}
		}
		t.glued = glued
		out = append(out, t)
		glued = true
		i += n
	}
	return out
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// bareDecimal reports whether a decimal without its nought begins at i: .5h. A comma parts
// sessions too, so it begins a number only where nothing stands before it.
func bareDecimal(runes []rune, i int) bool {
	if i+1 >= len(runes) || !isDigit(runes[i+1]) {
		return false
	}
	switch runes[i] {
	case '.':
		return i == 0 || !unicode.IsLetter(runes[i-1]) && !isDigit(runes[i-1]) && runes[i-1] != '.'
	case ',':
		return i == 0
	}
	return false
}

func lexNumber(runes []rune, decimals bool) (token, int) {
	n := 0
	for n < len(runes) && isDigit(runes[n]) {
		n++
	}
	t := token{kind: numberToken, whole: true, digits: n}
	if decimals && n+1 < len(runes) && (runes[n] == '.' || runes[n] == ',') && isDigit(runes[n+1]) {
		t.whole = false
		for n++; n < len(runes) && isDigit(runes[n]); n++ {
		}
	}
	t.text = string(runes[:n])
	if t.digits > maxDigits || n > 2*maxDigits {
		t.kind = markToken
		return t, n
	}
	// Only digits and one separator are left, so this cannot fail.
	t.value, _ = strconv.ParseFloat(strings.Replace(t.text, ",", ".", 1), 64)
	return t, n
}

func lexSign(r rune) token {
	switch r {
	case '×', '✕', '*':
		return token{kind: wordToken, text: "x"}
	case '\'', '’', '‘', '′', '´':
		return token{kind: wordToken, text: "'"}
	case '"', '”', '“', '″':
		return token{kind: wordToken, text: `"`}
	case '–', '—', '−':
		return token{kind: markToken, text: "-"}
	}
	return token{kind: markToken, text: string(r)}
}

// quoted is s in quotes on one line, shortened where it is long.
func quoted(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "…"
	}
	return strconv.Quote(s)
}

// checkLength refuses texts that are longer than MaxText.
func checkLength(s, example string) error {
	if n := utf8.RuneCountInString(s); n > planner.MaxText {
		return planner.BadInput("", "%d characters are more than %d. For example %s", n, planner.MaxText, example)
	}
	return nil
}

// didYouMean is a question naming the word nearest to s, or "" where none is near.
func didYouMean(s string, among []string) string {
	if near := Nearest(s, among); near != "" {
		return fmt.Sprintf(" (did you mean %s?)", near)
	}
	return ""
}
