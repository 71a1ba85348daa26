package engine

import (
	"slices"

	"musette/planner"
)

// cut drops what lies before a date.
func (p *history) cut(from planner.Date) {
	if len(p.days) == 0 || from <= p.first {
		return
	}
	n := min(p.first.DaysUntil(from), len(p.days))
	p.first, p.days = p.first.AddDays(n), p.days[n:]
}

// taper is what is held of a window, nil if it has not begun.
func (p *history) taper(w *window) *heldTaper {
	for i := range p.tapers {
		if p.tapers[i].race == keyOf(w.race) {
			return &p.tapers[i]
		}
	}
	return nil
}

// hold takes start, length and cut from the first day of the taper.
func (w *window) hold(h *heldTaper) {
	w.n, w.wanted, w.why, w.taught, w.block = h.n, h.wanted, h.why, h.own, h.block
	w.lambda, w.held = h.lambda, true
	cut := w.c.facts.Taper.Cut
	if cut != 0 && (!h.toldCut || cut != h.cut) {
		w.cut, w.told.cut, w.held = cut, true, false // a new cut is met over the days that are left
		return
	}
	w.cut, w.told.cut = h.cut, h.toldCut
}

// settlePast keeps the days that are over as they were shown.
func (c *calendar) settlePast(past *history) {
	for i := range past.days {
		d := c.at(past.first.AddDays(i))
		if d == nil || d.date >= c.from {
			continue
		}
		s := &past.days[i]
		d.owner, d.phase, d.host, d.planned = settled, s.phase, s.race, s.planned
		d.out = plan{sessions: s.sessions}
		d.why = s.why
	}
}

// settleLog shows logged rides as they were ridden, several of a day as one.
func (c *calendar) settleLog(past *history) {
	done := slices.Clone(c.facts.Done)
	slices.SortStableFunc(done, func(a, b planner.Ride) int { return int(a.Date - b.Date) })
	for len(done) > 0 {
		date, n := done[0].Date, 1
		for n < len(done) && done[n].Date == date {
			n++
		}
		rides := done[:n]
		done = done[n:]
		d := c.at(date)
		if d == nil || date > c.from || d.race != nil {
			continue
		}
		before := d.usual
		if d.planned != nil {
			before = d.planned
		} else if d.owner == settled && d.out.sessions != nil {
			before = d.out.sessions
		} else if date == c.from && past.next.sessions != nil {
			before = past.next.sessions
		}
		minutes, rpe := planner.Ridden(rides)
		d.logAs(before, min(minutes, noLimit), rpe)
	}
}

// logAs settles a day as it was ridden; before is what was shown for it.
func (d *day) logAs(before []planner.Session, minutes int, rpe float64) {
	out := make([]planner.Session, 0, 2)
	rides := ridesOf(before)
	if minutes > 0 {
		out = append(out, asRidden(rides, minutes, rpe))
	}
	for _, s := range before {
		if s.Kind == planner.Strength {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		out = restDay
	}
	d.owner, d.logged, d.unmet, d.planned = settled, true, false, before
	d.out = plan{sessions: out}
	if minutes > 0 {
		d.because(note{code: WhyLogged, n: minutes})
	} else {
		d.because(note{code: WhyMissed})
	}
}

func ridesOf(sessions []planner.Session) []planner.Session {
	var out []planner.Session
	for _, s := range sessions {
		if s.Kind.IsRide() {
			out = append(out, s)
		}
	}
	return out
}

// asRidden is a logged ride in the words of the plan: the planned session where
// length and rating fit it, else a ride of the effort that was rated (Foster 2001).
func asRidden(planned []planner.Session, minutes int, rpe float64) planner.Session {
	ride := planner.Session{Kind: planner.Other, Effort: planner.Easy}
	if len(planned) > 0 {
		ride = planned[0]
	}
	ride.Minutes = int16(minutes)
	whole := minutes*60 >= ride.Sets.Seconds()
	switch {
	case ride.Effort == planner.Hard && whole && (rpe == 0 || rpe >= 7):
		return ride
	case rpe >= 7:
		return planner.Session{Kind: planner.Other, Effort: planner.Hard, Minutes: ride.Minutes}
	case rpe >= 4:
		return planner.Session{Kind: planner.Endurance, Effort: planner.Steady, Minutes: ride.Minutes}
	case ride.IsHard() || rpe > 0 && ride.Effort == planner.Steady:
		return planner.Session{Kind: planner.Endurance, Effort: planner.Easy, Minutes: ride.Minutes}
	}
	return ride
}

// remember keeps what the next stage must respect.
func (c *calendar) remember(from, next planner.Date, past *history) *history {
	out := &history{first: past.first, days: past.days, fixed: past.fixed}
	if len(out.days) == 0 {
		out.first = min(from, next)
	}
	for t := out.first.AddDays(len(out.days)); t <= next; t++ {
		d := c.at(t)
		if d == nil {
			break
		}
		s := shown{sessions: d.sessions(), phase: d.phase, race: d.belongs(), why: d.why, planned: d.planned}
		if t == next {
			out.next = s
			break
		}
		out.days = append(out.days, s)
	}
	for _, w := range c.wins {
		if w.start() < next && w.race.Date > next {
			out.tapers = append(out.tapers, w.held0())
		}
	}
	out.fixed = c.fixed
	return out
}

// held0 is what stays of a taper that has begun.
func (w *window) held0() heldTaper {
	h := heldTaper{race: keyOf(w.race), n: w.n, cut: w.cut, toldCut: w.told.cut, block: w.block, lambda: w.lambda, wanted: w.wanted, why: w.why, own: w.taught,
		days: make([]heldDay, w.n+1)}
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		h.days[t] = heldDay{hard: s.hard, opener: s.opener, rest: s.rest, dropped: s.dropped, unmade: s.unmade, set: s.set, lo: s.lo, hi: s.hi, minutes: s.minutes}
	}
	return h
}

// Plans are made again on each date on which something was entered or taken back,
// from what was known then; days that are over stay as they were shown. A stage
// is one such planning.
type stage struct {
	on    planner.Date // beforeAll for what was known before everything
	need  planner.Date // first day before it whose shown sessions matter
	facts *planner.Facts
}

const beforeAll = planner.Date(-1 << 30)

// How far around a date a race's days can reach.
const (
	daysAfter   = 16 // recovery and return
	daysBeforeB = 5
)

// shown is a day as it was shown.
type shown struct {
	sessions []planner.Session
	phase    planner.Phase
	race     *planner.Race
	why      []note
	planned  []planner.Session // of a logged day, what was shown before
}

// history is what later stages must respect.
type history struct {
	first  planner.Date
	days   []shown
	next   shown // what the stage before showed for the day of this one
	tapers []heldTaper
	fixed  []fixedDay
}

// heldTaper is a taper that began before a stage: its start, length and factor stay.
type heldTaper struct {
	race    raceKey
	n, cut  int
	toldCut bool
	block   bool
	lambda  float64
	wanted  int
	why     planner.LengthReason
	own     Own
	days    []heldDay // by days before the race
}

type heldDay struct {
	hard, opener, rest, dropped bool
	unmade                      bool
	set                         hardSet
	lo, hi, minutes             int
}

type raceKey struct {
	id   int64
	name string
	date planner.Date
}

// keyOf is a race on its date. Another name keeps the taper that has begun, another date does not.
func keyOf(r *planner.Race) raceKey {
	if r.ID != 0 {
		return raceKey{id: r.ID, date: r.Date}
	}
	return raceKey{name: r.Name, date: r.Date}
}

// fixedDay is a day that was set by hand: a pin or half of a swap.
type fixedDay struct {
	date     planner.Date
	sessions []planner.Session
	move     planner.Move // zero for a pin
}

// stages are the plannings that decide what is shown today, the earliest first.
func stages(f *planner.Facts, today planner.Date) []stage {
	dates := f.ToldDates(today)
	longest := longestTold(f)
	at := func(j int) stage {
		s := stage{on: beforeAll, need: beforeAll}
		if j > 0 {
			s.on = dates[j-1]
		}
		s.facts = f.KnownOn(max(s.on, 0))
		if j > 0 {
			s.need = needed(s.facts, longest, s.on)
		}
		return s
	}
	j := len(dates)
	list := []stage{at(j)}
	need := list[0].need
	for j > 0 && need < list[len(list)-1].on {
		j--
		s := at(j)
		list = append(list, s)
		need = min(need, s.need)
		if s.on <= need {
			if s.need >= s.on {
				break
			}
			need = s.need
		}
	}
	slices.Reverse(list)
	return list
}

// longestTold is the longest taper that the rider ever asked for, 0 for none.
func longestTold(f *planner.Facts) int {
	n := f.Taper.Days
	for _, t := range f.OldTaper {
		n = max(n, t.Days)
	}
	for i := range f.Races {
		n = max(n, f.Races[i].TaperDays)
	}
	return n
}

// needed is the first day of the taper, recovery, illness or swap that holds the
// day before e or e itself; e where none does.
func needed(f *planner.Facts, longest int, e planner.Date) planner.Date {
	need := e
	hold := func(from, to planner.Date) {
		if from <= e && to >= e-1 {
			need = min(need, from, e-1)
		}
	}
	for i := range f.Races {
		r := &f.Races[i]
		before := daysBeforeB
		if r.Priority == planner.PriorityA {
			before = max(longest, BlockDays) // also of a taper that began under other facts
		}
		hold(r.Date.AddDays(-before), r.Last().AddDays(returnDays(f, r)+1))
	}
	for _, ill := range f.Troubles() {
		last := ill.To
		switch {
		case !ill.Cleared.IsZero():
			last = ill.Cleared
		case last.IsZero():
			last = e
		}
		hold(ill.From, last.AddDays(FreeAfterIll+mostReturn+nextReach))
	}
	for _, m := range f.Moves {
		if max(m.From, m.To) >= e && m.On < e {
			need = min(need, max(m.On, 0))
		}
	}
	return need
}
