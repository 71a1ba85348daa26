package storage

import (
	"errors"
	"time"
	_ "time/tzdata" // zones work on machines without zone files, too

	"musette/planner"
)

// Errors that callers tell apart with errors.Is. What a person wrote wrongly
// comes back as *planner.InputError.
var (
	ErrNotFound = errors.New("not found")
	ErrExists   = errors.New("exists already")
	ErrPast     = errors.New("is past")
)

// Overlap is the refusal of a block that another one touches.
type Overlap struct{ With planner.Block }

// Error names the stretch of the other block.
func (e *Overlap) Error() string {
	return "a block from " + e.With.From.String() + " to " + e.With.To.String() + " is in the way"
}

var errNotOurs = errors.New("the file is not a musette database; choose another name")

// checkZone refuses what is not an IANA name, because every later reading of the clock depends on it.
func checkZone(zone string) error {
	_, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return &planner.InputError{Field: "zone", Msg: `"` + zone + `" is not a time zone; for example Europe/Lisbon`}
	}
	return nil
}
