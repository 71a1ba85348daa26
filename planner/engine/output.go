package engine

import (
	"math"

	"musette/planner"
)

// Cause is a note of a plan for those who word it.
type Cause struct {
	Code Code
	N    int
	Day  planner.Date
	Race *planner.Race
}

func (n note) public() Cause { return Cause{Code: n.code, N: n.n, Day: n.day, Race: n.race} }

func (c *cause) public(d *day) Cause {
	return Cause{Code: c.code, Day: c.day, Race: c.race, N: d.most()}
}

// output is the calendar as a plan.
func (c *calendar) output(today planner.Date) *Plan {
	p := &Plan{Today: today, Days: make([]Day, 0, today.DaysUntil(c.until)+1), Warnings: c.warns, Races: c.roles, Facts: c.facts}
	for i := range c.days {
		switch d := &c.days[i]; {
		case d.date < today:
			p.past = append(p.past, d.public())
		case d.date <= c.until:
			p.Days = append(p.Days, d.public())
		}
	}
	for i := range c.days {
		p.Held = p.Held || c.days[i].date >= today && len(c.days[i].why) > 0 && c.days[i].why[0].code == WhyHold
	}
	if p.Held {
		return p
	}
	for _, w := range c.wins {
		if w.race.Last() >= today {
			p.Tapers = append(p.Tapers, w.summary())
		}
	}
	return p
}

func (d *day) public() Day {
	out := Day{Date: d.date, Phase: d.phase, Race: d.belongs(), Usual: d.usual, Sessions: d.sessions()}
	if len(out.Usual) == 0 || d.busy && !d.away {
		out.Usual = restDay
	}
	if out.Phase == planner.Normal {
		out.Race = nil
	}
	if out.Changed() {
		for _, n := range d.why {
			if n.code != NoReason {
				out.Causes = append(out.Causes, n.public())
			}
		}
	}
	return out
}

// summary counts what the window has and would have without the race.
func (w *window) summary() Taper {
	out := Taper{Race: w.race, Days: w.n, From: w.start(), Cut: w.cut, Length: w.why, Wanted: w.wanted, WeekHours: w.hours}
	for t := 1; t <= w.n; t++ {
		d := w.t[t].day
		if d.ridden() {
			out.UsualMinutes += d.mins
			out.UsualRides++
		}
		if m := rideMinutes(d.sessions()); m > 0 {
			out.PlanMinutes += m
			out.PlanRides++
		}
	}
	out.CutPercent = cutPercent(out.UsualMinutes, out.PlanMinutes)
	return out
}

func cutPercent(usual, planned int) float64 {
	if usual == 0 {
		return 0
	}
	return math.Round(1000*(1-float64(planned)/float64(usual))) / 10
}

// wholePercent rounds as fmt does, so that a cut is one number wherever it stands.
func wholePercent(v float64) int { return int(math.RoundToEven(v)) }

func (c *calendar) warn(w Warning) {
	if !c.quiet {
		c.warns = append(c.warns, w)
	}
}
