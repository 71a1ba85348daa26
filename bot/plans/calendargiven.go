package plans

import (
	"context"
	"fmt"

	"musette/bot/desk"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/ics"
	"musette/storage"
)

// cancelled is the state of entries that were given out as cancelled.
const cancelled = "cancelled"

// giveOut adds what fell away since it was given out, and raises the sequences of entries
// above those of files given before, where these held something else: a change that was
// undone on its day leaves no trace in the facts.
func (c *calendar) giveOut(ctx context.Context, b *desk.Base, req *desk.Request, all *planner.Facts, entries []entry) ([]entry, error) {
	if !req.Rider.Known() {
		return entries, nil
	}
	before, err := b.DB.GivenEntries(ctx, req.Rider.Athlete.ID, req.Rider.Today)
	if err != nil {
		return nil, err
	}
	entries = append(entries, c.fallen(req.Rider.Today, all, before, entries)...)
	sortEntries(entries)
	given := make([]storage.GivenEntry, len(entries))
	for i := range entries {
		e := &entries[i]
		given[i] = storage.GivenEntry{UID: e.event.UID, State: e.state(), Sequence: e.event.Sequence, Day: e.date, Until: e.until}
	}
	sequences, err := b.DB.GiveEntries(ctx, req.Rider.Athlete.ID, req.Rider.Today, given)
	for i := range entries {
		entries[i].event.Sequence = sequences[entries[i].event.UID]
	}
	return entries, err
}

// fallen are the entries that were given out, are not among those to come, and did not
// take place: what was planned on its last day did.
func (c *calendar) fallen(today planner.Date, all *planner.Facts, given []storage.GivenEntry, toCome []entry) []entry {
	there := map[string]bool{}
	for i := range toCome {
		there[toCome[i].event.UID] = true
	}
	plans := map[planner.Date]map[string]entry{}
	var out []entry
	for _, g := range given {
		if there[g.UID] {
			continue
		}
		if g.Until < today && g.State != cancelled {
			if plans[g.Until] == nil {
				plans[g.Until] = c.planned(engine.Derive(g.Until, all))
			}
			if _, tookPlace := plans[g.Until][g.UID]; tookPlace {
				continue
			}
		}
		out = append(out, gone(g))
	}
	return out
}

// gone is an entry of which only its days are known. Its text is not kept: it
// may name what the rider took out.
func gone(g storage.GivenEntry) entry {
	e := entry{date: g.Day, until: g.Until, event: ics.Event{UID: g.UID, Sequence: g.Sequence, AllDay: true, Cancelled: true,
		From: midnight(g.Day), To: midnight(g.Until.AddDays(1)), Summary: "No longer planned", Category: "Training"}}
	_, _ = fmt.Sscanf(g.UID, "%d-", &e.race) // one that uid did not write belongs to no race
	return e
}
