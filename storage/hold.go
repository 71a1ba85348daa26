package storage

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"time"

	"musette/planner"
)

// HoldEnd is how a hold ended.
type HoldEnd uint8

// Ends of a hold: it stands, it was none, a doctor has cleared the rider.
const (
	HoldStands HoldEnd = iota
	HoldNotThat
	HoldCleared
)

// String is the word that is stored.
func (e HoldEnd) String() string { return [...]string{"", "not-that", "cleared"}[e] }

// Hold is a stored hold: from Date on all training is held back.
type Hold struct {
	Date  planner.Date
	Level planner.Level
	End   HoldEnd
	Ended planner.Date // zero while it stands
}

// AddHold holds a person back in all clubs, told at that instant. Of a level that
// stands already nothing changes. One that has ended stays so, whenever that was.
func (db *DB) AddHold(ctx context.Context, athlete AthleteID, at time.Time, level planner.Level) error {
	err := db.ofPerson(ctx, athlete, at, func(tx *sql.Tx, s self) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO hold (athlete_id, date, level) VALUES (?, ?, ?)
			ON CONFLICT (athlete_id, level) WHERE ended IS NULL DO NOTHING`, s.id, s.today.String(), level.String())
		return err
	})
	if err != nil {
		return fmt.Errorf("hold of rider %d: %w", athlete, err)
	}
	return nil
}

// ReopenHolds takes back that holds have ended on that day, of each level the last that
// ended so. ErrNotFound where there is none.
func (db *DB) ReopenHolds(ctx context.Context, athlete AthleteID, at time.Time, how HoldEnd, levels ...planner.Level) error {
	err := db.ofPerson(ctx, athlete, at, func(tx *sql.Tx, s self) error {
		ended := s.today
		if s.id != athlete {
			ended-- // in another zone that may have been yesterday
		}
		return hit(tx.ExecContext(ctx, `UPDATE hold SET ended = NULL, ended_on = NULL WHERE id IN (
			SELECT max(id) FROM hold WHERE athlete_id = ?1 AND ended = ?2 AND ended_on >= ?3 AND instr(?4, level || ' ') > 0
			AND level NOT IN (SELECT level FROM hold WHERE athlete_id = ?1 AND ended IS NULL) GROUP BY level)`, s.id, how.String(), ended.String(), listed(levels)))
	})
	if err != nil {
		return fmt.Errorf("reopen holds of rider %d: %w", athlete, err)
	}
	return nil
}

// listed are the words of levels, each with a blank after it.
func listed(levels []planner.Level) string {
	var b strings.Builder
	for _, level := range levels {
		b.WriteString(level.String() + " ")
	}
	return b.String()
}

// DenyHold ends a person's holds of these levels in all clubs, because they were none;
// others stand. ErrNotFound where none of them stands.
func (db *DB) DenyHold(ctx context.Context, athlete AthleteID, at time.Time, levels ...planner.Level) error {
	return db.endHolds(ctx, athlete, at, HoldNotThat, ` AND instr(?, level || ' ') > 0`, listed(levels))
}

// ClearHolds ends all of a person's holds in all clubs, because a doctor has
// cleared the rider. ErrNotFound where none stands.
func (db *DB) ClearHolds(ctx context.Context, athlete AthleteID, at time.Time) error {
	return db.endHolds(ctx, athlete, at, HoldCleared, "")
}

func (db *DB) endHolds(ctx context.Context, athlete AthleteID, at time.Time, how HoldEnd, which string, args ...any) error {
	err := db.ofPerson(ctx, athlete, at, func(tx *sql.Tx, s self) error {
		return hit(tx.ExecContext(ctx, `UPDATE hold SET ended = ?, ended_on = max(date, ?) WHERE athlete_id = ? AND ended IS NULL`+which,
			concat([]any{how.String(), s.today.String(), s.id}, args)...))
	})
	if err != nil {
		return fmt.Errorf("end hold of rider %d: %w", athlete, err)
	}
	return nil
}

// Holds lists the rider's holds by date, those that ended too.
func (db *DB) Holds(ctx context.Context, athlete AthleteID) ([]Hold, error) {
	all, err := holdTable.of(ctx, db.source(), athlete, everything)
	if err != nil {
		return nil, fmt.Errorf("holds of rider %d: %w", athlete, explain(err))
	}
	return all, nil
}

var holdTable = factTable[Hold]{"hold", "date, level, coalesce(ended, ''), ended_on", "date, id", scanHold}

func scanHold(h *Hold, scan func(...any) error) error {
	return scan(date(&h.Date), oneOf(&h.Level, planner.LevelDoctor, planner.LevelHead, planner.LevelEmergency),
		oneOf(&h.End, HoldStands, HoldNotThat, HoldCleared), (*optionalDate)(&h.Ended))
}

// versions are the hold as plans know it: one that a doctor has ended is entered again
// on that day, and one that ended on its own day as no hold never was.
func (h Hold) versions() (out []planner.Hold) {
	if h.Ended != h.Date {
		out = append(out, planner.Hold{Date: h.Date, Level: h.Level, Told: planner.Told{On: h.Date, Withdrawn: h.Ended}})
	}
	if h.End == HoldCleared {
		out = append(out, planner.Hold{Date: h.Date, Level: h.Level, Cleared: h.Ended, Told: planner.Told{On: h.Ended}})
	}
	return out
}
