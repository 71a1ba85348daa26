package picture

import (
	"fmt"

	"musette/planner"
)

// alt says a season: its races, then its bands, the nearest first.
func (s *Calendar) alt() string {
	var a speech
	a.say(fmt.Sprintf("%s, from %s to %s.", capital(sayable(s.Title)), s.From.Long(), s.To.Long()))
	for i, f := range s.Flags {
		if !a.say(fmt.Sprintf("%s (%s): %s.", capital(sayable(f.Name)), f.Letter, daySpan(f.From, f.To))) {
			a.say(fmt.Sprintf("And %d more races.", len(s.Flags)-i))
			break
		}
	}
	for _, b := range s.Bands {
		if !a.say(fmt.Sprintf("%s: %s.", capital(bands[b.Kind].word), daySpan(b.From, b.To))) {
			break
		}
	}
	return a.String()
}

// daySpan is a run of days in short.
func daySpan(from, to planner.Date) string {
	if from == to {
		return dayMonth(from)
	}
	return dayMonth(from) + " to " + dayMonth(to)
}
