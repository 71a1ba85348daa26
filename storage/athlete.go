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
	Thread   string // private thread of the reminders; empty: none yet
	Added    time.Time
}

// Settings is what a rider chose. An empty Zone means the club's; Announce
// allows one public line when a race is added.
type Settings struct {
	Zone     string
	Coach    bool
	Announce bool
	Taper    planner.Taper
	Remind   Reminders
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

// KeepThread keeps the private thread of a rider's reminders; "" forgets it.
func (db *DB) KeepThread(ctx context.Context, id AthleteID, thread string) error {
	return db.changeRow(ctx, "thread of rider", id, `UPDATE athlete SET thread = nullif(?, '') WHERE id = ?`, thread, id)
}

// Athletes lists the riders of a club by name.
func (db *DB) Athletes(ctx context.Context, club ClubID) ([]Athlete, error) {
	all, err := list(ctx, db.reader, scanAthleteRow, selectAthlete+`WHERE a.club_id = ? ORDER BY a.name COLLATE NOCASE, a.id`, club)
	if err != nil {
		return nil, fmt.Errorf("riders of club %d: %w", club, explain(err))
	}
	return all, nil
}

// Athlete is the rider with that number; ErrNotFound when there is none.
func (db *DB) Athlete(ctx context.Context, id AthleteID) (Athlete, error) {
	a, err := athleteByID(ctx, db.reader, id)
	if err != nil {
		return Athlete{}, fmt.Errorf("rider %d: %w", id, explain(err))
	}
	return a, nil
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
		remind = ?, remind_at = ?, remind_by = ?, pause_to = nullif(?, ''), remind_since_ms = ?,
		taper_days = ?, cut = ?, pattern = ?, shape = ?, openers = ? WHERE id = ?`,
		s.Zone, s.Coach, s.Announce,
		s.Remind.Mode.String(), s.Remind.At, s.Remind.By.String(), optionalDate(s.Remind.Pause), max(0, s.Remind.Since.UnixMilli()),
		s.Taper.Days, s.Taper.Cut, s.Taper.Pattern.String(), s.Taper.Shape.String(), openersDay(s.Taper.OpenersD2).String(), id))
}

const selectAthlete = `SELECT a.id, a.club_id, a.key, a.name, coalesce(a.zone, c.zone), coalesce(a.zone, ''), a.is_coach, a.announce,
	a.remind, a.remind_at, a.remind_by, coalesce(a.pause_to, ''), a.remind_since_ms, coalesce(a.thread, ''),
	a.taper_days, a.cut, a.pattern, a.shape, a.openers, a.added_ms
	FROM athlete a JOIN club c ON c.id = a.club_id `

func athleteByKey(ctx context.Context, q queryer, club ClubID, key Key) (Athlete, error) {
	return scanAthlete(q.QueryRowContext(ctx, selectAthlete+`WHERE a.club_id = ? AND a.key = ?`, club, key.text))
}

func athleteByID(ctx context.Context, q queryer, id AthleteID) (Athlete, error) {
	return scanAthlete(q.QueryRowContext(ctx, selectAthlete+`WHERE a.id = ?`, id))
}

func scanAthlete(row *sql.Row) (a Athlete, err error) {
	err = scanAthleteRow(&a, row.Scan)
	return a, err
}

func scanAthleteRow(a *Athlete, scan func(...any) error) error {
	s, t, r := &a.Settings, &a.Settings.Taper, &a.Settings.Remind
	var openers openersDay
	var pause string
	err := scan(&a.ID, &a.Club, &a.Key.text, &a.Name, &a.Zone, &s.Zone, &s.Coach, &s.Announce,
		oneOf(&r.Mode, RemindOff, RemindChanged, RemindAlways), &r.At, oneOf(&r.By, RemindDirect, RemindThread, RemindRide), &pause, instant{&r.Since}, &a.Thread,
		&t.Days, &t.Cut, oneOf(&t.Pattern, planner.EverySecondDay, planner.EveryThirdDay),
		oneOf(&t.Shape, planner.Exponential, planner.Linear, planner.Step),
		oneOf(&openers, false, true), instant{&a.Added})
	if err == nil && pause != "" {
		r.Pause, err = planner.ParseISODate(pause)
	}
	t.OpenersD2 = bool(openers)
	return err
}

// optionalDate is a day as it is stored, "" for none.
func optionalDate(d planner.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
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
