package bot

import (
	"context"

	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

func (b *Base) planMove(ctx context.Context, req Request) (Reply, error) {
	from, err := req.day("from")
	if err != nil {
		return Reply{}, err
	}
	to, err := req.day("to")
	if err != nil {
		return Reply{}, err
	}
	id, pair := req.rider.athlete.ID, planner.Move{From: from, To: to}
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	if !planned(facts.now) {
		return req.needWeek(), nil
	}
	moves, err := b.db.Moves(ctx, id)
	if err != nil {
		return Reply{}, err
	}
	for i := len(moves) - 1; i >= 0; i-- {
		if samePair(moves[i].Move, pair) {
			return b.moveBack(ctx, req, moves[i])
		}
	}
	if err := engine.CheckMove(req.rider.today, from, to, facts.all); err != nil {
		return Reply{}, err
	}
	e, err := b.change(ctx, req, func() error { _, err := b.db.AddMove(ctx, id, req.rider.today, pair); return err })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Swapped: %s and %s.", from.Short(), to.Short())
	p.add(e.newWarnings()...)
	p.add(farOpeners(e, from, to)...)
	p.add(e.changedDays()...)
	return swapped(&p, "Undo", pair), nil
}

// farOpeners warns of openers that a swap has taken away from their race.
func farOpeners(e *effect, dates ...planner.Date) []Line {
	const most = 2 // days before the race
	for _, date := range dates {
		d, ok := e.after.Day(date)
		race := nextRace(e.facts, date+1)
		if ok && hasOpeners(d) && race != nil && date.DaysUntil(race.Date) > most {
			return []Line{Say("! The openers for %s are now %d days before it. They wake your legs on the last two days.", race.Name, date.DaysUntil(race.Date))}
		}
	}
	return nil
}

func samePair(a, b planner.Move) bool {
	return a.From == b.From && a.To == b.To || a.From == b.To && a.To == b.From
}

// moveBack takes a swap back when the same two days are named again.
func (b *Base) moveBack(ctx context.Context, req Request, was storage.Move) (Reply, error) {
	e, err := b.change(ctx, req, func() error { return b.db.RemoveMove(ctx, req.rider.athlete.ID, req.rider.today, was.ID) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Swapped back: the swap of %s and %s is gone.", was.From.Short(), was.To.Short())
	p.add(e.news()...)
	return swapped(&p, "Swap again", was.Move), nil
}

// swapped is the reply about a swap; naming the two days again turns it round.
func swapped(p *page, label string, m planner.Move) Reply {
	reply := Reply{Date: m.From}
	reply.offer(p, label, "plan move", map[string]string{"from": m.From.String(), "to": m.To.String()})
	reply.Lines = p.done()
	return reply
}
