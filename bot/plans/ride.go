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
	"musette/storage"
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
	if reply, ok := unplannedRide(facts, req, day); ok {
		return reply, nil
	}
	plan := engine.DeriveUntil(req.Rider.Today, max(day, req.Rider.Today+1), facts.All)
	o, err := plannedOccasion(ctx, b, req, facts.Now, plan, day)
	if err != nil {
		return say.Reply{}, err
	}
	if day == req.Rider.Today && o.Logged() {
		return rodeToday(facts, plan, &o), nil
	}
	notes, err := b.DB.CoachNotes(ctx, req.Rider.Athlete.ID, day, day)
	if err != nil {
		return say.Reply{}, err
	}
	return rideAhead(req, plan, &o, notes, desk.OpenIllness(facts.Now) != nil), nil
}

// unplannedRide answers for a day that has no session to come: nobody may train, no
// week is known, or the day is over.
func unplannedRide(facts desk.Ledger, req desk.Request, day planner.Date) (reply say.Reply, ok bool) {
	today := req.Rider.Today
	h, held := desk.Held(facts.Now)
	switch {
	case held && day >= h.Since:
		reply = show.Stopped(say.Linef("%s: no training. Your health comes first.", show.DayName(day, today)), h.Level)
		reply.Date = day
	case day < today && !desk.PlannedThen(facts, day):
		reply = beforePlans(facts.Now, day, today)
	case !desk.Planned(facts.Now):
		reply = req.NeedWeek()
		if rides := ridesOn(facts.Now, day); len(rides) > 0 {
			reply.Lines = append([]say.Line{say.Linef("%s: you rode %s.", show.DayName(day, today), show.Ridden(rides, nil))}, reply.Lines...)
		}
		reply.Date = day
	case day < today:
		reply = rideOver(facts, day, today)
	default:
		return reply, false
	}
	return reply, true
}

// rideAhead answers for a day to come: its session, what to mind, what a race that is near adds.
func rideAhead(req desk.Request, plan *engine.Plan, o *remind.Occasion, notes []storage.CoachNote, ill bool) say.Reply {
	d, day, today := o.Day, o.Day.Date, req.Rider.Today
	var p say.Page
	if o.Begun() {
		p.Addf("%s", o.RaceDay())
	} else {
		p.Addf("%s: %s.", show.DayName(day, today), show.Headline(d))
		p.Add(remind.Recipe(d)...)
		if why := words.Why(d); len(why) > 0 {
			p.Addf("Why: %s", why[0].Text)
			p.Add(lostDays(show.LostAmong(plan, day))...)
		} else if d.Phase == planner.Health && ill {
			p.Addf("Every day is rest until you are well: /tell well")
		} else if d.Phase == planner.Health {
			p.Addf("You come back step by step. This day is the same as in your usual week.")
		} else {
			p.Addf("This day is the same as in your usual week.")
		}
	}
	p.Add(o.Lines(today)...)
	p.Add(o.InRecovery()...)
	if !o.Begun() {
		p.Add(remind.ToMind(d)...)
	}
	p.Add(show.NoteLines(notes, day)...)
	reply := show.AboutDay(&p, d)
	if race := o.About(); race != nil {
		reply.Race = race.Name
	}
	if race := o.Start(); race != nil {
		reply.Moments = req.StartOf(race)
	}
	reply.Buttons = append([]say.Button{show.WhyButton(day)}, o.MorningButton()...)
	if day == today {
		reply.Buttons = append(reply.Buttons, o.WellButton()...)
	}
	if remind.Pinned(d) {
		reply.Buttons = append(reply.Buttons, remind.LetGo(req.Rider.Athlete.Name, day))
	}
	if next := day.AddDays(1); next <= today.AddDays(planner.MaxAhead) {
		reply.Buttons = append(reply.Buttons, nextDayButton(next))
	}
	if o.Asks() {
		reply.Buttons = append(reply.Buttons, remind.AskButtons(o.Ask)...)
	}
	return reply
}

// plannedOccasion is a day to come and what it is to the rider. Only today can be
// the day after a race that the rider is asked about.
func plannedOccasion(ctx context.Context, b *desk.Base, req desk.Request, f *planner.Facts, plan *engine.Plan, day planner.Date) (o remind.Occasion, err error) {
	o = remind.OccasionOf(plan, f, day)
	if day == req.Rider.Today {
		o.At(req.Now, req.Rider.Zone)
		if err = remind.AskAfter(ctx, b, req.Rider.Athlete.ID, &o); err == nil {
			err = remind.CountBack(ctx, b, req.Rider.Athlete.ID, &o, req.Rider.Zone)
		}
	}
	return o, err
}

// rodeToday answers for today when it is logged: how the ride compares, then what comes next.
func rodeToday(f desk.Ledger, plan *engine.Plan, o *remind.Occasion) say.Reply {
	today := plan.Today
	was := desk.Unlogged(f, today)
	var p say.Page
	p.Add(ridden(f.Now, was, today)...)
	p.Add(lostDays(show.LostAmong(plan, today))...)
	p.Add(o.Lines(today)...)
	if next, ok := plan.Day(today + 1); ok && o.Eve == nil {
		p.Addf("%s: %s.", show.DayName(next.Date, today), show.Careful(next))
	}
	reply := show.AboutDay(&p, was)
	if race := o.About(); race != nil {
		reply.Race = race.Name
	}
	reply.Buttons = append([]say.Button{rideButton(today, today+1), show.WhyButton(today)}, o.MorningButton()...)
	if o.Asks() {
		reply.Buttons = append(reply.Buttons, remind.AskButtons(o.Ask)...)
	}
	return reply
}

// ridesOn are the rides of a day, none where it was missed.
func ridesOn(f *planner.Facts, day planner.Date) []planner.Ride {
	var rides []planner.Ride
	for _, r := range f.Done {
		if r.Date == day && r.Minutes > 0 {
			rides = append(rides, r)
		}
	}
	return rides
}

// ridden is how a logged day compares with its plan.
func ridden(f *planner.Facts, was *engine.Day, today planner.Date) []say.Line {
	rides := ridesOn(f, was.Date)
	name, planned := show.DayName(was.Date, today), show.Headline(was)
	switch {
	case len(rides) == 0 && was.Phase == planner.Tapering && was.Minutes() > 0:
		return []say.Line{say.Linef("%s: you did not ride. Planned: %s. It is not made up.", name, planned)}
	case len(rides) == 0:
		return []say.Line{say.Linef("%s: you did not ride. Planned: %s.", name, planned)}
	case was.Phase == planner.RaceDay:
		return []say.Line{say.Linef("%s: %s. You rode %s.", name, planned, show.Ridden(rides, nil))}
	}
	lines := []say.Line{say.Linef("%s: you rode %s. Planned: %s.", name, show.Ridden(rides, nil), planned)}
	minutes, _ := planner.Ridden(rides)
	switch more := minutes - was.Minutes(); {
	case was.Minutes() == 0:
	case more > 0:
		lines = append(lines, say.Linef("That is %s more than planned.", planner.Duration(more)))
	case more < 0:
		lines = append(lines, say.Linef("That is %s less than planned. It is not made up.", planner.Duration(-more)))
	default:
		lines = append(lines, say.Linef("That is as long as planned."))
	}
	return lines
}

// beforePlans answers for a day that was over before the rider shared a week: it
// had no plan, whatever was entered since.
func beforePlans(f *planner.Facts, day, today planner.Date) say.Reply {
	reply := say.Reply{Date: day, Buttons: []say.Button{nextDayButton(day.AddDays(1))}}
	if rides := ridesOn(f, day); len(rides) > 0 {
		reply.Addf("%s: you rode %s. There was no plan yet.", show.DayName(day, today), show.Ridden(rides, nil))
		return reply
	}
	reply.Addf("%s: there was no plan yet. I did not know your week then.", show.DayName(day, today))
	reply.Addf("Did you ride? /done minutes:60 day:%s", day)
	return reply
}

// rideOver answers for a day that is over: what was told then, and what was ridden.
func rideOver(f desk.Ledger, day, today planner.Date) say.Reply {
	was := desk.Unlogged(f, day)
	logged := slices.ContainsFunc(f.Now.Done, func(r planner.Ride) bool { return r.Date == day })
	var p say.Page
	switch {
	case logged:
		p.Add(ridden(f.Now, was, today)...)
		p.Add(lostDays(show.LostAmong(engine.Derive(today, f.All), day))...)
	case was.Phase == planner.RaceDay, was.Minutes() == 0:
		p.Addf("%s: %s.", show.DayName(day, today), show.Headline(was))
	case desk.LaidLow(f.Now, day):
		p.Addf("%s: %s was planned. You told me later that you did not train on that day for your health, so it does not count as ridden.", show.DayName(day, today), show.Headline(was))
	default:
		p.Addf("%s: %s. Nothing is logged.", show.DayName(day, today), show.Headline(was))
	}
	reply := show.AboutDay(&p, was)
	if !logged && was.Minutes() > 0 && was.Phase != planner.RaceDay {
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Rode it", Command: "done", Options: map[string]string{"day": day.String()}})
	}
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
