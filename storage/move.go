package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// MoveID is a swap's number in the database; it is never used twice.
type MoveID int64

// Move is a stored swap of two days.
type Move struct {
	ID MoveID
	planner.Move
}

var moveVersions = versions{table: "move", key: []string{"from_date", "to_date"}}

// AddMove keeps a swap of two days after those wished before. One that was taken
// back today comes back to its place.
func (db *DB) AddMove(ctx context.Context, athlete AthleteID, today planner.Date, m planner.Move) (MoveID, error) {
	var id int64
	err := checkMove(m)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) (err error) {
			id, err = moveVersions.keep(ctx, tx, athlete, today, fact{key: []any{m.From.String(), m.To.String()}})
			return err
		})
	}
	if err != nil {
		return 0, fmt.Errorf("move %s to %s: %w", m.From, m.To, err)
	}
	return MoveID(id), nil
}

func checkMove(m planner.Move) error {
	if m.From == m.To {
		return &planner.InputError{Field: "to", Msg: m.To.String() + " is the day to move from. Name another one, for example " + m.To.AddDays(1).String()}
	}
	return nil
}

// RemoveMove takes back the rider's swap; another rider's is ErrNotFound.
func (db *DB) RemoveMove(ctx context.Context, athlete AthleteID, today planner.Date, id MoveID) error {
	return db.removeByID(ctx, &moveVersions, athlete, today, int64(id))
}

// Moves lists the rider's swaps in the order of their wishes.
func (db *DB) Moves(ctx context.Context, athlete AthleteID) ([]Move, error) {
	moves, err := moveTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("moves of rider %d: %w", athlete, explain(err))
	}
	return moves, nil
}

var moveTable = factTable[Move]{"move", "id, from_date, to_date, told, withdrawn", "id", scanMove}

func scanMove(m *Move, scan func(...any) error) error {
	on, withdrawn := told(&m.Told)
	return scan(&m.ID, date(&m.From), date(&m.To), on, withdrawn)
}
