package engine

import (
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
	Wanted                    int // days before registration, a block or another race took some
	WeekHours                 float64
}

// Warning is a compromise that the rider must know. Race is the one that it
// concerns, nil for the whole plan; Other another one that it names.
type Warning struct {
	Code  WarningCode
	Race  *planner.Race
	Other *planner.Race
	N, M  int
	Day   planner.Date
	To    planner.Date
	Cause Cause
	Level care.Level // of a hold
}

// WarningCode says what a warning is about.
type WarningCode uint8

// Warnings.
const (
	WarnSameDay WarningCode = iota
	WarnNoHours
	WarnRaceAway
	WarnLate
	WarnLateB
	WarnBlockLength
	WarnBlockShort
	WarnCloseA
	WarnCloseB
	WarnInside
	WarnInRecovery
	WarnNoHard
	WarnNoTouch
	WarnNoOpeners
	WarnCut
	WarnCutRange
	WarnLongTaper
	WarnHold
	WarnIll
	WarnUnknownSymptom
	WarnDoNotStart
	WarnStartIfWell
	WarnMoveDropped
	WarnPinDropped
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
