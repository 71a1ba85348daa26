package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

const minutesPerDay = 24 * 60

var limitVersions = versions{table: "day_limit", key: []string{"date"}, content: []string{"minutes", "eased"}}

// SetLimit caps a day's training; a limit on the same day is replaced.
func (db *DB) SetLimit(ctx context.Context, athlete AthleteID, today planner.Date, limit planner.Limit) error {
	err := checkMinutes(limit.Minutes)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			_, err := limitVersions.keep(ctx, tx, athlete, today, fact{key: []any{limit.Date.String()}, content: []any{limit.Minutes, limit.Eased}})
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("limit on %s: %w", limit.Date, err)
	}
	return nil
}

func checkMinutes(minutes int) error {
	if minutes < 0 || minutes > minutesPerDay {
		return &planner.InputError{Field: "minutes", Msg: fmt.Sprintf("%d is outside 0 to %d minutes. For example 45", minutes, minutesPerDay)}
	}
	return nil
}

// RemoveLimit lifts the rider's limit of that day; ErrNotFound when there is none.
func (db *DB) RemoveLimit(ctx context.Context, athlete AthleteID, today, day planner.Date) error {
	err := db.write(ctx, func(tx *sql.Tx) error { return limitVersions.withdraw(ctx, tx, athlete, today, day.String()) })
	if err != nil {
		return fmt.Errorf("lift limit on %s: %w", day, err)
	}
	return nil
}

var limitTable = factTable[planner.Limit]{"day_limit", "date, minutes, eased, told, withdrawn", "date, told, id", scanLimit}

func scanLimit(l *planner.Limit, scan func(...any) error) error {
	on, withdrawn := told(&l.Told)
	return scan(date(&l.Date), &l.Minutes, &l.Eased, on, withdrawn)
}
