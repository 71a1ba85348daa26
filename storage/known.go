package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// Known is what a rider's reminders are made from. Notes are what coaches wrote
// about the days from one on.
type Known struct {
	Athlete Athlete
	Club    Club
	Facts   *planner.Facts
	Notes   []CoachNote
	State   int64 // of the database, when this was read
}

// Known reads all that is known of riders in one state of the database, a query a
// table. Riders who are not stored are left out.
func (db *DB) Known(ctx context.Context, notesFrom planner.Date, ids ...AthleteID) (all map[AthleteID]*Known, err error) {
	err = db.read(ctx, func(tx *sql.Tx) error {
		all, err = readKnown(ctx, tx, notesFrom, ids)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("what is known of %d riders: %w", len(ids), err)
	}
	return all, nil
}

// KnownOf is all that is known of a rider; ErrNotFound when there is none.
func (db *DB) KnownOf(ctx context.Context, notesFrom planner.Date, id AthleteID) (*Known, error) {
	all, err := db.Known(ctx, notesFrom, id)
	if err == nil && all[id] == nil {
		err = fmt.Errorf("rider %d: %w", id, ErrNotFound)
	}
	return all[id], err
}

const (
	athletesOf = selectAthlete + `WHERE a.id IN (SELECT value FROM json_each(?))`
	clubsOf    = selectClub + `WHERE id IN (SELECT club_id FROM athlete WHERE id IN (SELECT value FROM json_each(?)))`
)

func readKnown(ctx context.Context, tx *sql.Tx, notesFrom planner.Date, ids []AthleteID) (map[AthleteID]*Known, error) {
	state, err := stateOf(ctx, tx)
	if err != nil {
		return nil, err
	}
	athletes, err := list(ctx, tx, scanAthleteRow, athletesOf, listOf(ids))
	if err != nil {
		return nil, err
	}
	theirs, err := list(ctx, tx, scanClub, clubsOf, listOf(ids))
	if err != nil {
		return nil, err
	}
	clubs := map[ClubID]Club{}
	for _, c := range theirs {
		clubs[c.ID] = c
	}
	all, facts := map[AthleteID]*Known{}, map[AthleteID]*planner.Facts{}
	for _, a := range athletes {
		facts[a.ID] = &planner.Facts{Taper: a.Settings.Taper}
		all[a.ID] = &Known{Athlete: a, Club: clubs[a.Club], Facts: facts[a.ID], State: state}
	}
	if err := readFacts(ctx, tx, facts); err != nil {
		return nil, err
	}
	take := func(id AthleteID, n CoachNote) { all[id].Notes = append(all[id].Notes, n) }
	return all, coachNoteTable.ofAll(ctx, tx, listOf(ids), ` AND date >= ?2`, take, notesFrom.String())
}

// State is the number of the state that the database is in. It grows with each
// change but those of posts and of the ways to people.
func (db *DB) State(ctx context.Context) (int64, error) {
	state, err := stateOf(ctx, db.source())
	if err != nil {
		return 0, fmt.Errorf("state of the database: %w", explain(err))
	}
	return state, nil
}

func stateOf(ctx context.Context, q queryer) (state int64, err error) {
	err = q.QueryRowContext(ctx, `SELECT n FROM changes`).Scan(&state)
	return state, err
}
