package plans

import (
	"context"
	"slices"

	"musette/bot/desk"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// ride answers with a day's session: what, why, how, what to mind, and what a
// race that is near adds to it.
func ride(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	day, err := req.AnyDay()
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	switch {
	case !desk.Planned(facts.Now):
		reply := req.NeedWeek()
		reply.Date = day
		return reply, nil
	case day < req.Rider.Today:
		return rideOver(facts, day, req.Rider.Today), nil
	}
	o, err := plannedOccasion(ctx, b, req, facts, day)
	if err != nil {
		return say.Reply{}, err
	}
	d := o.Day
	var p say.Page
	if o.Begun() {
		p.Addf("%s", o.RaceDay())
	} else {
		p.Addf("%s: %s.", show.DayName(day, req.Rider.Today), show.Headline(d))
		p.Add(remind.Recipe(d)...)
		if why := words.Why(d); len(why) > 0 {
			p.Addf("Why: %s", why[0].Text)
		} else {
			p.Addf("As in your usual week.")
		}
	}
	p.Add(o.Lines(req.Rider.Today)...)
	if !o.Begun() {
		p.Add(remind.ToMind(d)...)
	}
	notes, err := b.DB.CoachNotes(ctx, req.Rider.Athlete.ID, day, day)
	if err != nil {
		return say.Reply{}, err
	}
	p.Add(show.NoteLines(notes, day)...)
	reply := show.AboutDay(&p, d)
	if race := o.About(); race != nil {
		reply.Race = race.Name
	}
	if race := o.Start(); race != nil {
		reply.Moments = req.StartOf(race)
	}
	reply.Buttons = []say.Button{show.WhyButton(day)}
	if remind.Pinned(d) {
		reply.Buttons = append(reply.Buttons, remind.LetGo(req.Rider.Athlete.Name, day))
	}
	if next := day.AddDays(1); next <= req.Rider.Today.AddDays(planner.MaxAhead) {
		reply.Buttons = append(reply.Buttons, nextDayButton(next))
	}
	if o.Ask != nil {
		reply.Buttons = append(reply.Buttons, remind.AskButtons(o.Ask)...)
	}
	return reply, nil
}

// plannedOccasion is a day to come and what it is to the rider. Only today can be
// the day after a race that the rider is asked about.
func plannedOccasion(ctx context.Context, b *desk.Base, req desk.Request, f desk.Ledger, day planner.Date) (o remind.Occasion, err error) {
	o = remind.OccasionOf(engine.DeriveUntil(req.Rider.Today, day, f.All), f.Now, day)
	if day == req.Rider.Today {
		o.At(req.Now, req.Rider.Zone)
		err = remind.AskAfter(ctx, b, req.Rider.Athlete.ID, &o)
	}
	return o, err
}

// rideOver answers for a day that is over: what was ridden, or what was told.
func rideOver(f desk.Ledger, day, today planner.Date) say.Reply {
	d, was := desk.Lived(f, day), desk.Unlogged(f, day)
	name := show.DayName(day, today)
	logged := slices.ContainsFunc(f.Now.Done, func(r planner.Ride) bool { return r.Date == day })
	var p say.Page
	switch {
	case d.Phase == planner.RaceDay, !logged && d.Minutes() == 0:
		p.Addf("%s: %s.", name, show.Headline(d))
	case logged && d.Minutes() == 0:
		p.Addf("%s: you did not ride. Planned: %s.", name, show.Headline(was))
	case logged:
		p.Addf("%s: you rode %s. Planned: %s.", name, planner.Duration(d.Minutes()), show.Headline(was))
	default:
		p.Addf("%s: %s. Nothing is logged.", name, show.Headline(d))
	}
	reply := show.AboutDay(&p, d)
	if !logged && d.Minutes() > 0 && d.Phase != planner.RaceDay {
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Rode it", Command: "done", Options: map[string]string{"day": day.String()}})
	}
	reply.Lines = p.Done()
	reply.Buttons = append(reply.Buttons, show.WhyButton(day), nextDayButton(day.AddDays(1)))
	return reply
}

func nextDayButton(next planner.Date) say.Button {
	return say.Button{Label: "Next day", Command: "ride", Options: map[string]string{"day": next.String()}}
}

// rideButton offers the session of a day.
func rideButton(today, day planner.Date) say.Button {
	label := "How to ride " + day.Short()
	switch day {
	case today:
		label = "How to ride today"
	case today.AddDays(1):
		label = "How to ride tomorrow"
	}
	return say.Button{Label: label, Command: "ride", Options: map[string]string{"day": day.String()}}
}
