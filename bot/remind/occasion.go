package remind

import (
	"cmp"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

// Reach of reminders, in days.
const (
	buildUpLead = 7  // how long before a race's window its build-up begins
	halfLead    = 4  // a B race's window
	assumedLead = 14 // a taper that no plan tells, because all training has stopped
	farthest    = planner.MaxTaperDays + buildUpLead
)

// Occasion is what a day is to a rider: nothing, or a day of a race's build-up.
// Races are as they were entered; those of the plan may have lost days to others.
type Occasion struct {
	Day   *engine.Day
	Lead  planner.RaceRole // whose build-up it is; its Race is nil outside of any
	Race  *planner.Race    // raced on the day
	Eve   *planner.Race    // begins the day after
	After *planner.Race    // ended the day before
	Ask   *planner.Race    // after, or race once it is over, where nothing is told of it
	coach []say.Line       // what the coach set and wrote

	trouble           *planner.Illness // that goes on since an earlier day
	raceHost, eveHost *planner.Race    // in whose recovery days race and eve lie

	clock  string // the morning of eve, counted back from its start
	logged bool   // what was ridden is told already
	begun  bool   // race has started by now
	done   bool   // what is raced on the day is over by now

	evening bool // most have ridden by now
}

// OccasionOf finds out what a day of the plan is. On health days no race counts.
func OccasionOf(plan *engine.Plan, f *planner.Facts, day planner.Date) Occasion {
	d, ok := plan.Day(day)
	if !ok {
		return Occasion{}
	}
	o := Occasion{Day: d}
	if ill := desk.OpenIllness(f); ill != nil && ill.From < day && !plan.Held {
		o.trouble = ill
	}
	for _, done := range f.Done {
		o.logged = o.logged || done.Date == day
	}
	for i, role := range plan.Races {
		r := role.Race
		if role.Role == planner.Outranked {
			continue // all its days belong to another race
		}
		if inBuildUp(plan, role, d) && (o.Lead.Race == nil || nearer(plan, d, role, o.Lead)) {
			o.Lead = role
		}
		switch told := &f.Races[i]; {
		case d.Phase == planner.Health:
		case d.Phase == planner.RaceDay && d.Race == r:
			o.Race, o.raceHost = told, hostOf(role)
		case r.Date == day+1:
			o.Eve, o.eveHost = told, hostOf(role)
		case r.Last() == day-1:
			o.After = told
		}
	}
	return o
}

// hostOf is the race in whose recovery days another lies, nil where it does not.
func hostOf(role planner.RaceRole) *planner.Race {
	if role.Role == planner.InRecovery {
		return role.Host
	}
	return nil
}

// rideHour is when most riders have ridden.
const rideHour = 16

// eveningHour is when a race of which no start is known is taken to be over.
const eveningHour = 18

// At sets the clock of a day that is raced: a race begins at its start, where that is
// known and of this day, and is over when its planned time has gone by.
func (o *Occasion) At(now time.Time, zone *time.Location) {
	if planner.DateOf(now.In(zone)) != o.Day.Date {
		return
	}
	o.evening = now.In(zone).Hour() >= rideHour
	if o.Race == nil {
		return
	}
	if o.Race.Status != planner.Planned {
		o.begun, o.done = true, true
		return
	}
	minute := now.In(zone).Hour()*60 + now.In(zone).Minute()
	clock, err := time.Parse("15:04", o.Race.Start)
	if err != nil || o.Race.Date != o.Day.Date {
		o.done = minute >= eveningHour*60
		o.begun = o.done
		return
	}
	start := clock.Hour()*60 + clock.Minute()
	o.begun = minute >= start
	o.done = minute >= start+o.Race.MinutesOn(o.Day.Date)
}

// Logged reports whether what was ridden, or that nothing was, is told already.
func (o *Occasion) Logged() bool { return o.logged }

// Begun reports that the day's race has started.
func (o *Occasion) Begun() bool { return o.begun }

// last reports that the day is the last one of its race.
func (o *Occasion) last() bool { return o.Race.Last() == o.Day.Date }

// inBuildUp reports a day from a week before a race's window to its last recovery
// day, or the day after it.
func inBuildUp(plan *engine.Plan, role planner.RaceRole, d *engine.Day) bool {
	switch r := role.Race; {
	case d.Date > r.Last():
		return d.Date == r.Last()+1 || d.Race == r && (d.Phase == planner.Recovering || d.Phase == planner.Health)
	case d.Date >= r.Date:
		return true
	default:
		return d.Date >= r.Date.AddDays(-buildUpLead-leadOf(plan, role))
	}
}

// leadOf is how many days before the race its window begins.
func leadOf(plan *engine.Plan, role planner.RaceRole) int {
	switch {
	case role.Race.Priority == planner.PriorityB:
		return halfLead
	case role.Race.Priority == planner.PriorityC:
		return 0
	}
	if t := show.TaperOf(plan, role); t != nil {
		return t.Days
	}
	if role.Role == planner.Tapered {
		return assumedLead
	}
	return 0
}

// nearer reports whether a day belongs to a race rather than to another: its own
// first, then one to come, the earlier window before the later, then the last that is over.
func nearer(plan *engine.Plan, d *engine.Day, role, than planner.RaceRole) bool {
	r, other := role.Race, than.Race
	switch {
	case (d.Race == r) != (d.Race == other):
		return d.Race == r
	case (d.Date <= r.Last()) != (d.Date <= other.Last()):
		return d.Date <= r.Last()
	case d.Date <= r.Last():
		return r.Date.AddDays(-leadOf(plan, role)) < other.Date.AddDays(-leadOf(plan, than))
	}
	return r.Date > other.Date
}

// Due reports whether the day has something to say. What was ridden needs no
// reminder, but the races before and after it do.
func (o *Occasion) Due(mode storage.Remind) bool {
	if o.Lead.Race == nil || mode == storage.RemindOff {
		return false
	}
	switch {
	case o.Race != nil, o.Eve != nil, o.After != nil:
		return true
	case o.logged:
		return false
	}
	return mode == storage.RemindAlways || o.Day.Changed()
}

// Start is the race that begins on the day, else on the next one.
func (o *Occasion) Start() *planner.Race {
	switch {
	case o.Race != nil && o.Race.Date == o.Day.Date:
		return o.Race
	case o.Eve != nil && o.Eve.Date == o.Day.Date+1:
		return o.Eve
	}
	return nil
}

// About is the race that the day is about, nil where that is only what its plan
// says: raced, on the next day, or asked about.
func (o *Occasion) About() *planner.Race {
	return cmp.Or(o.Race, o.Eve, o.Ask)
}

// raceNear reports, without a plan, whether a day can belong to any race's build-up.
func raceNear(f *planner.Facts, day planner.Date) bool {
	for i := range f.Races {
		if r := &f.Races[i]; r.Date.AddDays(-farthest) <= day && day <= r.Last().AddDays(show.AfterDays) {
			return true
		}
	}
	return false
}
