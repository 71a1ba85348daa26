package planner

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Priority is how much a race matters: A is tapered for, B gets half a week, C is training.
type Priority uint8

// Priorities, the most important first.
const (
	PriorityA Priority = iota
	PriorityB
	PriorityC
)

// String is the letter of the priority.
func (p Priority) String() string { return [...]string{"A", "B", "C"}[p] }

// ParsePriority reads A, B or C in either case.
func ParsePriority(s string) (Priority, error) {
	switch strings.ToUpper(strings.TrimSpace(s)) {
	case "A":
		return PriorityA, nil
	case "B":
		return PriorityB, nil
	case "C":
		return PriorityC, nil
	}
	return 0, BadInput("priority", "%q is not a priority. Write A, B or C", s)
}

// Emphasis tells what a B race may cost.
type Emphasis uint8

// Emphases of a B race. Left open it gets a few fresh days.
const (
	NoEmphasis Emphasis = iota
	TrainThrough
	Important
)

// String is the word of the plan file.
func (e Emphasis) String() string { return [...]string{"", "train-through", "important"}[e] }

// ParseEmphasis reads important or train-through; empty leaves it open.
func ParseEmphasis(s string) (Emphasis, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "":
		return NoEmphasis, nil
	case "train-through", "train through":
		return TrainThrough, nil
	case "important":
		return Important, nil
	}
	return 0, BadInput("emphasis", "%q is not known. Write important or train-through", s)
}

// Limits of what a race may be.
const (
	MaxRaceHours = 48
	MaxRaceDays  = 28
	MaxAhead     = 1100 // days from today, about three years
	MaxText      = 200  // characters of any text that people type
)

// assumedRaceHours is used, with a warning, where nobody entered a length.
const assumedRaceHours = 2

// Race is a registered race. Hours is per day, 0 when not told; Days counts
// race days from Date on and is at least 1. Start is HH:MM or empty.
// Registered is the day on which its first version was told: what lies before
// cannot be planned any more. When a race changes, it is entered again under the same ID.
type Race struct {
	ID         int64 // the same for all versions of a race; 0: the only one of its name and date
	Name       string
	Date       Date
	Priority   Priority
	Hours      float64
	Kind       string
	Days       int
	Start      string
	Emphasis   Emphasis
	Place      string
	Zone       string // IANA zone in which it starts, empty for the rider's own
	Registered Date
	TaperDays  int // the rider's own length for this race, 0 where none was entered
	Status     RaceStatus
	Ended      Date // the race day on which it was given up, zero else
	Told
}

// Is reports whether two are the same race, whatever has changed: they have one ID.
// Races without an ID are the same by name and date.
func (r *Race) Is(o *Race) bool {
	return r.ID == o.ID && (r.ID != 0 || r.Name == o.Name && r.Date == o.Date)
}

// Ahead are the races that are not over, the first one first.
func (f *Facts) Ahead(today Date) []*Race {
	var out []*Race
	for i := range f.Races {
		if r := &f.Races[i]; r.Last() >= today {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b *Race) int { return cmp.Compare(a.Date, b.Date) })
	return out
}

// NextRace is the first race that is not over, nil when there is none.
func (f *Facts) NextRace(today Date) *Race {
	return FirstAhead(f.Races, today, func(*Race) bool { return true })
}

// FirstAhead is the first race that is not over and fits, nil when there is none. All
// who look for the next race of some kind ask here.
func FirstAhead(races []Race, today Date, fits func(*Race) bool) *Race {
	var first *Race
	for i := range races {
		if r := &races[i]; r.Last() >= today && (first == nil || r.Date < first.Date) && fits(r) {
			first = r
		}
	}
	return first
}

// RaceOf is the race of the facts that a race of a plan or of other facts is, nil where there is none.
func (f *Facts) RaceOf(race *Race) *Race {
	for i := range f.Races {
		if r := &f.Races[i]; r.Is(race) {
			return r
		}
	}
	return nil
}

// Evening reports a start at 18:00 or later.
func (r *Race) Evening() bool { return r.Start >= "18:00" }

// Last is the last race day; a race that runs past midnight ends on a later one.
func (r *Race) Last() Date { return r.Date.AddDays(max(r.Days, r.nights()+1) - 1) }

const (
	dayMinutes   = 24 * 60
	assumedStart = 8 * 60 // of races that told none
)

// nights is how many midnights a race of one day runs past.
func (r *Race) nights() int {
	if r.Days != 1 || r.Minutes() < dayMinutes/2 {
		return 0
	}
	return (r.startMinute() + r.Minutes() - 1) / dayMinutes
}

func (r *Race) startMinute() int {
	if len(r.Start) != 5 {
		return assumedStart
	}
	t := r.Start
	return (int(t[0]-'0')*10+int(t[1]-'0'))*60 + int(t[3]-'0')*10 + int(t[4]-'0')
}

// MinutesOn is the riding time of one of the race's days.
func (r *Race) MinutesOn(d Date) int {
	if r.nights() == 0 {
		return min(r.Minutes(), dayMinutes)
	}
	from := max(0, r.startMinute()-r.Date.DaysUntil(d)*dayMinutes)
	to := min(dayMinutes, r.startMinute()+r.Minutes()-r.Date.DaysUntil(d)*dayMinutes)
	return max(0, to-from)
}

// Minutes is the length of one race day, an assumed one where none was entered.
func (r *Race) Minutes() int {
	if r.Hours <= 0 {
		return assumedRaceHours * 60
	}
	return max(1, int(r.Hours*60+0.5))
}

// Validate checks ranges and reports the first fault as an InputError.
func (r *Race) Validate() error {
	switch {
	case strings.TrimSpace(r.Name) == "":
		return BadInput("name", "a race needs a name. For example Hill Loop")
	case utf8.RuneCountInString(r.Name) > MaxText:
		return BadInput("name", "is longer than %d characters. For example Hill Loop", MaxText)
	case utf8.RuneCountInString(r.Kind) > MaxText:
		return BadInput("kind", "is longer than %d characters. For example road race", MaxText)
	case utf8.RuneCountInString(r.Place) > MaxText:
		return BadInput("place", "is longer than %d characters. For example Market Square", MaxText)
	case r.Hours < 0 || r.Hours > MaxRaceHours:
		return BadInput("hours", "%g is outside 0 to %d hours. For example 3.5", r.Hours, MaxRaceHours)
	case r.Days < 1 || r.Days > MaxRaceDays:
		return BadInput("days", "%d is outside 1 to %d race days. For example 1", r.Days, MaxRaceDays)
	case r.TaperDays != 0 && (r.TaperDays < MinTaperDays || r.TaperDays > MaxTaperDays):
		return BadInput("taper", "%d is outside %d to %d days. Write auto or for example 10", r.TaperDays, MinTaperDays, MaxTaperDays)
	}
	return r.checkStatus()
}
