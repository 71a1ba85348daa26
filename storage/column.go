package storage

import (
	"fmt"
	"time"

	"musette/planner"
)

// isoDate reads a day written as ISO text.
type isoDate planner.Date

// Scan implements sql.Scanner.
func (d *isoDate) Scan(value any) error {
	text, ok := value.(string)
	if !ok {
		return unreadable("a day is stored as %T, not as text", value)
	}
	date, err := planner.ParseISODate(text)
	if err != nil {
		return unreadable("%w", err)
	}
	*d = isoDate(date)
	return nil
}

// unreadable is a value that no musette has stored.
func unreadable(format string, args ...any) error {
	return &fileFault{ErrDamaged, fmt.Errorf(format, args...)}
}

// date reads a column of ISO text into d.
func date(d *planner.Date) *isoDate { return (*isoDate)(d) }

// optionalDate reads a day written as ISO text, NULL as none.
type optionalDate planner.Date

// Scan implements sql.Scanner.
func (d *optionalDate) Scan(value any) error {
	if value == nil {
		*d = 0
		return nil
	}
	return (*isoDate)(d).Scan(value)
}

// stored is a day as it is written, NULL for none.
func stored(d planner.Date) any {
	if d.IsZero() {
		return nil
	}
	return d.String()
}

// word is a named value that is stored by its name.
type word interface {
	comparable
	String() string
}

// words reads a column that holds the name of one of all.
type words[T word] struct {
	to  *T
	all []T
}

// Scan implements sql.Scanner.
func (w words[T]) Scan(value any) error {
	for _, candidate := range w.all {
		if value == candidate.String() {
			*w.to = candidate
			return nil
		}
	}
	return unreadable("%v is not one of %v", value, w.all)
}

func oneOf[T word](to *T, all ...T) words[T] { return words[T]{to, all} }

// instant reads milliseconds since 1970 into t, in UTC.
type instant struct{ to *time.Time }

// Scan implements sql.Scanner.
func (i instant) Scan(value any) error {
	ms, ok := value.(int64)
	if !ok {
		return unreadable("an instant is stored as %T, not as an integer", value)
	}
	*i.to = time.UnixMilli(ms).UTC()
	return nil
}
