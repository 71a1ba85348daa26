package desk

import (
	"musette/planner"
	"musette/storage"
)

// Begun are the races that are over or under way.
func Begun(races []storage.Race, today planner.Date) []storage.Race {
	var out []storage.Race
	for _, r := range races {
		if r.Date <= today {
			out = append(out, r)
		}
	}
	return out
}
