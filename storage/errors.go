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

// What can befall the file itself. Each says what mends it.
var (
	ErrBusy     = errors.New("another program holds the database for too long. End it, or try again in a moment")
	ErrFull     = errors.New("no space is left on the disk of the database. Free some, then try again")
	ErrReadOnly = errors.New("the database cannot be written. Give the file and its folder to the user that runs musette, and mount the disk writable")
	ErrDamaged  = errors.New("the database file is damaged. Stop the bot and put back a backup, see musette restore --help")
	ErrDisk     = errors.New("the disk of the database fails. Look for faults of the disk in the log of this machine, then put back a backup on a sound one")
)

// fileFault is what befell the file, with what the driver said of it.
type fileFault struct{ kind, cause error }

func (f *fileFault) Error() string   { return f.kind.Error() + " (" + f.cause.Error() + ")" }
func (f *fileFault) Unwrap() []error { return []error{f.kind, f.cause} }

// fileFaultOf is what befell the file, with what mends it; other errors stay as they are.
func fileFaultOf(err error) error {
	if fault, ok := errors.AsType[*fileFault](explain(err)); ok {
		return fault
	}
	return err
}

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

var errNotOurs = errors.New("the file is not a musette database. Choose another name")

// errNoDatabase is that a file does not begin as each database of SQLite does: it is
// another program's, or ours with a damaged beginning.
var errNoDatabase = errors.New("the file is not a musette database, or its beginning is damaged. Name another file, or put back a backup, see musette restore --help")

// checkZone refuses what is not an IANA name, because every later reading of the clock depends on it.
func checkZone(zone string) error {
	_, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return &planner.InputError{Field: "zone", Msg: `"` + zone + `" is not a time zone. For example Europe/Lisbon`}
	}
	return nil
}

// Foreign reports an error by which a file is another program's, or may be.
func Foreign(err error) bool { return errors.Is(err, errNotOurs) || errors.Is(err, errNoDatabase) }
