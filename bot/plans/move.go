package plans

import (
	"context"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

func planMove(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	from, err := req.Day("from")
	if err != nil {
		return say.Reply{}, err
	}
	to, err := req.Day("to")
	if err != nil {
		return say.Reply{}, err
	}
	id, pair := req.Rider.Athlete.ID, planner.Move{From: from, To: to}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	moves, err := b.DB.Moves(ctx, id)
	if err != nil {
		return say.Reply{}, err
	}
	for i := len(moves) - 1; i >= 0; i-- {
		if desk.SamePair(moves[i].Move, pair) {
			return moveBack(ctx, b, req, moves[i])
		}
	}
	if _, held := desk.Held(facts.Now); held || desk.OpenIllness(facts.Now) != nil {
		return say.Reply{}, say.Refuse("from", "there is nothing to swap: you do not train for now, because of your health. See /ride")
	}
	if err := engine.CheckMove(req.Rider.Today, from, to, facts.All); err != nil {
		return say.Reply{}, err
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { _, err := tx.AddMove(ctx, id, req.Rider.Today, pair); return err })
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Swapped: %s and %s.", from.Short(), to.Short())
	p.Add(e.NewWarnings()...)
	p.Add(farOpeners(e, from, to)...)
	p.Add(acrossRace(e, min(from, to), max(from, to))...)
	p.Add(e.ChangedDays()...)
	return swapped(&p, "Undo", pair), nil
}

// farOpeners warns of openers that a swap has taken away from their race.
func farOpeners(e *desk.Effect, dates ...planner.Date) []say.Line {
	const most = 2 // days before the race
	for _, date := range dates {
		d, ok := e.After.Day(date)
		race := e.Facts.NextRace(date + 1)
		if ok && show.HasOpeners(d) && race != nil && date.DaysUntil(race.Date) > most {
			return []say.Line{say.Linef("! The openers for %s are now %d days before it. They wake your legs on the last two days.", race.Name, date.DaysUntil(race.Date))}
		}
	}
	return nil
}

// acrossRace warns of a swap over a race: what was for it comes too late.
func acrossRace(e *desk.Effect, from, to planner.Date) []say.Line {
	for i := range e.Facts.Races {
		if r := &e.Facts.Races[i]; r.Status.Counts() && from < r.Date && r.Last() < to {
			return []say.Line{say.Linef("! %s lies between these days, so what was planned for it comes after it now.", r.Name)}
		}
	}
	return nil
}

// moveBack takes a swap back when the same two days are named again.
func moveBack(ctx context.Context, b *desk.Base, req desk.Request, was storage.Move) (say.Reply, error) {
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.RemoveMove(ctx, req.Rider.Athlete.ID, req.Rider.Today, was.ID) })
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Swapped back: the swap of %s and %s is gone.", was.From.Short(), was.To.Short())
	p.Add(e.News()...)
	return swapped(&p, "Swap again", was.Move), nil
}

// swapped is the reply about a swap; naming the two days again turns it round.
func swapped(p *say.Page, label string, m planner.Move) say.Reply {
	reply := say.Reply{Date: m.From}
	reply.Offer(p, label, "plan move", map[string]string{"from": m.From.String(), "to": m.To.String()})
	reply.Lines = p.Done()
	return reply
}
