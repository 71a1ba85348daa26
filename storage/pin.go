package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
	"musette/planner/typed"
)

// Pin is a stored pin. Coach is who set it, 0 where the coach has left.
type Pin struct {
	planner.Pin
	Coach AthleteID
}

var pinVersions = versions{table: "pin", key: []string{"date"}, content: []string{"session", "coach_id"}}

// SetPin pins a session to a rider's day; a pin of that day is replaced. today is
// the rider's. A coach of another club is ErrNotFound.
func (db *DB) SetPin(ctx context.Context, athlete, coach AthleteID, today planner.Date, pin planner.Pin) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		if err := sameClub(ctx, tx, athlete, coach); err != nil {
			return err
		}
		_, err := pinVersions.keep(ctx, tx, athlete, today, fact{key: []any{pin.Date.String()}, content: []any{pin.Session.Label(), coach}})
		return err
	})
	if err != nil {
		return fmt.Errorf("pin %s of rider %d: %w", pin.Date, athlete, err)
	}
	return nil
}

// sameClub is ErrNotFound for two riders of whom one is missing or in another club.
func sameClub(ctx context.Context, q queryer, athlete, coach AthleteID) error {
	var same bool
	err := q.QueryRowContext(ctx, `SELECT count(*) > 0 FROM athlete a JOIN athlete c ON c.club_id = a.club_id WHERE a.id = ? AND c.id = ?`, athlete, coach).Scan(&same)
	if err == nil && !same {
		err = ErrNotFound
	}
	return err
}

// RemovePin lets go of the pin of a rider's day; ErrNotFound when there is none.
func (db *DB) RemovePin(ctx context.Context, athlete AthleteID, today, day planner.Date) error {
	err := db.write(ctx, func(tx *sql.Tx) error { return pinVersions.withdraw(ctx, tx, athlete, today, day.String()) })
	if err != nil {
		return fmt.Errorf("let go of the pin on %s: %w", day, err)
	}
	return nil
}

// Pins lists the rider's pins by date.
func (db *DB) Pins(ctx context.Context, athlete AthleteID) ([]Pin, error) {
	all, err := pinTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("pins of rider %d: %w", athlete, explain(err))
	}
	return all, nil
}

var pinTable = factTable[Pin]{"pin", "date, session, coalesce(coach_id, 0), told, withdrawn", "date, told, id", scanPin}

func scanPin(p *Pin, scan func(...any) error) error {
	var text string
	on, withdrawn := told(&p.Told)
	err := scan(date(&p.Date), &text, &p.Coach, on, withdrawn)
	if err != nil {
		return err
	}
	if p.Session, err = typed.Session(text); err != nil {
		return fmt.Errorf("stored pin of %s: %w", p.Date, err)
	}
	return nil
}
