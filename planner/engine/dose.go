package engine

import (
	"musette/planner"
)

// Shares of a set, in twelfths.
const (
	whole         = 12
	threeQuarters = 9
	twoThirds     = 8
	half          = 6

	longReps    = 6 * 60  // seconds; longer repetitions tire most
	longWork    = 15 * 60 // two of these and longer become shorter ones
	longestLate = 8 * 60  // seconds of a repetition on D-3
	pacedRep    = 10 * 60 // and on D-4
	sharpFrom   = 5 * 60  // repetitions of a set that D-3 borrows, at most
	sharpRep    = 3 * 60  // and how much of them it rides
	stageEve    = 60      // minutes of a hard D-3 before stages
	sharpRace   = 210     // minutes of a race; before longer ones it does not
)

// share is how much of a set D-t rides.
func (w *window) share(t int, set hardSet) int {
	q, d := whole, w.t[t].day
	long := set.longest() > longReps
	switch {
	case w.block && t >= 8 && !w.hardBefore(t):
		q = twoThirds
	case t >= 11 && w.block:
		q = threeQuarters
	case t >= 11:
	case t >= 8 || !long && t >= 5:
		q = threeQuarters
	case t >= 6 || t == 4 && (!long || w.longTrial()):
		q = twoThirds
	case t == 5 && climbs(w.race):
		q = twoThirds
	case t == 5:
		q = 7
	default:
		q = half
	}
	if t == 3 {
		if !long && (w.race.Minutes() <= shortRace || w.stages()) {
			q = twoThirds
		}
		after := w.neighbour(5).is()
		for u := 5; u <= 7 && !after; u++ {
			d := w.at(u)
			after = d != nil && d.race != nil
		}
		if after && !w.stages() {
			q = min(q, half)
		}
	}
	if t <= 4 && (w.afterRun(t) || t < w.n && w.afterRun(t+1)) {
		q = max(q, threeQuarters)
	}
	if w.hours < 10 && (t == 4 || t == 5) && w.hardIn(3, 6) == 1 { // the only one of the last days
		q = max(q, threeQuarters)
	}
	if w.hours < 7 && t > 3 {
		q = max(q, threeQuarters)
		if t >= 7 {
			q = whole
		}
	}
	if w.t[t].whole && t >= 5 {
		q = whole
	}
	if d.kind != hard && w.pattern == planner.UsualDays && !w.t[t].whole {
		q = min(q, twoThirds) // added
	}
	if w.ill || w.c.freshlyWell(d.date) && !w.hardBefore(t) {
		q = min(q, 7) // half, and halves up
	}
	return q
}

// stages reports a race of several days for a rider of many hours: a ride of 45 min on D-3
// is too far from what they are used to and from what comes.
func (w *window) stages() bool { return w.race.Days > 1 && w.hours >= easeHigh }

// hardBefore reports a hard day of the window before D-t.
func (w *window) hardBefore(t int) bool { return t < w.n && w.hardIn(t+1, w.n) > 0 }

// frameOn is how many minutes of warm-up and cool-down D-t keeps: late in the taper
// riders of few hours need less.
func (w *window) frameOn(t int) int {
	if t <= 5 && w.hours < 10 || t == 3 {
		return shortFrame
	}
	return frame
}

// afterRun reports the first day after three lost days or more: the rider is rested.
func (w *window) afterRun(t int) bool {
	last := t + 1
	if last < w.n && !w.lostOn(last) && !w.t[last].hard && w.t[last].mins == 0 {
		last++ // over a free day
	}
	return w.lostOn(last) && w.lostOn(last+1) && w.lostOn(last+2)
}

// lostOn reports a day of a lost run, before the window a lost day.
func (w *window) lostOn(t int) bool {
	if t <= w.n {
		return w.t[t].lostRun
	}
	d := w.at(t)
	return d != nil && d.lost() && !d.neverRidden()
}

// dosed is the set that D-t rides of a usual hard session, and the least minutes
// of the ride; no set where none fits the day.
func (w *window) dosed(t int, src source) (set hardSet, least int) {
	d := w.t[t].day
	bunch := t == 3 && w.bunch(src)
	if t == 3 && !bunch && !w.short.set.isZero() && !w.longTrial() && (w.t[3].kind != hard && !climbs(w.race) || w.short.set.longest() >= 5*60 && src.set.longest() > 6*60 && !(climbs(w.race) && src.set.longest() <= longestLate)) {
		src = w.short // the last hard work is short
	}
	paced := t == 4 && climbs(w.race) && w.race.Minutes() >= pacedRace
	if t == 4 && !paced && src.set.longest() > pacedRep && !w.short.set.isZero() {
		src = w.short
	}
	for i, s := range [3]source{src, w.short, src} {
		around := w.frameOn(t)
		if i == 2 { // a usual hard day, or the last one before a short race, is not lost for a few minutes of warm-up
			if d.kind != hard && !(t == 3 && w.race.Minutes() < shortRace) {
				break
			}
			around = forcedFrame
		}
		room := w.roomFor(t, s)
		set := s.set.kept(w.share(t, s.set))
		if one := s.set.one(); w.longTrial() && t > 3 && one.work() == set.work() {
			set = one // one whole repetition paces better than two halves
		}
		if paced && w.race.Minutes() < briefRace {
			set = set.atMost(pacedRep)
		}
		if t == 3 {
			most := longestLate
			if src.set.longest() > longReps && w.short.set.longest() < 5*60 {
				most = longReps
			}
			set = set.atMost(most)
			if s == src && (bunch || w.sharpens(src.set)) {
				set = w.short.set.sharp()
			}
		}
		least := s.set.reps()/2 + s.set.reps()%2
		for {
			if m := w.least(s, set, around); m <= room {
				if w.told.cut { // a told cut may take from warm-up and cool-down
					m = min(m, w.least(s, set, forcedFrame))
				}
				return set, m
			} else if d.kind == hard && !w.restful() && w.least(s, set, forcedFrame) <= room {
				return set, floor5(room) // a repetition is not lost for a few minutes of warm-up
			} else if d.limit < noLimit && w.least(s, set, forcedFrame) <= min(room, d.limit) {
				return set, floor5(min(room, d.limit))
			}
			fewer, ok := set.less()
			if !ok || fewer.reps() < least {
				break
			}
			set = fewer
		}
	}
	return hardSet{}, 0
}

// sharpens reports a race in a bunch before which D-3 rides short repetitions in place
// of its long ones: another hard day has the short set.
func (w *window) sharpens(own hardSet) bool {
	short := w.short.set
	return !climbs(w.race) && w.race.Minutes() < sharpRace && !w.ill && own.part == 0 && own.longest() > longReps &&
		!short.isZero() && short.part == 0 && short.longest() <= sharpFrom && short != own
}

// bunch reports a hard ride without a set, such as a group ride, where the rider has a set:
// a few short repetitions are a smaller and surer dose than what others ride.
func (w *window) bunch(src source) bool {
	return src.set.part > 0 && !climbs(w.race) && !w.ill && !w.short.set.isZero() && w.short.set.part == 0
}

// steered reports a group ride without a set on a day that wants a surer dose: before
// time trials and climbs, and late before longer races and after an overload block.
func (w *window) steered(t int, src source) bool {
	if src.set.part == 0 || w.ill || w.short.set.isZero() || w.short.set.part > 0 {
		return false
	}
	return climbs(w.race) && t >= 3 && t <= 7 || (w.block || w.race.Minutes() > shortRace) && (t == 4 || t == 5)
}

// instead is the set of the rider's own in place of a group ride: the longest before time
// trials and climbs, else the short one.
func (w *window) instead() source {
	best := w.short
	for _, s := range w.c.setsByLength(w.race.Date) {
		if climbs(w.race) && s.set.part == 0 && s.set.longest() >= best.set.longest() {
			best = s
		}
	}
	return best
}

// least is the shortest ride for a set that is part of a usual session: with
// warm-up and cool-down, but not longer than that session without what was dropped.
func (w *window) least(s source, set hardSet, around int) int {
	m := set.least(around)
	if dropped := s.set.least(0) - set.least(0); dropped >= 0 {
		m = min(m, max(s.minutes-dropped, set.least(10)))
	}
	return ceil5(m)
}

// roomFor is the most minutes that D-t has for a hard ride of that session.
func (w *window) roomFor(t int, s source) int {
	d := w.t[t].day
	room := d.mins
	if room == 0 {
		room = 60
	}
	if (t == 3 || t == 4) && !w.afterRun(t) {
		room = min(room, w.lateMost(t))
	}
	return min(room, d.most())
}

// lateMost is the most minutes of rides on D-4 and D-3.
func (w *window) lateMost(t int) int {
	most := max(60, round5(5*w.hours))
	if w.t[t].kind == long { // the long ride stays a longer one
		return max(most, round5(float64(w.t[t].mins)*(0.5-0.05*float64(t-3))))
	}
	switch share := float64(w.t[t].mins); {
	case w.hours < 13 && t == 4:
		most = max(most, round5(share*0.7))
	case w.hours < 10 && t == 3:
		most = max(most, round5(share*0.6))
	}
	return most
}

// dose settles the sets and leaves out what does not fit or would make the
// window's hard work more than usual.
func (w *window) dose() {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		if !s.hard {
			continue
		}
		if w.steered(t, s.src) {
			s.src = w.instead()
		}
		set, least := w.dosed(t, s.src)
		if set.isZero() {
			s.hard, s.reason = false, note{code: WhyHardRoom, day: s.date}
			continue
		}
		if s.kind == long && !w.told.cut {
			least = max(least, min(floor5(s.mins*6/10), w.lateMost(t), floor5(w.loadMost(t)), s.most()))
		}
		if s.src.set.longest() != set.longest() && w.short.set.longest() == set.longest() && s.kind == hard {
			s.src = w.short
		}
		if t == 3 && w.stages() && !w.told.cut {
			least = max(least, floor5(min(s.mins, s.most(), stageEve)))
		}
		s.set, s.lo = set, least
	}
	w.stepDown()
	w.holdWork()
}

// stepDown leaves a repetition out on D-3 where it would repeat the hard day before.
func (w *window) stepDown() {
	if w.n < 5 || !w.t[3].hard {
		return
	}
	s := &w.t[3]
	for t := 5; t <= min(6, w.n); t++ {
		if !w.t[t].hard {
			continue
		}
		if fewer, ok := s.set.less(); ok && fewer.reps() >= 2 && s.set == w.t[t].set {
			s.set = fewer
			s.lo = min(s.lo, w.least(s.src, fewer, frame))
		}
		return
	}
}

// holdWork keeps the hard work of D-n to D-1 within that of the usual hard days
// D-n to D: added days, the nearest to the race first, have what is left.
func (w *window) holdWork() {
	usual, planned := 0, 0
	for t := 0; t <= w.n; t++ {
		d := w.at(t)
		if d.kind == hard {
			usual += d.set.work()
		}
		if t > 0 && w.t[t].hard {
			planned += w.t[t].set.work()
		}
	}
	for t := 1; t <= w.n && planned > usual; t++ {
		s := &w.t[t]
		if !s.hard || s.kind == hard && w.pattern == planner.UsualDays {
			continue
		}
		for planned > usual {
			fewer, ok := s.set.less()
			if left := usual - planned + s.set.work(); (!ok || fewer.reps() < 2) && w.shorterReps(t, left) {
				break
			}
			if !ok || fewer.reps() < 2 {
				planned -= s.set.work()
				s.hard, s.reason = false, note{} // it was not usually hard
				if s.kind == hard {
					s.reason = note{code: WhyHardEnough}
				}
				break
			}
			planned -= s.set.work() - fewer.work()
			s.set = fewer
			s.lo = min(s.lo, w.least(s.src, fewer, frame))
		}
	}
}

// A hard session is warm-up and cool-down around its set (common practice): what
// the plan gives by itself leaves frame minutes for them, late in the taper of
// riders of few hours shortFrame, a told limit forcedFrame.
const (
	frame       = 40
	shortFrame  = 30
	forcedFrame = 25
	leastFrame  = 15
)

// hardSet is the hard part of a session: its repetitions, or where none were entered
// one part of so many minutes.
type hardSet struct {
	sets planner.Sets
	part int // minutes
}

// setOf is the hard part of a usual session; without repetitions what was entered, else a third of it.
func setOf(s planner.Session) hardSet {
	if s.Sets.IsZero() {
		return hardSet{part: max(1, s.HardMinutes())}
	}
	return hardSet{sets: s.Sets}
}

func (s hardSet) isZero() bool { return s == hardSet{} }

// work is the time of the repetitions, in seconds.
func (s hardSet) work() int {
	if s.part > 0 {
		return s.part * 60
	}
	return s.sets.WorkSeconds()
}

// longest is the longest repetition, in seconds.
func (s hardSet) longest() int {
	if s.part > 0 {
		return s.part * 60
	}
	most := 0
	for _, g := range s.sets {
		if g.Reps > 0 {
			most = max(most, int(g.Work))
		}
	}
	return most
}

// reps counts the repetitions.
func (s hardSet) reps() int {
	if s.part > 0 {
		return 1
	}
	n := 0
	for _, g := range s.sets {
		n += int(g.Reps)
	}
	return n
}

// least is the shortest ride, in minutes, that holds the set with warm-up and
// cool-down of so many minutes; rests go between repetitions.
func (s hardSet) least(around int) int {
	if s.part > 0 {
		return around + s.part
	}
	return around + (s.sets.Seconds()+59)/60
}

// kept is the set with a share of its work (of, in twelfths): repetitions keep
// their length and effort. Fewer than two become two shorter ones of a length
// that riders ride.
func (s hardSet) kept(twelfths int) hardSet {
	if twelfths >= 12 || s.isZero() {
		return s
	}
	if s.part > 0 {
		s.part = max(1, (s.part*twelfths+6)/12)
		return s
	}
	several := s.sets[1].Reps > 0
	for i := range s.sets {
		g := &s.sets[i]
		if g.Reps == 0 {
			continue
		}
		n := int(g.Reps) * twelfths
		switch {
		case several:
			g.Reps = int16((n + 11) / 12)
		case n >= 24 && twelfths == threeQuarters:
			g.Reps = int16((n + 6) / 12) // halves up
		case n >= 24:
			g.Reps = int16((n + 5) / 12) // halves down
		case g.Reps == 1:
			g.Work = neat(int(g.Work) * twelfths / 12)
		default:
			g.Reps = 2
			if n < 16 || g.Work >= longWork {
				g.Work = neat(n * int(g.Work) / 24)
			}
		}
	}
	return s
}

// one is the set's first repetition alone.
func (s hardSet) one() hardSet {
	s.sets = planner.Sets{s.sets[0]}
	s.sets[0].Reps = min(s.sets[0].Reps, 1)
	return s
}

// neat is the nearest length of a repetition that riders ride, in seconds, the shorter of two.
func neat(seconds int) int16 {
	best := min(seconds, 60)
	for _, m := range [...]int{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60} {
		if m*60-seconds < seconds-best {
			best = m * 60
		}
	}
	return int16(best)
}

// atMost is the set with repetitions of so many seconds at most, two where they were longer.
func (s hardSet) atMost(seconds int) hardSet {
	if s.longest() <= seconds {
		return s
	}
	if s.part > 0 {
		return hardSet{part: min(s.part, 2*seconds/60)}
	}
	for i := range s.sets {
		if g := &s.sets[i]; int(g.Work) > seconds {
			g.Reps, g.Work = min(g.Reps, 2), int16(seconds)
		}
	}
	return s
}

// sharp is half of the set's repetitions, three at least, each of sharpRep at most.
func (s hardSet) sharp() hardSet {
	out := s.one()
	g := &out.sets[0]
	g.Reps, g.Work = int16(max(3, (s.reps()+1)/2)), min(g.Work, sharpRep)
	return out
}

// less is the set with one repetition fewer, false where none can go.
func (s hardSet) less() (hardSet, bool) {
	if s.part > 0 || s.reps() < 2 {
		return s, false
	}
	for i := len(s.sets) - 1; i >= 0; i-- {
		if s.sets[i].Reps > 1 || s.sets[i].Reps == 1 && i > 0 {
			s.sets[i].Reps--
			if s.sets[i].Reps == 0 {
				s.sets[i] = planner.Set{}
			}
			return s, true
		}
	}
	return s, false
}
