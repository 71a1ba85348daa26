package bot

import (
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// effect is what a change of the rider's facts does to the plan.
type effect struct {
	before, after *engine.Plan
	old, facts    *planner.Facts // before and after the change
}

// compare plans both facts over the same days.
func compare(today planner.Date, old, facts ledger) *effect {
	e := &effect{old: old.now, facts: facts.now, before: engine.Derive(today, old.all), after: engine.Derive(today, facts.all)}
	end := max(lastDay(e.before), lastDay(e.after))
	if lastDay(e.before) < end {
		e.before = engine.DeriveUntil(today, end, old.all)
	}
	if lastDay(e.after) < end {
		e.after = engine.DeriveUntil(today, end, facts.all)
	}
	return e
}

// settle takes a day out of what changes: the rider has just told it.
func (e *effect) settle(date planner.Date) {
	was, ok := e.before.Day(date)
	if is, there := e.after.Day(date); ok && there {
		*was = *is
	}
}

func lastDay(p *engine.Plan) planner.Date { return p.Today.AddDays(len(p.Days) - 1) }

// news is what a change did: new warnings, then up to eight changed days.
func (e *effect) news() []Line { return append(e.newWarnings(), e.changedDays()...) }

// newWarnings are those whose words were not there before.
func (e *effect) newWarnings() []Line {
	known := map[string]bool{}
	for _, w := range words.Warnings(e.before) {
		known[w.Text] = true
	}
	var lines []Line
	for _, w := range words.Warnings(e.after) {
		if !known[w.Text] {
			lines = append(lines, warningLine(&w))
		}
	}
	return lines
}

func (e *effect) changedDays() []Line {
	const most = 8
	lines := []Line{headingOf("What changes:")}
	changed := 0
	var more *planner.Race // of the first day that is not shown and has one
	for i := range e.after.Days {
		was, is := &e.before.Days[i], &e.after.Days[i]
		before, after := sessionsLabel(was.Sessions, was.Race), sessionsLabel(is.Sessions, is.Race)
		if before == after {
			continue
		}
		if changed++; changed <= most {
			lines = append(lines, dayOf(dayLead(is.Date), "%s (was %s)", after, before))
		} else if more == nil {
			if more = toldRace(e.after, e.facts, is.Race); more == nil {
				more = e.stillTold(was.Race)
			}
		}
	}
	switch {
	case changed == 0:
		return []Line{Say("No planned day changes.")}
	case changed > most:
		next := linkTo("plan show")
		if more != nil {
			next = showRace(e.facts, more)
		}
		lines = append(lines, Say("and %d more: %s", changed-most, next))
	}
	return lines
}

// stillTold is a race that shaped a day before the change, nil where it is gone or over.
func (e *effect) stillTold(race *planner.Race) *planner.Race {
	was := toldRace(e.before, e.old, race)
	if was == nil {
		return nil
	}
	for i := range e.facts.Races {
		if r := &e.facts.Races[i]; r.Name == was.Name && r.Date == was.Date && r.Last() >= e.after.Today {
			return r
		}
	}
	return nil
}
