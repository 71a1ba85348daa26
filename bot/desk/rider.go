package desk

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// fallbackZone is the zone of a club that nobody gave one.
const fallbackZone = "UTC"

func (r *Rider) Known() bool { return r.Athlete.ID != 0 }

// HasChannel reports whether public lines have a place: a terminal is one, a
// platform's club must have set it.
func (r *Rider) HasChannel() bool {
	return r.Club.Setup.Channel != "" || r.Club.Key == storage.NameKey(r.Club.Name)
}

// Rider looks up who asks and which day it is for them: by their own zone, else
// the request's, else the club's.
func (b *Base) Rider(ctx context.Context, req Request) (*Rider, error) {
	who, err := b.find(ctx, req)
	if err != nil {
		return nil, err
	}
	zone := who.Athlete.Zone
	if who.Athlete.Settings.Zone == "" && req.Zone != "" {
		zone = req.Zone
	}
	if who.Zone, err = time.LoadLocation(zone); err != nil {
		return nil, fmt.Errorf("zone of rider %d: %w", who.Athlete.ID, err)
	}
	who.Today = planner.DateOf(req.Now.In(who.Zone))
	return who, nil
}

// find is the rider as stored, or as they would be made.
func (b *Base) find(ctx context.Context, req Request) (*Rider, error) {
	home := cmp.Or(req.Home, req.Zone, fallbackZone)
	who := &Rider{Club: storage.Club{Key: req.ClubKey, Name: Tidy(req.Club), Zone: home, Setup: storage.DefaultSetup()},
		Athlete: storage.Athlete{Key: req.AthleteKey, Name: Tidy(req.Athlete), Settings: storage.Settings{Announce: true, Remind: storage.DefaultReminders()}}}
	if err := who.nameKeys(); err != nil {
		return nil, err
	}
	club, err := b.Db.FindClub(ctx, who.Club.Key)
	if err == nil {
		shown := who.Club.Name
		if who.Club = club; req.renames(req.ClubKey, req.Club) {
			who.Club.Name = shown
		}
		athlete, missing := b.Db.FindAthlete(ctx, club.ID, who.Athlete.Key)
		if err = missing; err == nil {
			shown := who.Athlete.Name
			if who.Athlete = athlete; req.renames(req.AthleteKey, req.Athlete) {
				who.Athlete.Name = shown
			}
			return who, nil
		}
	}
	who.Athlete.Zone = who.Club.Zone
	if errors.Is(err, storage.ErrNotFound) {
		err = nil
	}
	return who, err
}

// renames reports whether a name of the request takes the place of the stored one.
func (r *Request) renames(key storage.Key, name string) bool {
	return !key.IsZero() && Tidy(name) != "" && !r.Elsewhere
}

// nameKeys finds by their names those who have no other key. Names that a
// platform shows are made fit; those that were typed must be.
func (r *Rider) nameKeys() error {
	if r.Club.Key.IsZero() {
		if err := storage.CheckName("club", r.Club.Name, "home"); err != nil {
			return err
		}
		r.Club.Key = storage.NameKey(r.Club.Name)
	} else {
		r.Club.Name = storage.ShownName(r.Club.Name, "your club")
	}
	if r.Athlete.Key.IsZero() {
		if err := storage.CheckName("rider", r.Athlete.Name, "Ines"); err != nil {
			return err
		}
		r.Athlete.Key = storage.NameKey(r.Athlete.Name)
	} else {
		r.Athlete.Name = storage.ShownName(r.Athlete.Name, "A rider")
	}
	return nil
}

// join makes club and rider where they are not stored yet, and keeps the names
// by which a platform shows them now.
func (b *Base) join(ctx context.Context, who *Rider) (err error) {
	club, athlete := who.Club.Name, who.Athlete.Name
	if who.Club, err = b.Db.EnsureClub(ctx, who.Club.Key, club, who.Club.Zone); err != nil {
		return err
	}
	if who.Athlete, err = b.Db.EnsureAthlete(ctx, who.Club.ID, who.Athlete.Key, athlete); err != nil {
		return err
	}
	if who.Club.Name != club && who.Club.Key != storage.NameKey(club) {
		who.Club.Name = club
		err = b.Db.RenameClub(ctx, who.Club.ID, club)
	}
	if who.Athlete.Name != athlete && who.Athlete.Key != storage.NameKey(athlete) {
		who.Athlete.Name = athlete
		err = errors.Join(err, b.Db.RenameAthlete(ctx, who.Athlete.ID, athlete))
	}
	return err
}

// Tidy parts the words of a name by one blank each.
func Tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

// Ledger is what a rider told: what counts now, which answers are about, and all
// of it with what was withdrawn, which plans are made from.
type Ledger struct{ Now, All *planner.Facts }

// Facts is all that is known of the rider.
func (b *Base) Facts(ctx context.Context, who *Rider) (Ledger, error) {
	if !who.Known() {
		return Ledger{new(planner.Facts), new(planner.Facts)}, nil
	}
	all, err := b.Db.Facts(ctx, who.Athlete.ID)
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

// Day reads a day option, "" meaning today; days before today are refused.
func (r *Request) Day(option string) (planner.Date, error) {
	if !r.Has(option) {
		return r.Rider.Today, nil
	}
	date, err := typed.Date(r.Get(option), r.Rider.Today)
	if err != nil {
		return 0, say.InField(option, err)
	}
	return date, AheadOnly(option, date, r.Rider.Today)
}

// AnyDay reads the option day, "" meaning today; days that are over may be asked
// about for a year.
func (r *Request) AnyDay() (planner.Date, error) {
	today := r.Rider.Today
	if r.Has("day") {
		date, err := typed.Date(r.Get("day"), today)
		switch {
		case err != nil:
			return 0, say.InField("day", err)
		case date < today.AddDays(-MostLogged):
			return 0, say.Refuse("day", "%s is over a year ago. For example %s", date.Long(), today.AddDays(-1))
		case date < today:
			return date, nil
		}
	}
	return r.Day("day")
}

// RaceExample registers a race on a Sunday at least four weeks ahead.
func RaceExample(today planner.Date) say.Span {
	day := today.AddDays(28)
	return say.CommandLine("race add", map[string]string{"name": "Hill Loop", "priority": "A", "hours": "3h30",
		"date": day.AddDays(int(planner.Sunday - day.Weekday())).String()})
}

func AheadOnly(option string, date, today planner.Date) error {
	switch {
	case date < today:
		return say.Refuse(option, "%s is past (today is %s). For example %s", date.Long(), today.Long(), today.AddDays(1))
	case date > today.AddDays(planner.MaxAhead):
		return say.Refuse(option, "%s is over three years away. For example %s", date.Long(), today.AddDays(28))
	}
	return nil
}

// Stretch reads from and to; a weekday or a day without a year in to is the
// first one from the start of the stretch on. Without to it is a single day.
func (r *Request) Stretch(most int) (from, to planner.Date, err error) {
	today := r.Rider.Today
	if from, err = typed.Date(r.Get("from"), today); err != nil {
		return 0, 0, say.InField("from", err)
	}
	if from < today.AddDays(-366) {
		return 0, 0, say.Refuse("from", "%s is over a year ago. For example %s", from.Long(), today)
	}
	if err := AheadOnly("from", max(from, today), today); err != nil {
		return 0, 0, err
	}
	if !r.Has("to") {
		return from, from, nil
	}
	if to, err = typed.Date(r.Get("to"), today); err != nil {
		return 0, 0, say.InField("to", err)
	}
	if to < from {
		if later, err := typed.Date(r.Get("to"), from); err == nil {
			to = later
		}
	}
	switch {
	case to < from:
		return 0, 0, say.Refuse("to", "%s is before %s. For example to:%s", to.Long(), from.Long(), max(from, today).AddDays(3))
	case from.DaysUntil(to) >= most:
		return 0, 0, say.Refuse("to", "%s is more than %d days after %s. For example to:%s", to.Long(), most, from.Long(), max(from, today).AddDays(3))
	}
	return from, to, nil
}
