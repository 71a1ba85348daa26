package desk

import (
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// WholeNumber reads a number within bounds; a per cent sign may follow it.
func WholeNumber(s string, least, most int, example string) (int, error) {
	return typed.Whole(s, least, most, example)
}

// ReadTaperDays reads a length of tapers; auto is 0.
func ReadTaperDays(v string) (int, error) {
	if strings.EqualFold(v, AutoTaper) {
		return 0, nil
	}
	return WholeNumber(v, planner.MinTaperDays, planner.MaxTaperDays, "10, or auto")
}

// OptionTaper sets the length of tapers, which AutoTaper leaves to the planner.
const (
	OptionTaper = "taper"
	AutoTaper   = "auto"
)
