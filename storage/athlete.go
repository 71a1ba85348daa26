package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"musette/planner"
)

// AthleteID is the number of a rider in one club.
type AthleteID int64

// Athlete is a rider of one club. Zone is where the rider's days begin: the
// rider's own or else the club's.
type Athlete struct {
	ID       AthleteID
	Club     ClubID
	Key      Key
	Name     string
	Zone     string
	Settings Settings
	Added    time.Time
}

// Settings is what a rider chose. An empty Zone means the club's; Announce
// allows one public line when a race is added.
type Settings struct {
	Zone     string
	Coach    bool
	Announce bool
	Taper    planner.Taper
}

func (s *Settings) validate() error {
	if s.Zone != "" {
		if err := checkZone(s.Zone); err != nil {
			return err
		}
	}
	return s.Taper.Validate()
}

// FindAthlete is the rider of the club with that key; ErrNotFound when there is none.
func (db *DB) FindAthlete(ctx context.Context, club ClubID, key Key) (Athlete, error) {
	athlete, err := athleteByKey(ctx, db.reader, club, key)
	if err != nil {
		return Athlete{}, fmt.Errorf("rider of club %d by key: %w", club, explain(err))
	}
	return athlete, nil
}

// EnsureAthlete is the rider of the club with that key, made with that name and
// default settings when there is none yet.
func (db *DB) EnsureAthlete(ctx context.Context, club ClubID, key Key, name string) (Athlete, error) {
	athlete, err := db.FindAthlete(ctx, club, key)
	if errors.Is(err, ErrNotFound) {
		if athlete, err = db.addAthlete(ctx, club, key, name); err != nil {
			err = fmt.Errorf("add rider to club %d: %w", club, err)
		}
	}
	return athlete, err
}

func (db *DB) addAthlete(ctx context.Context, club ClubID, key Key, name string) (athlete Athlete, err error) {
	if err := CheckName("rider", name, "me"); err != nil {
		return Athlete{}, err
	}
	err = db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO athlete (club_id, name, key, added_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			club, name, key.text, db.Now().UnixMilli())
		if err != nil {
			return err
		}
		athlete, err = athleteByKey(ctx, tx, club, key)
		return err
	})
	return athlete, err
}

// RenameAthlete keeps a new name of a rider.
func (db *DB) RenameAthlete(ctx context.Context, id AthleteID, name string) error {
	return db.changeRow(ctx, "rename rider", id, `UPDATE athlete SET name = ? WHERE id = ?`, name, id)
}

// UpdateSettings lets change work on the rider's settings and keeps the result,
// with nothing in between. An error of change or a value out of range keeps
// the old ones. change must not use the database.
func (db *DB) UpdateSettings(ctx context.Context, id AthleteID, change func(*Settings) error) (Athlete, error) {
	var athlete Athlete
	err := db.write(ctx, func(tx *sql.Tx) (err error) {
		if athlete, err = athleteByID(ctx, tx, id); err != nil {
			return err
		}
		settings := athlete.Settings
		if err := change(&settings); err != nil {
			return err
		}
		if err := settings.validate(); err != nil {
			return err
		}
		if err := putSettings(ctx, tx, id, settings); err != nil {
			return err
		}
		athlete, err = athleteByID(ctx, tx, id)
		return err
	})
	if err != nil {
		return Athlete{}, fmt.Errorf("settings of rider %d: %w", id, err)
	}
	return athlete, nil
}

func putSettings(ctx context.Context, tx *sql.Tx, id AthleteID, s Settings) error {
	return hit(tx.ExecContext(ctx, `UPDATE athlete SET zone = nullif(?, ''), is_coach = ?, announce = ?,
		taper_days = ?, cut = ?, pattern = ?, shape = ?, openers = ? WHERE id = ?`,
		s.Zone, s.Coach, s.Announce,
		s.Taper.Days, s.Taper.Cut, s.Taper.Pattern.String(), s.Taper.Shape.String(), openersDay(s.Taper.OpenersD2).String(), id))
}

const selectAthlete = `SELECT a.id, a.club_id, a.key, a.name, coalesce(a.zone, c.zone), coalesce(a.zone, ''), a.is_coach, a.announce,
	a.taper_days, a.cut, a.pattern, a.shape, a.openers, a.added_ms
	FROM athlete a JOIN club c ON c.id = a.club_id `

func athleteByKey(ctx context.Context, q queryer, club ClubID, key Key) (Athlete, error) {
	return scanAthlete(q.QueryRowContext(ctx, selectAthlete+`WHERE a.club_id = ? AND a.key = ?`, club, key.text))
}

func athleteByID(ctx context.Context, q queryer, id AthleteID) (Athlete, error) {
	return scanAthlete(q.QueryRowContext(ctx, selectAthlete+`WHERE a.id = ?`, id))
}

func scanAthlete(row *sql.Row) (a Athlete, err error) {
	s, t := &a.Settings, &a.Settings.Taper
	var openers openersDay
	err = row.Scan(&a.ID, &a.Club, &a.Key.text, &a.Name, &a.Zone, &s.Zone, &s.Coach, &s.Announce, &t.Days, &t.Cut,
		oneOf(&t.Pattern, planner.EverySecondDay, planner.EveryThirdDay),
		oneOf(&t.Shape, planner.Exponential, planner.Linear, planner.Step),
		oneOf(&openers, false, true), instant{&a.Added})
	t.OpenersD2 = bool(openers)
	return a, err
}

// openersDay tells whether openers stand two days before a race instead of one.
type openersDay bool

// String is the word of the plan file.
func (twoBefore openersDay) String() string {
	if twoBefore {
		return "D-2"
	}
	return "D-1"
}
