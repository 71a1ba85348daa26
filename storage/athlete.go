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
	ID        AthleteID
	Club      ClubID
	Key       Key
	Name      string
	Zone      string
	Settings  Settings
	Left      planner.Date // since when a look-up says that they are no member of the club; zero: they are
	Thread    string       // private thread of the reminders; empty: none yet
	OffUntold bool         // has not been told that a day off is free by habit now
	Entered   bool         // by a coach, and the rider has not come yet
	Added     time.Time
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
	athlete, err := athleteByKey(ctx, db.source(), club, key)
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
		added, err := db.addedAt(ctx, tx, club, key)
		if err != nil {
			return err
		}
		missing := hit(tx.ExecContext(ctx, `INSERT INTO athlete (club_id, name, key, added_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			club, name, key.text, added))
		if missing != nil && !errors.Is(missing, ErrNotFound) {
			return missing
		}
		athlete, err = athleteByKey(ctx, tx, club, key)
		if err != nil || missing != nil {
			return err
		}
		return inheritHealth(ctx, tx, athlete.ID, key)
	})
	return athlete, err
}

// addedAt is when a new rider is made: now, and after they were erased, whatever
// the clock says, or they would be forgotten again.
func (db *DB) addedAt(ctx context.Context, q queryer, club ClubID, key Key) (int64, error) {
	now := db.Now().UnixMilli()
	who, err := loadForgotten(db.path)
	if err != nil || len(who.until) == 0 {
		return now, err
	}
	of, err := clubByID(ctx, q, club)
	if errors.Is(err, sql.ErrNoRows) {
		return now, ErrNotFound
	}
	return max(now, who.upTo(of.Key.text, key.text)+1), err
}

// RenameAthlete keeps a new name of a rider.
func (db *DB) RenameAthlete(ctx context.Context, id AthleteID, name string) error {
	return db.changeRow(ctx, "rename rider", id, `UPDATE athlete SET name = ? WHERE id = ?`, name, id)
}

// KeepThread keeps the private thread of a rider's reminders; "" forgets it.
func (db *DB) KeepThread(ctx context.Context, id AthleteID, thread string) error {
	return db.changeRow(ctx, "thread of rider", id, `UPDATE athlete SET thread = nullif(?, '') WHERE id = ?`, thread, id)
}

// Athletes lists the riders of a club by name, without those who left it.
func (db *DB) Athletes(ctx context.Context, club ClubID) ([]Athlete, error) {
	all, err := list(ctx, db.source(), scanAthleteRow, selectAthlete+`WHERE a.club_id = ? AND a.left_date IS NULL ORDER BY a.name COLLATE NOCASE, a.id`, club)
	if err != nil {
		return nil, fmt.Errorf("riders of club %d: %w", club, explain(err))
	}
	return all, nil
}

// Athlete is the rider with that number; ErrNotFound when there is none.
func (db *DB) Athlete(ctx context.Context, id AthleteID) (Athlete, error) {
	a, err := athleteByID(ctx, db.source(), id)
	if err != nil {
		return Athlete{}, fmt.Errorf("rider %d: %w", id, explain(err))
	}
	return a, nil
}

// OffTold keeps that a rider has been told what a day off is now.
func (db *DB) OffTold(ctx context.Context, id AthleteID) error {
	return db.changeRow(ctx, "what off means for rider", id, `UPDATE athlete SET off_untold = 0 WHERE id = ?`, id)
}

// MarkEntered keeps that a coach entered the first fact of a rider, or that the
// rider has come and was told so.
func (db *DB) MarkEntered(ctx context.Context, id AthleteID, entered bool) error {
	return db.changeRow(ctx, "who entered rider", id, `UPDATE athlete SET entered = ? WHERE id = ?`, entered, id)
}

// UpdateSettings lets change work on the rider's settings and keeps the result,
// with nothing in between. An error of change or a value out of range keeps
// the old ones. today is the rider's; change must not use the database.
func (db *DB) UpdateSettings(ctx context.Context, id AthleteID, today planner.Date, change func(*Settings) error) (Athlete, error) {
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
		if err := putSettings(ctx, tx, &athlete, settings, today); err != nil {
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

// putSettings writes settings anew; taper settings that change are kept as they were until today.
func putSettings(ctx context.Context, tx *sql.Tx, was *Athlete, s Settings, today planner.Date) error {
	on, err := retireTaper(ctx, tx, was, s.Taper, today)
	if err != nil {
		return err
	}
	return hit(tx.ExecContext(ctx, `UPDATE athlete SET zone = nullif(?, ''), is_coach = ?, announce = ?,
		remind = ?, remind_at = ?, remind_by = ?, pause_to = ?, remind_since_ms = ?,
		taper_days = ?, usual_length = ?, cut = ?, pattern = ?, openers = ?, taper_told = ? WHERE id = ?`,
		concat([]any{s.Zone, s.Coach, s.Announce, s.Remind.Mode.String(), s.Remind.At, s.Remind.By.String(), stored(s.Remind.Pause), max(0, s.Remind.Since.UnixMilli())},
			taperValues(&s.Taper), []any{stored(on), was.ID})...))
}

const selectAthlete = `SELECT a.id, a.club_id, a.key, a.name, coalesce(a.zone, c.zone), coalesce(a.zone, ''), a.is_coach, a.announce,
	a.remind, a.remind_at, a.remind_by, a.pause_to, a.remind_since_ms, coalesce(a.thread, ''),
	a.taper_days, a.usual_length, a.cut, a.pattern, a.openers, a.taper_told, a.off_untold, a.entered, a.left_date, a.added_ms
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
	err := scan(&a.ID, &a.Club, &a.Key.text, &a.Name, &a.Zone, &s.Zone, &s.Coach, &s.Announce,
		oneOf(&r.Mode, RemindOff, RemindChanged, RemindAlways), &r.At, oneOf(&r.By, RemindDirect, RemindThread, RemindRide), (*optionalDate)(&r.Pause), instant{&r.Since}, &a.Thread,
		&t.Days, &t.Usual, &t.Cut, oneOf(&t.Pattern, planner.UsualDays, planner.EverySecondDay, planner.EveryThirdDay),
		oneOf(&openers, false, true), (*optionalDate)(&t.On), &a.OffUntold, &a.Entered, (*optionalDate)(&a.Left), instant{&a.Added})
	t.OpenersD2 = bool(openers)
	return err
}
