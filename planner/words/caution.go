package words

import (
	"slices"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/engine"
)

// Caution lines (IOC consensus 2022, consensus on concussion 2022, common
// practice). They defer to doctors and local rules.
const (
	cautionHealth  = "Severe, worse or lasting symptoms: see a doctor. " + emergencyLine
	cautionHard    = "Hard: not when ill. " + emergencyLine
	cautionWell    = "After an illness only if you are well: no symptoms, a normal pulse at rest."
	cautionOpeners = "Openers: short, never all-out. Ill or sore: ride easy or rest."
	cautionRace    = "Race: do not start ill, and stop to be checked after a knock on the head. " + emergencyLine
	cautionHeat    = "Heat: slow down, drink to thirst, cool in the shade. Confused, collapsed, no longer sweating: " + emergencyCall + "."
	cautionDoctor  = "Under 18, pregnant, a heart condition, or told by a doctor not to train hard: ask a doctor first. Doctors and local rules decide."
	cautionBlock   = "A block is much more than usual: stop it if you sleep badly, feel ill or your legs stay heavy."
)

// Cautions are the short safety lines that go with a day's sessions: on every
// day with something hard, on health days, in overload, and where riding meets its usual risks.
func Cautions(d *engine.Day) []string {
	var out []string
	add := func(line string) {
		if !slices.Contains(out, line) {
			out = append(out, line)
		}
	}
	if d.Phase == planner.Health {
		add(cautionHealth)
	}
	if d.Phase == planner.Overload && d.Changed() {
		add(cautionBlock)
	}
	serious, hot := false, false
	for _, s := range d.Sessions {
		hot = hot || warm(d.Date) && (s.Kind == planner.Long || s.Effort == planner.RaceEffort)
		switch s.Effort {
		case planner.Hard:
			add(cautionHard)
			serious = true
		case planner.OpenersEffort:
			add(cautionOpeners)
			serious = true
		case planner.RaceEffort:
			add(cautionRace)
			serious = true
		}
	}
	if hot {
		add(cautionHeat)
	}
	for _, c := range d.Causes {
		if c.Code == engine.WhyIllHalf || c.Code == engine.WhyIllOne || c.Code == engine.WhyIllStart {
			add(cautionWell)
		}
	}
	if serious {
		add(cautionDoctor)
	}
	return out
}

// Once are cautions of one screen: the emergency words, which several end with, are
// with the first of these.
func Once(cautions []string) []string {
	out, said := slices.Clone(cautions), false
	for i, line := range out {
		if short, ok := strings.CutSuffix(line, " "+emergencyLine); ok && said {
			out[i] = short
		} else {
			said = said || ok
		}
	}
	return out
}

// warm reports the months in which heat is usual: May to September, for riders
// of the north (our choice).
func warm(d planner.Date) bool {
	_, month, _ := d.Civil()
	return month >= time.May && month <= time.September
}

// ShortCaution is what to mind on a day in a few words that go with its
// session; Cautions has it in full. "" where there is nothing hard.
func ShortCaution(d *engine.Day) string {
	for _, c := range d.Causes {
		if c.Code == engine.WhyIllHalf || c.Code == engine.WhyIllOne || c.Code == engine.WhyIllStart {
			return "only if you are well"
		}
	}
	for _, s := range d.Sessions {
		switch s.Effort {
		case planner.Hard, planner.RaceEffort:
			return "not if ill"
		case planner.OpenersEffort:
			return "never all-out"
		}
	}
	return ""
}
