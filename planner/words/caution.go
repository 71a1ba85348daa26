package words

import (
	"slices"
	"time"

	"musette/planner"
	"musette/planner/engine"
)

// Caution lines (IOC consensus 2022, consensus on concussion 2022, common
// practice). They defer to doctors and local rules.
const (
	cautionHealth   = "If your symptoms are severe, get worse or last, see a doctor."
	cautionHard     = "Do not ride hard when you are ill."
	cautionRace     = "Do not race when you are ill. After a knock on the head, stop and be checked."
	cautionHardRace = "Do not ride hard or race when you are ill. After a knock on the head, stop and be checked."
	cautionWell     = "Ride hard after an illness only if you are well: no symptoms, a normal pulse at rest."
	cautionOpeners  = "Keep openers short and never go all-out. If you are ill or sore, ride easily or rest."
	HeatCaution     = "In heat slow down, drink to thirst, cool in the shade. If you stagger, collapse or get confused, even if you still sweat, " + emergencyCall + "."
	cautionHeatToo  = "In heat slow down, drink to thirst, cool in the shade. If you stagger, collapse or get confused, even if you still sweat, that is an emergency too."
	cautionDoctor   = "Ask a doctor first if you are under 18, pregnant, have a heart condition or were told not to train hard."
	CautionBlock    = "A block is much more than usual. Stop it if you sleep badly, feel ill or your legs stay heavy."
)

// risks are what is to be minded on some days.
type risks struct{ health, block, hard, openers, race, hot, ill bool }

func (r *risks) add(d *engine.Day) {
	r.health = r.health || d.Phase == planner.Health
	r.block = r.block || d.Phase == planner.Overload && d.Changed()
	for _, s := range d.Sessions {
		r.hot = r.hot || warm(d.Date) && (s.Kind == planner.Long || s.Effort == planner.RaceEffort)
		r.hard = r.hard || s.Effort == planner.Hard
		r.openers = r.openers || s.Effort == planner.OpenersEffort
		r.race = r.race || s.Effort == planner.RaceEffort
	}
	r.ill = r.ill || afterIllness(d)
}

// lines are the cautions in full, the emergency words at most once.
func (r *risks) lines() (out []string) {
	urgent := ""
	add := func(isSo bool, line string) {
		if isSo {
			out = append(out, line)
		}
	}
	withSigns := func(isSo bool, line string) {
		if isSo && urgent == "" {
			urgent = emergencyLine
			line += " " + urgent
		}
		add(isSo, line)
	}
	withSigns(r.health, cautionHealth)
	add(r.block, CautionBlock)
	withSigns(r.hard && r.race, cautionHardRace)
	withSigns(r.hard && !r.race, cautionHard)
	withSigns(r.race && !r.hard, cautionRace)
	add(r.openers && !r.hard && !r.race, cautionOpeners)
	add(r.hot && urgent == "", HeatCaution)
	add(r.hot && urgent != "", cautionHeatToo)
	add(r.ill, cautionWell)
	add(r.hard || r.openers || r.race, cautionDoctor)
	return out
}

// Cautions are what to mind on some days that are shown together: with hard
// sessions, openers and races, on health days, in overload, in the heat.
func Cautions(days ...engine.Day) []string {
	var all risks
	for i := range days {
		all.add(&days[i])
	}
	return all.lines()
}

// afterIllness reports the first hard work after an illness.
func afterIllness(d *engine.Day) bool {
	return slices.ContainsFunc(d.Causes, func(c engine.Cause) bool {
		return c.Code == engine.WhyIllHalf || c.Code == engine.WhyIllOne || c.Code == engine.WhyIllTwo || c.Code == engine.WhyIllStart
	})
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
	if afterIllness(d) {
		return "only if you are well"
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
