package plans

import (
	"context"
	"errors"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

func planMove(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	from, wrongFrom := req.Day("from")
	to, wrongTo := req.Day("to")
	if err := say.Together(wrongFrom, wrongTo); err != nil {
		return say.Reply{}, err
	}
	pair := planner.Move{From: from, To: to}
	back := false
	e, err := b.Decide(ctx, req, func(tx *storage.DB, known desk.Ledger) (err error) {
		back, err = swap(ctx, tx, req.Rider, pair, known)
		return err
	})
	switch {
	case errors.Is(err, errNoWeek):
		return req.NeedWeek(), nil
	case err != nil:
		return say.Reply{}, err
	case back:
		return swappedBack(e, pair), nil
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

// errNoWeek ends a swap of somebody who has no typical week.
var errNoWeek = errors.New("no typical week")

// swap stores a swap where the rules allow it. It takes one back when the same two
// days are named again.
func swap(ctx context.Context, tx *storage.DB, who *desk.Rider, pair planner.Move, known desk.Ledger) (back bool, err error) {
	if !desk.Planned(known.Now) {
		return false, errNoWeek
	}
	id := who.Athlete.ID
	moves, err := tx.Moves(ctx, id)
	if err != nil {
		return false, err
	}
	for _, was := range slices.Backward(moves) {
		if desk.SamePair(was.Move, pair) {
			return true, tx.RemoveMove(ctx, id, who.Today, was.ID)
		}
	}
	if _, held := desk.Held(known.Now); held || desk.OpenIllness(known.Now) != nil {
		return false, say.Refuse("from", "there is nothing to swap: you do not train for now, because of your health. See /ride")
	}
	if err := engine.CheckMove(who.Today, pair.From, pair.To, known.All); err != nil {
		return false, err
	}
	_, err = tx.AddMove(ctx, id, who.Today, pair)
	return false, err
}

// swappedBack is the reply when a swap is taken back.
func swappedBack(e *desk.Effect, pair planner.Move) say.Reply {
	var p say.Page
	p.Addf("Swapped back: the swap of %s and %s is gone.", pair.From.Short(), pair.To.Short())
	p.Add(e.News()...)
	return swapped(&p, "Swap again", pair)
}

// swapped is the reply about a swap; naming the two days again turns it round.
func swapped(p *say.Page, label string, m planner.Move) say.Reply {
	reply := say.Reply{Date: m.From}
	reply.Offer(p, label, "plan move", map[string]string{"from": m.From.String(), "to": m.To.String()})
	reply.Lines = p.Done()
	return reply
}
