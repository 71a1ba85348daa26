package desk

import (
	"slices"
	"time"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// StartOf is the instant at which a race begins, where the start is known and to come.
func (r *Request) StartOf(race *planner.Race) []say.Moment {
	return show.StartOf(race, r.Rider.Zone, r.Now)
}

// ExampleWeek is a right typical week, for hints.
const ExampleWeek = "mon recovery 40min; tue intervals 1h30 5x3min; thu off; sat long 3h"

// NeedWeek asks for the typical week without which nothing can be planned.
func (r *Request) NeedWeek() say.Reply {
	return say.Reply{Buttons: r.WeekForm(), Lines: []say.Line{say.Linef("There is no plan yet, because I do not know your typical week."),
		say.Linef("Share it, for example"), say.Linef(`/week share week:"` + ExampleWeek + `"`)}}
}

// WeekForm is the button that opens the form of the typical week, where there are forms.
func (r *Request) WeekForm() []say.Button {
	if !r.Forms {
		return nil
	}
	return []say.Button{{Label: "Share my week", Command: "week share", Form: true}}
}

// Request is one thing that a person asks, whatever carried it here.
// A Command is a name of the table ("race add") with its Options as they were
// typed; without one, Text is a plain question.
type Request struct {
	Command string
	Options map[string]string
	Text    string
	Fault   error // why the line cannot be done; Text has what was not read of it

	// Names as the transport shows them. A key, where the transport has one,
	// finds club or rider whatever they are called now; else the name does,
	// in capitals or not.
	Club, Athlete       string
	ClubKey, AthleteKey storage.Key
	Nowhere             bool // the person rides for no club: nothing can be stored
	Elsewhere           bool // the names are not those by which the club shows them: stored ones stay

	Waiting []say.Button // proposals made together with the one that this line accepts

	Member Member // whom the option member means, where the transport has looked them up

	Coach bool     // the person is one of the club's coaches
	Admin bool     // the person runs the club's server
	Roles []string // the person's roles in the club, as the transport writes them

	Heeded bool // what it tells of health is answered besides

	Ask   bool   // show what a destructive command would do, and a button that does it
	Forms bool   // the transport can show a form
	Ref   string // names the request in log lines; empty: none

	Zone string // IANA zone of riders who have set none; empty: the club's
	Home string // IANA zone of clubs that are new; empty: Zone, else UTC
	Now  time.Time

	Rider *Rider // who asks, looked up once by Forbids or Handle
}

// Member is a person of the club whom a request names: by a key, or by name alone.
type Member struct {
	Key  storage.Key
	Name string
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
