package desk

import (
	"strconv"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
)

// RaceNews is what a new or changed race means: window, warnings, next step.
func RaceNews(e *Effect, race *planner.Race) []say.Line {
	if !Planned(e.Facts) {
		return []say.Line{say.Linef("No plan yet: I do not know your typical week. Share it, for example"), say.Linef(`/week share week:"` + ExampleWeek + `"`)}
	}
	role := show.RoleOf(e.After, e.Facts, race)
	lines := append(say.PlainLines(show.Window(e.After, role, race)), e.NewWarnings()...)
	return append(lines, say.Linef("The days: %s", show.ShowRace(e.Facts, race)))
}

// StartOf is the instant at which a race begins, where the start is known and to come.
func (r *Request) StartOf(race *planner.Race) []say.Moment {
	return show.StartOf(race, r.Rider.Zone, r.Now)
}

// WholeNumber reads a number within bounds; a per cent sign may follow it.
func WholeNumber(s string, least, most int, example string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(s, "%")))
	if err != nil {
		return 0, say.Refuse("", "%s is not a whole number. For example %s", say.Shown(s), example)
	}
	if n < least || n > most {
		return 0, say.Refuse("", "%d is outside %d to %d. For example %s", n, least, most, example)
	}
	return n, nil
}
