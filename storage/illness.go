package storage

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"musette/planner"
)

// IllnessID is the number of an illness or injury in the database; it is never used twice.
type IllnessID int64

// Illness is a stored illness or injury.
type Illness struct {
	ID IllnessID
	planner.Illness
}

// illnessKind tells an injury from an illness.
type illnessKind bool

// String is the word that is stored.
func (injury illnessKind) String() string {
	if injury {
		return "injured"
	}
	return "ill"
}

var illnessVersions = versions{table: "illness", key: []string{"from_date", "kind"}, content: []string{"to_date", "level"}, notes: []string{"symptoms"}}

func illnessFact(ill *planner.Illness) fact {
	return fact{key: []any{ill.From.String(), illnessKind(ill.Injury).String()}, content: []any{stored(ill.To), ill.Level.String()},
		notes: []any{strings.Join(ill.Symptoms, "\n")}}
}

// AddIllness keeps an illness or injury of the level easy or rest, with the
// symptoms that were chosen, for the person in all clubs. One from the same day
// and of the same kind is replaced. at is the instant of telling.
func (db *DB) AddIllness(ctx context.Context, athlete AthleteID, at time.Time, ill planner.Illness) (IllnessID, error) {
	var id int64
	err := checkIllness(&ill)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) (err error) {
			id, err = keepIllness(ctx, tx, athlete, at, &ill, false)
			return err
		})
	}
	if err != nil {
		return 0, fmt.Errorf("illness from %s: %w", ill.From, err)
	}
	return IllnessID(id), nil
}

// keepIllness keeps an illness for the person's riders, or only for those who have
// one from that day and of that kind. own is the rider's row.
func keepIllness(ctx context.Context, tx *sql.Tx, athlete AthleteID, at time.Time, ill *planner.Illness, onlyChange bool) (own int64, err error) {
	err = eachSelf(ctx, tx, athlete, at, func(tx *sql.Tx, s self) error {
		was, err := illnessVersions.stands(ctx, tx, s.id, s.today, illnessFact(ill))
		if err != nil || onlyChange && was.id == 0 {
			return err
		}
		id, err := illnessVersions.keep(ctx, tx, s.id, s.today, illnessFact(ill))
		if s.id == athlete {
			own = id
		}
		return err
	})
	return own, err
}

func checkIllness(ill *planner.Illness) error {
	if !ill.To.IsZero() {
		if err := checkStretch(ill.From, ill.To); err != nil {
			return err
		}
	}
	for _, s := range ill.Symptoms {
		if strings.Contains(s, "\n") {
			return planner.BadInput("symptoms", "have more than one line. For example fever")
		}
	}
	if utf8.RuneCountInString(strings.Join(ill.Symptoms, "\n")) > planner.MaxText {
		return planner.BadInput("symptoms", "are longer than %d characters. For example fever", planner.MaxText)
	}
	return nil
}

// EndIllness keeps the day on which the rider is well again, in all clubs: the day
// before is the last ill one. It returns the illness before and after.
func (db *DB) EndIllness(ctx context.Context, athlete AthleteID, at time.Time, id IllnessID, well planner.Date) (before, after Illness, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		if err := scanIllness(&before, tx.QueryRowContext(ctx, selectIllness+`id = ? AND athlete_id = ?`+standing, id, athlete).Scan); err != nil {
			return err
		}
		after = before
		if after.To = well - 1; after.To < after.From {
			return planner.BadInput("day", "%s is not after the first ill day, %s. For example %s", well, after.From, after.From+1)
		}
		own, err := keepIllness(ctx, tx, athlete, at, &after.Illness, true)
		if err != nil {
			return err
		}
		return scanIllness(&after, tx.QueryRowContext(ctx, selectIllness+`id = ?`, own).Scan)
	})
	if err != nil {
		return Illness{}, Illness{}, fmt.Errorf("end of illness %d: %w", id, err)
	}
	return before, after, nil
}

// RemoveIllness takes back an illness or injury in all clubs: the days that were
// lived with it stay. A hold stays as well. Another rider's is ErrNotFound.
func (db *DB) RemoveIllness(ctx context.Context, athlete AthleteID, at time.Time, id IllnessID) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		var ill Illness
		if err := scanIllness(&ill, tx.QueryRowContext(ctx, selectIllness+`id = ? AND athlete_id = ?`+standing, id, athlete).Scan); err != nil {
			return err
		}
		return eachSelf(ctx, tx, athlete, at, func(tx *sql.Tx, s self) error {
			return illnessVersions.withdraw(ctx, tx, s.id, s.today, illnessFact(&ill.Illness).key...)
		})
	})
	if err != nil {
		return fmt.Errorf("remove illness %d: %w", id, err)
	}
	return nil
}

// Illnesses lists the rider's illnesses and injuries by date.
func (db *DB) Illnesses(ctx context.Context, athlete AthleteID) ([]Illness, error) {
	all, err := illnessTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("illnesses of rider %d: %w", athlete, explain(err))
	}
	return all, nil
}

const (
	illnessColumns = `id, from_date, to_date, kind, level, symptoms, told, withdrawn`
	selectIllness  = `SELECT ` + illnessColumns + ` FROM illness WHERE `
)

var illnessTable = factTable[Illness]{"illness", illnessColumns, "from_date, kind, told, id", scanIllness}

func scanIllness(ill *Illness, scan func(...any) error) error {
	var kind illnessKind
	var symptoms string
	on, withdrawn := told(&ill.Told)
	err := scan(&ill.ID, date(&ill.From), (*optionalDate)(&ill.To), oneOf(&kind, false, true), oneOf(&ill.Level, planner.LevelEasy, planner.LevelRest), &symptoms, on, withdrawn)
	ill.Injury = bool(kind)
	if ill.Symptoms = nil; symptoms != "" {
		ill.Symptoms = strings.Split(symptoms, "\n")
	}
	return err
}
