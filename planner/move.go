package planner

import "fmt"

// applyMoves swaps the planned days that the rider has swapped; a swap that is
// no longer safe is left out with a warning.
func (c *calendar) applyMoves() {
	for _, m := range c.facts.Moves {
		a, b := c.at(m.From), c.at(m.To)
		if a == nil || b == nil {
			continue
		}
		if err := c.trySwap(a, b); err != nil && max(m.From, m.To) >= c.plan.Today {
			c.warn(ruleMoved, fmt.Sprintf("Your swap of %s and %s no longer fits and is left out: %s", m.From.Short(), m.To.Short(), err.Msg))
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
		if c.hardAt(s.Date-1) || c.hardAt(s.Date+1) {
			return badInput("", "%s would then stand next to another hard day; choose a day with an easy day on either side", s.Date.Long())
		}
		for d := s.Date + 1; d <= s.Date+2; d++ {
			if next := c.at(d); next != nil && next.claim == claimRace && next.Race.Priority != PriorityC {
				return badInput("", "%s is %d day(s) before %s: nothing hard then; choose an earlier day", s.Date.Long(), s.Date.DaysUntil(d), next.Race.Name)
			}
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
	moved.Moves = append(append([]Move(nil), f.Moves...), Move{From: from, To: to})
	after := DeriveUntil(today, max(from, to)+1, &moved)
	known := map[Warning]bool{}
	for _, w := range before.Warnings {
		known[w] = true
	}
	for _, w := range after.Warnings {
		if known[w] {
			continue
		}
		if w.Code == ruleMoved {
			return nil, f.moveError(today, from, to)
		}
		warnings = append(warnings, w.Text)
	}
	return warnings, nil
}

// moveError is the refusal of a swap in the words of the rule that it breaks.
func (f *Facts) moveError(today, from, to Date) error {
	c := f.planned(today, max(from, to)+1)
	if err := c.trySwap(c.at(from), c.at(to)); err != nil {
		err.Field = "to"
		return err
	}
	return badInput("to", "the days cannot be swapped; choose another day, for example %s", to.AddDays(1))
}
