package storage

import (
	"context"
	"fmt"

	"musette/planner"
)

// KeepLeft is how many days those who left their club are kept.
const KeepLeft = 30

// MarkLeft keeps the day on which a look-up said that a rider is no member of
// the club any more; a day that is kept already stays. Lists of the club's riders
// and races leave them out from then on.
func (db *DB) MarkLeft(ctx context.Context, id AthleteID, today planner.Date) error {
	return db.changeRow(ctx, "rider who left", id, `UPDATE athlete SET left_date = coalesce(left_date, ?) WHERE id = ?`, today.String(), id)
}

// MarkBack keeps that a rider is a member of the club (again).
func (db *DB) MarkBack(ctx context.Context, id AthleteID) error {
	return db.changeRow(ctx, "rider who is back", id, `UPDATE athlete SET left_date = NULL WHERE id = ?`, id)
}

// AllAthletes lists the riders of a club by name, those who left it too: whom to
// look up.
func (db *DB) AllAthletes(ctx context.Context, club ClubID) ([]Athlete, error) {
	all, err := list(ctx, db.reader, scanAthleteRow, selectAthlete+`WHERE a.club_id = ? ORDER BY a.name COLLATE NOCASE, a.id`, club)
	if err != nil {
		return nil, fmt.Errorf("all riders of club %d: %w", club, explain(err))
	}
	return all, nil
}

// EraseLeft erases the riders who left their club 30 days ago or earlier, each in
// that club alone, as Erase does. It returns how many there were.
func (db *DB) EraseLeft(ctx context.Context, today planner.Date) (int, error) {
	riders, err := list(ctx, db.reader, scanAthleteRow, selectAthlete+`WHERE a.left_date <= ? ORDER BY a.id`, today.AddDays(-KeepLeft).String())
	if err == nil && len(riders) > 0 {
		_, err = db.erase(ctx, kindRider, Whose{}, riders)
	}
	if err != nil {
		return 0, fmt.Errorf("erase riders who left: %w", explain(err))
	}
	return len(riders), nil
}
