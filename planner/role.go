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

// Role is how a race is planned.
type Role uint8

// Roles. A race may end up with a lesser role than its priority promises.
const (
	History        Role = iota // too long past to matter
	Tapered                    // an A race with a window of its own
	NoDaysLeft                 // an A race for which no day is left
	HalfTapered                // a B race with its half week
	TrainedThrough             // a C race
	InsideTaper                // ridden inside Host's taper
	InRecovery                 // ridden in the recovery days after Host
	Outranked                  // every race day belongs to Host
)

// RaceRole is what happened to one race of the facts. Race is the race as
// planned: one that lost days to another starts later or is shorter.
type RaceRole struct {
	Race *Race
	Role Role
	Host *Race // the race that decided, nil if none did
}

// LengthReason says what settled the length of a taper.
type LengthReason uint8

// Reasons of a taper's length.
const (
	LengthTable     LengthReason = iota // the rider told none
	LengthTold                          // the rider's own
	LengthClose                         // another A race is close
	LengthBlock                         // an overload block comes before it
	LengthLate                          // what registration left
	LengthAfterRace                     // what an earlier A race left
	LengthLost                          // from the day before lost days
	LengthOwn                           // what the rider's races have taught
)
