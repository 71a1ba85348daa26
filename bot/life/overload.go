package life

import (
	"fmt"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
)

// offerBlock offers to count two hard weeks, or a very hard one, that the log shows as a
// training block.
// It is for the rider to say, since only they know whether it was meant.
func (n *news) offerBlock(e *desk.Effect, day planner.Date) {
	const fresh = 7 // days for which it is worth asking
	today := e.After.Today
	block, ok := e.Facts.LoggedOverload()
	if !ok || block.To.DaysUntil(today) > fresh || day < block.From || day > block.To {
		return
	}
	for _, told := range e.Facts.Blocks {
		if told.From <= block.To && block.From <= told.To {
			return
		}
	}
	n.comes = append(n.comes, say.Linef("Your log %s is %d %% above your usual load. Was that a training block? If it was, a taper after it gets easier days first.",
		show.Span(block.From, block.To, today), block.Percent))
	n.offers = append(n.offers, offer{"It was a block", "tell block", blockOptions(block.From, block.To, fmt.Sprint(block.Percent))})
}
