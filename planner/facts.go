package planner

import "fmt"

// InputError is a fault in something that a person wrote. Field names the
// option or the path in the plan file; Msg says what is wrong and shows a right example.
type InputError struct {
	Field, Msg string
}

// Error is field and message in one line.
func (e *InputError) Error() string {
	if e.Field == "" {
		return e.Msg
	}
	return e.Field + ": " + e.Msg
}

// BadInput is an InputError with its message put together as by fmt.Sprintf.
func BadInput(field, format string, args ...any) *InputError {
	return &InputError{Field: field, Msg: fmt.Sprintf(format, args...)}
}

// Pattern is how the hard days of a taper are chosen.
type Pattern uint8

// The usual hard days are the default; every second or third day is the rider's wish.
const (
	UsualDays Pattern = iota
	EverySecondDay
	EveryThirdDay
)

// String is the word of the plan file.
func (p Pattern) String() string { return [...]string{"usual", "second", "third"}[p] }

// Bounds of the taper settings.
const (
	MinTaperDays, MaxTaperDays = 4, 28
	MinCut, MaxCut             = 20, 80
)

// Taper holds a rider's taper settings. Days 0 means automatic; Cut is the
// per cent of usual minutes to remove, 0 meaning automatic too; OpenersD2 asks for openers two days out and rest on the eve.
// Usual asks for the usual length whatever the rider's races have taught; Days is 0 then.
type Taper struct {
	Days      int
	Usual     bool
	Cut       int
	Pattern   Pattern
	OpenersD2 bool
	Told
}

// Validate checks ranges and reports the first fault as an InputError.
func (t Taper) Validate() error {
	if t.Usual && t.Days != 0 {
		return BadInput("days", "%d and the usual length do not go together. Write one of them, for example 10", t.Days)
	}
	if t.Days != 0 && (t.Days < MinTaperDays || t.Days > MaxTaperDays) {
		return BadInput("days", "%d is outside %d to %d days. Write auto or for example 10", t.Days, MinTaperDays, MaxTaperDays)
	}
	if t.Cut != 0 && (t.Cut < MinCut || t.Cut > MaxCut) {
		return BadInput("cut", "%d is outside %d to %d per cent. For example 50", t.Cut, MinCut, MaxCut)
	}
	return nil
}

// MaxBlockPercent is the most that an overload block adds to the usual minutes.
const MaxBlockPercent = 100

// Block is a told overload block: usual minutes times (1 + Percent/100) from From to To.
type Block struct {
	From, To Date
	Percent  int
	Told
}

// Absence is a stretch away: off (no training) or travel (at most an easy 45 minutes).
type Absence struct {
	From, To Date
	Travel   bool
	Told
}

// Limit caps a day's training at Minutes; 0 is a day off.
type Limit struct {
	Date    Date
	Minutes int
	Eased   bool // an easier form that was taken: nothing takes the place of what falls out
	Told
}

// Ride is what was ridden on a day. RPE is 1-10, 0 when not told; 0 minutes is a missed day.
type Ride struct {
	Date    Date
	Minutes int
	RPE     float64
	Told
}

// Ridden adds up a day's rides; their rating is weighted by minutes, 0 where none was entered.
func Ridden(rides []Ride) (minutes int, rpe float64) {
	weight := 0.0
	for _, r := range rides {
		minutes += r.Minutes
		if r.RPE > 0 {
			w := float64(max(1, r.Minutes))
			rpe, weight = rpe+r.RPE*w, weight+w
		}
	}
	if weight > 0 {
		rpe /= weight
	}
	return minutes, rpe
}

// Compared is how a race went against what was expected.
type Compared uint8

// Comparisons; ComparedNot is not told.
const (
	ComparedNot Compared = iota
	ComparedWorse
	ComparedSame
	ComparedBetter
)

// String is the word of the option.
func (c Compared) String() string { return [...]string{"", "worse", "same", "better"}[c] }

// Result is how a race went: how the legs felt, 1-10, 0 where that was not told,
// and how it compared. RaceID is 0 in plan files.
type Result struct {
	RaceID   int64
	Race     string
	Feeling  int
	Compared Compared
}

// ResultOf is what was entered about how a race went, nil for nothing.
func (f *Facts) ResultOf(race *Race) *Result {
	for i := range f.Results {
		if r := &f.Results[i]; r.RaceID == race.ID && race.ID != 0 || r.RaceID == 0 && r.Race == race.Name {
			return r
		}
	}
	return nil
}

// Move swaps the planned sessions of two days by the rider's wish.
type Move struct {
	From, To Date
	Told
}

// Pin is a day's session as it was set by hand.
type Pin struct {
	Date    Date
	Session Session
	Told
}

// Facts is all that is known about one rider: plans are made from it.
type Facts struct {
	Weeks    []DatedWeek // ascending by From; the first also holds for all days before
	Races    []Race
	Taper    Taper   // as it is now
	OldTaper []Taper // settings that were in force before, each with its dates
	Blocks   []Block
	Absences []Absence
	Limits   []Limit
	Ill      []Illness
	Holds    []Hold
	Done     []Ride
	Results  []Result
	Taught   []Taught // by the results, with its versions: one is known on a day at most
	Moves    []Move
	Pins     []Pin
}
