package desk

import (
	"context"

	"musette/planner"
	"musette/planner/season"
	"musette/storage"
)

// Ledger is what a rider told: what counts now, which answers are about, and all
// of it with what was withdrawn, which plans are made from.
type Ledger struct{ Now, All *planner.Facts }

// Facts is all that is known of the rider. After a change in the same request it is what
// that change left.
func (b *Base) Facts(ctx context.Context, who *Rider) (Ledger, error) {
	if who.known != nil {
		return *who.known, nil
	}
	return b.readFacts(ctx, who)
}

func (b *Base) readFacts(ctx context.Context, who *Rider) (Ledger, error) {
	if !who.Known() {
		return Ledger{new(planner.Facts), new(planner.Facts)}, nil
	}
	all, err := b.DB.Facts(ctx, who.Athlete.ID)
	if err != nil {
		return Ledger{}, err
	}
	return Ledger{all.KnownOn(who.Today), all}, nil
}

// readAfter is readFacts after a change of what was read before; newcomers had nothing.
func (b *Base) readAfter(ctx context.Context, who *Rider, newcomer bool, before Ledger) (Ledger, error) {
	if newcomer || !who.Known() {
		return b.readFacts(ctx, who)
	}
	all, err := b.DB.FactsAfter(ctx, who.Athlete.ID, before.All)
	if err != nil {
		return Ledger{}, err
	}
	return Ledger{all.KnownOn(who.Today), all}, nil
}

// Change runs a change of the rider's facts as one transaction with what is read
// before and after it, and says what it does to the plan. A rider who is new is
// made just before; do then finds their number in req.Rider.Athlete. Of a change
// that is refused nothing stays. In do the database is tx alone.
func (b *Base) Change(ctx context.Context, req Request, do func(tx *storage.DB) error) (*Effect, error) {
	return b.Decide(ctx, req, func(tx *storage.DB, _ Ledger) error { return do(tx) })
}

// Decide is Change for what depends on the facts: do gets them as they are before the
// change, and nobody changes them in between.
func (b *Base) Decide(ctx context.Context, req Request, do func(tx *storage.DB, known Ledger) error) (*Effect, error) {
	var old, facts Ledger
	who, newcomer := *req.Rider, !req.Rider.Known()
	err := b.DB.Change(ctx, func(tx *storage.DB) (err error) {
		within := &Base{DB: tx, Log: b.Log, Draw: b.Draw}
		if old, err = within.readFacts(ctx, req.Rider); err != nil {
			return err
		}
		if err = within.join(ctx, req.Rider); err != nil {
			return err
		}
		if err = do(tx, old); err != nil {
			return err
		}
		if facts, err = within.readAfter(ctx, req.Rider, newcomer, old); err != nil {
			return err
		}
		learned, err := within.learn(ctx, req.Rider, old, facts)
		if err == nil && learned {
			facts, err = within.readAfter(ctx, req.Rider, newcomer, old)
		}
		return err
	})
	if err != nil {
		*req.Rider = who
		return nil, err
	}
	req.Rider.Saved, req.Rider.known = true, &facts
	e := compare(req.Rider.Today, old, facts)
	if f := e.fallenPins(); len(f.days) > 0 {
		req.Rider.fallen = f
	}
	return e, nil
}

// learn keeps what the rider's races teach, where a change has changed that.
func (b *Base) learn(ctx context.Context, who *Rider, old, facts Ledger) (learned bool, err error) {
	if len(facts.Now.Results)+len(facts.Now.Taught) == 0 || season.TeachAlike(who.Today, old.Now, facts.Now) {
		return false, nil
	}
	return true, b.DB.SetTaught(ctx, who.Athlete.ID, who.Today, season.Taught(who.Today, facts.All))
}

// Planned reports whether there is a typical week to plan from.
func Planned(f *planner.Facts) bool { return len(f.Weeks) > 0 }
