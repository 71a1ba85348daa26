package storage

import (
	"context"
	"database/sql"
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
	return err
}
