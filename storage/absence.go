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

var absenceVersions = versions{table: "absence", key: []string{"from_date", "to_date"}, content: []string{"kind"}}

// AddAbsence keeps a stretch away. The same stretch told again takes the new kind.
func (db *DB) AddAbsence(ctx context.Context, athlete AthleteID, today planner.Date, a planner.Absence) (AbsenceID, error) {
	var id int64
	err := checkStretch(a.From, a.To)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) (err error) {
			id, err = absenceVersions.keep(ctx, tx, athlete, today, fact{key: []any{a.From.String(), a.To.String()}, content: []any{absenceKind(a.Travel).String()}})
			return err
		})
	}
	if err != nil {
		return 0, fmt.Errorf("away from %s to %s: %w", a.From, a.To, err)
	}
	return AbsenceID(id), nil
}

// RemoveAbsence takes back the rider's absence; another rider's is ErrNotFound.
func (db *DB) RemoveAbsence(ctx context.Context, athlete AthleteID, today planner.Date, id AbsenceID) error {
	return db.removeByID(ctx, &absenceVersions, athlete, today, int64(id))
}

// Absences lists the rider's stretches away by date.
func (db *DB) Absences(ctx context.Context, athlete AthleteID) ([]Absence, error) {
	absences, err := absenceTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("absences of rider %d: %w", athlete, explain(err))
	}
	return absences, nil
}

var absenceTable = factTable[Absence]{"absence", "id, from_date, to_date, kind, told, withdrawn", "from_date, to_date, told, id", scanAbsence}

func scanAbsence(a *Absence, scan func(...any) error) error {
	var kind absenceKind
	on, withdrawn := told(&a.Told)
	err := scan(&a.ID, date(&a.From), date(&a.To), oneOf(&kind, false, true), on, withdrawn)
	a.Travel = bool(kind)
	return err
}
