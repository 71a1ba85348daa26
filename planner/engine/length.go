package engine

import (
	"strings"

	"musette/planner"
)

// Lengths and cuts of tapers.
const (
	LeastAuto, MostAuto = 6, 12 // of the table
	BlockDays           = 14    // after an overload block
	closeMost           = 10    // days at most with another A race within CloseGap days
	CloseGap            = 28    // days between A races that are close
	mostCut             = 41    // per cent, from 12 hours a week on
	blockCut            = 5     // more after a block
	longCut             = 3     // less before races of 5 h or more and of several days
)

// window is one A race's taper: days D-n to D-1.
type window struct {
	c    *calendar
	race *planner.Race
	n    int
	cut  int
	told struct{ length, cut bool }

	block    bool // an overload block comes right before it
	taught   Own
	wanted   int // days before anything cut it short
	why      planner.LengthReason
	hours    float64
	single   bool // at most one hard day a week
	pattern  planner.Pattern
	short    source
	long     source
	rides    int  // usual rides a week
	ill      bool // illness in the window
	illHard  bool // by more than a cold
	t        []taperDay
	lambda   float64
	held     bool // lambda settled on an earlier day
	deeper   int  // times that the cut was deepened to be lighter than usual
	openersT int
}

// taperDay is what the rules make of D-t, before it is written.
type taperDay struct {
	*day
	hard     bool
	src      source // what a hard day rides
	set      hardSet
	whole    bool
	opener   bool
	spin     bool // ridden easily although it is usually free
	rest     bool // kept free
	dropped  bool // by a told cut that could not be met else
	lessened bool // by a repetition, to be lighter than usual
	lo, hi   int
	minutes  int
	lostRun  bool
	unmade   bool // a hard session was planned here, and is not made up
	reason   note
	soonWell bool // shorter since an illness was not long ago
}

func (w *window) start() planner.Date { return w.race.Date.AddDays(-w.n) }

func (w *window) at(t int) *day { return w.c.at(w.race.Date.AddDays(-t)) }

// climbs reports a time trial or a climb by its kind.
func climbs(r *planner.Race) bool {
	kind := strings.ToLower(r.Kind)
	for _, word := range [...]string{"time trial", "climb", "mountain"} {
		if strings.Contains(kind, word) {
			return true
		}
	}
	return false
}

// TableLength is the length for riders who told none, in days: a little rider
// carries little fatigue, a long event wants more rest (common practice within
// the 8 to 14 days of Bosquet et al. 2007). prev and next are the A races before and after it, or nil.
func TableLength(f *planner.Facts, r, prev, next *planner.Race) (days int, why planner.LengthReason) {
	days = tableLength(f, r)
	if (near(r, prev) || near(next, r)) && days > closeMost {
		return closeMost, planner.LengthClose
	}
	return days, planner.LengthTable
}

// Own is a length that a rider's races have settled: how many races say so, what
// they say, and what would be usual.
type Own struct {
	Races, Usual int
	planner.OwnLength
}

// AutoLength is the length that a race gets where no other was told: the table's,
// unless what the rider's races have taught leaves that out.
func AutoLength(f *planner.Facts, r, prev, next *planner.Race) (days int, why planner.LengthReason) {
	days, why, _ = autoLength(f, r, prev, next)
	return days, why
}

func autoLength(f *planner.Facts, r, prev, next *planner.Race) (days int, why planner.LengthReason, own Own) {
	days, why = TableLength(f, r, prev, next)
	taught, length := f.Deciding(tableLength(f, r))
	switch {
	case taught == nil || length.Days == days:
		return days, why, own
	case length.Days > closeMost && (near(r, prev) || near(next, r)):
		return closeMost, planner.LengthClose, own
	}
	return length.Days, planner.LengthOwn, Own{taught.Races, days, length}
}

func tableLength(f *planner.Facts, r *planner.Race) int {
	n := 4 + 5*float64(f.WeekOn(r.Date-1).RideMinutes())/60/12
	switch {
	case r.Minutes() >= 360 || r.Days > 1:
		n += 2
	case r.Minutes() >= 240:
		n++
	}
	days := int(n)
	if n-float64(days) >= 0.5 || longOn(f, r.Date.AddDays(-days-1)) { // a long ride belongs to the taper
		days++
	}
	if days = max(days, LeastAuto); days == LeastAuto && r.Minutes() < shortRace && longOn(f, r.Date.AddDays(-days-1)) {
		days++
	}
	return min(days, MostAuto)
}

// longOn reports a usual long ride on a date.
func longOn(f *planner.Facts, date planner.Date) bool {
	weekday := f.WeekOn(date)[date.Weekday()]
	kind, _, _ := usualRide(weekday.Sessions)
	return kind == long && !weekday.Busy
}

// sizeWindow settles start, length and cut of an A race's taper. prev and next
// are the A races before and after it.
func (c *calendar) sizeWindow(r, prev, next *planner.Race) *window {
	w := &window{c: c, race: r, hours: c.hours(r.Date), single: c.hardDays(r.Date) <= 1}
	w.short, w.long = c.sets(r.Date)
	w.rides = c.facts.WeekOn(r.Date - 1).Rides()
	w.pattern = c.facts.Taper.Pattern
	want := c.facts.Taper.Days
	w.why = planner.LengthTold
	if r.TaperDays != 0 {
		want = r.TaperDays
	}
	w.told.length = want != 0
	if want == 0 {
		want, w.why, w.taught = autoLength(c.facts, r, prev, next)
	}
	start := r.Date.AddDays(-want)
	if !w.told.length {
		if first := c.upToLost(start, r); first < start {
			start, w.why = first, planner.LengthLost
		}
	}
	w.cut = c.facts.Taper.Cut
	w.told.cut = w.cut != 0
	if w.cut == 0 {
		w.cut = min(int(18+1.9*w.hours+0.5), mostCut)
		if r.Minutes() >= hugeRace || r.Days > 1 {
			w.cut -= longCut
		}
	}
	if end, ok := c.blockBefore(r); ok && (prev == nil || end > prev.Last()) {
		w.block = true
		start, w.why = max(r.Date.AddDays(-BlockDays), end+1), planner.LengthBlock
		if !w.told.cut {
			w.cut += blockCut
		}
		c.easeAfterBlock(r, end)
	}
	if trial := c.trial.of(r); trial != nil {
		w.n, w.wanted, w.why = trial.Days, trial.Days, planner.LengthTold
		if trial.Cut != 0 {
			w.cut, w.told.cut = trial.Cut, true
		}
		return w
	}
	if w.why == planner.LengthOwn {
		start = max(start, min(c.from, r.Date.AddDays(-w.taught.Usual))) // no day that is over joins it
	}
	w.wanted = start.DaysUntil(r.Date)
	if r.Registered > start {
		start, w.why = r.Registered, planner.LengthLate
	}
	for _, other := range c.races {
		if other.Priority == planner.PriorityA && other.Date < r.Date && other.Last() >= start {
			start, w.why = other.Last()+1, planner.LengthAfterRace
		}
	}
	w.n = max(0, start.DaysUntil(r.Date))
	return w
}

// upToLost lets a taper that would begin in lost days, or right after them, begin on
// the day before them, two weeks before the race at most.
func (c *calendar) upToLost(start planner.Date, r *planner.Race) planner.Date {
	if d := c.at(start - 1); d != nil && d.lost() && !d.neverRidden() && start-1 > r.Date-BlockDays {
		start--
	}
	first := start
	for d := c.at(first); d != nil && d.lost() && !d.neverRidden() && first > r.Date-BlockDays; d = c.at(first) {
		first--
	}
	for d := c.at(first); first < start && d != nil && d.neverRidden() && first > r.Date-BlockDays; d = c.at(first) {
		first-- // a session can only be on a day that is ridden
	}
	next := c.at(start + 1)
	if first < start-1 || first < start && next != nil && next.lost() && !next.neverRidden() {
		return first
	}
	return start
}

func near(later, earlier *planner.Race) bool {
	return later != nil && earlier != nil && earlier.Last().DaysUntil(later.Date) <= CloseGap
}

// toldCutB is how much less, in per cent, easy rides before a B race have where only a
// length was asked for.
const toldCutB = 30

// keepTold shortens the days of a taper that the rider asked for before an important B race
// that is far from A races: easy rides by the cut, hard days by a quarter and a third.
func (h *halfWeek) keepTold() {
	days, cut := h.toldTaper()
	for t := 3; t <= min(days, BlockDays); t++ {
		d := h.open(t)
		if d == nil || !d.ridden() || d.ban.is() || d.only || !d.out.asUsual || d.most() < d.mins || d.kind == recovery || d.kind == commute || h.c.besideRace(d) || h.c.easedByB(d) {
			continue
		}
		switch {
		case d.kind == hard && t <= 4:
			h.c.smallerOf(d, h.setFor(d), twoThirds, note{code: WhyBTold, race: h.race, n: days})
		case d.kind == hard:
			h.c.smallerOf(d, h.setFor(d), threeQuarters, note{code: WhyBTold, race: h.race, n: days})
		default:
			minutes := max(neatFloor(d.mins*(100-cut)/100), min(d.mins, 40))
			d.out = plan{kind: d.name(minutes, 40), effort: planner.Easy, minutes: minutes}
			if t > steadyUntil && d.out.kind == planner.Endurance {
				d.out.effort = planner.Steady
			}
			d.because(note{code: WhyBTold, race: h.race, n: days})
		}
		d.owner, d.phase, d.host = byB, planner.Tapering, h.race
	}
}

// toldTaper is the length and cut that the rider asked for, no days where they are not for
// this race.
func (h *halfWeek) toldTaper() (days, cut int) {
	days, cut = h.c.facts.Taper.Days, h.c.facts.Taper.Cut
	if h.through || h.race.Emphasis != planner.Important {
		return 0, 0
	}
	for _, goal := range h.c.goals() {
		if h.race.TaperDays == 0 && gapDays(h.race, goal) <= CloseGap {
			return 0, 0
		}
	}
	if h.race.TaperDays != 0 {
		days = h.race.TaperDays
	}
	if cut == 0 {
		cut = toldCutB
	}
	return days, cut
}
