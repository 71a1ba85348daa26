package picture

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/go-analyze/charts/chartdraw/drawing"
	"golang.org/x/text/unicode/norm"
)

// nameless stands in for a race or title of which no letter can be drawn.
const nameless = "the race"

// Limits in characters: what is drawn or said of one name, and a whole Alt.
const (
	maxName = 80
	maxAlt  = 900
)

// drawable is a name with the characters that the letters have: emoji, scripts
// without glyphs and controls are left out, and what then only joins nothing.
func drawable(name string) string {
	medium, bold := drawing.GetFont(mediumName), drawing.GetFont(boldName)
	return tidy(name, func(r rune) bool {
		return unicode.IsGraphic(r) && !unicode.Is(unicode.M, r) && medium.Index(r) != 0 && bold.Index(r) != 0
	})
}

// sayable is a name for people who hear it: every script, no controls but those
// that letters and emoji are joined by and flags are made of.
func sayable(name string) string {
	return tidy(name, func(r rune) bool {
		return unicode.IsGraphic(r) || strings.ContainsRune(joiners, r) || unicode.Is(tags, r)
	})
}

// joiners keep letters apart or join them, and join emoji.
const joiners = "\u200c\u200d"

var tags = &unicode.RangeTable{R32: []unicode.Range32{{Lo: 0xe0020, Hi: 0xe007f, Stride: 1}}}

// tidy keeps the runes that are wanted, single spaces between words, and no
// loose punctuation where something was taken off an end.
func tidy(name string, wanted func(rune) bool) string {
	if len(name) > 4*maxName*4 { // typed names are far shorter; the rest would be cut anyway
		name = strings.ToValidUTF8(name[:4*maxName*4], "")
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(name) {
		switch {
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case r != utf8.RuneError && wanted(r):
			b.WriteRune(r)
		}
	}
	kept := strings.Join(strings.Fields(b.String()), " ")
	kept = strings.TrimLeft(kept, " :;,.-–—·|/")
	kept = strings.TrimRight(kept, " :;,-–—·|/")
	if !strings.ContainsFunc(kept, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
		return nameless
	}
	if runes := []rune(kept); len(runes) > maxName {
		return cutTo(runes, maxName-1)
	}
	return kept
}

// cutTo is the first n runes and an ellipsis.
func cutTo(runes []rune, n int) string {
	return strings.TrimRight(string(runes[:n]), " ,:;-"+joiners) + "…"
}

// capital starts s with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// speech gathers sentences until an Alt is full.
type speech struct{ b strings.Builder }

// say adds a sentence if it still fits, and reports whether it did.
func (s *speech) say(sentence string) bool {
	n := utf8.RuneCountInString(sentence)
	if s.b.Len() > 0 {
		n++
	}
	if utf8.RuneCountInString(s.b.String())+n > maxAlt {
		return false
	}
	if s.b.Len() > 0 {
		s.b.WriteByte(' ')
	}
	s.b.WriteString(sentence)
	return true
}

func (s *speech) String() string { return s.b.String() }
