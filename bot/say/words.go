package say

import (
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// None takes back what was entered before.
const None = "none"

// TakeBack is the label of the button that takes back an entry of before.
const TakeBack = "Take it back"

// Clip16 is the text, cut where it is longer than that many units of UTF-16, by
// which some clients count.
func Clip16(s string, most int) string {
	for i, r := range s {
		if most -= utf16.RuneLen(r); most < 0 {
			return strings.TrimSpace(s[:i])
		}
	}
	return s
}

// AndList is "a, b and c".
func AndList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Shown is what people typed in quotes on one line, shortened where it is long.
func Shown(s string) string { return `"` + Clip(s) + `"` }

// Clip shortens what people typed, and drops control characters, before it is
// shown back to them.
func Clip(s string) string {
	const most = 40
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return '?'
		}
		return r
	}, s)
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "..."
}

// OrList is "a, b or c".
func OrList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// UpperFirst is a text that begins with a capital.
func UpperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
