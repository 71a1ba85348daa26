package desk

import (
	"musette/planner"
)

func SamePair(a, b planner.Move) bool {
	return a.From == b.From && a.To == b.To || a.From == b.To && a.To == b.From
}
