package storage

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/secure/precis"
)

// The joiners of Unicode: nobody sees them by themselves, and emoji and scripts need them.
const (
	nonJoiner = '\u200c'
	joiner    = '\u200d'
)

func joins(r rune) bool { return r == nonJoiner || r == joiner }

// scripts knows where a script has joiners: behind a virama, and between letters
// that would be written joined. Source: RFC 8264 with RFC 5892, appendix A.1 and A.2.
var scripts = precis.NewFreeform()

// withoutStray is a name without the joiners that change nothing where they stand.
func withoutStray(name string) string {
	if !strings.ContainsFunc(name, joins) {
		return name
	}
	words := strings.Split(name, " ")
	for i, word := range words {
		words[i] = wordWithoutStray(word)
	}
	return strings.Join(words, " ")
}

func wordWithoutStray(word string) string {
	runes := []rune(word)
	emoji := make([]bool, len(runes)) // joiners between two pictures
	var text []rune                   // what a script may join
	for i, r := range runes {
		if emoji[i] = r == joiner && joinsPictures(runes, i); !emoji[i] && (joins(r) || unicode.In(r, unicode.L, unicode.M) && !unicode.Is(unicode.Variation_Selector, r)) {
			text = append(text, r)
		}
	}
	if !slices.ContainsFunc(text, joins) {
		return word
	}
	if _, err := scripts.String(string(text)); err == nil {
		return word
	}
	var out []rune
	for i, r := range runes {
		if !joins(r) || emoji[i] {
			out = append(out, r)
		}
	}
	return string(out)
}

// joinsPictures reports a joiner that makes one picture of two, of which the first
// may have a colour of skin or be marked as a picture.
// Source: https://www.unicode.org/reports/tr51/#def_emoji_zwj_sequence
func joinsPictures(runes []rune, at int) bool {
	before := at - 1
	for before > 0 && (runes[before] == '\ufe0f' || '\U0001f3fb' <= runes[before] && runes[before] <= '\U0001f3ff') {
		before--
	}
	return before >= 0 && at+1 < len(runes) && unicode.Is(pictures, runes[before]) && unicode.Is(pictures, runes[at+1])
}

// pictures are the blocks that hold what Unicode calls Extended_Pictographic, and of
// single characters those that sequences have.
// Source: https://www.unicode.org/Public/UCD/latest/ucd/emoji/emoji-data.txt
var pictures = &unicode.RangeTable{
	R16: []unicode.Range16{{0x2190, 0x21ff, 1}, {0x2300, 0x23ff, 1}, {0x2600, 0x27bf, 1}, {0x2b00, 0x2bff, 1}},
	R32: []unicode.Range32{{0x1f000, 0x1f1e5, 1}, {0x1f200, 0x1f3fa, 1}, {0x1f400, 0x1faff, 1}},
}
