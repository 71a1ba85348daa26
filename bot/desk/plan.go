package desk

import (
	"musette/planner"
)

func Moved(f *planner.Facts, a, b planner.Date) bool {
	for _, m := range f.Moves {
		if SamePair(m, planner.Move{From: a, To: b}) {
			return true
		}
	}
	return false
}
