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
	"musette/storage"
)

// fallbackZone is the zone of a club that nobody gave one.
const fallbackZone = "UTC"

// Known reports whether anything is stored of the rider.
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
	if who.Zone, err = LoadZone(zone); err != nil {
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
	club, err := b.DB.FindClub(ctx, who.Club.Key)
	if err == nil {
		shown := who.Club.Name
		who.clubName = club.Name
		if who.Club = club; req.renames(req.ClubKey, req.Club) {
			who.Club.Name = shown
		}
		athlete, missing := b.DB.FindAthlete(ctx, club.ID, who.Athlete.Key)
		if err = missing; err == nil {
			shown := who.Athlete.Name
			who.name = athlete.Name
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
	if who.Club.ID == 0 {
		if who.Club, err = b.DB.EnsureClub(ctx, who.Club.Key, club, who.Club.Zone); err != nil {
			return err
		}
		who.clubName = who.Club.Name
	}
	if !who.Known() {
		entered := who.Athlete.Entered
		if who.Athlete, err = b.DB.EnsureAthlete(ctx, who.Club.ID, who.Athlete.Key, athlete); err != nil {
			return err
		}
		who.name = who.Athlete.Name
		if entered {
			who.Athlete.Entered = true
			err = b.DB.MarkEntered(ctx, who.Athlete.ID, true)
		}
	}
	if who.clubName != club && who.Club.Key != storage.NameKey(club) {
		who.Club.Name, who.clubName = club, club
		err = errors.Join(err, b.DB.RenameClub(ctx, who.Club.ID, club))
	}
	if who.name != athlete && who.Athlete.Key != storage.NameKey(athlete) {
		who.Athlete.Name, who.name = athlete, athlete
		err = errors.Join(err, b.DB.RenameAthlete(ctx, who.Athlete.ID, athlete))
	}
	return err
}

// Tidy parts the words of a name by one blank each.
func Tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

// RaceExample registers a race on a Sunday at least four weeks ahead.
func RaceExample(today planner.Date) say.Line {
	day := today.AddDays(28)
	return say.Linef("/race add name:\"Hill Loop\" date:%s priority:A hours:3h30", day.AddDays(int(planner.Sunday-day.Weekday())))
}

// Rider is the person behind a request with the day that their calendar shows.
// The athlete's number is 0 until the first fact of theirs is stored.
type Rider struct {
	Club    storage.Club
	Athlete storage.Athlete
	Zone    *time.Location
	Today   planner.Date
	Saved   bool // the request has stored something

	clubName, name string  // as they are stored
	fallen         fallen  // what the request did to days that a coach set
	known          *Ledger // what the request's last change left
}

// For is a request of a coach as one about a rider of the club: what is stored
// then is the rider's, by the rider's day.
func (b *Base) For(req Request, athlete storage.Athlete) (Request, error) {
	if athlete.ID == req.Rider.Athlete.ID {
		return req, nil
	}
	zone, err := LoadZone(athlete.Zone)
	if err != nil {
		return req, fmt.Errorf("zone of rider %d: %w", athlete.ID, err)
	}
	who := *req.Rider
	who.Athlete, who.name, who.Zone, who.Today, who.Saved = athlete, athlete.Name, zone, planner.DateOf(req.Now.In(zone)), false
	who.known = nil
	req.Rider = &who
	return req, nil
}

// ForNew is a request of a coach as one about a member of the club of whom nothing is
// stored: the first fact makes the rider, who is told of it when they come.
func (b *Base) ForNew(req Request, key storage.Key, name string) (Request, error) {
	zone, err := LoadZone(req.Rider.Club.Zone)
	if err != nil {
		return req, fmt.Errorf("zone of club %d: %w", req.Rider.Club.ID, err)
	}
	who := *req.Rider
	who.Athlete = storage.Athlete{Key: key, Name: name, Zone: req.Rider.Club.Zone, Entered: true, Settings: storage.Settings{Announce: true, Remind: storage.DefaultReminders()}}
	who.name, who.Zone, who.Today, who.Saved = name, zone, planner.DateOf(req.Now.In(zone)), false
	who.known = nil
	req.Rider = &who
	return req, nil
}

// Join stores who asks where they are new: what a coach sets names its coach.
func (b *Base) Join(ctx context.Context, who *Rider) error { return b.join(ctx, who) }
