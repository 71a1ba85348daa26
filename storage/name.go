package storage

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/planner"
)

// Fold is the form by which names are the same: without regard to case, by
// Unicode's simple folding as strings.EqualFold does it, and to how many blanks
// part the words.
func Fold(name string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			least = min(least, next)
		}
		return least
	}, strings.Join(strings.Fields(name), " "))
}

// CheckName refuses a name that is empty, too long or holds what cannot be
// seen, since two names that look the same must be the same.
func CheckName(field, name, example string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return &planner.InputError{Field: field, Msg: "a name is needed. For example " + example}
	case utf8.RuneCountInString(name) > planner.MaxText:
		return &planner.InputError{Field: field, Msg: "is longer than 200 characters. For example " + example}
	case !utf8.ValidString(name) || strings.ContainsFunc(name, unseen) || withoutStray(name) != name:
		return &planner.InputError{Field: field, Msg: "holds characters that cannot be seen. For example " + example}
	}
	return nil
}

// unseen tells control, zero-width and direction characters and invisible fillers;
// joiners and tags are looked at where they are.
func unseen(r rune) bool {
	return !needsPlace(r) && (unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point))
}
