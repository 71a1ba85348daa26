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
	w.n, w.wanted, w.why, w.block = h.n, h.wanted, h.why, h.block
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
	d.owner, d.logged, d.planned = settled, true, before
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
	h := heldTaper{race: keyOf(w.race), n: w.n, cut: w.cut, toldCut: w.told.cut, block: w.block, lambda: w.lambda, wanted: w.wanted, why: w.why,
		days: make([]heldDay, w.n+1)}
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		h.days[t] = heldDay{hard: s.hard, opener: s.opener, rest: s.rest, dropped: s.dropped, set: s.set, lo: s.lo, hi: s.hi, minutes: s.minutes}
	}
	return h
}
