package bot

import (
	"cmp"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"strings"

	"musette/planner"
	"musette/storage"
)

// refused is a fault of one option. To others it is a *planner.InputError.
type refused struct {
	field string
	line  Line
}

func (r *refused) Error() string { return r.input().Error() }

func (r *refused) input() *planner.InputError {
	return &planner.InputError{Field: r.field, Msg: r.line.String()}
}

// As makes errors.As find the *planner.InputError.
func (r *refused) As(target any) bool {
	in, ok := target.(**planner.InputError)
	if ok {
		*in = r.input()
	}
	return ok
}

// refuse is a fault of one option, in one sentence that shows a right example.
func refuse(field string, t Template, args ...any) *refused {
	return &refused{field, Say(t, args...)}
}

// refusedOf is the fault of an option that an error is, nil where it is another.
func refusedOf(err error) *refused {
	var own *refused
	if errors.As(err, &own) {
		return own
	}
	if in := (*planner.InputError)(nil); errors.As(err, &in) {
		return refuse(in.Field, "%s", in.Msg)
	}
	return nil
}

// inField names the option of a fault that a parser found. Parsers know the
// text, not the option that it was written for.
func inField(field string, err error) error {
	switch own := refusedOf(err); {
	case own != nil:
		return &refused{field, own.line}
	case err == nil:
		return nil
	}
	return refuse(field, "%s", err.Error())
}

// userError is the one door from errors to words for people. The reference is
// empty for faults of the input and names the log line of all others: the
// request's own one where it is known. saved tells that what was told had been
// stored before the error.
func userError(err error, known string, saved bool) (fault *refused, ref string) {
	own := refusedOf(err)
	switch {
	case saved:
		ref = cmp.Or(known, NewRef())
		return refuse("", "Your entry is stored, but the answer to it broke. See /me show or /race list, or tell the club's admin the reference %s.", ref), ref
	case own != nil:
		return own, ""
	case errors.Is(err, storage.ErrNotFound):
		return refuse("", "That is not there any more. Look again with /race list or /me show."), ""
	case errors.Is(err, storage.ErrExists):
		return refuse("", "That is stored already; nothing changed."), ""
	}
	ref = cmp.Or(known, NewRef())
	return refuse("", "Something broke here. See what is stored with /me show and /race list, try again, or tell the club's admin the reference %s.", ref), ref
}

// NewRef is a short reference that people can read out: k3f9w.
func NewRef() string {
	var b [4]byte
	_, _ = rand.Read(b[:]) // never fails since Go 1.24
	return strings.ToLower(base32.StdEncoding.EncodeToString(b[:])[:5])
}

// Refusal is the reply to a fault of one field.
func Refusal(field string, t Template, args ...any) Reply {
	line := Say(t, args...)
	all := line
	if field != "" {
		all = Say("%s: %s", field, line)
	}
	return Reply{Topic: TopicCommand, Topics: []string{TopicCommand}, Lines: []Line{all}, Private: true,
		Err: &FieldError{Field: field, Message: line.String(), Line: line}}
}
