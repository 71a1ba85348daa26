package ask

import (
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
)

// ride is the session of a day, or of each day of a stretch.
func (t *talk) ride(p *asked.Part) (say.Reply, error) {
	if from, to, ok := p.Stretch(); ok && from < to && p.Offset == nil {
		return t.stretch(from, to)
	}
	if p.Offset == nil && len(p.Dates) == 0 && t.race(p) != nil {
		return t.run("plan show", raceOption(p.Race))
	}
	if _, ok := t.day(p); !ok && p.Offset != nil {
		return t.noRace(), nil
	}
	reply, err := t.run("ride", t.dayOption(p))
	for i := 1; err == nil && i < len(p.Dates) && i < 3; i++ { // "tuesday and thursday"
		more, fault := t.run("ride", map[string]string{"day": p.Dates[i].From.String()})
		if fault == nil {
			reply.Gap()
			reply.Lines = append(reply.Lines, more.Lines...)
		}
	}
	return reply, err
}

// plan is the coming days, or those of a race.
func (t *talk) plan(p *asked.Part) (say.Reply, error) {
	from, to, dated := p.Stretch()
	if r := t.race(p); r != nil && (!dated || from == to || from <= t.today && to >= from.AddDays(mostDays)) {
		return t.run("plan show", raceOption(r))
	}
	if dated && from < to {
		return t.stretch(from, to)
	}
	if goal := t.goal(); goal != nil && holds(p, "race week,the race,my race,last week before") {
		return t.run("plan show", raceOption(goal))
	}
	return t.run("plan show", map[string]string{})
}

// days are the days of a stretch as they are planned or were ridden.
func (t *talk) days(from, to planner.Date) []engine.Day {
	plan := t.planUntil(to)
	var out []engine.Day
	for date := from; date <= to; date++ {
		d, ok := plan.Day(date)
		if date < t.today {
			d, ok = desk.Lived(t.facts, date), true
		}
		if ok && d != nil {
			out = append(out, *d)
		}
	}
	return out
}

const mostDays = 14

// stretch lists the days of a stretch.
func (t *talk) stretch(from, to planner.Date) (say.Reply, error) {
	if !desk.Planned(t.facts.Now) {
		return t.req.NeedWeek(), nil
	}
	last := to
	to = min(to, from.AddDays(mostDays-1))
	days := t.days(from, to)
	var p say.Page
	minutes, rides := ridden(days)
	p.Addf("%s: %s on %s.", show.Span(from, to, t.today), planner.Duration(minutes), show.Count(rides, "day"))
	p.Gap()
	for i := range days {
		p.Add(show.DayLine(&days[i]))
	}
	if to < last {
		p.Addf("%s more follow, up to %s.", show.Count(to.DaysUntil(last), "day"), last.Short())
	}
	reply := say.Reply{Lines: append(p.Done(), show.LongCautions(days)...), Date: from}
	if i := slices.IndexFunc(days, func(d engine.Day) bool { return d.Race != nil }); i >= 0 {
		reply.Race = days[i].Race.Name
	}
	first := max(from, t.today)
	reply.Buttons = []say.Button{{Label: "How to ride " + first.Short(), Command: "ride", Options: map[string]string{"day": first.String()}}, show.WhyButton(first)}
	if to < last {
		reply.Buttons = append(reply.Buttons, say.Button{Label: "The days after", Command: Name, Options: map[string]string{Question: asked.Plan.With(to.AddDays(1).String() + " to " + last.String())}})
	}
	return reply, nil
}

func ridden(days []engine.Day) (minutes, rides int) {
	for i := range days {
		minutes += days[i].Minutes()
		if days[i].Minutes() > 0 {
			rides++
		}
	}
	return minutes, rides
}

// hours is how much is ridden in a week.
func (t *talk) hours(p *asked.Part) (say.Reply, error) {
	if !desk.Planned(t.facts.Now) {
		return t.req.NeedWeek(), nil
	}
	monday := t.today.AddDays(-int(t.today.Weekday()))
	from, to, ok := p.Stretch()
	switch race := t.aim(p); {
	case ok && from < to:
		to = min(to, from.AddDays(30))
	case ok:
		from = from.AddDays(-int(from.Weekday()))
		to = from.AddDays(6)
	case race != nil && holds(p, "race week,until the race,in the taper,taper"):
		plan, role := t.planOf(race)
		if taper := show.TaperOf(plan, role); taper != nil && holds(p, "taper,in the taper") {
			head := show.PlanHead(plan, t.facts.All, role, race)
			reply := say.Reply{Lines: say.PlainLines(head[1], head[0]), Date: taper.From, Race: race.Name, Buttons: []say.Button{show.PlanButton(race)}}
			return reply, nil
		}
		from, to = race.Date.AddDays(-7), race.Date.AddDays(-1)
		if holds(p, "until the race") {
			from = t.today
		}
	default:
		from, to = monday, monday.AddDays(6)
	}
	days := t.days(from, to)
	minutes, rides := ridden(days)
	usual := 0
	for i := range days {
		for _, s := range days[i].Usual {
			if s.Kind.IsRide() {
				usual += int(s.Minutes)
			}
		}
	}
	reply := say.Reply{Date: from}
	reply.Addf("%s: %s of riding on %s.", show.Span(from, to, t.today), planner.Duration(minutes), show.Count(rides, "day"))
	switch {
	case minutes == usual:
		reply.Addf("That is as in your usual week.")
	case usual > minutes:
		reply.Addf("Usually it is %s, so this is %d %% less.", planner.Duration(usual), (usual-minutes)*100/usual)
	default:
		reply.Addf("Usually it is %s. A race counts as riding.", planner.Duration(usual))
	}
	if i := slices.IndexFunc(days, func(d engine.Day) bool { return d.Race != nil }); i >= 0 {
		reply.Race = days[i].Race.Name
	}
	reply.Buttons = []say.Button{{Label: "The days", Command: Name, Options: map[string]string{Question: asked.Plan.With(from.String() + " to " + to.String())}}}
	return reply, nil
}

// why is the reason of a day, or of the plan as a whole.
func (t *talk) why(p *asked.Part) (say.Reply, error) {
	if p.Follow && t.last != nil {
		switch t.last.Topic {
		case asked.TaperStart, asked.TaperLength:
			return t.taperLength(t.last)
		case asked.Sleep, asked.Food, asked.Strength, asked.HowHard, asked.FlatLegs, asked.Overload:
			return t.general(p), nil
		}
	}
	if _, ok := t.day(p); ok {
		return t.run("plan why", t.dayOption(p))
	}
	if race := t.race(p); race != nil {
		return t.run("plan show", raceOption(race))
	}
	if holds(p, "taper,tapering,plan,based,completely,intensity,still hard,trust") {
		return t.general(p), nil
	}
	if len(p.Kinds) > 0 || p.Hard {
		if day, ok := t.nextChanged(p); ok {
			return t.run("plan why", map[string]string{"day": day.String()})
		}
	}
	return t.run("plan why", map[string]string{})
}

// nextChanged is the next changed day of a kind that the part names.
func (t *talk) nextChanged(p *asked.Part) (planner.Date, bool) {
	plan := t.planUntil(t.today.AddDays(mostDays))
	for i := range plan.Days[:min(mostDays, len(plan.Days))] {
		d := &plan.Days[i]
		fits := func(s planner.Session) bool { return slices.Contains(p.Kinds, s.Kind) || p.Hard && s.IsHard() }
		if d.Changed() && (i == 0 && holds(p, "easy,easier,short,shorter,less,rest") || slices.ContainsFunc(d.Usual, fits) || slices.ContainsFunc(d.Sessions, fits)) {
			return d.Date, true
		}
	}
	return 0, false
}

// general says why tapers are as they are.
func (t *talk) general(*asked.Part) say.Reply {
	reply := say.Reply{}
	reply.Addf("Your plan is your own week, cut before a race: about half of the time goes, the hard parts stay hard.")
	reply.Addf("Fatigue goes faster than fitness, so you start fresh. Full rest, or easy riding alone, loses more.")
	reply.Addf("Source: Bosquet et al. 2007, Mujika & Padilla 2003. Each changed day has its own reason.")
	reply.Buttons = []say.Button{{Label: "Why today?", Command: "plan why"}}
	return reply
}
