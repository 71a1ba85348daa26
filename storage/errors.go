package storage

import (
	"errors"
	"fmt"
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

// SchemaError is the refusal of a database whose schema is not that of this program.
type SchemaError struct {
	Have   int64 // number of the database's last migration; 0: an empty file
	Newest int64 // that this program knows
}

// Error tells which musette the file needs.
func (e *SchemaError) Error() string {
	if e.Have > e.Newest {
		return fmt.Sprintf("a newer musette made it (schema %d, this program knows %d). Install the newer musette or name another file", e.Have, e.Newest)
	}
	return fmt.Sprintf("an older musette made it (schema %d, this program has %d). musette serve brings it up to date", e.Have, e.Newest)
}

var errNotOurs = errors.New("the file is not a musette database; choose another name")

// checkZone refuses what is not an IANA name, because every later reading of the clock depends on it.
func checkZone(zone string) error {
	_, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return &planner.InputError{Field: "zone", Msg: `"` + zone + `" is not a time zone. For example Europe/Lisbon`}
	}
	return nil
}
