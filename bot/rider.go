package bot

import (
	"context"
	"fmt"
	"time"

	"musette/planner"
	"musette/storage"
)

// fallbackZone is the zone of a club that nobody gave one.
const fallbackZone = "UTC"

// Enter makes club and rider of a request where they are not known yet and
// tells the zone by which the rider's days begin. A new club gets the zone home.
func (b *Bot) Enter(ctx context.Context, req Request, home string) (*time.Location, error) {
	if _, _, err := b.find(ctx, req.Club, req.Athlete, home); err != nil {
		return nil, err
	}
	who, err := b.rider(ctx, req)
	if err != nil {
		return nil, err
	}
	return who.zone, nil
}

func (b *Bot) find(ctx context.Context, club, athlete, zone string) (storage.Club, storage.Athlete, error) {
	c, err := b.db.EnsureClub(ctx, club, zone)
	if err != nil {
		return storage.Club{}, storage.Athlete{}, err
	}
	a, err := b.db.EnsureAthlete(ctx, c.ID, athlete)
	return c, a, err
}

// rider looks up who asks and which day it is for them: by their own zone, else
// the request's, else the club's.
func (b *Bot) rider(ctx context.Context, req Request) (*rider, error) {
	home := req.Zone
	if home == "" {
		home = fallbackZone
	}
	club, athlete, err := b.find(ctx, req.Club, req.Athlete, home)
	if err != nil {
		return nil, err
	}
	zone := athlete.Zone
	if athlete.Settings.Zone == "" && req.Zone != "" {
		zone = req.Zone
	}
	local, err := time.LoadLocation(zone)
	if err != nil {
		return nil, fmt.Errorf("zone of rider %d: %w", athlete.ID, err)
	}
	return &rider{club: club, athlete: athlete, zone: local, today: planner.DateOf(req.Now.In(local))}, nil
}

// effect is what a change of the rider's facts does to the plan.
type effect struct {
	before, after *planner.Plan
	old, facts    *planner.Facts // before and after the change
}

// change runs a change of the rider's facts between two derivations of the plan.
func (b *Bot) change(ctx context.Context, req Request, do func() error) (*effect, error) {
	id, today := req.rider.athlete.ID, req.rider.today
	old, err := b.db.Facts(ctx, id)
	if err != nil {
		return nil, err
	}
	if err := do(); err != nil {
		return nil, err
	}
	facts, err := b.db.Facts(ctx, id)
	if err != nil {
		return nil, err
	}
	e := &effect{old: old, facts: facts, before: planner.Derive(today, old), after: planner.Derive(today, facts)}
	end := max(lastDay(e.before), lastDay(e.after))
	if lastDay(e.before) < end {
		e.before = planner.DeriveUntil(today, end, old)
	}
	if lastDay(e.after) < end {
		e.after = planner.DeriveUntil(today, end, facts)
	}
	return e, nil
}

func lastDay(p *planner.Plan) planner.Date { return p.Today.AddDays(len(p.Days) - 1) }

// planned reports whether there is a typical week to plan from.
func planned(f *planner.Facts) bool { return len(f.Weeks) > 0 }

// day reads a day option, "" meaning today; days before today are refused.
func (r *Request) day(option string) (planner.Date, error) {
	today := r.rider.today
	if !r.has(option) {
		return today, nil
	}
	date, err := planner.ParseDate(r.get(option), today)
	if err != nil {
		return 0, inField(option, err)
	}
	return date, aheadOnly(option, date, today)
}

// raceDayAhead is a Sunday at least four weeks ahead, for examples.
func raceDayAhead(today planner.Date) planner.Date {
	day := today.AddDays(28)
	return day.AddDays(int(planner.Sunday - day.Weekday()))
}

func aheadOnly(option string, date, today planner.Date) error {
	switch {
	case date < today:
		return refuse(option, "%s is past (today is %s); for example %s", date.Long(), today.Long(), today.AddDays(1))
	case date > today.AddDays(planner.MaxAhead):
		return refuse(option, "%s is over three years away; for example %s", date.Long(), today.AddDays(28))
	}
	return nil
}

// stretch reads from and to; a weekday or a day without a year in to is the
// first one from the start of the stretch on. Without to it is a single day.
func (r *Request) stretch(most int) (from, to planner.Date, err error) {
	today := r.rider.today
	if from, err = planner.ParseDate(r.get("from"), today); err != nil {
		return 0, 0, inField("from", err)
	}
	if from < today.AddDays(-366) {
		return 0, 0, refuse("from", "%s is over a year ago; for example %s", from.Long(), today)
	}
	if err := aheadOnly("from", max(from, today), today); err != nil {
		return 0, 0, err
	}
	if !r.has("to") {
		return from, from, nil
	}
	if to, err = planner.ParseDate(r.get("to"), today); err != nil {
		return 0, 0, inField("to", err)
	}
	if to < from {
		if later, err := planner.ParseDate(r.get("to"), from); err == nil {
			to = later
		}
	}
	switch {
	case to < from:
		return 0, 0, refuse("to", "%s is before %s; for example to:%s", to.Long(), from.Long(), from.AddDays(3))
	case from.DaysUntil(to) >= most:
		return 0, 0, refuse("to", "%s is more than %d days after %s; for example to:%s", to.Long(), most, from.Long(), from.AddDays(3))
	}
	return from, to, nil
}
