package plans

import (
	"context"
	"fmt"

	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// sourceStudies are behind the planned length and cut.
const sourceStudies = "Bosquet et al. 2007 for the plan"

// shownLengths are the lengths of an answer, besides the planned one; its picture has all.
var shownLengths = [...]int{4, 7, 10, 14, 21}

func planOptions(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today, until := req.Rider.Today, req.Rider.Today
	var race *planner.Race
	if req.Has("race") {
		found, err := b.RaceToPlan(ctx, req)
		if err != nil {
			return say.Reply{}, err
		}
		race, until = &found.Race, found.Last()
	}
	if reply, ok := desk.NotTraining(facts.Now, today); ok {
		return reply, nil
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	plan := engine.DeriveUntil(today, until, facts.All)
	if race == nil {
		race = nextTaper(plan, facts.Now)
	}
	if race == nil {
		return noTaperToCome(plan, facts.Now), nil
	}
	options, ok := season.NewOptions(today, facts.All, race)
	if !ok {
		return noOptions(plan, facts.Now, race), nil
	}
	taper := show.TaperOf(plan, show.RoleOf(plan, facts.Now, race))
	reply := optionsReply(&lengthOffer{options, taper, race, asB(today, facts.All, race)}, facts.Now, today)
	b.Attach(ctx, &reply, "taper-options.png", func() (picture.Picture, error) { return picture.TradeOff(tradeOf(options)) })
	return reply, nil
}

// optionsReply compares tapers in words: the answer, lengths, cuts, how far to
// trust it, and a button for another length.
func optionsReply(l *lengthOffer, f *planner.Facts, today planner.Date) say.Reply {
	o, taper, race := l.options, l.taper, l.race
	reply := say.Reply{Date: race.Date, Race: race.Name}
	other := l.other(today)
	var p say.Page
	head := say.PlainLines(optionsHead(o, taper, f, today)...)
	p.Add(head[0])
	if l.asB {
		p.Addf("That is for an A race. Your season as a whole would be faster with it as a B race: /season check")
	}
	p.Add(head[1:]...)
	p.Gap()
	if len(o.AfterBlock) > 0 {
		p.Add(blockRows(o)...)
	} else {
		p.Add(lengthRows(o, other, today)...)
	}
	p.Gap()
	p.Add(cutRows(o)...)
	p.Gap()
	p.Addf("%s %s", show.PerCent, show.SourcePerCent)
	p.Addf("%s Sources: %s, %s.", show.Uncertain, show.SourceModels, sourceStudies)
	l.offer(&p, &reply, other, f, today)
	reply.Lines = p.Done()
	reply.Buttons = append(reply.Buttons, show.PlanButton(race))
	return reply
}

// nextTaper is the next race to come that has a taper, as it was entered; nil: none has.
func nextTaper(plan *engine.Plan, f *planner.Facts) *planner.Race {
	return planner.FirstAhead(f.Races, plan.Today, func(r *planner.Race) bool {
		return r.Date > plan.Today && show.TaperOf(plan, show.RoleOf(plan, f, r)) != nil
	})
}

// stopWarning is what forbids to plan at all, "" where nothing does.
func stopWarning(plan *engine.Plan) string {
	for i, w := range plan.Warnings {
		if w.Code == engine.WarnHold {
			return words.Warnings(plan)[i].Text
		}
	}
	return ""
}

// noTaperToCome says what to do where no race to come has a taper.
func noTaperToCome(plan *engine.Plan, f *planner.Facts) say.Reply {
	if stop := stopWarning(plan); stop != "" {
		return say.Reply{Lines: []say.Line{say.Linef("There are no tapers to compare now. %s", stop)}, Date: plan.Today}
	}
	next := planner.FirstAhead(f.Races, plan.Today, func(r *planner.Race) bool { return r.Date > plan.Today })
	running := f.NextRace(plan.Today)
	switch {
	case next != nil && next.Priority == planner.PriorityA:
		return noOptions(plan, f, next)
	case next != nil:
		return say.Reply{Lines: []say.Line{say.Linef("No A race with a taper is to come. To make one: /race priority race:%s priority:A", say.Quote(show.RaceKey(next)))}, Date: plan.Today}
	case running != nil:
		return noOptions(plan, f, running)
	}
	return say.Reply{Lines: []say.Line{say.Linef("No A race with a taper is to come. Register one: %s", desk.RaceExample(plan.Today))}, Date: plan.Today}
}

// noOptions says in a sentence why a race has no tapers to compare, and what to do.
func noOptions(plan *engine.Plan, f *planner.Facts, race *planner.Race) say.Reply {
	reply := say.Reply{Date: race.Date, Race: race.Name}
	role := show.RoleOf(plan, f, race)
	switch stop := stopWarning(plan); {
	case race.Last() < plan.Today:
		reply.Addf("%s on %s is over: no taper is left to choose. What comes next: /plan show", race.Name, race.Date.Long())
	case stop != "":
		reply.Addf("There are no tapers to compare now. %s", stop)
	case race.Date < plan.Today:
		reply.Addf("%s is under way: no taper is left to choose. Its days: %s", race.Name, show.RaceLink(f, race))
	case race.Date == plan.Today:
		reply.Addf("%s is today: no taper is left to choose. Its days: %s", race.Name, show.RaceLink(f, race))
	case race.Priority != planner.PriorityA:
		reply.Addf("%s is a %s race and gets no taper to compare. To make it an A race: /race priority race:%s priority:A",
			race.Name, race.Priority, say.Quote(show.RaceKey(race)))
	case show.TaperOf(plan, role) == nil:
		reply.Addf("%s has no taper to compare. %s Its days: %s", race.Name, show.Window(plan, role, race), show.RaceLink(f, race))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no taper to compare. Share a new one, for example /week share week:%s", say.Quote(desk.ExampleWeek))
	}
	return reply
}

func daysAre(days int) string {
	if days == 1 {
		return "day is"
	}
	return fmt.Sprintf("%d days are", days)
}

// plannedOption is the planned one of the lengths.
func plannedOption(o *season.Options) *season.Option {
	for i := range o.Lengths {
		if o.Lengths[i].Planned {
			return &o.Lengths[i]
		}
	}
	return &season.Option{Days: o.Days, Cut: o.Cut}
}

// tradeOf is what the picture shows of the lengths.
func tradeOf(o *season.Options) picture.Trade {
	t := picture.Trade{Race: o.Race.Name, Chosen: o.Days}
	for _, l := range o.Lengths {
		t.Points = append(t.Points, picture.Point{Days: l.Days, Kept: l.Kept, Shed: l.Shed, Low: l.Gain.Low, Mid: l.Gain.Mid, High: l.Gain.High})
	}
	return t
}
