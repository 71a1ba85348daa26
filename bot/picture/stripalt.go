package picture

import (
	"fmt"
	"strings"

	"musette/planner"
)

// maxDates are the dates that one sentence lists.
const maxDates = 8

// alt says the strip: the sums, the days that matter, then each day, or each
// week where the days are too many.
func (s *strip) alt(title string) string {
	var a speech
	first, last := s.slots[0], s.slots[len(s.slots)-1]
	a.say(strings.TrimSuffix(capital(title), ".") + ".")
	if len(s.slots) == 1 {
		a.say(fmt.Sprintf("Planned riding against the usual, %s.", first.date.Long()))
	} else {
		a.say(fmt.Sprintf("Planned riding against the usual, %d days from %s to %s.", len(s.slots), first.date.Long(), last.date.Long()))
	}
	if s.all > len(s.slots) {
		a.say(fmt.Sprintf("These are the first of %d days.", s.all))
	}
	if s.idle() {
		a.say("No riding is planned and none is usual.")
		return a.String()
	}
	planned, usual, races := 0, 0, []string{}
	for _, slot := range s.slots {
		if slot.mark == raceDay {
			races = append(races, slot.date.Short()+", "+planner.Duration(slot.planned))
			continue
		}
		planned, usual = planned+slot.planned, usual+slot.usual
	}
	sums := fmt.Sprintf("Planned %s of the usual %s", planner.Duration(planned), planner.Duration(usual))
	if len(races) > 0 {
		sums += ", race days apart"
	}
	a.say(sums + ".")
	if len(races) > 0 {
		a.say("Race: " + listed(races, ", ") + ".")
	}
	for _, m := range [...]mark{openers, hardDay, noRide} {
		if days := s.marked(m); len(days) > 0 {
			a.say(capital(markWords[m]) + ": " + listed(days, ", ") + ".")
		}
	}
	if len(s.slots) > 1 && !a.say(s.daily()) {
		a.say(s.weekly())
	}
	return a.String()
}

// idle reports whether nothing is ridden, neither as planned nor usually.
func (s *strip) idle() bool {
	for _, slot := range s.slots {
		if slot.planned > 0 || slot.usual > 0 {
			return false
		}
	}
	return true
}

func (s *strip) marked(m mark) []string {
	var out []string
	for _, slot := range s.slots {
		if slot.mark == m {
			out = append(out, slot.date.Short())
		}
	}
	return out
}

func listed(items []string, between string) string {
	if len(items) <= maxDates {
		return strings.Join(items, between)
	}
	return strings.Join(items[:maxDates], between) + fmt.Sprintf(" and %d more", len(items)-maxDates)
}

// daily tells each day's minutes.
func (s *strip) daily() string {
	parts := make([]string, len(s.slots))
	for i, slot := range s.slots {
		parts[i] = slot.date.Short() + " " + ofUsual(slot)
	}
	return "Day by day, planned of usual: " + strings.Join(parts, ", ") + "."
}

// ofUsual compares planned minutes with the usual ones.
func ofUsual(s slot) string {
	planned := planner.Duration(s.planned)
	if s.planned == 0 {
		planned = "none"
	}
	switch s.usual {
	case 0:
		return planned
	case s.planned:
		return planned + " as usual"
	}
	return planned + " of " + planner.Duration(s.usual)
}

// weekly tells the sums of each week from Monday, or from the first day.
func (s *strip) weekly() string {
	var parts []string
	var from slot
	end := func() {
		if !from.date.IsZero() {
			parts = append(parts, dayMonth(from.date)+" "+ofUsual(from))
		}
	}
	for _, slot := range s.slots {
		if from.date.IsZero() || slot.date.Weekday() == planner.Monday {
			end()
			from = slot
			continue
		}
		from.planned, from.usual = from.planned+slot.planned, from.usual+slot.usual
	}
	end()
	return "Weeks from their first day, planned of usual, races included: " + strings.Join(parts, ", ") + "."
}
