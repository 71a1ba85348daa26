package desk

import (
	"context"

	"musette/planner"
)

// Ledger is what a rider told: what counts now, which answers are about, and all
// of it with what was withdrawn, which plans are made from.
type Ledger struct{ Now, All *planner.Facts }

// Facts is all that is known of the rider.
func (b *Base) Facts(ctx context.Context, who *Rider) (Ledger, error) {
	if !who.Known() {
		return Ledger{new(planner.Facts), new(planner.Facts)}, nil
	}
	all, err := b.DB.Facts(ctx, who.Athlete.ID)
	if err != nil {
		return Ledger{}, err
	}
	return Ledger{all.KnownOn(who.Today), all}, nil
}

// Change runs a change of the rider's facts between two derivations of the
// plan. A rider who is new is made just before; do then finds their number in
// req.rider.athlete and must not refuse what a new rider can ask.
func (b *Base) Change(ctx context.Context, req Request, do func() error) (*Effect, error) {
	old, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return nil, err
	}
	if err := b.join(ctx, req.Rider); err != nil {
		return nil, err
	}
	if err := do(); err != nil {
		return nil, err
	}
	req.Rider.Saved = true
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return nil, err
	}
	return compare(req.Rider.Today, old, facts), nil
}

// Planned reports whether there is a typical week to plan from.
func Planned(f *planner.Facts) bool { return len(f.Weeks) > 0 }
