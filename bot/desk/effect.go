package desk

import (
	"fmt"
	"slices"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// WayBack says that a change of what many days hang on is undone by one press.
const WayBack = "If you change your mind, press Undo."

// RaceNews is what a new or changed race means: window, warnings, next step.
func RaceNews(e *Effect, race *planner.Race) []say.Line {
	if !Planned(e.Facts) {
		return []say.Line{say.Linef("There is no plan yet, because I do not know your typical week. Share it, for example"), say.Linef(`/week share week:"` + ExampleWeek + `"`)}
	}
	if _, held := Held(e.Facts); held {
		return []say.Line{say.Linef("There is no plan for now: your training is held back for your health. See /ride")}
	}
	if OpenIllness(e.Facts) != nil {
		return append(append([]say.Line{say.Linef("Its days come when you are well. Every day is rest until then: /tell well")}, e.OtherRaces(race)...), e.NewWarnings()...)
	}
	role := show.RoleOf(e.After, e.Facts, race)
	lines := append(say.PlainLines(show.Window(e.After, role, race)), e.OtherRaces(race)...)
	lines = append(lines, e.NewWarnings()...)
	return append(lines, say.Offeredf("The days: %s", show.RaceLink(e.Facts, race)))
}

// OtherRaces says what the change of a race does to the rider's other races to come:
// which of them are planned otherwise, and how.
func (e *Effect) OtherRaces(changed ...*planner.Race) []say.Line {
	const most = 4
	var lines []say.Line
	if !Planned(e.Old) {
		return nil
	}
	for i := range e.Facts.Races {
		r := &e.Facts.Races[i]
		same := func(c *planner.Race) bool { return c.Is(r) }
		old := slices.IndexFunc(e.Old.Races, func(o planner.Race) bool { return o.Is(r) })
		if r.Last() < e.After.Today || old < 0 || slices.ContainsFunc(changed, same) || e.Old.Races[old].Priority != r.Priority {
			continue
		}
		was, is := show.RoleOf(e.before, e.Old, &e.Old.Races[old]), show.RoleOf(e.After, e.Facts, r)
		if line := otherRace(show.NameAmong(e.Facts, r), show.TaperOf(e.before, was), show.TaperOf(e.After, is)); line != "" {
			lines = append(lines, say.Linef("%s", line))
		} else if line := e.otherDays(show.NameAmong(e.Facts, r), show.TaperOf(e.before, was), show.TaperOf(e.After, is)); line != "" {
			lines = append(lines, say.Linef("%s", line))
		} else if was.Role != is.Role {
			lines = append(lines, say.Linef("%s changes too. %s", show.NameAmong(e.Facts, r), show.Window(e.After, is, r)))
		}
	}
	if n := len(lines); n > most {
		lines = append(lines[:most-1], say.Linef("Other tapers that change: %d more.", n-most+1))
	}
	return lines
}

// otherDays says how a taper that keeps its length changes inside, "" where it does not.
func (e *Effect) otherDays(name string, was, is *engine.Taper) string {
	if was == nil || is == nil {
		return ""
	}
	days := 0
	for i := range e.After.Days {
		d := &e.After.Days[i]
		if d.Date >= is.From && d.Date < is.Race.Date && show.SessionsLabel(d.Sessions, d.Race) != show.SessionsLabel(e.before.Days[i].Sessions, e.before.Days[i].Race) {
			days++
		}
	}
	switch before, after := planner.Duration(was.PlanMinutes), planner.Duration(is.PlanMinutes); {
	case days == 0:
		return ""
	case before == after:
		return fmt.Sprintf("%s of the taper for %s %s, with %s of riding as before.", show.Count(days, "day"), name, changeVerb(days), after)
	default:
		return fmt.Sprintf("%s of the taper for %s %s: %s of riding instead of %s.", show.Count(days, "day"), name, changeVerb(days), after, before)
	}
}

func changeVerb(n int) string {
	if n == 1 {
		return "changes"
	}
	return "change"
}

// otherRace says how a taper's length changes, "" where it stays.
func otherRace(name string, was, is *engine.Taper) string {
	switch {
	case was == nil && is == nil:
		return ""
	case was == nil:
		return fmt.Sprintf("%s gets a taper of %s.", name, show.Count(is.Days, "day"))
	case is == nil:
		return fmt.Sprintf("%s loses its taper of %s.", name, show.Count(was.Days, "day"))
	case is.Days < was.Days:
		return fmt.Sprintf("%s's taper falls from %d to %s.", name, was.Days, show.Count(is.Days, "day"))
	case is.Days > was.Days:
		return fmt.Sprintf("%s's taper grows from %d to %s.", name, was.Days, show.Count(is.Days, "day"))
	}
	return ""
}

// Effect is what a change of the rider's facts does to the plan.
type Effect struct {
	before, After *engine.Plan
	Old, Facts    *planner.Facts // before and after the change
	Told, Known   Ledger         // before and after the change
	coach         bool           // a coach reads it
}

// ForCoach is the effect as coaches read it: of health no more than that it keeps the
// rider from training.
func (e *Effect) ForCoach() *Effect {
	out := *e
	out.coach = true
	return &out
}

// resting reports a rider who is ill, injured or held back.
func (e *Effect) resting() bool {
	_, held := Held(e.Facts)
	return held || OpenIllness(e.Facts) != nil
}

// compare plans both facts over the same days.
func compare(today planner.Date, old, facts Ledger) *Effect {
	e := &Effect{Told: old, Known: facts, Old: old.Now, Facts: facts.Now, before: engine.Derive(today, old.All), After: engine.Derive(today, facts.All)}
	end := max(LastDay(e.before), LastDay(e.After))
	if LastDay(e.before) < end {
		e.before = engine.DeriveUntil(today, end, old.All)
	}
	if LastDay(e.After) < end {
		e.After = engine.DeriveUntil(today, end, facts.All)
	}
	return e
}

// Settle takes a day out of what changes: the rider has just told it.
func (e *Effect) Settle(date planner.Date) {
	was, ok := e.before.Day(date)
	if is, there := e.After.Day(date); ok && there {
		*was = *is
	}
}

// LastDay is the last day of a plan.
func LastDay(p *engine.Plan) planner.Date { return p.Today.AddDays(len(p.Days) - 1) }

// News is what a change did: new warnings, then up to eight changed days.
func (e *Effect) News() []say.Line { return append(e.NewWarnings(), e.ChangedDays()...) }

// NewWarnings are those whose words were not there before. Who rests has no taper to warn of.
func (e *Effect) NewWarnings() []say.Line {
	known := map[string]bool{}
	for _, w := range words.Warnings(e.before) {
		known[warned(&w)] = true
	}
	var lines []say.Line
	resting := e.resting()
	if e.coach && resting {
		lines = append(lines, say.Linef("! Not training: health."))
	}
	for _, w := range words.Warnings(e.After) {
		none := resting && strings.HasPrefix(w.Code, "taper.") || e.coach && show.OfHealth(w.Code)
		if !known[warned(&w)] && !none {
			known[warned(&w)] = true
			lines = append(lines, show.WarningLine(&w))
		}
	}
	return lines
}

// warned is what a warning is about: of races close together these and how close, whatever that costs.
func warned(w *words.Warning) string {
	if w.Command == "" {
		return w.Text
	}
	pair, _, _ := strings.Cut(w.Text, ", so ")
	return pair
}

// LostDays says of each taper from which one more day falls out what it loses and what stays.
func (e *Effect) LostDays() []say.Line {
	var lines []say.Line
	for i := range e.After.Tapers {
		t := &e.After.Tapers[i]
		before := 0
		for j := range e.before.Tapers {
			if was := &e.before.Tapers[j]; was.Race.Is(t.Race) {
				before = len(was.Lost)
			}
		}
		if text := show.LostDays(e.After, t); text != "" && len(t.Lost) > before {
			lines = append(lines, say.Linef("%s", text))
		}
	}
	return lines
}

// ChangedDays are the first days that are planned differently now.
func (e *Effect) ChangedDays() []say.Line { return e.FewChangedDays(8) }

// FewChangedDays are as many changed days as there is room for, each with what to mind
// in a few words, and how many more there are.
func (e *Effect) FewChangedDays(most int) []say.Line {
	lines := []say.Line{say.Headingf("What changes in your plan:")}
	changed := 0
	var more *planner.Race // of the first day that is not shown and has one
	for i := range e.After.Days {
		was, is := &e.before.Days[i], &e.After.Days[i]
		before, after := e.label(was), e.label(is)
		if before == after || logged(e.Old, is.Date) && logged(e.Facts, is.Date) {
			continue
		}
		if changed++; changed <= most {
			line := say.Dayf(show.DayLead(is.Date), "%s (until now %s)", after, before)
			seen := e.seen(is)
			line.Mind = words.ShortCaution(&seen)
			line.Flag = line.Mind != ""
			lines = append(lines, line)
		} else if more == nil {
			if more = show.ToldRace(e.After, e.Facts, is.Race); more == nil {
				more = e.stillTold(was.Race)
			}
		}
	}
	switch {
	case changed == 0:
		return []say.Line{say.Linef("No planned day changes.")}
	case changed > most:
		next := say.CommandLink("plan show")
		if more != nil {
			next = show.RaceLink(e.Facts, more)
		}
		lines = append(lines, say.Linef("and %d more: %s", changed-most, next))
	}
	return lines
}

// label is a day in words, for who reads it.
func (e *Effect) label(d *engine.Day) string {
	if e.coach && d.Phase == planner.Health {
		return show.NotTraining
	}
	return show.SessionsLabel(d.Sessions, d.Race)
}

// seen is a day with the cautions of who reads it.
func (e *Effect) seen(d *engine.Day) engine.Day {
	switch {
	case !e.coach:
		return *d
	case d.Phase == planner.Health:
		return engine.Day{Date: d.Date, Phase: d.Phase, Race: d.Race}
	}
	return show.WithoutHealth(d)
}

// logged reports a day that was ridden or missed.
func logged(f *planner.Facts, date planner.Date) bool {
	return slices.ContainsFunc(f.Done, func(r planner.Ride) bool { return r.Date == date })
}

// stillTold is a race that shaped a day before the change, nil where it is gone or over.
func (e *Effect) stillTold(race *planner.Race) *planner.Race {
	was := show.ToldRace(e.before, e.Old, race)
	if was == nil {
		return nil
	}
	if r := e.Facts.RaceOf(was); r != nil && r.Last() >= e.After.Today {
		return r
	}
	return nil
}
