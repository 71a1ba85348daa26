package engine

import (
	"musette/planner"
)

// planWindow plans the days of one A race's taper, in the order of the rules.
func (c *calendar) planWindow(w *window, held *heldTaper) {
	w.t = make([]taperDay, w.n+1)
	w.t[0].day = c.at(w.race.Date)
	for t := 1; t <= w.n; t++ {
		d := w.at(t)
		w.t[t].day = d
		if d.owner < byWindow {
			d.owner, d.phase, d.host = byWindow, planner.Tapering, w.race
			d.out = plan{}
			d.why = nil
		}
	}
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		s.unmade = s.day.unmade()
		if held != nil && t < len(held.days) {
			s.unmade = s.unmade || held.days[t].unmade || s.eased && held.days[t].hard
		}
	}
	for _, run := range w.lostRuns() {
		for t := run.to; t <= run.from && run.from > run.to; t++ {
			w.t[t].lostRun = true
		}
	}
	w.insideRaces()
	w.placeOpeners()
	w.chooseHardDays()
	w.keepSharp()
	w.dose()
	w.placeFreeDays()
	w.findMinutes(held)
	for w.heavier() && (w.cutDeeper() || w.dropRepetition() || w.dropAdded()) {
		w.findMinutes(held)
	}
	w.dropStale()
	for t := 1; t <= w.n; t++ {
		if w.open(t) {
			w.write(t)
		}
	}
	w.trainUpBefore()
}

// dropStale replaces reasons that name a hard day which was dropped again.
func (w *window) dropStale() {
	for t := 1; t <= w.n; t++ {
		s := &w.t[t]
		switch s.reason.code {
		case WhyHardMovedAway, WhyHardNextHard, WhyHardPair:
			u := s.reason.day.DaysUntil(w.race.Date)
			if u >= 1 && u <= w.n && !w.t[u].hard && w.open(u) {
				s.reason = note{code: WhyHardEnough}
			}
		}
	}
}

// steadyUntil is D-4: from there on steady rides are easy.
const (
	steadyUntil = 4
	realLong    = 120 // minutes; a shortened long ride of less is an endurance ride
	throughLong = 150 // minutes; shorter races inside a taper that are trained through leave more of the day after
)

// insideRaces bounds the days around races inside the window, or just before it.
func (w *window) insideRaces() {
	for _, r := range w.c.races {
		if r == w.race || r.Last() < w.start()-2 || r.Date >= w.race.Date {
			continue
		}
		if r.Priority == planner.PriorityC {
			w.bound(r.Date-1, noLimit, note{code: WhyInsideBefore, race: r})
			if r.Minutes() >= 180 {
				w.bound(r.Last()+1, 45, note{code: WhyInsideAfter, race: r})
			} else {
				w.bound(r.Last()+1, noLimit, note{code: WhyInsideAfter, race: r})
			}
			continue
		}
		before, after := 45, 60
		if d := w.c.at(r.Date - 2); d != nil && d.kind == long && w.needsLong() && r.Minutes() <= 120 && r.Date < w.race.Date-4 {
			before = max(before, floor5(d.mins*7/10))
		} else if d != nil && (r.Emphasis == planner.TrainThrough || d.kind == commute) {
			before = max(before, d.mins)
		} else if d != nil && r.Minutes() < shortRace {
			before = max(before, floor5(d.mins/2))
		}
		w.bound(r.Date-2, before, note{code: WhyInsideBefore, race: r})
		w.bound(r.Date-1, 45, note{code: WhyInsideBefore, race: r})
		next, most := w.c.at(r.Last()+1), 45
		if next != nil {
			most = max(most, floor5(next.mins*w.afterInside(r)/100))
		}
		w.bound(r.Last()+1, most, note{code: WhyInsideAfter, race: r})
		if r.Minutes() >= 120 {
			if d := w.c.at(r.Last() + 2); d != nil && d.kind == long && w.needsLong() && r.Minutes() < throughLong && w.hours >= 8 && r.Last()+2 < w.race.Date-6 {
				after = max(after, floor5(d.mins*6/10))
			}
			w.bound(r.Last()+2, after, note{code: WhyInsideAfter, race: r})
		}
	}
}

// needsLong reports a race so long that the long ride near a shorter race inside its window
// stays a longer one.
func (w *window) needsLong() bool { return w.race.Minutes() >= hugeRace || w.race.Days > 1 }

// afterInside is how much of its minutes the day after a race inside a window keeps,
// in per cent.
func (w *window) afterInside(r *planner.Race) int {
	through := r.Emphasis == planner.TrainThrough
	switch {
	case r.Minutes() < 60:
		return 100
	case r.Minutes() < shortRace && !through && w.race.Minutes() <= sprintRace:
		return 50
	case r.Minutes() < shortRace, through && r.Minutes() < throughLong:
		return 67
	case through && r.Minutes() < longRace:
		return 50
	}
	return 0
}

// afterTrial reports a long ride on the day after a short time trial or climb, which costs little.
func (w *window) afterTrial(d *day, minutes int) bool {
	return d.ban.code == WhyInsideAfter && minutes >= steadyAfter && climbs(d.ban.race) && d.ban.race.Minutes() < 60
}

func (w *window) bound(d planner.Date, most int, why note) {
	if d >= w.start() && d < w.race.Date {
		if day := w.c.at(d); day.race == nil {
			day.bound(most, why)
		}
	}
}

// write turns what was found for D-t into the day's plan and its reasons.
func (w *window) write(t int) {
	s := &w.t[t]
	d := s.day
	if w.innerOpeners(t) {
		return
	}
	d.because()
	minutes := s.minutes
	switch {
	case s.opener:
		d.out = plan{kind: planner.Openers, effort: planner.OpenersEffort, minutes: minutes}
		d.also(s.reason)
	case s.rest || minutes == 0:
		d.out = plan{}
		w.whyRest(t)
	case s.hard:
		d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: minutes, set: s.set}
		w.whyHard(t)
	default:
		d.out = plan{kind: d.name(minutes, 40), effort: planner.Easy, minutes: minutes}
		if t > steadyUntil && (d.kind == long || d.kind == endurance) && 2*minutes >= d.mins && (!d.ban.is() || w.afterTrial(d, minutes)) && !d.only {
			d.out.kind, d.out.effort = planner.Endurance, planner.Steady
			if d.kind == long && (minutes >= realLong || minutes == d.mins) {
				d.out.kind = planner.Long
			}
		}
		w.whyEasy(t)
	}
	if m, why := w.strength(t); why.code != NoReason {
		d.out.strength = m
		if d.busy || d.only || d.out.minutes+m > d.limit {
			d.out.strength = 0
		}
		d.also(why)
	}
}

// innerOpeners writes the eve of a race inside the window.
func (w *window) innerOpeners(t int) bool {
	d := w.t[t].day
	next := w.at(t - 1)
	if t < 2 || next.race == nil || next.race.Date != next.date || next.race.Priority == planner.PriorityC || d.most() < leastOpeners || d.only || d.mending() || w.t[t].rest && d.mins == 0 && w.rides <= 4 {
		return false
	}
	minutes := openerMinutes(w.hours)
	if r := next.race; r.Emphasis == planner.TrainThrough && r.Minutes() < longRace {
		minutes = throughOpeners(minutes, d)
	}
	minutes = min(minutes, d.most())
	if d.mins > 0 {
		minutes = min(minutes, max(d.mins, 30))
	}
	d.out = plan{kind: planner.Openers, effort: planner.OpenersEffort, minutes: floor5(minutes)}
	d.because(note{code: WhyOpeners, race: next.race})
	return true
}

func (w *window) whyRest(t int) {
	s := &w.t[t]
	switch {
	case s.busy && s.away:
		s.also(note{code: WhyAway})
	case s.busy:
		s.also(note{code: WhyBusy})
	case s.only:
		s.also(note{code: WhyTravel})
	case s.cap == 0 && s.mins > 0:
		s.also(s.day.note)
	case s.limit < shortestRide:
		s.also(note{code: WhyLimit, n: s.limit})
	case s.reason.code != NoReason:
		s.also(s.reason)
	default:
		s.also(note{code: WhyTooShort})
	}
}

func (w *window) whyHard(t int) {
	s := &w.t[t]
	if s.limit < s.mins {
		s.also(note{code: WhyLimit, n: s.limit})
	}
	if s.reason.code != WhyHardKept {
		s.also(s.reason)
	}
	switch {
	case s.set == s.src.set:
	case w.ill || w.c.freshlyWell(s.date) && !w.hardBefore(t):
		s.also(note{code: WhyIllHalf})
	case s.set.longest() != s.src.set.longest():
		s.also(note{code: WhyHardShort, n: t})
	default:
		s.also(note{code: WhyHardHalf, n: t})
	}
	if s.kind == hard && s.src.set != s.day.set && s.reason.code == WhyHardKept {
		code := WhySetShort
		if s.day.set.part > 0 && s.src.set.part == 0 {
			code = WhySetBunch
		}
		if s.src.set.longest() > s.day.set.longest() {
			code = WhySetLong
		}
		s.also(note{code: code, n: t})
	}
	if s.minutes < s.mins && s.minutes < floor5(s.limit) {
		s.also(note{code: WhyShorter, n: w.cut})
	}
	if len(s.why) == 0 {
		s.also(note{code: WhyHardKept})
	}
}

func (w *window) whyEasy(t int) {
	s := &w.t[t]
	if s.limit < s.mins {
		s.also(note{code: WhyLimit, n: s.limit})
	}
	switch {
	case s.reason.code == s.lastCode() && s.reason.code != NoReason:
	case s.reason.code != NoReason:
		s.also(s.reason)
	case s.kind == hard && s.ban.is():
		s.also(note{code: s.ban.code, race: s.ban.race, day: s.ban.day})
	case s.kind == hard:
		c := w.mayBeHard(t, false)
		if !c.is() {
			c = cause{code: WhyHardEnough}
		}
		if c.code != s.lastCode() {
			s.also(note{code: c.code, race: c.race, day: c.day, n: s.limit})
		}
	}
	if s.minutes == floor5(s.cap) && s.cap < s.mins && s.day.note.code != s.lastCode() {
		s.also(s.day.note)
	}
	switch {
	case s.soonWell && s.minutes == s.hi:
		s.also(note{code: WhyIllSoon})
	case s.minutes < s.mins && s.minutes < floor5(s.limit):
		s.also(note{code: WhyShorter, n: w.cut})
	}
	if len(s.why) == 0 || s.kind == long || s.kind == endurance {
		s.also(note{code: WhyEasy})
	}
}

// tellCut puts the cut that the window has come to into the reasons of its days, so
// that it is one number everywhere. Days that are over keep what was shown.
func (w *window) tellCut() {
	cut := wholePercent(w.summary().CutPercent)
	for t := 1; t <= w.n && cut > 0; t++ {
		d := w.t[t].day
		for i := range d.why {
			if d.why[i].code == WhyShorter && d.date >= w.c.from {
				d.why[i].n = cut
			}
		}
	}
}

func (d *day) lastCode() Code {
	if len(d.why) == 0 {
		return NoReason
	}
	return d.why[len(d.why)-1].code
}
