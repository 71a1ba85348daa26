package show

import (
	"fmt"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
)

// AboutDay is a reply that has understood a day.
func AboutDay(p *say.Page, d *engine.Day) say.Reply {
	reply := say.Reply{Lines: p.Done(), Date: d.Date}
	if d.Race != nil {
		reply.Race = d.Race.Name
	}
	return reply
}

// RecoveryLeft counts the recovery days from today on.
func RecoveryLeft(plan *engine.Plan, race *planner.Race) string {
	n := 0
	var last planner.Date
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Phase == planner.Recovering && d.Race == race {
			n, last = n+1, d.Date
		}
	}
	switch {
	case n == 0:
		return "none is left."
	case last == plan.Today:
		return "today is the last one."
	}
	return fmt.Sprintf("%d left, to %s.", n, last.Short())
}
