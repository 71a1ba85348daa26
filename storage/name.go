package storage

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
)

// Fold is the form by which names are the same: without regard to case, by
// Unicode's simple folding as strings.EqualFold does it, to how many blanks part
// the words, and to joiners that change nothing.
func Fold(name string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			least = min(least, next)
		}
		return least
	}, strings.Join(strings.Fields(withoutStray(name)), " "))
}

// CheckName refuses a name that is empty, too long or holds what cannot be
// seen, since two names that look the same must be the same.
func CheckName(field, name, example string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return &planner.InputError{Field: field, Msg: "a name is needed. For example " + example}
	case utf8.RuneCountInString(name) > planner.MaxText:
		return &planner.InputError{Field: field, Msg: "is longer than 200 characters. For example " + example}
	case !utf8.ValidString(name):
		return &planner.InputError{Field: field, Msg: "holds bytes that are no text. For example " + example}
	}
	if r, place, found := firstUnseen(name); found {
		return &planner.InputError{Field: field, Msg: fmt.Sprintf("holds a character that cannot be seen and changes nothing: %U %s. Leave it out. For example %s", r, place, example)}
	}
	return nil
}

// firstUnseen is the first character that nobody sees, and where it is.
func firstUnseen(name string) (r rune, place string, found bool) {
	const shown = 20
	seen := []rune(sift(strings.Map(func(r rune) rune {
		if unseen(r) {
			return -1
		}
		return r
	}, name), true))
	at := 0
	for _, r = range name {
		if at == len(seen) || seen[at] != r {
			found = true
			break
		}
		at++
	}
	if at == 0 {
		return r, "at the beginning", found
	}
	return r, `behind "` + string(seen[max(0, at-shown):at]) + `"`, found
}

// unseen tells control, zero-width and direction characters and invisible fillers;
// joiners and tags are looked at where they are.
func unseen(r rune) bool {
	return !needsPlace(r) && (unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point))
}
