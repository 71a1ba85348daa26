package life

import (
	"context"
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
)

// What is left of a day in its easier form, in minutes.
const (
	easierHard  = 30 // no room for a hard part
	leastEasier = 20
)

// tellTired answers heavy legs: it changes nothing by itself, and offers the easier form of the day.
func tellTired(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	date, err := req.PastDay("day")
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today := req.Rider.Today
	if h, held := desk.Held(facts.Now); held {
		return show.Stopped(say.Linef("No training: your health comes first."), h.Level), nil
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	logged := slices.ContainsFunc(facts.Now.Done, func(r planner.Ride) bool { return r.Date == date })
	if date < today || logged {
		return afterTheRide(date, today), nil
	}
	day, _ := engine.DeriveUntil(today, date, facts.All).Day(date)
	return easier(facts, day, today), nil
}

const stays = "Heavy for more than a few days, or with a bad night or a high pulse at rest: tell your coach, and see a doctor if it stays."

// afterTheRide answers heavy legs of a day that is ridden or over.
func afterTheRide(date, today planner.Date) say.Reply {
	return say.Reply{Date: date, Lines: []say.Line{
		say.Linef("Heavy legs on %s: the day is over, so nothing changes.", show.Dated(date, today)),
		say.Linef("Ride the next days no harder than they are planned."), say.Linef(stays)}}
}

// easier offers the easier form of a day with what it costs.
func easier(f desk.Ledger, day *engine.Day, today planner.Date) say.Reply {
	var p say.Page
	reply := say.Reply{Date: day.Date}
	name := show.DayName(day.Date, today)
	switch {
	case day.Phase == planner.RaceDay:
		p.Addf("%s: race day, so nothing changes. Warm up a little longer and begin easily.", name)
	case day.Minutes() == 0:
		p.Addf("%s: rest, which is what heavy legs need.", name)
	default:
		minutes := max(leastEasier, day.Minutes()/10*5)
		cost := "It costs little: the time is not made up on another day."
		if day.IsHard() {
			minutes = min(minutes, easierHard)
			cost = "It costs one hard session of this week, which is not made up. One is soon forgotten, several in a taper take the edge off."
		}
		with := *f.All
		with.Limits = append(slices.Clone(f.All.Limits), planner.Limit{Date: day.Date, Minutes: minutes, Told: planner.Told{On: today}})
		form, _ := engine.DeriveUntil(today, day.Date, &with).Day(day.Date)
		p.Addf("%s: %s. Nothing changes unless you say so.", name, show.Headline(day))
		p.Addf("Easier: %s. %s", show.Headline(form), cost)
		p.Addf("Or begin as planned, and turn home if the legs stay heavy after 15 minutes.")
		reply.Offer(&p, "Take the easier form", "tell limit", map[string]string{"day": day.Date.String(), "minutes": fmt.Sprint(minutes)})
	}
	p.Addf(stays)
	reply.Lines = p.Done()
	return reply
}
