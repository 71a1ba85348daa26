package desk

import (
	"strconv"
	"strings"

	"musette/bot/say"
	"musette/planner"
)

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
