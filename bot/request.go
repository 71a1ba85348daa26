package bot

import (
	"time"

	"musette/planner"
	"musette/storage"
)

// Request is one thing that a person asks, whatever carried it here.
// A Command is a name of the table ("race add") with its Options as they were
// typed; without one, Text is a plain question.
type Request struct {
	Command string
	Options map[string]string
	Text    string

	Club, Athlete string // names as the transport shows them, found in capitals or not
	Coach         bool   // the person may do what only the club's coaches may
	Zone          string // IANA zone of riders who have set none; empty: the club's
	Home          string // IANA zone of clubs that are new; empty: Zone, else UTC
	Now           time.Time

	rider *rider // who asks, looked up once by Handle
}

// rider is the person behind a request with the day that their calendar shows.
// The athlete's number is 0 until the first fact of theirs is stored.
type rider struct {
	club    storage.Club
	athlete storage.Athlete
	zone    *time.Location
	today   planner.Date
	saved   bool // the request has stored something
}

// get is an option without surrounding blanks; "" where it was not given.
func (r *Request) get(option string) string { return r.Options[option] }

// has reports whether the option was given.
func (r *Request) has(option string) bool {
	_, ok := r.Options[option]
	return ok
}
