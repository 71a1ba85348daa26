package bot

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// fallbackZone is the zone of a club that nobody gave one.
const fallbackZone = "UTC"

func (r *rider) known() bool { return r.athlete.ID != 0 }

// hasChannel reports whether public lines have a place: a terminal is one, a
// platform's club must have set it.
func (r *rider) hasChannel() bool {
	return r.club.Setup.Channel != "" || r.club.Key == storage.NameKey(r.club.Name)
}

// rider looks up who asks and which day it is for them: by their own zone, else
// the request's, else the club's.
func (b *Base) rider(ctx context.Context, req Request) (*rider, error) {
	who, err := b.find(ctx, req)
	if err != nil {
		return nil, err
	}
	zone := who.athlete.Zone
	if who.athlete.Settings.Zone == "" && req.Zone != "" {
		zone = req.Zone
	}
	if who.zone, err = time.LoadLocation(zone); err != nil {
		return nil, fmt.Errorf("zone of rider %d: %w", who.athlete.ID, err)
	}
	who.today = planner.DateOf(req.Now.In(who.zone))
	return who, nil
}

// find is the rider as stored, or as they would be made.
func (b *Base) find(ctx context.Context, req Request) (*rider, error) {
	home := cmp.Or(req.Home, req.Zone, fallbackZone)
	who := &rider{club: storage.Club{Key: req.ClubKey, Name: tidy(req.Club), Zone: home, Setup: storage.DefaultSetup()},
		athlete: storage.Athlete{Key: req.AthleteKey, Name: tidy(req.Athlete), Settings: storage.Settings{Announce: true, Remind: storage.DefaultReminders()}}}
	if err := who.nameKeys(); err != nil {
		return nil, err
	}
	club, err := b.db.FindClub(ctx, who.club.Key)
	if err == nil {
		shown := who.club.Name
		if who.club = club; req.renames(req.ClubKey, req.Club) {
			who.club.Name = shown
		}
		athlete, missing := b.db.FindAthlete(ctx, club.ID, who.athlete.Key)
		if err = missing; err == nil {
			shown := who.athlete.Name
			if who.athlete = athlete; req.renames(req.AthleteKey, req.Athlete) {
				who.athlete.Name = shown
			}
			return who, nil
		}
	}
	who.athlete.Zone = who.club.Zone
	if errors.Is(err, storage.ErrNotFound) {
		err = nil
	}
	return who, err
}

// renames reports whether a name of the request takes the place of the stored one.
func (r *Request) renames(key storage.Key, name string) bool {
	return !key.IsZero() && tidy(name) != "" && !r.Elsewhere
}

// nameKeys finds by their names those who have no other key. Names that a
// platform shows are made fit; those that were typed must be.
func (r *rider) nameKeys() error {
	if r.club.Key.IsZero() {
		if err := storage.CheckName("club", r.club.Name, "home"); err != nil {
			return err
		}
		r.club.Key = storage.NameKey(r.club.Name)
	} else {
		r.club.Name = storage.ShownName(r.club.Name, "your club")
	}
	if r.athlete.Key.IsZero() {
		if err := storage.CheckName("rider", r.athlete.Name, "Ines"); err != nil {
			return err
		}
		r.athlete.Key = storage.NameKey(r.athlete.Name)
	} else {
		r.athlete.Name = storage.ShownName(r.athlete.Name, "A rider")
	}
	return nil
}

// join makes club and rider where they are not stored yet, and keeps the names
// by which a platform shows them now.
func (b *Base) join(ctx context.Context, who *rider) (err error) {
	club, athlete := who.club.Name, who.athlete.Name
	if who.club, err = b.db.EnsureClub(ctx, who.club.Key, club, who.club.Zone); err != nil {
		return err
	}
	if who.athlete, err = b.db.EnsureAthlete(ctx, who.club.ID, who.athlete.Key, athlete); err != nil {
		return err
	}
	if who.club.Name != club && who.club.Key != storage.NameKey(club) {
		who.club.Name = club
		err = b.db.RenameClub(ctx, who.club.ID, club)
	}
	if who.athlete.Name != athlete && who.athlete.Key != storage.NameKey(athlete) {
		who.athlete.Name = athlete
		err = errors.Join(err, b.db.RenameAthlete(ctx, who.athlete.ID, athlete))
	}
	return err
}

// tidy parts the words of a name by one blank each.
func tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

// ledger is what a rider told: what counts now, which answers are about, and all
// of it with what was withdrawn, which plans are made from.
type ledger struct{ now, all *planner.Facts }

// facts is all that is known of the rider.
func (b *Base) facts(ctx context.Context, who *rider) (ledger, error) {
	if !who.known() {
		return ledger{new(planner.Facts), new(planner.Facts)}, nil
	}
	all, err := b.db.Facts(ctx, who.athlete.ID)
	if err != nil {
		return ledger{}, err
	}
	return ledger{all.KnownOn(who.today), all}, nil
}

// change runs a change of the rider's facts between two derivations of the
// plan. A rider who is new is made just before; do then finds their number in
// req.rider.athlete and must not refuse what a new rider can ask.
func (b *Base) change(ctx context.Context, req Request, do func() error) (*effect, error) {
	old, err := b.facts(ctx, req.rider)
	if err != nil {
		return nil, err
	}
	if err := b.join(ctx, req.rider); err != nil {
		return nil, err
	}
	if err := do(); err != nil {
		return nil, err
	}
	req.rider.saved = true
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return nil, err
	}
	return compare(req.rider.today, old, facts), nil
}

// planned reports whether there is a typical week to plan from.
func planned(f *planner.Facts) bool { return len(f.Weeks) > 0 }

// day reads a day option, "" meaning today; days before today are refused.
func (r *Request) day(option string) (planner.Date, error) {
	if !r.has(option) {
		return r.rider.today, nil
	}
	date, err := typed.Date(r.get(option), r.rider.today)
	if err != nil {
		return 0, inField(option, err)
	}
	return date, aheadOnly(option, date, r.rider.today)
}

// anyDay reads the option day, "" meaning today; days that are over may be asked
// about for a year.
func (r *Request) anyDay() (planner.Date, error) {
	today := r.rider.today
	if r.has("day") {
		date, err := typed.Date(r.get("day"), today)
		switch {
		case err != nil:
			return 0, inField("day", err)
		case date < today.AddDays(-mostLogged):
			return 0, refuse("day", "%s is over a year ago. For example %s", date.Long(), today.AddDays(-1))
		case date < today:
			return date, nil
		}
	}
	return r.day("day")
}

// raceExample registers a race on a Sunday at least four weeks ahead.
func raceExample(today planner.Date) Span {
	day := today.AddDays(28)
	return lineOf("race add", map[string]string{"name": "Hill Loop", "priority": "A", "hours": "3h30",
		"date": day.AddDays(int(planner.Sunday - day.Weekday())).String()})
}

func aheadOnly(option string, date, today planner.Date) error {
	switch {
	case date < today:
		return refuse(option, "%s is past (today is %s). For example %s", date.Long(), today.Long(), today.AddDays(1))
	case date > today.AddDays(planner.MaxAhead):
		return refuse(option, "%s is over three years away. For example %s", date.Long(), today.AddDays(28))
	}
	return nil
}

// stretch reads from and to; a weekday or a day without a year in to is the
// first one from the start of the stretch on. Without to it is a single day.
func (r *Request) stretch(most int) (from, to planner.Date, err error) {
	today := r.rider.today
	if from, err = typed.Date(r.get("from"), today); err != nil {
		return 0, 0, inField("from", err)
	}
	if from < today.AddDays(-366) {
		return 0, 0, refuse("from", "%s is over a year ago. For example %s", from.Long(), today)
	}
	if err := aheadOnly("from", max(from, today), today); err != nil {
		return 0, 0, err
	}
	if !r.has("to") {
		return from, from, nil
	}
	if to, err = typed.Date(r.get("to"), today); err != nil {
		return 0, 0, inField("to", err)
	}
	if to < from {
		if later, err := typed.Date(r.get("to"), from); err == nil {
			to = later
		}
	}
	switch {
	case to < from:
		return 0, 0, refuse("to", "%s is before %s. For example to:%s", to.Long(), from.Long(), max(from, today).AddDays(3))
	case from.DaysUntil(to) >= most:
		return 0, 0, refuse("to", "%s is more than %d days after %s. For example to:%s", to.Long(), most, from.Long(), max(from, today).AddDays(3))
	}
	return from, to, nil
}
