package engine

import (
	"fmt"
	"slices"

	"musette/planner"
)

// settleFixed lays pins and swaps over the days as they were set; what is not
// possible any more is dropped.
func (c *calendar) settleFixed(past *history) {
	for _, pin := range c.facts.Pins {
		f := fixedDay{date: pin.Date, sessions: []planner.Session{pin.Session}}
		if d := c.at(pin.Date); d == nil || d.date < c.from || d.owner == settled && d.race == nil {
			continue // over, or logged
		} else if why := c.refuse(d, f.sessions); why != nil {
			c.warn(Warning{Code: WarnPinDropped, Day: pin.Date, Cause: why.public(d)})
			continue
		} else {
			c.fix(d, f, WhyPinned)
		}
	}
	for _, m := range c.facts.Moves {
		half := past.halves(m)
		if len(half) != 2 {
			continue
		}
		dropped := false
		for _, f := range half {
			d := c.at(f.date)
			if d == nil || d.date < c.from || d.owner == settled && !d.byHand {
				continue // over
			}
			if why := c.refuse(d, f.sessions); why != nil {
				c.warn(Warning{Code: WarnMoveDropped, Day: m.From, To: m.To, Cause: why.public(d)})
				dropped = true
				break
			}
		}
		if dropped {
			continue
		}
		for _, f := range half {
			if d := c.at(f.date); d != nil && d.date >= c.from && (d.owner != settled || d.byHand) {
				c.fix(d, f, WhyMoved)
			}
			c.fixed = append(c.fixed, f)
		}
	}
}

// halves are the two days of a swap as they were settled.
func (p *history) halves(m planner.Move) []fixedDay {
	var out []fixedDay
	for _, f := range p.fixed {
		if f.move == m {
			out = append(out, f)
		}
	}
	return out
}

func (c *calendar) fix(d *day, f fixedDay, code Code) {
	d.owner, d.byHand = settled, true
	d.out = plan{sessions: f.sessions}
	other := f.move.From
	if other == f.date {
		other = f.move.To
	}
	d.because(note{code: code, day: other})
}

// refuse says why a day cannot have sessions, nil where it can: the one rule for
// pins, swaps and what a coach sets.
func (c *calendar) refuse(d *day, sessions []planner.Session) *cause {
	minutes := 0
	for _, s := range sessions {
		minutes += int(s.Minutes)
	}
	switch {
	case d.date < c.from || d.logged && d.date != c.from:
		return &cause{code: WhyToldThen}
	case d.logged:
		return nil // what was planned for today can still go to another day
	case d.race != nil:
		return &cause{code: WhyRace, race: d.race}
	case d.owner == byHealth:
		return &cause{code: WhyIll}
	case minutes == 0:
		return nil
	case d.busy && d.away:
		return &cause{code: WhyAway}
	case d.busy:
		return &cause{code: WhyBusy}
	case minutes > d.most():
		return &cause{code: WhyLimit}
	case !anyHard(sessions):
		return nil
	case d.only:
		return &cause{code: WhyTravel}
	case d.mending():
		return &cause{code: WhyIll}
	}
	for _, r := range c.races {
		if left := d.date.DaysUntil(r.Date); r.Priority != planner.PriorityC && left > 0 && left <= 2 {
			return &cause{code: WhyHardNear, race: r, day: r.Date}
		}
		easy := 0
		switch {
		case r.Priority == planner.PriorityA:
			easy = RecoveryDays(c.facts, r)
		case r.Priority == planner.PriorityB && tiresB(r):
			easy = 2
		}
		if since := r.Last().DaysUntil(d.date); since > 0 && since <= easy {
			return &cause{code: WhyAfterEasy, race: r}
		}
	}
	for _, t := range [2]planner.Date{d.date - 1, d.date + 1} {
		n := c.at(t)
		if n != nil && (n.race != nil || n.owner == settled && n.isHard()) {
			return &cause{code: WhyHardNextHard, day: t}
		}
	}
	return nil
}

// newMoves swaps the days of swaps that were wished on this stage's date, as they
// are planned now. The last one's refusal is returned.
func (c *calendar) newMoves(s stage, past *history) (last *planner.InputError) {
	for _, m := range c.facts.Moves {
		if len(past.halves(m)) == 2 || m.On < s.on && s.on != beforeAll && m.On > 0 {
			continue
		}
		a, b := c.at(m.From), c.at(m.To)
		if a == nil || b == nil {
			continue
		}
		if last = c.swap(a, b, m); last != nil && max(m.From, m.To) >= c.today {
			c.warn(Warning{Code: WarnMoveDropped, Day: m.From, To: m.To})
		}
	}
	return last
}

func (c *calendar) swap(a, b *day, m planner.Move) *planner.InputError {
	first, second := a.toGive(), b.toGive()
	why, of := c.refuse(a, second), a
	if why == nil {
		why, of = c.refuse(b, first), b
	}
	if why == nil {
		why, of = c.nextTo(a, second, b), a
	}
	if why == nil {
		why, of = c.nextTo(b, first, a), b
	}
	if why != nil {
		return moveError(of, *why)
	}
	for _, f := range [2]fixedDay{{date: a.date, sessions: second, move: m}, {date: b.date, sessions: first, move: m}} {
		if d := c.at(f.date); !d.logged {
			c.fix(d, f, WhyMoved)
		}
		c.fixed = append(c.fixed, f)
	}
	return nil
}

// toGive are the sessions that a swap takes from a day: of a logged one what was planned.
func (d *day) toGive() []planner.Session {
	if d.logged {
		return slices.Clone(d.planned)
	}
	return slices.Clone(d.sessions())
}

// nextTo looks for a hard day beside a day that gets a hard session; other is the
// day that gives it.
func (c *calendar) nextTo(d *day, sessions []planner.Session, other *day) *cause {
	if !anyHard(sessions) {
		return nil
	}
	for _, t := range [2]planner.Date{d.date - 1, d.date + 1} {
		if n := c.at(t); n != nil && n != other && n.isHard() {
			return &cause{code: WhyHardNextHard, day: t}
		}
	}
	return nil
}

// moveError words why two days cannot be swapped.
func moveError(d *day, why cause) *planner.InputError {
	day := d.date.Long()
	text := ""
	switch why.code {
	case WhyToldThen:
		text = fmt.Sprintf("%s is over or logged already. Choose another day", day)
	case WhyRace:
		text = fmt.Sprintf("%s is a race day and stays. Swap two training days", day)
	case WhyIll:
		text = fmt.Sprintf("%s is kept free for your health. Rest first", day)
	case WhyBusy, WhyAway:
		text = fmt.Sprintf("You cannot ride on %s. Choose another day", day)
	case WhyLimit:
		text = fmt.Sprintf("%s leaves only %s. Choose another day", day, planner.Duration(d.most()))
	case WhyTravel:
		text = fmt.Sprintf("%s is a travel day, so nothing hard fits there. Choose another day", day)
	case WhyHardNear:
		text = fmt.Sprintf("%s is too near to %s for a hard session. Choose an earlier day", day, why.race.Name)
	case WhyAfterEasy:
		text = fmt.Sprintf("%s is a recovery day after %s, so nothing hard fits there. Choose a later day", day, why.race.Name)
	default:
		text = fmt.Sprintf("%s would be next to another hard day, %s. Choose a day with an easy day on either side", day, why.day.Short())
	}
	return &planner.InputError{Msg: text}
}

// CheckMove tells whether the planned sessions of two days may be swapped, told
// today. It refuses with an InputError what breaks a safety rule.
func CheckMove(today, from, to planner.Date, f *planner.Facts) error {
	if from == to {
		return &planner.InputError{Field: "to", Msg: fmt.Sprintf("%s is the same day. Name two days, for example from:tue to:wed", to.Long())}
	}
	for _, d := range [2]struct {
		field string
		date  planner.Date
	}{{"from", from}, {"to", to}} {
		if d.date < today {
			return &planner.InputError{Field: d.field, Msg: fmt.Sprintf("%s is past. Only days from today on can be swapped, for example %s", d.date.Long(), today.AddDays(1))}
		}
		if d.date > today.AddDays(planner.MaxAhead) {
			return &planner.InputError{Field: d.field, Msg: fmt.Sprintf("%s is too far ahead. For example %s", d.date.Long(), today.AddDays(1))}
		}
	}
	moved := *f
	moved.Moves = append(slices.Clone(f.Moves), planner.Move{From: from, To: to, Told: planner.Told{On: today}})
	if _, refusal := replay(today, max(from, to)+1, &moved, nil); refusal != nil {
		refusal.Field = "to"
		return refusal
	}
	return nil
}

// CheckPin tells whether a session may be pinned to its day, told today. It
// refuses with an InputError what a swap may not do either.
func CheckPin(today planner.Date, pin planner.Pin, f *planner.Facts) error {
	example := today.AddDays(1)
	switch {
	case pin.Date < today:
		return planner.BadInput("day", "%s is past. Only days from today on can be set, for example %s", pin.Date.Long(), example)
	case pin.Date > today.AddDays(planner.MaxAhead):
		return planner.BadInput("day", "%s is too far ahead. For example %s", pin.Date.Long(), example)
	}
	pin.Told = planner.Told{On: today}
	with := *f
	with.Pins = slices.DeleteFunc(slices.Clone(f.Pins), func(p planner.Pin) bool { return p.Date == pin.Date && p.Withdrawn.IsZero() })
	with.Pins = append(with.Pins, pin)
	c, _ := replay(today, pin.Date+1, &with, nil)
	d := c.at(pin.Date)
	why := c.nextTo(d, []planner.Session{pin.Session}, nil)
	for _, w := range c.warns {
		if w.Code == WarnPinDropped && w.Day == pin.Date {
			why = &cause{code: w.Cause.Code, race: w.Cause.Race, day: w.Cause.Day}
		}
	}
	switch {
	case d.owner == byHealth:
		why = &cause{code: WhyIll}
	case d.logged:
		why = &cause{code: WhyToldThen}
	}
	if why == nil {
		return nil
	}
	refusal := moveError(d, *why)
	refusal.Field = "day"
	return refusal
}
