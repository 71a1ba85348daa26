package show

import (
	"slices"

	"musette/planner"
	"musette/planner/engine"
)

func HasOpeners(d *engine.Day) bool {
	return slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return s.Kind == planner.Openers })
}
