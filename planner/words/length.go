package words

import (
	"fmt"

	"musette/planner"
	"musette/planner/engine"
)

// WhyLength says why a taper has its length.
func WhyLength(t *engine.Taper) Reason {
	return Reason{Rule: ruleLength.id, Text: lengthText(t), Source: lengthSource(t)}
}

func lengthText(t *engine.Taper) string {
	n := "The taper has " + days(t.Days)
	switch t.Length {
	case planner.LengthTold:
		if t.Days > engine.LongTaper {
			return fmt.Sprintf("%s, as you set it. Studies support %s, and none more than %d.", n, StudiedDays, engine.LongTaper)
		}
		return n + ", as you set it."
	case planner.LengthOwn:
		return ownText(&t.Own, days(t.Days))
	case planner.LengthClose:
		return fmt.Sprintf("%s, because another A race is within %d days.", n, engine.CloseGap)
	case planner.LengthBlock:
		return n + ", because an overload block comes before it."
	case planner.LengthLate:
		return fmt.Sprintf("%s. More were not left when you registered the race.", n)
	case planner.LengthAfterRace:
		return fmt.Sprintf("%s. The A race before it leaves no more.", n)
	case planner.LengthLost:
		return n + ". It begins before days on which you cannot ride, which are rest enough."
	}
	return fmt.Sprintf("%s: with about %.0f hours a week you carry fatigue for about that long.", n, t.WeekHours)
}

// ownText is why the rider's own races have settled a length of n.
func ownText(o *engine.Own, n string) string {
	fits := fmt.Sprintf("%d to %d days fit", o.Low, o.High)
	if o.Low == o.High {
		fits = fmt.Sprintf("only %s fit", days(o.Low))
	}
	return fmt.Sprintf("Your last %d races say %s suit you: %s them, and the usual %d do not.", o.Races, n, fits, o.Usual)
}

func lengthSource(t *engine.Taper) string {
	switch t.Length {
	case planner.LengthTable:
		return ruleLength.source
	case planner.LengthOwn:
		return ownResults
	}
	return commonPractice
}
