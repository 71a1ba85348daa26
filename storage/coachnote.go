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

// CoachNoteID is a note's number in the database; it is never used twice.
type CoachNoteID int64

// CoachNote is what a coach wrote for a rider about a day; the rider reads it.
// Coach is 0 where the coach has left.
type CoachNote struct {
	ID    CoachNoteID
	Date  planner.Date
	Text  string
	Coach AthleteID
	Added time.Time
}

// AddCoachNote keeps a note on a day for riders of the coach's club, for all or
// none of them. One who is of another club is ErrNotFound.
func (db *DB) AddCoachNote(ctx context.Context, coach AthleteID, day planner.Date, text string, athletes ...AthleteID) error {
	err := checkNote(text)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			for _, athlete := range athletes {
				if err := sameClub(ctx, tx, athlete, coach); err != nil {
					return err
				}
				if _, err := tx.ExecContext(ctx, `INSERT INTO coach_note (athlete_id, date, text, coach_id, added_ms) VALUES (?, ?, ?, ?, ?)`,
					athlete, day.String(), text, coach, db.Now().UnixMilli()); err != nil {
					return err
				}
			}
			return nil
		})
	}
	if err != nil {
		return fmt.Errorf("note of coach %d: %w", coach, err)
	}
	return nil
}

func checkNote(text string) error {
	switch {
	case strings.TrimSpace(text) == "":
		return planner.BadInput("text", "is empty. For example Stay in the group today")
	case utf8.RuneCountInString(text) > planner.MaxText:
		return planner.BadInput("text", "is longer than %d characters. For example Stay in the group today", planner.MaxText)
	}
	return nil
}

// RemoveCoachNote deletes a note on a rider's day; another rider's is ErrNotFound.
func (db *DB) RemoveCoachNote(ctx context.Context, athlete AthleteID, id CoachNoteID) error {
	return db.changeRow(ctx, "delete note of rider", athlete, `DELETE FROM coach_note WHERE id = ? AND athlete_id = ?`, id, athlete)
}

// CoachNotes lists the notes on a rider's days from one to another, in their order.
func (db *DB) CoachNotes(ctx context.Context, athlete AthleteID, from, to planner.Date) ([]CoachNote, error) {
	all, err := coachNoteTable.of(ctx, db.source(), athlete, ` AND date BETWEEN ? AND ?`, from.String(), to.String())
	if err != nil {
		return nil, fmt.Errorf("notes of rider %d: %w", athlete, explain(err))
	}
	return all, nil
}

var coachNoteTable = factTable[CoachNote]{"coach_note", "id, date, text, coalesce(coach_id, 0), added_ms", "date, id", scanCoachNote}

func scanCoachNote(n *CoachNote, scan func(...any) error) error {
	return scan(&n.ID, date(&n.Date), &n.Text, &n.Coach, instant{&n.Added})
}
