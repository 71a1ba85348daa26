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
// Expected is nil for riders without usual training.
type TaperSummary struct {
	Race                      *Race
	Days                      int
	From                      Date
	CutPercent                float64 // achieved, one decimal
	UsualMinutes, PlanMinutes int
	UsualRides, PlanRides     int
	LengthRule                string // why this length, one plain sentence
	Automatic                 bool   // evidence and model chose it, not the rider or what was left
	Expected                  *Expected
}

// Warning is a compromise that the rider must know. Code is a rule id. Race is
// the race that it concerns, which the text names; nil concerns the whole plan.
type Warning struct {
	Code, Text string
	Race       *Race
}

// Role is how a race is planned.
type Role uint8

// Roles. A race may end up with a lesser role than its priority promises.
const (
	History        Role = iota // too long past to matter
	Tapered                    // an A race with a window of its own
	NoDaysLeft                 // an A race for which no day is left
	HalfTapered                // a B race with its half week
	TrainedThrough             // a C race, or a B race too near another
	InsideTaper                // ridden as a hard day of Host's taper
	InRecovery                 // ridden in the recovery days after Host
	Outranked                  // every race day belongs to Host
)

// RaceRole is what became of one race of the facts. Race is the race as
// planned: one that lost days to another starts later or is shorter.
type RaceRole struct {
	Race *Race
	Role Role
	Host *Race // the race that decided, nil if none did
}

// Plan is what Derive makes of a rider's facts: one Day a date from Today without gaps.
type Plan struct {
	Today    Date
	Days     []Day
	Tapers   []TaperSummary
	Warnings []Warning
	Races    []RaceRole // in the order of the facts' races

	facts *Facts
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

// LengthReason says what settled the length of a taper.
type LengthReason uint8

// Reasons of a taper's length.
const (
	LengthTable LengthReason = iota
	LengthTold
	LengthClose
	LengthBlock
	LengthLate
	LengthAfterRace
)
