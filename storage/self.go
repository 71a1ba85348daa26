package storage

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"musette/planner"
)

// self is one of the riders that a person is, with the day that it is for them.
type self struct {
	id    AthleteID
	today planner.Date
}

// selves are all riders with the key of one, in whatever clubs they ride: health
// is of the person. ErrNotFound when there is no such rider.
func selves(ctx context.Context, tx *sql.Tx, athlete AthleteID, at time.Time) ([]self, error) {
	all, err := list(ctx, tx, func(s *self, scan func(...any) error) error {
		var name string
		if err := scan(&s.id, &name); err != nil {
			return err
		}
		zone, err := time.LoadLocation(name)
		if err != nil {
			return err
		}
		s.today = planner.DateOf(at.In(zone))
		return nil
	}, `SELECT a.id, coalesce(a.zone, c.zone) FROM athlete a JOIN club c ON c.id = a.club_id
		WHERE a.key = (SELECT key FROM athlete WHERE id = ?) ORDER BY a.id`, athlete)
	if err == nil && len(all) == 0 {
		err = ErrNotFound
	}
	return all, err
}

// inheritHealth gives a new rider what stands of the person's health in other clubs.
func inheritHealth(ctx context.Context, tx *sql.Tx, athlete AthleteID, key Key) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO illness (athlete_id, from_date, to_date, kind, level, symptoms, told)
		SELECT ?1, from_date, to_date, kind, level, symptoms, told FROM illness
		WHERE withdrawn IS NULL AND athlete_id = (SELECT min(id) FROM athlete WHERE key = ?2 AND id <> ?1)`, athlete, key.text)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO hold (athlete_id, date, level, ended, ended_on)
		SELECT ?1, date, level, ended, ended_on FROM hold
		WHERE athlete_id = (SELECT min(id) FROM athlete WHERE key = ?2 AND id <> ?1) ORDER BY id`, athlete, key.text)
	return err
}

// ofPerson changes something for each of the riders that a person is, all or
// nothing. ErrNotFound counts only of the rider that is named.
func (db *DB) ofPerson(ctx context.Context, athlete AthleteID, at time.Time, change func(*sql.Tx, self) error) error {
	return db.write(ctx, func(tx *sql.Tx) error { return eachSelf(ctx, tx, athlete, at, change) })
}

func eachSelf(ctx context.Context, tx *sql.Tx, athlete AthleteID, at time.Time, change func(*sql.Tx, self) error) error {
	all, err := selves(ctx, tx, athlete, at)
	for _, s := range all {
		if err := change(tx, s); err != nil && (s.id == athlete || !errors.Is(err, ErrNotFound)) {
			return err
		}
	}
	return err
}
