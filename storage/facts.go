package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// Facts reads all that the rider's plan is derived from, in one consistent
// state of the database: what stands and what was withdrawn, with its dates.
func (db *DB) Facts(ctx context.Context, athlete AthleteID) (*planner.Facts, error) {
	facts := new(planner.Facts)
	err := db.read(ctx, func(tx *sql.Tx) error { return readFacts(ctx, tx, athlete, facts) })
	if err != nil {
		return nil, fmt.Errorf("facts of rider %d: %w", athlete, err)
	}
	return facts, nil
}

func readFacts(ctx context.Context, tx *sql.Tx, athlete AthleteID, facts *planner.Facts) error {
	var err error
	if facts.Taper, err = taperOf(ctx, tx, athlete); err != nil {
		return err
	}
	if facts.OldTaper, err = pastTapers(ctx, tx, athlete); err != nil {
		return err
	}
	if facts.Weeks, err = weeks(ctx, tx, athlete, everything); err != nil {
		return err
	}
	stored, err := raceVersions(ctx, tx, athlete)
	if err != nil {
		return err
	}
	facts.Races = without(stored, func(r Race) planner.Race { return r.Race })
	away, err := absences(ctx, tx, athlete, everything)
	if err != nil {
		return err
	}
	facts.Absences = without(away, func(a Absence) planner.Absence { return a.Absence })
	heavy, err := blocks(ctx, tx, athlete, everything)
	if err != nil {
		return err
	}
	facts.Blocks = without(heavy, func(b Block) planner.Block { return b.Block })
	if facts.Limits, err = limits(ctx, tx, athlete); err != nil {
		return err
	}
	ill, err := illnesses(ctx, tx, athlete, everything)
	if err != nil {
		return err
	}
	facts.Ill = without(ill, func(i Illness) planner.Illness { return i.Illness })
	stops, err := holds(ctx, tx, athlete)
	if err != nil {
		return err
	}
	facts.Holds = holdVersions(stops)
	ridden, err := dayRides(ctx, tx, athlete, everything)
	if err != nil {
		return err
	}
	facts.Done = without(ridden, func(r dayRide) planner.Ride { return r.Ride.Ride })
	if facts.Results, err = results(ctx, tx, athlete); err != nil {
		return err
	}
	if facts.Taught, err = taught(ctx, tx, athlete); err != nil {
		return err
	}
	fixed, err := pins(ctx, tx, athlete, everything)
	if err != nil {
		return err
	}
	facts.Pins = without(fixed, func(p Pin) planner.Pin { return p.Pin })
	swaps, err := moves(ctx, tx, athlete, everything)
	facts.Moves = without(swaps, func(m Move) planner.Move { return m.Move })
	return err
}

// without strips the numbers that only the database needs.
func without[S, T any](stored []S, strip func(S) T) []T {
	if len(stored) == 0 {
		return nil
	}
	bare := make([]T, len(stored))
	for i, s := range stored {
		bare[i] = strip(s)
	}
	return bare
}

// removeByID takes back a rider's row of one of our tables.
func (db *DB) removeByID(ctx context.Context, v *versions, athlete AthleteID, today planner.Date, id int64) error {
	err := db.write(ctx, func(tx *sql.Tx) error { return v.withdrawID(ctx, tx, athlete, today, id) })
	if err != nil {
		return fmt.Errorf("remove %s %d: %w", v.table, id, err)
	}
	return nil
}

// checkStretch refuses a stretch of days that ends before it begins.
func checkStretch(from, to planner.Date) error {
	if to < from {
		return &planner.InputError{Field: "to", Msg: to.String() + " is before " + from.String() + ". For example " + from.AddDays(3).String()}
	}
	return nil
}
