package planner

// Lengths of rides in a window, in minutes.
const (
	bigWeekHours  = 8.0  // riders from here get the longer openers and least rides
	hugeWeekHours = 12.0 // riders from here may take longer openers still
	hardNearRace  = 120  // hard rides on D-4 to D-2 at most
	afterOpeners  = 60   // openers the day after another race at most
	leastOpeners  = 30   // a day limited below this holds no openers
)

// spot is one day of a window; index p in window.spots means D-p.
type spot struct {
	slot    *slot
	source  Session // the usual hard session that a hard day here rides
	usually int     // hard days of the typical week in force
	hard    bool
	full    bool // keeps all repetitions
	opening bool // kept easy after an overload block
	openers bool
	moved   bool // a rest day stands here that openers, a hard day or a race displaced
	extra   int  // usual minutes of the ride that a displaced rest day brings here
	lo, hi  int  // minutes that the rules allow, multiples of 5 but for races
	weight  float64
	minutes int
}

func (s *spot) raced() bool { return s.slot.claim == claimRace }

// resting reports a usual rest day, by choice: it may move.
func (s *spot) resting() bool { return !s.slot.off && !s.slot.usuallyRidden() }

// rides reports whether the spot is a riding day as planned so far.
func (s *spot) rides() bool {
	if s.hard || s.openers || s.raced() {
		return true
	}
	return !s.moved && (s.slot.usuallyRidden() || s.extra > 0) && s.hi > 0
}

// planWindow plans the days of one A race's taper.
func (c *calendar) planWindow(w *window) {
	w.spots = make([]spot, w.n+1)
	for p := 1; p <= w.n; p++ {
		s := c.at(w.race.Date.AddDays(-p))
		w.spots[p].slot = s
		w.spots[p].source = c.hardSource(s.Date)
		w.spots[p].usually = c.facts.weekOn(s.Date).HardDays()
		w.hardDays = max(w.hardDays, w.spots[p].usually)
		s.afterCap = c.afterCap(s)
	}
	w.pattern, w.shape = c.facts.Taper.Pattern, c.facts.Taper.Shape
	w.hardEve = c.hardEve(w)
	w.placeOpeners(c.facts.Taper.OpenersD2)
	w.broken = w.search().broken
	for p := 1; p <= w.n; p++ {
		c.writeSpot(w, p)
	}
	c.easeEve(w)
}

// hardEve reports whether the day before the window is hard, as far as any rule may leave it.
func (c *calendar) hardEve(w *window) bool {
	s := c.at(w.start() - 1)
	if s == nil {
		return false
	}
	return s.claim == claimRace || s.claim < claimTaper && s.usuallyHard() && !s.travel
}

// placeOpeners puts openers on D-1, or D-2 by wish or where D-1 has no room.
func (w *window) placeOpeners(wantD2 bool) {
	w.wantD2 = wantD2 && w.n >= 2
	order := [2]int{1, 2}
	if wantD2 && w.n >= 2 {
		order = [2]int{2, 1}
	}
	if w.hours == 0 {
		return // nobody to wake up: the typical week has no rides
	}
	for _, p := range order {
		if p > w.n {
			continue
		}
		s := w.spots[p].slot
		if s.claim == claimRace || s.off || s.travel || s.limit < leastOpeners {
			continue
		}
		w.spots[p].openers = true
		if p == 2 && wantD2 && w.spots[1].slot.usuallyRidden() && !w.spots[1].raced() {
			w.freeEve = true
		}
		return
	}
}

// fitRides turns easy days into rest until the window has no more rides than
// usual, D-2 first, else the latest easy day; and rides again on a rest day
// where openers two days out left too few.
func (w *window) fitRides() {
	usual, planned := w.countRides()
	for planned > usual {
		p := w.latestEasy()
		if p == 0 {
			return
		}
		w.spots[p].moved = true
		planned--
	}
	for planned < leastRides(usual) {
		p := w.latestRest()
		if p == 0 {
			return
		}
		w.spots[p].extra = w.spots[1].slot.usualMinutes()
		w.bound(p)
		planned++
	}
}

// leastRides is 80 % of the usual riding days, rounded up.
func leastRides(usual int) int { return (4*usual + 4) / 5 }

func (w *window) countRides() (usual, planned int) {
	for p := 1; p <= w.n; p++ {
		if w.spots[p].slot.usuallyRidden() {
			usual++
		}
		if w.spots[p].rides() {
			planned++
		}
	}
	return usual, planned
}

// latestEasy is D-2 if easy, else the easy day nearest to the race; 0 if none.
func (w *window) latestEasy() int {
	for p := 1; p <= w.n; p++ {
		s := &w.spots[p]
		if s.rides() && !s.hard && !s.openers && !s.raced() && p > 1 {
			return p
		}
	}
	return 0
}

// latestRest is a usual rest day that can take the ride of a D-1 kept free.
func (w *window) latestRest() int {
	if !w.freeEve {
		return 0
	}
	for p := 3; p <= w.n; p++ {
		s := &w.spots[p]
		if s.resting() && !s.rides() && !s.slot.travel && s.slot.cap() >= leastOpeners && s.extra == 0 {
			return p
		}
	}
	return 0
}

// hardSource is the usual hard session that a hard day on the date rides: its
// own, else that of the nearest usual hard day, the one before on a tie.
func (c *calendar) hardSource(date Date) Session {
	for k := 0; k <= 7; k++ {
		for _, d := range [2]Date{date.AddDays(-k), date.AddDays(k)} {
			if s := c.at(d); s != nil {
				if hard, ok := hardSession(s.Usual); ok {
					return hard
				}
			}
		}
	}
	return Session{}
}

// hardBounds are the least and most minutes of a hard session: warm-up,
// repetitions, rests and cool-down; and the usual minutes less what the
// dropped repetitions took. Without sets half of the ride is the hard part.
func hardBounds(source Session, full bool) (lo, hi int) {
	usual := int(source.Minutes)
	if source.Sets.IsZero() {
		part := usual / 2
		if !full {
			hi = usual - part/2
			part -= part / 2
		} else {
			hi = usual
		}
		lo = warmUp + part + coolDown
	} else {
		kept := source.Sets
		if !full {
			kept = kept.halved()
		}
		lo = kept.leastMinutes()
		hi = usual - (source.Sets.seconds()-kept.seconds())/60
	}
	if lo > hi {
		lo = hi // the usual session has no room for a full warm-up either
	}
	if lo, hi = ceil5(lo), floor5(hi); lo > usual {
		lo = floor5(usual)
	}
	return lo, max(lo, hi)
}
