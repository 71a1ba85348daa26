package desk

import (
	"slices"
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

	// Names as the transport shows them. A key, where the transport has one,
	// finds club or rider whatever they are called now; else the name does,
	// in capitals or not.
	Club, Athlete       string
	ClubKey, AthleteKey storage.Key
	Elsewhere           bool // the names are not those by which the club shows them: stored ones stay

	Coach bool     // the person is one of the club's coaches
	Admin bool     // the person runs the club's server
	Roles []string // the person's roles in the club, as the transport writes them

	Ask   bool   // show what a destructive command would do, and a button that does it
	Forms bool   // the transport can show a form
	Ref   string // names the request in log lines; empty: none

	Zone string // IANA zone of riders who have set none; empty: the club's
	Home string // IANA zone of clubs that are new; empty: Zone, else UTC
	Now  time.Time

	Rider *Rider // who asks, looked up once by Handle
}

// Rider is the person behind a request with the day that their calendar shows.
// The athlete's number is 0 until the first fact of theirs is stored.
type Rider struct {
	Club    storage.Club
	Athlete storage.Athlete
	Zone    *time.Location
	Today   planner.Date
	Saved   bool // the request has stored something
}

// IsCoach reports whether the person is one of the club's coaches: the transport
// says so, or they have the role that the club set.
func (r *Request) IsCoach() bool {
	role := r.Rider.Club.Setup.CoachRole
	return r.Coach || role != "" && slices.Contains(r.Roles, role)
}

// Get is an option without surrounding blanks; "" where it was not given.
func (r *Request) Get(option string) string { return r.Options[option] }

// Has reports whether the option was given.
func (r *Request) Has(option string) bool {
	_, ok := r.Options[option]
	return ok
}
