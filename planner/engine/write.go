package engine

import "musette/planner"

var restDay = []planner.Session{planner.RestSession}

// sessions are the day's sessions as planned; a day without training holds rest.
func (d *day) sessions() []planner.Session {
	switch {
	case d.out.sessions != nil:
		return d.out.sessions
	case d.out.asUsual && len(d.usual) > 0 && !d.busy:
		return d.usual
	case d.out.asUsual:
		return restDay
	}
	out := make([]planner.Session, 0, 2)
	switch {
	case d.out.effort == planner.Hard && d.out.minutes == rideMinutes(d.usual) && d.kind == hard && d.out.set == d.set:
		out = append(out, ridesOf(d.usual)...) // nothing is changed
	case d.out.minutes > 0:
		ride := planner.Session{Kind: d.out.kind, Effort: d.out.effort, Minutes: int16(d.out.minutes), Sets: d.out.set.sets}
		if d.out.set.part > 0 {
			ride.HardPart = int16(d.out.set.part)
		}
		out = append(out, ride)
	}
	if d.out.strength > 0 {
		out = append(out, planner.Session{Kind: planner.Strength, Effort: planner.Steady, Minutes: int16(d.out.strength)})
	}
	if len(out) == 0 {
		return restDay
	}
	return out
}
