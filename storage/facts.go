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

// FactsAfter is Facts inside a Change that has read them before: it reads only the
// tables again into which this Change has written, and takes the rest from before.
func (db *DB) FactsAfter(ctx context.Context, athlete AthleteID, before *planner.Facts) (*planner.Facts, error) {
	if db.tx == nil || db.written == nil {
		return db.Facts(ctx, athlete)
	}
	facts := *before
	err := db.read(ctx, func(tx *sql.Tx) (err error) {
		if facts.Taper, err = taperOf(ctx, tx, athlete); err != nil {
			return err
		}
		who, all := listOf([]AthleteID{athlete}), map[AthleteID]*planner.Facts{athlete: &facts}
		for _, table := range factTables {
			if !db.written.any(table.rows) {
				continue
			}
			table.clear(&facts)
			if err := table.read(ctx, tx, who, all); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("facts of rider %d after a change: %w", athlete, err)
	}
	return &facts, nil
}

// readFacts reads the facts of riders, a query a table: all but their taper
// settings that are in force. Most riders have nothing in most tables, so it asks
// first which ones are worth a query.
func readFacts(ctx context.Context, tx *sql.Tx, all map[AthleteID]*planner.Facts) error {
	who := listOf(slices.Collect(maps.Keys(all)))
	filled, err := list(ctx, tx, func(n *int, scan func(...any) error) error { return scan(n) }, filledTables, who)
	if err != nil {
		return err
	}
	for _, n := range filled {
		if err := factTables[n].read(ctx, tx, who, all); err != nil {
			return err
		}
	}
	return nil
}

// factReader reads what the facts hold of some tables.
type factReader struct {
	rows  []string // the tables; without a row in the first there is nothing to read
	read  func(context.Context, queryer, riders, map[AthleteID]*planner.Facts) error
	clear func(*planner.Facts)
}

// factTables are all tables that facts are read from.
var factTables = [...]factReader{
	{[]string{"race", "past_race", "race_day", "result"}, readRaces, func(f *planner.Facts) { f.Races, f.Results = nil, nil }},
	into(&pastTaperTable, func(f *planner.Facts) *[]planner.Taper { return &f.OldTaper }, one),
	into(&weekTable, func(f *planner.Facts) *[]planner.DatedWeek { return &f.Weeks }, one),
	into(&absenceTable, func(f *planner.Facts) *[]planner.Absence { return &f.Absences }, func(a Absence) []planner.Absence { return one(a.Absence) }),
	into(&blockTable, func(f *planner.Facts) *[]planner.Block { return &f.Blocks }, func(b Block) []planner.Block { return one(b.Block) }),
	into(&limitTable, func(f *planner.Facts) *[]planner.Limit { return &f.Limits }, one),
	into(&illnessTable, func(f *planner.Facts) *[]planner.Illness { return &f.Ill }, func(i Illness) []planner.Illness { return one(i.Illness) }),
	into(&holdTable, func(f *planner.Facts) *[]planner.Hold { return &f.Holds }, Hold.versions),
	into(&rideTable, func(f *planner.Facts) *[]planner.Ride { return &f.Done }, func(r dayRide) []planner.Ride { return one(r.Ride.Ride) }),
	into(&taughtTable, func(f *planner.Facts) *[]planner.Taught { return &f.Taught }, one),
	into(&pinTable, func(f *planner.Facts) *[]planner.Pin { return &f.Pins }, func(p Pin) []planner.Pin { return one(p.Pin) }),
	into(&moveTable, func(f *planner.Facts) *[]planner.Move { return &f.Moves }, func(m Move) []planner.Move { return one(m.Move) }),
}

func one[T any](v T) []T { return []T{v} }

func readRaces(ctx context.Context, q queryer, who riders, all map[AthleteID]*planner.Facts) error {
	err := eachRow(ctx, q, scanRace, func(id AthleteID, r Race) { all[id].Races = append(all[id].Races, r.Race) }, raceVersions, who)
	if err != nil {
		return err
	}
	return eachRow(ctx, q, scanResultFact, func(id AthleteID, r planner.Result) { all[id].Results = append(all[id].Results, r) }, resultFacts, who)
}

// into reads a table of facts whose rows become entries of one list.
func into[T, F any](t *factTable[T], field func(*planner.Facts) *[]F, entries func(T) []F) factReader {
	return factReader{
		rows: []string{t.name},
		read: func(ctx context.Context, q queryer, who riders, all map[AthleteID]*planner.Facts) error {
			return t.ofAll(ctx, q, who, everything, func(id AthleteID, row T) {
				list := field(all[id])
				*list = append(*list, entries(row)...)
			})
		},
		clear: func(f *planner.Facts) { *field(f) = nil },
	}
}

// filledTables asks which of factTables have rows of riders. It goes from rider to
// rider: a list of them made for each table takes ten times as long.
var filledTables = func() string {
	var asked []string
	for n, table := range factTables {
		asked = append(asked, fmt.Sprintf(`SELECT %d WHERE EXISTS (SELECT 1 FROM json_each(?1) CROSS JOIN %s ON athlete_id = value)`, n, table.rows[0]))
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
