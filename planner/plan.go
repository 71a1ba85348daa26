package planner

// Phase is what a day is for; where several fit, the first of health, race,
// taper, recovery, overload, normal is meant.
type Phase uint8

// Phases of a day.
const (
	Normal Phase = iota
	Overload
	Tapering
	RaceDay
	Recovering
	Health
)

// String is the word of the plan file.
func (p Phase) String() string {
	return [...]string{"normal", "overload", "taper", "race", "recovery", "health"}[p]
}

// Day is one planned day. Usual and Sessions are shared, not to be changed.
// Race is the race that the day belongs to, nil on ordinary days.
type Day struct {
	Date     Date
	Phase    Phase
	Race     *Race
	Usual    []Session
	Sessions []Session

	notes [maxNotes]note
	noted int
}

// Changed reports whether kind, minutes, effort or sets differ from the usual day.
func (d *Day) Changed() bool { return !sameSessions(d.Usual, d.Sessions) }

// Why lists the reasons of a changed day, the deciding one first; an unchanged day has none.
func (d *Day) Why() []Reason {
	if !d.Changed() {
		return nil
	}
	out := make([]Reason, d.noted)
	for i := range out {
		out[i] = d.notes[i].reason(d)
	}
	return out
}

// Minutes is the riding time of the day.
func (d *Day) Minutes() int { return rideMinutes(d.Sessions) }

// IsHard reports whether the day holds a hard session or a race.
func (d *Day) IsHard() bool { _, ok := hardSession(d.Sessions); return ok }

// TaperSummary is one A race's window: D-Days up to D-1, the race apart.
type TaperSummary struct {
	Race                      *Race
	Days                      int
	From                      Date
	CutPercent                float64 // achieved, one decimal
	UsualMinutes, PlanMinutes int
	UsualRides, PlanRides     int
	LengthRule                string // why this length, one plain sentence
}

// Warning is a compromise that the rider must know. Code is a rule id; the text names the race.
type Warning struct {
	Code, Text string
}

// Plan is what Derive makes of a rider's facts: one Day a date from Today without gaps.
type Plan struct {
	Today    Date
	Days     []Day
	Tapers   []TaperSummary
	Warnings []Warning
}

// Day is the planned day of a date inside the plan.
func (p *Plan) Day(date Date) (*Day, bool) {
	i := p.Today.DaysUntil(date)
	if i < 0 || i >= len(p.Days) {
		return nil, false
	}
	return &p.Days[i], true
}

func sameSessions(a, b []Session) bool {
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
