package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// AbsenceID is an absence's number in the database; it is never used twice.
type AbsenceID int64

// Absence is a stored stretch away.
type Absence struct {
	ID AbsenceID
	planner.Absence
}

// absenceKind tells travel from no training at all.
type absenceKind bool

// String is the word of the plan file.
func (travel absenceKind) String() string {
	if travel {
		return "travel"
	}
	return "off"
}

// AddAbsence keeps a stretch away. The same stretch told again takes the new
// kind and keeps its number.
func (db *DB) AddAbsence(ctx context.Context, athlete AthleteID, a planner.Absence) (AbsenceID, error) {
	var id AbsenceID
	err := checkStretch(a.From, a.To)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			return tx.QueryRowContext(ctx, `INSERT INTO absence (athlete_id, from_date, to_date, kind) VALUES (?, ?, ?, ?)
				ON CONFLICT (athlete_id, from_date, to_date) DO UPDATE SET kind = excluded.kind RETURNING id`,
				athlete, a.From.String(), a.To.String(), absenceKind(a.Travel).String()).Scan(&id)
		})
	}
	if err != nil {
		return 0, fmt.Errorf("away from %s to %s: %w", a.From, a.To, err)
	}
	return id, nil
}

// RemoveAbsence deletes the rider's absence; another rider's is ErrNotFound.
func (db *DB) RemoveAbsence(ctx context.Context, athlete AthleteID, id AbsenceID) error {
	return db.removeByID(ctx, "absence", athlete, int64(id))
}

// Absences lists the rider's stretches away by date.
func (db *DB) Absences(ctx context.Context, athlete AthleteID) ([]Absence, error) {
	absences, err := absences(ctx, db.reader, athlete)
	if err != nil {
		return nil, fmt.Errorf("absences of rider %d: %w", athlete, explain(err))
	}
	return absences, nil
}

func absences(ctx context.Context, q queryer, athlete AthleteID) ([]Absence, error) {
	return list(ctx, q, func(a *Absence, scan func(...any) error) error {
		var kind absenceKind
		err := scan(&a.ID, date(&a.From), date(&a.To), oneOf(&kind, false, true))
		a.Travel = bool(kind)
		return err
	}, `SELECT id, from_date, to_date, kind FROM absence WHERE athlete_id = ? ORDER BY from_date, to_date`, athlete)
}
