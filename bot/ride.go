package bot

import (
	"context"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// ride answers with a day's session: what, why, how, what to mind, and what a
// race that is near adds to it.
func (b *Bot) ride(ctx context.Context, req Request) (Reply, error) {
	o, day, err := b.plannedOccasion(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	d := o.day
	if d == nil {
		reply := req.needWeek()
		reply.Date = day
		return reply, nil
	}
	var p page
	p.addf("%s: %s.", dayName(day, req.rider.today), headline(d))
	if why := words.Why(d); len(why) > 0 {
		p.add("Why: " + why[0].Text)
	} else {
		p.add("As in your usual week.")
	}
	p.add(o.lines(req.rider.today)...)
	p.add(howTo(d)...)
	next := day.AddDays(1)
	if d.Changed() {
		p.addf("Sources: /plan why %s", day)
	}
	if next <= req.rider.today.AddDays(planner.MaxAhead) {
		p.addf("Next day: /ride %s", next)
	}
	reply := aboutDay(&p, d)
	if race := o.about(); race != nil {
		reply.Race = race.Name
	}
	if race := o.start(); race != nil {
		reply.Moments = req.startOf(race)
	}
	reply.Buttons = []Button{
		{Label: "Why", Command: "plan why", Options: map[string]string{"day": day.String()}},
		{Label: "Next day", Command: "ride", Options: map[string]string{"day": next.String()}},
	}
	if o.ask != nil {
		reply.Buttons = append(reply.Buttons, askButtons(o.ask)...)
	}
	return reply, nil
}

// plannedOccasion is the day of the option day and what it is to the rider; it
// has no day where there is no typical week. Only today can be the day after a
// race that the rider is asked about.
func (b *Bot) plannedOccasion(ctx context.Context, req Request) (o occasion, day planner.Date, err error) {
	if day, err = req.day("day"); err != nil {
		return occasion{}, 0, err
	}
	facts, err := b.facts(ctx, req.rider)
	if err != nil || !planned(facts.now) {
		return occasion{}, day, err
	}
	o = occasionOf(engine.DeriveUntil(req.rider.today, day, facts.all), facts.now, day)
	if day == req.rider.today {
		err = b.askAfter(ctx, req.rider.athlete.ID, &o)
	}
	return o, day, err
}

// rideButton offers the session of the first shown day.
func rideButton(today, day planner.Date) Button {
	label := day.Short()
	if day == today {
		label = "Today"
	}
	return Button{Label: label, Command: "ride", Options: map[string]string{"day": day.String()}}
}
