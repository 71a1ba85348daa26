package coach

import (
	"context"
	"errors"
	"maps"
	"slices"

	"musette/bot/desk"
	"musette/bot/races"
	"musette/bot/say"
	"musette/bot/show"
	"musette/bot/weeks"
	"musette/planner"
)

// coachRace registers a race for a rider who does not type. Nothing is said in public.
func coachRace(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	h, err := handOrNew(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	h.withoutAthlete()
	race, _, e, err := races.Register(ctx, b, h.Request)
	if errors.Is(err, races.ErrDouble) {
		return say.Reply{}, say.Refuse("name", "%s has %s on %s already. See /coach athlete %s", h.name, race.Name, race.Date.Long(), say.Quote(h.name))
	}
	if err != nil {
		return say.Reply{}, err
	}
	req.Rider.Saved = true
	if err := h.stored(ctx, b); err != nil {
		return say.Reply{}, err
	}
	e = e.ForCoach()
	var p say.Page
	p.Addf("%s is in the calendar of %s: %s.", race.Name, h.name, show.DescribeRace(&race))
	if desk.Planned(e.Facts) {
		p.Addf("%s", show.Window(e.After, show.RoleOf(e.After, e.Facts, &race), &race))
		p.Add(e.OtherRaces(&race)...)
		p.Add(e.NewWarnings()...)
	} else {
		p.Addf("There is no plan yet: %s has no typical week. Share one for them: /coach week athlete:%s week:%s", h.name, say.Quote(h.name), say.Quote(desk.ExampleWeek))
	}
	buttons := []say.Button{{Label: "Not mine", Danger: true, Command: "race remove", Options: show.ByRace(&race)}}
	if desk.Planned(e.Facts) {
		buttons = append([]say.Button{show.PlanButton(&race)}, buttons...)
	}
	line, sent := h.tells("change it or take it out", toRider(&h.rider, []say.Line{say.Linef("Your coach put %s into your calendar: %s.", race.Name, show.DescribeRace(&race)),
		say.Linef("Does something not fit? Change it: /race change race:%s start:10:30", say.Quote(show.RaceKey(&race)))}, buttons...))
	p.Add(line)
	return say.Reply{Date: race.Date, Race: race.Name, Lines: p.Done(), Sent: sent,
		Buttons: []say.Button{{Label: "Show " + h.name, Command: "coach athlete", Options: map[string]string{"athlete": h.name}}}}, nil
}

// withoutAthlete leaves the options that the rider's own command has.
func (h *handed) withoutAthlete() {
	options := maps.Clone(h.Options)
	delete(options, "athlete")
	delete(options, "member")
	h.Options = options
}

// coachWeek shares a typical week for a rider who does not type.
func coachWeek(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	h, err := handOrNew(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	h.withoutAthlete()
	week, e, err := weeks.Share(ctx, b, h.Request)
	if err != nil {
		return say.Reply{}, err
	}
	req.Rider.Saved = true
	if err := h.stored(ctx, b); err != nil {
		return say.Reply{}, err
	}
	e = e.ForCoach()
	var p say.Page
	days := weeks.Lines(&week.Week)
	p.Addf("The week of %s from %s: %s.", h.name, week.From.Long(), show.WeekSum(&week.Week))
	if week.Second != nil {
		other := say.Linef("The other week in turn, from %s: %s.", week.From.AddDays(7-int(week.From.Weekday())).Long(), show.WeekSum(week.Second))
		days = append(append(days, other), weeks.Lines(week.Second)...)
	}
	p.Add(days...)
	if race := e.Facts.NextRace(h.Rider.Today); race != nil {
		p.Addf("%s on %s: %s", race.Name, race.Date.Short(), show.Window(e.After, show.RoleOf(e.After, e.Facts, race), race))
		p.Add(e.NewWarnings()...)
	} else {
		p.Addf("Next, add a race: /coach race athlete:%s name:%s date:%s priority:A hours:3h30", say.Quote(h.name), say.Quote("Hill Loop"), h.Rider.Today.AddDays(28))
	}
	reply := say.Reply{Date: week.From, Buttons: []say.Button{{Label: "Show " + h.name, Command: "coach athlete", Options: map[string]string{"athlete": h.name}}}}
	notSo := say.Button{Label: "Take it back", Command: "week withdraw", Options: map[string]string{"from": week.From.String()}}
	if at := slices.IndexFunc(e.Old.Weeks, func(w planner.DatedWeek) bool { return w.From == week.From }); at >= 0 {
		notSo.Command, notSo.Options = "week share", weeks.Options(&e.Old.Weeks[at])
		back := maps.Clone(notSo.Options)
		back["athlete"] = h.name
		reply.Offer(&p, "Undo", "coach week", back)
	}
	told := []say.Line{say.Linef("Your coach shared your typical week from %s: %s.", week.From.Long(), show.WeekSum(&week.Week))}
	line, sent := h.tells("share another one", toRider(&h.rider, append(append(told, days...), say.Linef("Is it different? Share your own: /week share week:%s", say.Quote(week.Week.String()))), notSo))
	p.Add(line)
	reply.Lines, reply.Sent = p.Done(), sent
	return reply, nil
}
