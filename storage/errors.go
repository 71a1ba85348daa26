package storage

import (
	"errors"
	"strings"
	"time"
	"unicode/utf8"

	"musette/planner"
)

// Errors that callers tell apart with errors.Is. What a person wrote wrongly
// comes back as *planner.InputError.
var (
	ErrNotFound = errors.New("not found")
	ErrExists   = errors.New("exists already")
)

var errNotOurs = errors.New("the file is not a musette database; choose another name")

// checkName refuses names that the schema would refuse, in words for people.
func checkName(field, name, example string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return &planner.InputError{Field: field, Msg: "a name is needed; for example " + example}
	case utf8.RuneCountInString(name) > planner.MaxText:
		return &planner.InputError{Field: field, Msg: "is longer than 200 characters; for example " + example}
	}
	return nil
}

// checkZone refuses what is not an IANA name, because every later reading of the clock depends on it.
func checkZone(zone string) error {
	_, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return &planner.InputError{Field: "zone", Msg: `"` + zone + `" is not a time zone; for example Europe/Lisbon`}
	}
	return nil
}
