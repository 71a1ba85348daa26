package planner

import (
	"fmt"
	"slices"
)

// halfTaper is the half week before a B race.
type halfTaper struct {
	race    *Race
	day     [5]*slot // by days before the race; 0 is unused, nil where another rule decides
	openers int      // days before the race, 0 for none
}

// planHalfTapers gives each B race its D-4 to D-1 and D+1. A B race inside an
// A race's taper or recovery gets none; of two within 4 days the lesser is trained through.
func (c *calendar) planHalfTapers() {
	for _, r := range c.races {
		if r.Priority == PriorityB && c.insideGoal(r) {
			c.easeAfterHalf(r)
		}
	}
	taken, lesser := c.halfWeeks()
	for _, r := range lesser {
		if r.Last() >= c.plan.Today {
			c.warn(ruleClose, r, fmt.Sprintf("%s and %s are B races within %d days: %s is trained through. Mark the one that counts as important.",
				nearRace(taken, r).Name, r.Name, halfTaperGap, r.Name))
		}
		c.through = append(c.through, r)
	}
	for _, r := range taken {
		c.play(r, HalfTapered, nil)
		c.planHalf(r)
	}
}

// halfWeeks are the B races that get a half week, the important ones first, and
// those that lose it to one of them.
func (c *calendar) halfWeeks() (taken, lesser []*Race) {
	var bs []*Race
	for _, r := range c.races {
		if goal, _ := c.host(r); r.Priority == PriorityB && goal == nil {
			bs = append(bs, r)
		}
	}
	slices.SortStableFunc(bs, func(a, b *Race) int { return int(b.Emphasis) - int(a.Emphasis) })
	for _, r := range bs {
		if nearRace(taken, r) != nil {
			lesser = append(lesser, r)
		} else {
			taken = append(taken, r)
		}
	}
	return taken, lesser
}

func nearRace(races []*Race, r *Race) *Race {
	for _, other := range races {
		if other.Last().DaysUntil(r.Date) <= halfTaperGap && r.Last().DaysUntil(other.Date) <= halfTaperGap {
			return other
		}
	}
	return nil
}

func (c *calendar) planHalf(r *Race) {
	h := halfTaper{race: r}
	for p := 1; p <= 4; p++ {
		if s := c.at(r.Date.AddDays(-p)); s != nil && s.claim < claimB && s.Date >= r.Registered {
			h.day[p] = s
			s.claim = claimB
		}
	}
	if r.Registered > r.Date.AddDays(-2) && r.Last() >= c.plan.Today {
		c.warn(ruleRaceLate, r, fmt.Sprintf("%s was registered %s before the race: its easier days no longer fit.", r.Name, days(r.Registered.DaysUntil(r.Date))))
	}
	h.placeOpeners(c.facts.Taper.OpenersD2)
	for _, p := range [2]int{2, 1} {
		if s := h.day[p]; s != nil {
			c.quieten(&h, p)
		}
	}
	if s := h.day[3]; s != nil && c.afterCap(s) == noCap && r.Emphasis == Important && !s.off && s.usuallyRidden() && s.Phase != Tapering {
		c.cutDay(s, r)
	}
	c.easeAfterHalf(r)
}

// easeAfterHalf plans the day after a B race where no other race has claimed it.
func (c *calendar) easeAfterHalf(r *Race) {
	if s := c.at(r.Last() + 1); s.claim < claimB || s.claim == claimB && s.Phase < Tapering {
		s.claim, s.Race, s.Phase = claimB, r, Recovering
		c.setAfter(s, r)
	}
}

func (h *halfTaper) placeOpeners(wantD2 bool) {
	order := [2]int{1, 2}
	if wantD2 && h.day[2] != nil {
		order = [2]int{2, 1}
	}
	for _, p := range order {
		if s := h.day[p]; s != nil && !s.off && !s.travel && s.limit >= leastOpeners {
			h.openers = p
			return
		}
	}
}

// quieten plans D-2 or D-1 of a B race: openers, a recovery ride, or the rest
// that stood there; a hard session that stood there moves or is left out.
func (c *calendar) quieten(h *halfTaper, p int) {
	s := h.day[p]
	week := c.facts.weekOn(s.Date)
	if s.off || !s.usuallyRidden() && h.openers != p {
		return
	}
	s.Race, s.Phase = h.race, Tapering
	switch {
	case h.openers == p:
		lo, _ := openerBounds(week)
		minutes := min(lo, floor5(s.cap()))
		if c.afterCap(s) < noCap {
			minutes = min(minutes, afterOpeners)
		}
		c.set(s, Session{Kind: Openers, Effort: OpenersEffort, Minutes: int16(minutes)})
		s.renote(openersNote(p, c.facts.Taper.OpenersD2))
	case p == 1 && h.openers == 2 && c.facts.Taper.OpenersD2:
		c.set(s)
		s.renote(noteEveFree)
	default:
		c.set(s, recoveryRide(evenMinutes(week.recoveryLength(), min(s.usualMinutes(), c.afterCap(s)))))
		s.renote(noteHalfRecovery)
	}
	if hard, ok := hardSession(s.Usual); ok {
		if c.moveHard(h, hard) {
			s.note(noteHalfMovedAway)
		} else {
			s.note(noteHalfLeftOut)
		}
	}
}

// evenMinutes is the wanted length as the nearest multiple of 5 that is no more than most.
func evenMinutes(want, most int) int {
	if m := round5(min(want, most)); m <= most {
		return m
	}
	return floor5(most)
}

func openersNote(p int, wished bool) noteCode {
	switch {
	case p == 2 && wished:
		return noteOpenersWished
	case p == 2:
		return noteOpenersEarly
	}
	return noteOpeners
}

// moveHard rides a displaced hard session on D-4 or D-3 if that day is ridden,
// not hard, and not next to a hard or race day.
func (c *calendar) moveHard(h *halfTaper, hard Session) bool {
	lo, _ := hardBounds(hard, true)
	for _, p := range [2]int{4, 3} {
		s := h.day[p]
		if s == nil || s.off || s.travel || !s.usuallyRidden() || s.IsHard() || s.cap() < lo {
			continue
		}
		if c.hardAt(s.Date-1) || c.hardAt(s.Date+1) {
			continue
		}
		hard.Minutes = int16(min(ceil5(int(hard.Minutes)), s.cap()))
		hard.Kind, hard.Effort = Intervals, Hard
		s.Race, s.Phase = h.race, Tapering
		s.renote(noteHalfMovedHere)
		if p == 3 && h.race.Emphasis == Important {
			hard = c.cutHard(hard)
			s.note(noteHalfImportant)
		}
		c.set(s, hard)
		return true
	}
	return false
}

func (c *calendar) hardAt(d Date) bool {
	s := c.at(d)
	return s != nil && s.IsHard()
}

// cutDay cuts D-3 of an important B race like a day of a taper.
func (c *calendar) cutDay(s *slot, r *Race) {
	week := c.facts.weekOn(s.Date)
	s.Race, s.Phase = r, Tapering
	s.renote(noteHalfImportant)
	if hard, ok := hardSession(s.Usual); ok {
		c.set(s, c.cutHard(hard))
		s.note(noteHardHalved)
		return
	}
	least := leastRide(week.hours())
	minutes := min(max(c.cutMinutes(s.usualMinutes()), least), floor5(s.usualMinutes()))
	c.set(s, easyRide(s.Usual, minutes))
}

// cutHard is a hard session cut like in a taper: half the repetitions, as hard as usual.
func (c *calendar) cutHard(hard Session) Session {
	lo, hi := hardBounds(hard, false)
	minutes := max(lo, min(c.cutMinutes(int(hard.Minutes)), hi))
	return Session{Kind: Intervals, Effort: Hard, Minutes: int16(minutes), Sets: hard.Sets.halved()}
}

func (c *calendar) cutMinutes(usual int) int {
	return round5(usual * (100 - c.facts.Taper.cut()) / 100)
}

// openerBounds are 60-75 min, up to 120 from 12 h a week, 40-60 below 8 h a
// week, and never longer than the usual longest non-long ride.
func openerBounds(week *Week) (lo, hi int) {
	hours := week.hours()
	switch {
	case hours >= hugeWeekHours:
		lo, hi = 60, 120
	case hours >= bigWeekHours:
		lo, hi = 60, 75
	default:
		lo, hi = 40, 60
	}
	longest, any := 0, 0
	for _, day := range week {
		for _, s := range day.Sessions {
			if day.Busy || !s.Kind.IsRide() {
				continue
			}
			any = max(any, int(s.Minutes))
			if s.Kind != Long {
				longest = max(longest, int(s.Minutes))
			}
		}
	}
	if longest == 0 {
		longest = any
	}
	if longest > 0 {
		hi = min(hi, floor5(longest))
	}
	return min(lo, hi), hi
}
