package show

import (
	"musette/bot/say"
	"musette/planner"
)

// MostName is how much of a race's or a rider's name or of a placing stands in a line
// for coaches, in units of UTF-16.
const MostName = 60

// CutTo is a text with "..." where it is too long.
func CutTo(s string, most int) string {
	if short := say.Clip16(s, most); short != s {
		return say.Clip16(s, most-3) + "..."
	}
	return s
}

func RaceName(r *planner.Race) string { return CutTo(r.Name, MostName) }
