package storage

import (
	"context"
	"database/sql"
	"fmt"
	"maps"
	"slices"

	"musette/planner"
)

// Facts reads all that the rider's plan is derived from, in one consistent
// state of the database: what stands and what was withdrawn, with its dates.
func (db *DB) Facts(ctx context.Context, athlete AthleteID) (*planner.Facts, error) {
	facts := new(planner.Facts)
	err := db.read(ctx, func(tx *sql.Tx) (err error) {
		if facts.Taper, err = taperOf(ctx, tx, athlete); err != nil {
			return err
		}
		return readFacts(ctx, tx, map[AthleteID]*planner.Facts{athlete: facts})
	})
	if err != nil {
		return nil, fmt.Errorf("facts of rider %d: %w", athlete, err)
	}
	return facts, nil
}

// readFacts reads the facts of riders, a query a table: all but their taper
// settings that are in force.
func readFacts(ctx context.Context, tx *sql.Tx, all map[AthleteID]*planner.Facts) error {
	who := listOf(slices.Collect(maps.Keys(all)))
	for _, read := range []func() error{
		func() error {
			return pastTaperTable.ofAll(ctx, tx, who, everything, func(id AthleteID, t planner.Taper) { all[id].OldTaper = append(all[id].OldTaper, t) })
		},
		func() error {
			return weekTable.ofAll(ctx, tx, who, everything, func(id AthleteID, w planner.DatedWeek) { all[id].Weeks = append(all[id].Weeks, w) })
		},
		func() error {
			return eachRow(ctx, tx, scanRace, func(id AthleteID, r Race) { all[id].Races = append(all[id].Races, r.Race) }, raceVersions, who)
		},
		func() error {
			return absenceTable.ofAll(ctx, tx, who, everything, func(id AthleteID, a Absence) { all[id].Absences = append(all[id].Absences, a.Absence) })
		},
		func() error {
			return blockTable.ofAll(ctx, tx, who, everything, func(id AthleteID, b Block) { all[id].Blocks = append(all[id].Blocks, b.Block) })
		},
		func() error {
			return limitTable.ofAll(ctx, tx, who, everything, func(id AthleteID, l planner.Limit) { all[id].Limits = append(all[id].Limits, l) })
		},
		func() error {
			return illnessTable.ofAll(ctx, tx, who, everything, func(id AthleteID, i Illness) { all[id].Ill = append(all[id].Ill, i.Illness) })
		},
		func() error {
			return holdTable.ofAll(ctx, tx, who, everything, func(id AthleteID, h Hold) { all[id].Holds = append(all[id].Holds, h.versions()...) })
		},
		func() error {
			return rideTable.ofAll(ctx, tx, who, everything, func(id AthleteID, r dayRide) { all[id].Done = append(all[id].Done, r.Ride.Ride) })
		},
		func() error {
			return eachRow(ctx, tx, scanResultFact, func(id AthleteID, r planner.Result) { all[id].Results = append(all[id].Results, r) }, resultFacts, who)
		},
		func() error {
			return taughtTable.ofAll(ctx, tx, who, everything, func(id AthleteID, t planner.Taught) { all[id].Taught = append(all[id].Taught, t) })
		},
		func() error {
			return pinTable.ofAll(ctx, tx, who, everything, func(id AthleteID, p Pin) { all[id].Pins = append(all[id].Pins, p.Pin) })
		},
		func() error {
			return moveTable.ofAll(ctx, tx, who, everything, func(id AthleteID, m Move) { all[id].Moves = append(all[id].Moves, m.Move) })
		},
	} {
		if err := read(); err != nil {
			return err
		}
	}
	return nil
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
