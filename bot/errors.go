package bot

import (
	"cmp"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"fmt"
	"strings"

	"musette/planner"
	"musette/storage"
)

// refuse is a fault of one option, in one sentence that shows a right example.
func refuse(field, format string, args ...any) *planner.InputError {
	return &planner.InputError{Field: field, Msg: fmt.Sprintf(format, args...)}
}

// inField names the option of a fault that a parser found. Parsers know the
// text, not the option that it was written for.
func inField(field string, err error) error {
	var in *planner.InputError
	if errors.As(err, &in) {
		return &planner.InputError{Field: field, Msg: in.Msg}
	}
	if err == nil {
		return nil
	}
	return &planner.InputError{Field: field, Msg: err.Error()}
}

// userError is the one door from errors to words for people. The reference is
// empty for faults of the input and names the log line of all others: the
// request's own one where it is known. saved tells that what was told had been
// stored before the error.
func userError(err error, known string, saved bool) (fault FieldError, ref string) {
	var in *planner.InputError
	switch {
	case saved:
		ref = cmp.Or(known, NewRef())
		return FieldError{Message: "What you told is stored, but the answer to it broke; see /me show or /race list, or tell the club's admin the reference " + ref + "."}, ref
	case errors.As(err, &in):
		return FieldError{Field: in.Field, Message: in.Msg}, ""
	case errors.Is(err, storage.ErrNotFound):
		return FieldError{Message: "That is not there any more; look again with /race list or /me show."}, ""
	case errors.Is(err, storage.ErrExists):
		return FieldError{Message: "That is stored already; nothing changed."}, ""
	}
	ref = cmp.Or(known, NewRef())
	return FieldError{Message: "Something broke here; see what is stored with /me show and /race list, try again, or tell the club's admin the reference " + ref + "."}, ref
}

// NewRef is a short reference that people can read out: k3f9w.
func NewRef() string {
	var b [4]byte
	_, _ = rand.Read(b[:]) // never fails since Go 1.24
	return strings.ToLower(base32.StdEncoding.EncodeToString(b[:])[:5])
}
