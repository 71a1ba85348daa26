package desk

import (
	"strings"

	"musette/planner"
)

// ReadTaperDays reads a length of tapers; auto is 0.
func ReadTaperDays(v string) (int, error) {
	if strings.EqualFold(v, AutoTaper) {
		return 0, nil
	}
	return WholeNumber(v, planner.MinTaperDays, planner.MaxTaperDays, "10, or auto")
}
