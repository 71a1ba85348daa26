package engine

import (
	"math"
	"slices"

	"musette/planner"
	"musette/planner/care"
)

// Day is one planned day. Usual and Sessions are shared, not to be changed.
// Race is the race that the day belongs to, nil on ordinary days.
type Day struct {
	Date     planner.Date
	Phase    planner.Phase
	Race     *planner.Race
	Usual    []planner.Session
	Sessions []planner.Session
	Causes   []Cause // of a changed day, the deciding one first
}

// Changed reports whether kind, minutes, effort or sets differ from the usual day.
func (d *Day) Changed() bool { return !sameSessions(d.Usual, d.Sessions) }

// Minutes is the riding time of the day.
func (d *Day) Minutes() int { return rideMinutes(d.Sessions) }

// IsHard reports whether the day holds a hard session or a race.
func (d *Day) IsHard() bool { return anyHard(d.Sessions) }

// Taper is one A race's window: D-Days up to D-1, the race apart.
type Taper struct {
	Race                      *planner.Race
	Days                      int
	From                      planner.Date
	Cut                       int     // per cent that is aimed at
	CutPercent                float64 // achieved, one decimal
	UsualMinutes, PlanMinutes int
	UsualRides, PlanRides     int
	Length                    planner.LengthReason
	Own                       Own // of LengthOwn
	Wanted                    int // days before registration, a block or another race took some
	WeekHours                 float64
	AwayRides                 int            // usual rides on days away, which count in no usual sum
	Lost                      []planner.Date // usual rides, or rides that were planned, that fall out
}

// Warning is a compromise that the rider must know. Race is the one that it
// concerns, nil for the whole plan; Other another one that it names.
type Warning struct {
	Code  Code
	Race  *planner.Race
	Other *planner.Race
	N, M  int
	Day   planner.Date
	To    planner.Date
	Cause Cause
	Level care.Level // of a hold
}

// Warnings. A new rule declares its own in its file.
const (
	WarnSameDay        Code = "WarnSameDay"
	WarnNoHours        Code = "WarnNoHours"
	WarnRaceAway       Code = "WarnRaceAway"
	WarnLate           Code = "WarnLate"
	WarnLateB          Code = "WarnLateB"
	WarnBlockLength    Code = "WarnBlockLength"
	WarnBlockShort     Code = "WarnBlockShort"
	WarnCloseA         Code = "WarnCloseA"
	WarnCloseB         Code = "WarnCloseB"
	WarnInside         Code = "WarnInside"
	WarnInRecovery     Code = "WarnInRecovery"
	WarnNoHard         Code = "WarnNoHard"
	WarnNoTouch        Code = "WarnNoTouch"
	WarnHardMissed     Code = "WarnHardMissed"
	WarnNoOpeners      Code = "WarnNoOpeners"
	WarnCut            Code = "WarnCut"
	WarnCutRange       Code = "WarnCutRange"
	WarnLongTaper      Code = "WarnLongTaper"
	WarnHold           Code = "WarnHold"
	WarnIll            Code = "WarnIll"
	WarnUnknownSymptom Code = "WarnUnknownSymptom"
	WarnDoNotStart     Code = "WarnDoNotStart"
	WarnStartIfWell    Code = "WarnStartIfWell"
	WarnStartOpen      Code = "WarnStartOpen"
	WarnMoveDropped    Code = "WarnMoveDropped"
	WarnPinDropped     Code = "WarnPinDropped"
)

// Plan is what Derive makes of a rider's facts: one Day a date from Today without gaps.
type Plan struct {
	Today    planner.Date
	Days     []Day
	Tapers   []Taper
	Warnings []Warning
	Races    []planner.RaceRole // in the order of the facts' races that stand
	Held     bool               // a stop holds everything back

	Facts *planner.Facts // as they are known today

	past []Day // the days before today that the plan still knows
}

// Day is the planned day of a date inside the plan.
func (p *Plan) Day(date planner.Date) (*Day, bool) {
	i := p.Today.DaysUntil(date)
	if i < 0 || i >= len(p.Days) {
		return nil, false
	}
	return &p.Days[i], true
}

// Known is the day of a date, also of one that is over, nil where the plan does not reach.
func (p *Plan) Known(date planner.Date) *Day {
	if d, ok := p.Day(date); ok {
		return d
	}
	if len(p.past) > 0 {
		if i := p.past[0].Date.DaysUntil(date); i >= 0 && i < len(p.past) {
			return &p.past[i]
		}
	}
	return nil
}

func sameSessions(a, b []planner.Session) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func anyHard(sessions []planner.Session) bool {
	for _, s := range sessions {
		if s.IsHard() {
			return true
		}
	}
	return false
}

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
			if n.code == WhyLimit && d.eased {
				n.code = WhyEased
			}
			if n.code != NoReason {
				out.Causes = append(out.Causes, n.public())
			}
		}
	}
	return out
}

// summary counts what the window has and would have without the race.
func (w *window) summary() Taper {
	out := Taper{Race: w.race, Days: w.n, From: w.start(), Cut: w.cut, Length: w.why, Own: w.taught, Wanted: w.wanted, WeekHours: w.hours}
	for t := 1; t <= w.n; t++ {
		d := w.t[t].day
		if d.ridden() {
			out.UsualMinutes += d.mins
			out.UsualRides++
		} else if d.away && d.mins > 0 {
			out.AwayRides++
		}
		if m := rideMinutes(d.sessions()); m > 0 && !d.unmet {
			out.PlanMinutes += m
			out.PlanRides++
		}
		if d.fallsOut() {
			out.Lost = append(out.Lost, d.date)
		}
	}
	slices.Sort(out.Lost)
	out.CutPercent = cutPercent(out.UsualMinutes, out.PlanMinutes)
	return out
}

// fallsOut reports a day whose ride was missed, or cannot be ridden for another cause than health.
func (d *day) fallsOut() bool {
	switch {
	case d.race != nil || d.phase == planner.Health || rideMinutes(d.sessions()) > 0:
		return false
	case d.logged:
		return rideMinutes(d.planned) > 0
	}
	return d.mins > 0 && d.lost()
}

func cutPercent(usual, planned int) float64 {
	if usual == 0 {
		return 0
	}
	return math.Round(1000*(1-float64(planned)/float64(usual))) / 10
}

// wholePercent rounds as fmt does, so that a cut is the same number everywhere.
func wholePercent(v float64) int { return int(math.RoundToEven(v)) }

func (c *calendar) warn(w Warning) {
	if !c.quiet {
		c.warns = append(c.warns, w)
	}
}

// A hard ride beside the way to work has so many minutes at least, and an easy day that is so
// many shorter than the way at most is the way.
const (
	wayRest = 30
	wayLess = 15
)

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
		out = append(out, d.withCommute(ride)...)
	}
	if d.out.strength > 0 {
		out = append(out, planner.Session{Kind: planner.Strength, Effort: planner.Steady, Minutes: int16(d.out.strength)})
	}
	if len(out) == 0 {
		return restDay
	}
	return out
}

// withCommute puts the way to work apart from the rest of a day's ride: it stays as it
// is, and the rest is what is left.
func (d *day) withCommute(ride planner.Session) []planner.Session {
	way := 0
	for _, s := range d.usual {
		if s.Kind == planner.Commute {
			way += int(s.Minutes)
		}
	}
	sharp, rest := ride.Effort == planner.Hard, int(ride.Minutes)-way
	if way == 0 || way > min(d.cap, d.most()) || ride.Kind == planner.Openers {
		return []planner.Session{ride}
	}
	toWork := planner.Session{Kind: planner.Commute, Effort: planner.Easy, Minutes: int16(way)}
	switch {
	case d.kind == hard && rest >= 0 && rest < wayRest && d.out.effort == planner.Easy:
		return []planner.Session{toWork} // a few minutes more are no ride
	case sharp && rest >= wayRest && d.out.set.least(leastFrame) <= rest, !sharp && rest >= shortestRide:
		ride.Minutes = int16(floor5(rest))
		if usual := ridesOf(d.usual); !sharp && !anyHard(usual) && rideMinutes(usual) == way+rest && len(usual) == 2 {
			return usual // all of it, only easier
		}
		return []planner.Session{toWork, ride}
	case !sharp && rest > -wayLess && (d.kind != commute || rest == 0):
		return []planner.Session{toWork}
	}
	return []planner.Session{ride}
}
