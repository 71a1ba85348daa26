package storage

import (
	"context"
	"database/sql"
	"fmt"
	"maps"
	"slices"
	"strings"

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
// settings that are in force. Most riders have nothing in most tables, so it asks
// first which ones are worth a query.
func readFacts(ctx context.Context, tx *sql.Tx, all map[AthleteID]*planner.Facts) error {
	who := listOf(slices.Collect(maps.Keys(all)))
	filled, err := list(ctx, tx, func(s *string, scan func(...any) error) error { return scan(s) }, filledTables, who)
	if err != nil {
		return err
	}
	for _, table := range filled {
		if err := factReaders[table](ctx, tx, who, all); err != nil {
			return err
		}
	}
	return nil
}

// factReaders read a table's rows of riders into their facts.
var factReaders = map[string]func(context.Context, queryer, riders, map[AthleteID]*planner.Facts) error{
	"race": func(ctx context.Context, q queryer, who riders, all map[AthleteID]*planner.Facts) error {
		err := eachRow(ctx, q, scanRace, func(id AthleteID, r Race) { all[id].Races = append(all[id].Races, r.Race) }, raceVersions, who)
		if err != nil {
			return err
		}
		return eachRow(ctx, q, scanResultFact, func(id AthleteID, r planner.Result) { all[id].Results = append(all[id].Results, r) }, resultFacts, who)
	},
	pastTaperTable.name: into(&pastTaperTable, func(f *planner.Facts, t planner.Taper) { f.OldTaper = append(f.OldTaper, t) }),
	weekTable.name:      into(&weekTable, func(f *planner.Facts, w planner.DatedWeek) { f.Weeks = append(f.Weeks, w) }),
	absenceTable.name:   into(&absenceTable, func(f *planner.Facts, a Absence) { f.Absences = append(f.Absences, a.Absence) }),
	blockTable.name:     into(&blockTable, func(f *planner.Facts, b Block) { f.Blocks = append(f.Blocks, b.Block) }),
	limitTable.name:     into(&limitTable, func(f *planner.Facts, l planner.Limit) { f.Limits = append(f.Limits, l) }),
	illnessTable.name:   into(&illnessTable, func(f *planner.Facts, i Illness) { f.Ill = append(f.Ill, i.Illness) }),
	holdTable.name:      into(&holdTable, func(f *planner.Facts, h Hold) { f.Holds = append(f.Holds, h.versions()...) }),
	rideTable.name:      into(&rideTable, func(f *planner.Facts, r dayRide) { f.Done = append(f.Done, r.Ride.Ride) }),
	taughtTable.name:    into(&taughtTable, func(f *planner.Facts, t planner.Taught) { f.Taught = append(f.Taught, t) }),
	pinTable.name:       into(&pinTable, func(f *planner.Facts, p Pin) { f.Pins = append(f.Pins, p.Pin) }),
	moveTable.name:      into(&moveTable, func(f *planner.Facts, m Move) { f.Moves = append(f.Moves, m.Move) }),
}

// into reads all rows of riders in a table of facts.
func into[T any](t *factTable[T], take func(*planner.Facts, T)) func(context.Context, queryer, riders, map[AthleteID]*planner.Facts) error {
	return func(ctx context.Context, q queryer, who riders, all map[AthleteID]*planner.Facts) error {
		return t.ofAll(ctx, q, who, everything, func(id AthleteID, row T) { take(all[id], row) })
	}
}

// filledTables names the tables of facts with rows of riders.
var filledTables = func() string {
	var asked []string
	for _, table := range slices.Sorted(maps.Keys(factReaders)) {
		asked = append(asked, fmt.Sprintf(`SELECT '%s' WHERE EXISTS (SELECT 1 FROM %s WHERE %s)`, table, table, ofRiders))
	}
	return strings.Join(asked, " UNION ALL ")
}()

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
