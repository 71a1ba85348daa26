package desk

import (
	"strconv"
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

// OptionTaper sets the length of tapers. AutoTaper leaves it to the planner and to
// what the rider's races have taught, UsualTaper to the planner alone.
const (
	OptionTaper = "taper"
	AutoTaper   = "auto"
	UsualTaper  = "usual"
)

// ReadTaperLength lays a length of all tapers over settings: days, auto or usual.
func ReadTaperLength(t *planner.Taper, v string) error {
	if strings.EqualFold(v, UsualTaper) {
		t.Days, t.Usual = 0, true
		return nil
	}
	if strings.EqualFold(v, AutoTaper) {
		t.Days, t.Usual = 0, false
		return nil
	}
	days, err := WholeNumber(v, planner.MinTaperDays, planner.MaxTaperDays, "10, auto or usual")
	if err == nil {
		t.Days, t.Usual = days, false
	}
	return err
}

// TaperLength is the length of settings, as ReadTaperLength reads it.
func TaperLength(t *planner.Taper) string {
	switch {
	case t.Usual:
		return UsualTaper
	case t.Days == 0:
		return AutoTaper
	}
	return strconv.Itoa(t.Days)
}
