package planner

import (
	"fmt"
	"slices"
)

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

func badInput(field, format string, args ...any) *InputError {
	return &InputError{Field: field, Msg: fmt.Sprintf(format, args...)}
}

// Told says when a fact became known and when it was taken back or changed, as
// dates of the rider. A zero On means before everything, a zero Withdrawn that it stands.
type Told struct{ On, Withdrawn Date }

// KnownOn reports whether the fact counts for what is planned on day e: told by
// then, and not withdrawn by then.
func (t Told) KnownOn(e Date) bool {
	return t.On <= e && (t.Withdrawn.IsZero() || e < t.Withdrawn)
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

// Shape is how minutes fall over a taper of more than 8 days.
type Shape uint8

// Shapes (Mujika and Padilla 2003); exponential is the default.
const (
	Exponential Shape = iota
	Linear
	Step
)

// String is the word of the plan file.
func (s Shape) String() string { return [...]string{"exponential", "linear", "step"}[s] }

// Bounds of the taper settings.
const (
	MinTaperDays, MaxTaperDays = 4, 28
	MinCut, MaxCut             = 20, 80
	defaultCut                 = 50
	adviseMinCut, adviseMaxCut = 40, 60
)

// Taper holds a rider's taper settings. Days 0 means automatic; Cut is the
// per cent of usual minutes to remove, 0 meaning the default of 50;
// OpenersD2 asks for openers two days out and rest on the eve.
type Taper struct {
	Days      int
	Cut       int
	Pattern   Pattern
	Shape     Shape
	OpenersD2 bool
	Told
}

func (t Taper) cut() int {
	if t.Cut == 0 {
		return defaultCut
	}
	return t.Cut
}

// Validate checks ranges and reports the first fault as an InputError.
func (t Taper) Validate() error {
	if t.Days != 0 && (t.Days < MinTaperDays || t.Days > MaxTaperDays) {
		return badInput("days", "%d is outside %d to %d days; write auto or for example 10", t.Days, MinTaperDays, MaxTaperDays)
	}
	if t.Cut != 0 && (t.Cut < MinCut || t.Cut > MaxCut) {
		return badInput("cut", "%d is outside %d to %d per cent; for example 50", t.Cut, MinCut, MaxCut)
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
	Told
}

// Illness is a stretch of symptoms. A zero To means still ill; Cleared is the day
// from which a doctor has allowed training again, zero where none has.
type Illness struct {
	From, To Date
	Symptoms []string
	Cleared  Date
	Told
}

// Ride is what was ridden on a day. RPE is 1-10, 0 when not told; 0 minutes is a missed day.
type Ride struct {
	Date    Date
	Minutes int
	RPE     float64
	Told
}

// Result is how the legs felt in a race, 1-10.
type Result struct {
	Race    string
	Feeling int
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

// Facts is all that is known of one rider: what plans are derived from.
type Facts struct {
	Weeks    []DatedWeek // ascending by From; the first also holds for all days before
	Races    []Race
	Taper    Taper   // as it is now
	OldTaper []Taper // settings that were in force before, each with its dates
	Blocks   []Block
	Absences []Absence
	Limits   []Limit
	Ill      []Illness
	Done     []Ride
	Results  []Result
	Moves    []Move
	Pins     []Pin
}

// KnownOn is a copy of the facts with the versions known on day e.
func (f *Facts) KnownOn(e Date) *Facts {
	out := &Facts{Taper: Taper{}, Results: f.Results}
	if f.Taper.KnownOn(e) {
		out.Taper = f.Taper
	} else {
		for _, t := range f.OldTaper {
			if t.KnownOn(e) {
				out.Taper = t
			}
		}
	}
	out.Weeks = known(f.Weeks, e)
	out.Races = known(f.Races, e)
	out.Blocks = known(f.Blocks, e)
	out.Absences = known(f.Absences, e)
	out.Limits = known(f.Limits, e)
	out.Ill = known(f.Ill, e)
	out.Done = known(f.Done, e)
	out.Moves = known(f.Moves, e)
	out.Pins = known(f.Pins, e)
	return out
}

func known[T interface{ KnownOn(Date) bool }](all []T, e Date) []T {
	var out []T
	for _, v := range all {
		if v.KnownOn(e) {
			out = append(out, v)
		}
	}
	return out
}

// ToldDates are the dates up to a day on which something was told or taken back, ascending.
func (f *Facts) ToldDates(until Date) []Date {
	seen := map[Date]bool{}
	note := func(t Told) {
		for _, d := range [2]Date{t.On, t.Withdrawn} {
			if d > 0 && d <= until {
				seen[d] = true
			}
		}
	}
	note(f.Taper.Told)
	for _, v := range f.OldTaper {
		note(v.Told)
	}
	for _, v := range f.Weeks {
		note(v.Told)
	}
	for _, v := range f.Races {
		note(v.Told)
	}
	for _, v := range f.Blocks {
		note(v.Told)
	}
	for _, v := range f.Absences {
		note(v.Told)
	}
	for _, v := range f.Limits {
		note(v.Told)
	}
	for _, v := range f.Ill {
		note(v.Told)
		note(Told{On: v.Cleared})
	}
	for _, v := range f.Done {
		note(v.Told)
	}
	for _, v := range f.Moves {
		note(v.Told)
	}
	for _, v := range f.Pins {
		note(v.Told)
	}
	out := make([]Date, 0, len(seen))
	for d := range seen {
		out = append(out, d)
	}
	slices.Sort(out)
	return out
}
