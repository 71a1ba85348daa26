package storage

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Key is by what a club or a rider is found. The zero Key finds nobody.
type Key struct{ text string }

// NameKey is the key of somebody who is known by name alone.
func NameKey(name string) Key { return Key{Fold(name)} }

// PlatformKey is the key of somebody to whom a platform gave a number. It is no
// name's: a folded name holds no small letter.
func PlatformKey(platform, id string) Key { return Key{strings.ToLower(platform) + ":" + id} }

// IsZero reports whether the key is missing.
func (k Key) IsZero() bool { return k.text == "" }

// isPlatform reports a key that PlatformKey made: folded names begin with no small letter.
func (k Key) isPlatform() bool {
	return k.text != "" && 'a' <= k.text[0] && k.text[0] <= 'z' && strings.Contains(k.text, ":")
}

// ID is the platform's number behind a key; ok is false for other keys.
func (k Key) ID(platform string) (id string, ok bool) {
	return strings.CutPrefix(k.text, PlatformKey(platform, "").text)
}

// maxShown is how long a name from a platform may be, in characters.
const maxShown = 80

// ShownName makes a name from a platform fit to be stored and shown: what
// cannot be seen is dropped and a long name is cut; fallback stands for nothing left.
func ShownName(name, fallback string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case r == utf8.RuneError:
			return -1
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unseen(r):
			return -1
		}
		return r
	}, name)
	name = strings.Join(strings.Fields(norm.NFC.String(name)), " ")
	if runes := []rune(name); len(runes) > maxShown {
		name = strings.TrimSpace(string(runes[:maxShown]))
	}
	name = strings.Join(strings.Fields(norm.NFC.String(withoutStray(name))), " ")
	if !strings.ContainsFunc(name, inked) {
		return fallback
	}
	return name
}

// inked tells characters that leave a mark by themselves. The blank pattern of
// Braille leaves none, for all that it is a symbol.
func inked(r rune) bool {
	return r != '\u2800' && unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S)
}
