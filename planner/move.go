package planner

import (
	"fmt"
	"slices"
)

// applyMoves swaps the planned days that the rider has swapped, in order, and
// warns of what that bends. A swap that is not safe any more is left out with a
// warning. The last swap's refusal is returned.
func (c *calendar) applyMoves() (last *InputError) {
	for _, m := range c.facts.Moves {
		last = nil
		a, b := c.at(m.From), c.at(m.To)
		if a == nil || b == nil {
			continue
		}
		if last = c.trySwap(a, b); last == nil {
			c.warnBent(a)
			c.warnBent(b)
		} else if max(m.From, m.To) >= c.plan.Today {
			c.warn(ruleMoved, nil, fmt.Sprintf("Your swap of %s and %s no longer fits and is left out: %s", m.From.Short(), m.To.Short(), last.Msg))
		}
	}
	return last
}

// warnBent warns of rules that a swapped day bends without harm.
func (c *calendar) warnBent(s *slot) {
	if s.Race == nil || s.Date < c.plan.Today || s.Date >= s.Race.Date && s.claim != claimRecovery {
		return
	}
	left := s.Date.DaysUntil(s.Race.Date)
	for _, ride := range s.Sessions {
		minutes := int(ride.Minutes)
		switch {
		case ride.Kind == Openers && left > 2:
			c.warn(ruleOpeners, s.Race, fmt.Sprintf("%s: after your swap the openers are %d days before the race; the day before is best.", s.Race.Name, left))
		case ride.Effort == Steady && ride.Kind.IsRide() && (s.claim == claimTaper || s.claim == claimRecovery):
			c.warn(rulePolar, s.Race, fmt.Sprintf("%s: after your swap %s is a steady ride; around the race what is not hard should be easy.", s.Race.Name, s.Date.Short()))
		case s.claim == claimTaper && ride.Effort == Easy && left >= 2 && left <= 4 && minutes > mostEasy(c.facts.weekOn(s.Date).hours()):
			c.warn(ruleMost, s.Race, fmt.Sprintf("%s: after your swap %s is long for a day so near the race.", s.Race.Name, s.Date.Short()))
		case s.claim == claimRecovery && s.Date == s.Race.Last()+1 && minutes > afterMinutes(s.Race, s.usualMinutes()):
			c.warn(ruleRaceAfter, s.Race, fmt.Sprintf("%s: after your swap the day after the race is longer than %d min.", s.Race.Name, afterMinutes(s.Race, s.usualMinutes())))
		}
	}
}

// trySwap exchanges two days' sessions unless that breaks a safety rule.
func (c *calendar) trySwap(a, b *slot) *InputError {
	for _, s := range [2]*slot{a, b} {
		switch {
		case s.claim == claimRace:
			return badInput("", "%s is a race day and stays; for example swap two training days", s.Date.Long())
		case s.off:
			return badInput("", "%s is a day off: nothing can be ridden then; choose another day", s.Date.Long())
		}
	}
	for _, pair := range [2][2]*slot{{a, b}, {b, a}} {
		into, from := pair[0], pair[1]
		minutes := 0
		for _, u := range from.Sessions {
			minutes += int(u.Minutes)
		}
		if minutes > into.cap() {
			return badInput("", "%s leaves only %d minutes, %d are planned; choose another day", into.Date.Long(), into.cap(), minutes)
		}
		if from.IsHard() && into.travel {
			return badInput("", "%s is a travel day: nothing hard then; choose another day", into.Date.Long())
		}
	}
	a.Sessions, b.Sessions = b.Sessions, a.Sessions
	if err := c.checkSwap(a, b); err != nil {
		a.Sessions, b.Sessions = b.Sessions, a.Sessions
		return err
	}
	for _, s := range [2]*slot{a, b} {
		if sameSessions(s.Usual, s.Sessions) {
			s.Sessions = s.Usual
		}
		s.renote(noteMoved)
	}
	return nil
}

// checkSwap looks at two days that have already been exchanged.
func (c *calendar) checkSwap(a, b *slot) *InputError {
	for _, s := range [2]*slot{a, b} {
		if !s.IsHard() {
			continue
		}
		for d := s.Date + 1; d <= s.Date+2; d++ {
			if next := c.at(d); next != nil && next.claim == claimRace && next.Race.Priority != PriorityC {
				return badInput("", "%s is %s before %s: nothing hard then; choose an earlier day", s.Date.Long(), days(s.Date.DaysUntil(d)), next.Race.Name)
			}
		}
		if c.hardAt(s.Date-1) || c.hardAt(s.Date+1) {
			return badInput("", "%s would then stand next to another hard day; choose a day with an easy day on either side", s.Date.Long())
		}
		if s.claim == claimRecovery {
			return badInput("", "%s is a recovery day after %s: nothing hard then; choose a later day", s.Date.Long(), s.raceName())
		}
	}
	return nil
}

// CheckMove tells whether the planned sessions of two days may be swapped. It
// refuses with an InputError what breaks a safety rule: a day off, two hard days
// in a row, anything hard in the two days before an A or B race, illness. What
// else the swap bends comes back as warnings. Facts stay as they are.
func (f *Facts) CheckMove(today, from, to Date) (warnings []string, err error) {
	f = f.KnownOn(today)
	if from == to {
		return nil, badInput("to", "%s is the same day; name two days, for example from:tue to:wed", to.Long())
	}
	for _, d := range [2]struct {
		field string
		date  Date
	}{{"from", from}, {"to", to}} {
		if d.date < today {
			return nil, badInput(d.field, "%s is past; only days from today on can be swapped, for example %s", d.date.Long(), today.AddDays(1))
		}
		if d.date > today.AddDays(MaxAhead) {
			return nil, badInput(d.field, "%s is too far ahead; for example %s", d.date.Long(), today.AddDays(1))
		}
	}
	before := DeriveUntil(today, max(from, to)+1, f)
	for _, d := range [2]Date{from, to} {
		if day, _ := before.Day(d); day.Phase == Health {
			return nil, badInput("from", "%s is kept free for your health; rest first", d.Long())
		}
	}
	moved := *f
	moved.Moves = append(slices.Clone(f.Moves), Move{From: from, To: to})
	after, refusal := derive(today, max(from, to)+1, &moved)
	if refusal != nil {
		refusal.Field = "to"
		return nil, refusal
	}
	known := map[string]bool{}
	for _, w := range before.Warnings {
		known[w.Text] = true
	}
	for _, w := range after.Warnings {
		if !known[w.Text] {
			warnings = append(warnings, w.Text)
		}
	}
	return warnings, nil
}
