package planner

import "math"

// Taught is what a rider's races have taught of the length of tapers: how many per
// cent of the usual length suit the rider most likely, and the ends of a range that
// holds 80 %. It was learned on the day on which it was told.
type Taught struct {
	Races          int // that said something
	Low, Mid, High int
	Told
}

// Lengths that a rider's races can ask for, in days: the published range with the
// shortest of the table's (Bosquet et al. 2007: 8 to 14 days).
const (
	LeastOwnDays, MostOwnDays = 5, 14

	leastTaught = 3 // races before which the table decides, however sure the sum is
)

// Bounds of what plan files and the database take for it.
const (
	MinTaughtRaces, MaxTaughtRaces = leastTaught, 1000
	MinTaught, MaxTaught           = 1, 1000 // per cent
)

// Validate checks ranges and reports the first fault as an InputError.
func (t *Taught) Validate() error {
	switch {
	case t.Races < MinTaughtRaces || t.Races > MaxTaughtRaces:
		return BadInput("races", "%d is outside %d to %d races. For example 6", t.Races, MinTaughtRaces, MaxTaughtRaces)
	case t.Low < MinTaught || t.High > MaxTaught:
		return BadInput("percent", "%d to %d is outside %d to %d per cent. For example 80 to 120", t.Low, t.High, MinTaught, MaxTaught)
	case t.Low > t.Mid || t.Mid > t.High:
		return BadInput("percent", "%d, %d, %d do not ascend. For example 80, 100, 120", t.Low, t.Mid, t.High)
	}
	return nil
}

// OwnLength is the rider's own length of a taper, in whole days; the range holds 80 %.
type OwnLength struct {
	Days, Low, High int
	Decides         bool // the range leaves out the usual length, after three races at least
}

// Length is what was learned of a race whose usual length is so many days.
func (t *Taught) Length(usual int) OwnLength {
	days := func(percent int) int {
		return min(MostOwnDays, max(LeastOwnDays, int(math.Round(float64(percent*usual)/100))))
	}
	out := OwnLength{Days: days(t.Mid), Low: days(t.Low), High: days(t.High)}
	out.Decides = t.Races >= leastTaught && out.Days != usual && (out.Low > usual || out.High < usual)
	return out
}

// Deciding is what a rider's races say of a race whose usual length is so many days,
// nil where they leave it to the table, or the rider does.
func (f *Facts) Deciding(usual int) (*Taught, OwnLength) {
	if n := len(f.Taught); n > 0 && !f.Taper.Usual {
		if own := f.Taught[n-1].Length(usual); own.Decides {
			return &f.Taught[n-1], own
		}
	}
	return nil, OwnLength{}
}
