package say

import (
	"cmp"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"slices"
	"strings"

	"musette/planner"
	"musette/storage"
)

// Refused is a fault of one option, and of more where several are wrong. To others it
// is a *planner.InputError about the first.
type Refused struct {
	Field string
	Line  Line
	More  []*Refused // faults of other options
	cause error      // what a parser said, nil where the fault was found here
}

// Unwrap is what a parser said of the text.
func (r *Refused) Unwrap() error { return r.cause }

func (r *Refused) Error() string { return r.input().Error() }

func (r *Refused) input() *planner.InputError {
	return &planner.InputError{Field: r.Field, Msg: r.Line.String()}
}

// As makes errors.As find the *planner.InputError.
func (r *Refused) As(target any) bool {
	in, ok := target.(**planner.InputError)
	if ok {
		*in = r.input()
	}
	return ok
}

// Refuse is a fault of one option, in one sentence that shows a right example.
func Refuse(field string, t Template, args ...any) *Refused {
	return &Refused{Field: field, Line: Linef(t, args...)}
}

// Lines say each fault behind the name of its option.
func (r *Refused) Lines() []Line {
	var lines []Line
	for _, fault := range r.all() {
		if fault.Field == "" {
			lines = append(lines, fault.Line)
		} else {
			lines = append(lines, Linef("%s: %s", fault.Field, fault.Line))
		}
	}
	return lines
}

func (r *Refused) all() []*Refused { return append([]*Refused{r}, r.More...) }

// Together is one refusal for the faults of several options, each said once. An error
// that is no fault of an option goes before them.
func Together(errs ...error) error {
	var all []*Refused
	for _, err := range errs {
		fault := refusedOf(err)
		if fault == nil && err != nil {
			return err
		}
		if fault == nil {
			continue
		}
		for _, one := range fault.all() {
			if !slices.ContainsFunc(all, func(r *Refused) bool { return r.Field == one.Field }) {
				all = append(all, one)
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	return &Refused{all[0].Field, all[0].Line, all[1:], all[0].cause}
}

// InOrder puts the faults of a refusal into the order of the options.
func InOrder(err error, options []string) error {
	fault := refusedOf(err)
	if fault == nil || len(fault.More) == 0 {
		return err
	}
	all := fault.all()
	place := func(r *Refused) int { return slices.Index(options, r.Field) }
	slices.SortStableFunc(all, func(a, b *Refused) int { return cmp.Compare(place(a), place(b)) })
	return &Refused{all[0].Field, all[0].Line, all[1:], all[0].cause}
}

// refusedOf is the fault of an option that an error is, nil where it is another.
func refusedOf(err error) *Refused {
	var own *Refused
	if errors.As(err, &own) {
		return own
	}
	if in := (*planner.InputError)(nil); errors.As(err, &in) {
		return Refuse(in.Field, "%s", in.Msg)
	}
	return nil
}

// InField names the option of a fault that a parser found. Parsers know the
// text, not the option that it was written for.
func InField(field string, err error) error {
	switch own := refusedOf(err); {
	case own != nil:
		return &Refused{field, own.Line, own.More, err}
	case err == nil:
		return nil
	}
	return Refuse(field, "%s", err.Error())
}

// UserError is the one door from errors to words for people. The reference is
// empty for faults of the input and names the log line of all others: the
// request's own one where it is known. saved says that the entry had been
// stored before the error.
func UserError(err error, known string, saved bool) (fault *Refused, ref string) {
	own := refusedOf(err)
	switch {
	case saved:
		ref = cmp.Or(known, NewRef())
		return Refuse("", "Your entry is stored, but the answer to it broke. See /me show or /race list, or tell the club's admin the reference %s.", ref), ref
	case own != nil:
		return own, ""
	case errors.Is(err, storage.ErrNotFound):
		return Refuse("", "That is not there any more. Look again with /race list or /me show."), ""
	case errors.Is(err, storage.ErrExists):
		return Refuse("", "That is stored already. Nothing changed."), ""
	}
	ref = cmp.Or(known, NewRef())
	switch {
	case errors.Is(err, storage.ErrBusy):
		return Refuse("", "The database is busy, so nothing has changed. Try again in a minute, or tell the club's admin the reference %s.", ref), ref
	case errors.Is(err, storage.ErrFull), errors.Is(err, storage.ErrReadOnly):
		return Refuse("", "I cannot store anything now, so nothing has changed. Tell the club's admin that musette check says why (reference %s).", ref), ref
	case errors.Is(err, storage.ErrDamaged), errors.Is(err, storage.ErrDisk):
		return Refuse("", "I cannot read what is stored. Tell the club's admin that musette check says why (reference %s).", ref), ref
	}
	return Refuse("", "Something broke here. See what is stored with /me show and /race list, try again, or tell the club's admin the reference %s.", ref), ref
}

// NewRef is a short reference that people can read out: k3f9w.
func NewRef() string {
	var b [4]byte
	_, _ = rand.Read(b[:]) // never fails since Go 1.24
	return strings.ToLower(base32.StdEncoding.EncodeToString(b[:])[:5])
}

// Refusal is the reply to a fault of one field.
func Refusal(field string, t Template, args ...any) Reply {
	return RefusalOf(Refuse(field, t, args...))
}

// RefusalOf is the reply to faults, a line each.
func RefusalOf(fault *Refused) Reply {
	reply := Reply{Topic: TopicCommand, Topics: []string{TopicCommand}, Lines: fault.Lines(), Private: true}
	for _, one := range fault.all() {
		told := FieldError{Field: one.Field, Message: one.Line.String(), Line: one.Line}
		if reply.Err == nil {
			reply.Err = &told
		} else {
			reply.Err.More = append(reply.Err.More, told)
		}
	}
	return reply
}
