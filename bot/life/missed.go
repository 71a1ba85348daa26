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
	"musette/storage"
)

// tellMissed keeps that nothing was ridden on a day.
func tellMissed(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	day, err := req.PastDay("day")
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	n := missed(facts, day, req.Rider.Today)
	return keepRide(ctx, b, req, storage.Ride{Ride: planner.Ride{Date: day}, Note: req.Get("note")}, 0, n)
}

// missed says what was planned on a missed day and what happens to it: inside a
// taper nothing; outside a hard or long ride may be swapped, never stacked.
func missed(f desk.Ledger, date, today planner.Date) news {
	day, on := desk.Unlogged(f, date), show.Dated(date, today)
	switch {
	case day == nil:
		return news{text: fmt.Sprintf("Noted: you did not ride on %s.", on)}
	case day.Phase == planner.RaceDay && day.Race != nil:
		return news{text: fmt.Sprintf("Noted: you did not ride on %s, the day of %s.", on, day.Race.Name),
			more: []say.Line{say.Linef("The race stays in your calendar. Take it out: /race remove race:%s", say.Quote(day.Race.Name+" "+day.Race.Date.String()))}}
	case day.Minutes() == 0:
		return news{text: fmt.Sprintf("Noted: you did not ride on %s. Rest was planned.", on)}
	}
	n := news{text: fmt.Sprintf("Noted: you did not ride on %s. Your plan had %s.", on, show.Headline(day))}
	switch swap := swapFor(f, day, today); {
	case day.Phase == planner.Tapering:
		n.more = []say.Line{say.Linef("You do not make it up: what you miss in a taper stays missed, and the days after it stay as they are.")}
	case swap != nil:
		n.more = []say.Line{say.Linef("Do not add it to another ride. You can swap it with a lighter day.")}
		n.offers = []offer{{"Ride it on " + swap.To.Short(), "plan move", map[string]string{"from": swap.From.String(), "to": swap.To.String()}}}
	default:
		n.more = []say.Line{say.Linef("You do not make it up: no ride gets longer or harder for it.")}
	}
	return n
}

// swapFor finds a lighter ordinary day soon after today that today's hard or
// long ride may be swapped with, nil where there is none.
func swapFor(f desk.Ledger, day *engine.Day, today planner.Date) *planner.Move {
	const reach = 3 // days
	if day.Date != today || !worthSwapping(day) || !ordinary(day) {
		return nil
	}
	plan := engine.DeriveUntil(today, today.AddDays(reach), f.All)
	for i := 1; i <= reach; i++ {
		to, _ := plan.Day(today.AddDays(i))
		if to.Race != nil && to.Phase == planner.RaceDay {
			return nil // what is behind a race is no place for a ride before it
		}
		if !ordinary(to) || worthSwapping(to) || desk.Moved(f.Now, today, to.Date) {
			continue
		}
		if engine.CheckMove(today, today, to.Date, f.All) == nil {
			return &planner.Move{From: today, To: to.Date}
		}
	}
	return nil
}

// ordinary is a day that no race shapes.
func ordinary(d *engine.Day) bool {
	return d.Race == nil && (d.Phase == planner.Normal || d.Phase == planner.Overload)
}

// worthSwapping is a day with a hard or a long ride.
func worthSwapping(d *engine.Day) bool {
	return slices.ContainsFunc(d.Sessions, func(s planner.Session) bool { return s.IsHard() || s.Kind == planner.Long })
}
