package bot

import (
	"context"
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// ride answers with a day's session: what, why, how, what to mind, and what a
// race that is near adds to it.
func (b *Base) ride(ctx context.Context, req Request) (Reply, error) {
	day, err := req.anyDay()
	if err != nil {
		return Reply{}, err
	}
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	switch {
	case !planned(facts.now):
		reply := req.needWeek()
		reply.Date = day
		return reply, nil
	case day < req.rider.today:
		return rideOver(facts, day, req.rider.today), nil
	}
	o, err := b.plannedOccasion(ctx, req, facts, day)
	if err != nil {
		return Reply{}, err
	}
	d := o.day
	var p page
	p.addf("%s: %s.", dayName(day, req.rider.today), headline(d))
	if why := words.Why(d); len(why) > 0 {
		p.addf("Why: %s", why[0].Text)
	} else {
		p.addf("As in your usual week.")
	}
	p.add(o.lines(req.rider.today)...)
	p.add(howTo(d)...)
	reply := aboutDay(&p, d)
	if race := o.about(); race != nil {
		reply.Race = race.Name
	}
	if race := o.start(); race != nil {
		reply.Moments = req.startOf(race)
	}
	reply.Buttons = []Button{whyButton(day)}
	if next := day.AddDays(1); next <= req.rider.today.AddDays(planner.MaxAhead) {
		reply.Buttons = append(reply.Buttons, nextDayButton(next))
	}
	if o.ask != nil {
		reply.Buttons = append(reply.Buttons, askButtons(o.ask)...)
	}
	return reply, nil
}

// plannedOccasion is a day to come and what it is to the rider. Only today can be
// the day after a race that the rider is asked about.
func (b *Base) plannedOccasion(ctx context.Context, req Request, f ledger, day planner.Date) (o occasion, err error) {
	o = occasionOf(engine.DeriveUntil(req.rider.today, day, f.all), f.now, day)
	if day == req.rider.today {
		err = b.askAfter(ctx, req.rider.athlete.ID, &o)
	}
	return o, err
}

// rideOver answers for a day that is over: what was ridden, or what was told.
func rideOver(f ledger, day, today planner.Date) Reply {
	d, was := lived(f, day), unlogged(f, day)
	name := dayName(day, today)
	logged := slices.ContainsFunc(f.now.Done, func(r planner.Ride) bool { return r.Date == day })
	var p page
	switch {
	case d.Phase == planner.RaceDay, !logged && d.Minutes() == 0:
		p.addf("%s: %s.", name, headline(d))
	case logged && d.Minutes() == 0:
		p.addf("%s: you did not ride. Planned: %s.", name, headline(was))
	case logged:
		p.addf("%s: you rode %s. Planned: %s.", name, planner.Duration(d.Minutes()), headline(was))
	default:
		p.addf("%s: %s. Nothing is logged.", name, headline(d))
	}
	reply := aboutDay(&p, d)
	if !logged && d.Minutes() > 0 && d.Phase != planner.RaceDay {
		reply.Buttons = append(reply.Buttons, Button{Label: "Rode it", Command: "done", Options: map[string]string{"day": day.String()}})
	}
	reply.Lines = p.done()
	reply.Buttons = append(reply.Buttons, whyButton(day), nextDayButton(day.AddDays(1)))
	return reply
}

func nextDayButton(next planner.Date) Button {
	return Button{Label: "Next day", Command: "ride", Options: map[string]string{"day": next.String()}}
}

// rideButton offers the session of a day.
func rideButton(today, day planner.Date) Button {
	label := "How to ride " + day.Short()
	switch day {
	case today:
		label = "How to ride today"
	case today.AddDays(1):
		label = "How to ride tomorrow"
	}
	return Button{Label: label, Command: "ride", Options: map[string]string{"day": day.String()}}
}
