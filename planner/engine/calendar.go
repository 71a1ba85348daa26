package engine

import (
	"slices"

	"musette/planner"
)

// Limits of single days, in minutes.
const (
	noLimit       = 24 * 60
	TravelMinutes = 45 // most of an easy ride on a travel day (common practice)
	shortestRide  = 20 // less is no ride
	lostBelow     = 40 // a limit below loses the day's training
)

// rideKind is what a usual day is for, all its rides taken as one.
type rideKind uint8

const (
	free rideKind = iota
	recovery
	commute
	endurance
	long
	hard
)

// owner is the rule that has planned a day.
type owner uint8

const (
	nobody owner = iota
	byC
	byB
	byAfter
	byWindow
	byHealth
	settled
)

// day is a date's facts, the bounds that rules set for it, and what is planned.
type day struct {
	date  planner.Date
	usual []planner.Session // of the weekday
	kind  rideKind          // of the usual rides
	mins  int               // of the usual rides, with a block's per cent
	set   hardSet           // of the usual hard session
	busy  bool              // riding is not possible
	away  bool              // busy by being away
	only  bool              // travel: at most an easy ride, by a limit
	eased bool              // its easier form was taken
	limit int

	cap  int // most minutes if not hard, noLimit without
	note note
	ban  cause // why it may not be hard

	race    *planner.Race // that is ridden on it
	host    *planner.Race // that it is planned for
	logged  bool
	unmet   bool              // settled as it was shown, but the rider was ill, as was told later
	byHand  bool              // a pin or half of a swap
	planned []planner.Session // of a logged day, what was shown before
	owner   owner
	phase   planner.Phase
	out     plan
	why     []note
}

// plan is what a day will be: one ride at most, and strength.
type plan struct {
	kind     planner.Kind // Rest: no ride
	effort   planner.Effort
	minutes  int
	set      hardSet
	strength int
	asUsual  bool              // the usual sessions as they stand
	sessions []planner.Session // settled: as they were shown
}

func (d *day) ridden() bool { return d.mins > 0 && !d.busy }

// lost reports a day whose training is known not to be possible.
func (d *day) lost() bool { return d.busy || d.only || d.limit < lostBelow && !d.eased }

// unmade reports a hard session that was missed or taken in an easier form: it counts as
// ridden, so that none takes its place.
func (d *day) unmade() bool {
	if d.logged {
		return slices.ContainsFunc(d.planned, func(s planner.Session) bool { return s.IsHard() })
	}
	return d.eased && d.kind == hard
}

// most is the most minutes that facts leave.
func (d *day) most() int {
	switch {
	case d.busy:
		return 0
	case d.only:
		return min(d.limit, TravelMinutes)
	}
	return d.limit
}

// isHard reports whether the day is hard as planned so far: intervals or a race.
func (d *day) isHard() bool {
	if d.race != nil {
		return true
	}
	switch {
	case d.unmet:
		return false
	case d.out.sessions != nil:
		for _, s := range d.out.sessions {
			if s.IsHard() {
				return true
			}
		}
		return false
	case d.out.asUsual:
		return d.kind == hard && !d.busy && !d.only
	}
	return d.out.effort == planner.Hard
}

// because replaces the day's reasons.
func (d *day) because(notes ...note) { d.why = append(d.why[:0:0], notes...) }

// also adds a reason.
func (d *day) also(n note) { d.why = append(d.why, n) }

// calendar is the stretch of days that one plan works on.
type calendar struct {
	first planner.Date
	days  []day
	facts *planner.Facts
	races []*planner.Race // with days of their own, by date
	roles []planner.RaceRole
	wins  []*window
	fixed []fixedDay // set by hand, as far as they hold
	ills  []spell
	warns []Warning

	from, until planner.Date // the days that this planning is shown for
	today       planner.Date
	quiet       bool // warnings are of no use
	trial       *Trial
}

// at is the day of a date, nil outside the calendar.
func (c *calendar) at(d planner.Date) *day {
	i := c.first.DaysUntil(d)
	if i < 0 || i >= len(c.days) {
		return nil
	}
	return &c.days[i]
}

func (c *calendar) last() planner.Date { return c.first.AddDays(len(c.days) - 1) }

// layOut makes the usual days with blocks, absences and limits.
func layOut(first, last planner.Date, f *planner.Facts) *calendar {
	c := &calendar{first: first, days: make([]day, first.DaysUntil(last)+1), facts: f}
	var of *planner.Week
	var rides [7]usual
	for i := range c.days {
		d := &c.days[i]
		d.date = first.AddDays(i)
		d.limit, d.cap = noLimit, noLimit
		d.out.asUsual = true
		week := f.WeekOn(d.date)
		if week != of {
			of, rides = week, usualRides(week)
		}
		w := d.date.Weekday()
		d.busy, d.usual = week[w].Busy, week[w].Sessions
		d.kind, d.mins, d.set = rides[w].kind, rides[w].mins, rides[w].set
	}
	c.layBlocks()
	for _, a := range f.Absences {
		for t := max(a.From, first); t <= min(a.To, last); t++ {
			d := c.at(t)
			if a.Travel {
				d.only = true
			} else {
				d.busy, d.away = true, true
			}
		}
	}
	for _, l := range f.Limits {
		if d := c.at(l.Date); d != nil {
			d.limit, d.eased = min(d.limit, l.Minutes), d.eased || l.Eased
		}
	}
	for i := range c.days {
		d := &c.days[i]
		if d.only && d.limit == noLimit {
			d.limit = 0 // a travel day is not ridden unless a limit gives it minutes
		}
	}
	return c
}

// usual is a weekday's rides taken as one.
type usual struct {
	kind rideKind
	mins int
	set  hardSet
}

func usualRides(week *planner.Week) (out [7]usual) {
	for w := range week {
		if !week[w].Busy {
			out[w].kind, out[w].mins, out[w].set = usualRide(week[w].Sessions)
		}
	}
	return out
}

// usualRide takes the rides of a weekday as one.
func usualRide(sessions []planner.Session) (kind rideKind, minutes int, set hardSet) {
	for _, s := range sessions {
		if !s.Kind.IsRide() {
			continue
		}
		minutes += int(s.Minutes)
		k := endurance
		switch {
		case s.IsHard():
			k = hard
			if set.isZero() {
				set = setOf(s)
			}
		case s.Kind == planner.Long:
			k = long
		case s.Kind == planner.Recovery:
			k = recovery
		case s.Kind == planner.Commute:
			k = commute
		}
		kind = max(kind, k)
	}
	return kind, minutes, set
}

// hours are the usual riding hours a week before a date.
func (c *calendar) hours(before planner.Date) float64 {
	return float64(c.facts.WeekOn(before-1).RideMinutes()) / 60
}

// hardDays is how many days of the week before a date are usually hard.
func (c *calendar) hardDays(before planner.Date) int { return c.facts.WeekOn(before - 1).HardDays() }

// sets are the week's shortest and longest sets by their repetitions.
func (c *calendar) sets(before planner.Date) (short, long source) {
	week := c.facts.WeekOn(before - 1)
	for w := range week {
		if week[w].Busy {
			continue
		}
		kind, minutes, set := usualRide(week[w].Sessions)
		if kind != hard {
			continue
		}
		s := source{set: set, minutes: minutes}
		if short.set.isZero() || set.longest() < short.set.longest() {
			short = s
		}
		if long.set.isZero() || set.longest() > long.set.longest() {
			long = s
		}
	}
	return short, long
}

// source is a usual hard session that a day rides: its set and its whole minutes.
type source struct {
	set     hardSet
	minutes int
}

// touches reports a hard day or a race beside a day.
func (c *calendar) touches(d *day) bool {
	for _, t := range [2]planner.Date{d.date - 1, d.date + 1} {
		if n := c.at(t); n != nil && n.isHard() {
			return true
		}
	}
	return false
}

// besideRace reports a race the day before or after.
func (c *calendar) besideRace(d *day) bool {
	before, after := c.at(d.date-1), c.at(d.date+1)
	return before != nil && before.race != nil || after != nil && after.race != nil
}

// anotherRace reports a race near a day that decides what is ridden on it.
func (c *calendar) anotherRace(d *day) bool {
	before := c.at(d.date - 2)
	return c.besideRace(d) || c.beforeRace(d) || before != nil && before.race != nil && !smallerSet(before.race)
}

// smallerSet reports a B race two days after which a smaller set is ridden: one that
// was trained through, or a short one in the evening.
func smallerSet(r *planner.Race) bool {
	return r.Priority == planner.PriorityB && (r.Emphasis == planner.TrainThrough && r.Minutes() < longRace || r.Minutes() < shortRace && r.Evening())
}

// beforeRace reports an A or B race one or two days after.
func (c *calendar) beforeRace(d *day) bool {
	for t := d.date + 1; t <= d.date+2; t++ {
		if n := c.at(t); n != nil && n.race != nil && n.race.Priority != planner.PriorityC && n.race.Date == t {
			return true
		}
	}
	return false
}

// longestShort is the longest usual ride of the week that is not long, 0 for none.
func (c *calendar) longestShort(before planner.Date) int {
	week, most := c.facts.WeekOn(before-1), 0
	for i := range week {
		if kind, minutes, _ := usualRide(week[i].Sessions); kind != long && !week[i].Busy {
			most = max(most, minutes)
		}
	}
	return most
}
