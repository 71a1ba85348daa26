package storage

import (
	"context"
	"database/sql"
	"fmt"
	"slices"

	"musette/planner"
)

// Entry is a ride with its number among those of its day, which it keeps when others go.
type Entry struct {
	Nr int
	Ride
}

// Ride is one of the rides of a day; 0 minutes, which stand alone, are a missed day.
type Ride struct {
	planner.Ride
	Note string
}

// MostRides is how many rides a day can have.
const MostRides = 20

var rideVersions = versions{table: "ride", key: []string{"date", "nr"}, content: []string{"minutes", "rpe"}, notes: []string{"note"}}

// dayRide is a ride with its place in the day.
type dayRide struct {
	nr int
	Ride
}

// SetRide makes a ride all that was ridden on a day; what was entered about that day
// before is replaced.
func (db *DB) SetRide(ctx context.Context, athlete AthleteID, today planner.Date, ride Ride) error {
	return db.changeRides(ctx, athlete, ride.Date, func(tx *sql.Tx, told []dayRide) error {
		return setRide(ctx, tx, athlete, today, ride, told)
	})
}

func setRide(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, ride Ride, told []dayRide) error {
	for _, r := range told {
		if r.nr == 1 {
			continue
		}
		if err := rideVersions.withdraw(ctx, tx, athlete, today, r.Date.String(), r.nr); err != nil {
			return err
		}
	}
	return keepRide(ctx, tx, athlete, today, dayRide{1, ride})
}

func keepRide(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, r dayRide) error {
	if err := checkMinutes(r.Minutes); err != nil {
		return err
	}
	_, err := rideVersions.keep(ctx, tx, athlete, today,
		fact{key: []any{r.Date.String(), r.nr}, content: []any{r.Minutes, nullable(r.RPE)}, notes: []any{r.Note}})
	return err
}

// AddRide adds a ride to what was ridden on a day. After a missed day it is all
// of the day, and so is a missed day after rides.
func (db *DB) AddRide(ctx context.Context, athlete AthleteID, today planner.Date, ride Ride) error {
	return db.changeRides(ctx, athlete, ride.Date, func(tx *sql.Tx, told []dayRide) error {
		if ride.Minutes == 0 || len(told) == 0 || told[0].Minutes == 0 {
			return setRide(ctx, tx, athlete, today, ride, told)
		}
		last := told[len(told)-1].nr
		if last == MostRides {
			return planner.BadInput("day", "%s has %d rides already. Correct the last one instead", ride.Date, MostRides)
		}
		if err := checkDay(told, ride); err != nil {
			return err
		}
		return keepRide(ctx, tx, athlete, today, dayRide{last + 1, ride})
	})
}

// PutRide makes a ride the day's entry with that number, whether one is there or
// not; the others stay. A missed day is all of the day, and goes when a ride is told.
func (db *DB) PutRide(ctx context.Context, athlete AthleteID, today planner.Date, nr int, ride Ride) error {
	return db.changeRides(ctx, athlete, ride.Date, func(tx *sql.Tx, told []dayRide) error {
		if ride.Minutes == 0 {
			return setRide(ctx, tx, athlete, today, ride, told)
		}
		var others []dayRide
		for _, r := range told {
			switch {
			case r.nr == nr:
			case r.Minutes == 0:
				if err := rideVersions.withdraw(ctx, tx, athlete, today, r.Date.String(), r.nr); err != nil {
					return err
				}
			default:
				others = append(others, r)
			}
		}
		if err := checkDay(others, ride); err != nil {
			return err
		}
		return keepRide(ctx, tx, athlete, today, dayRide{nr, ride})
	})
}

// RemoveEntry forgets one entry of a day; ErrNotFound when it is not there.
func (db *DB) RemoveEntry(ctx context.Context, athlete AthleteID, today, day planner.Date, nr int) error {
	return db.changeRides(ctx, athlete, day, func(tx *sql.Tx, _ []dayRide) error {
		return rideVersions.withdraw(ctx, tx, athlete, today, day.String(), nr)
	})
}

// checkDay refuses more minutes than a day has.
func checkDay(told []dayRide, ride Ride) error {
	minutes := ride.Minutes
	for _, r := range told {
		minutes += r.Minutes
	}
	if minutes > minutesPerDay {
		return planner.BadInput("minutes", "the rides of %s add up to more than 24 h. For example 45", ride.Date)
	}
	return nil
}

// RemoveRide forgets all that was told of a day; ErrNotFound when nothing was.
func (db *DB) RemoveRide(ctx context.Context, athlete AthleteID, today, day planner.Date) error {
	return db.changeRides(ctx, athlete, day, func(tx *sql.Tx, told []dayRide) error {
		if len(told) == 0 {
			return ErrNotFound
		}
		for _, r := range told {
			if err := rideVersions.withdraw(ctx, tx, athlete, today, day.String(), r.nr); err != nil {
				return err
			}
		}
		return nil
	})
}

// changeRides works on the rides of a day, with nothing in between.
func (db *DB) changeRides(ctx context.Context, athlete AthleteID, day planner.Date, change func(tx *sql.Tx, told []dayRide) error) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		told, err := rideTable.of(ctx, tx, athlete, ` AND date = ?`+standing, day.String())
		if err != nil {
			return err
		}
		return change(tx, told)
	})
	if err != nil {
		return fmt.Errorf("rides on %s: %w", day, err)
	}
	return nil
}

// Entries lists what was entered about a day, in the order of its entries.
func (db *DB) Entries(ctx context.Context, athlete AthleteID, day planner.Date) ([]Entry, error) {
	rides, err := rideTable.of(ctx, db.source(), athlete, ` AND date = ?`+standing, day.String())
	if err != nil {
		return nil, fmt.Errorf("rides of rider %d: %w", athlete, explain(err))
	}
	return without(rides, func(r dayRide) Entry { return Entry{r.nr, r.Ride} }), nil
}

// Rides lists the rider's days with rides from one on, the earliest first: all
// rides of a day as one, with its minutes together, the rating weighted by them,
// the last note and the day on which something was entered last.
func (db *DB) Rides(ctx context.Context, athlete AthleteID, from planner.Date) ([]Ride, error) {
	all, err := rideTable.of(ctx, db.source(), athlete, ` AND date >= ?`+standing, from.String())
	if err != nil {
		return nil, fmt.Errorf("rides of rider %d: %w", athlete, explain(err))
	}
	var days []Ride
	for len(all) > 0 {
		n := slices.IndexFunc(all, func(r dayRide) bool { return r.Date != all[0].Date })
		if n < 0 {
			n = len(all)
		}
		days = append(days, together(all[:n]))
		all = all[n:]
	}
	return days, nil
}

// together is the rides of a day as one.
func together(rides []dayRide) Ride {
	bare := without(rides, func(r dayRide) planner.Ride { return r.Ride.Ride })
	sum := Ride{Ride: planner.Ride{Date: bare[0].Date, Told: bare[0].Told}}
	sum.Minutes, sum.RPE = planner.Ridden(bare)
	for _, r := range rides {
		if r.Note != "" {
			sum.Note = r.Note
		}
		sum.On = max(sum.On, r.On)
	}
	return sum
}

var rideTable = factTable[dayRide]{"ride", "date, nr, minutes, coalesce(rpe, 0.0), note, told, withdrawn", "date, nr, told, id", scanRide}

func scanRide(r *dayRide, scan func(...any) error) error {
	on, withdrawn := told(&r.Told)
	return scan(date(&r.Date), &r.nr, &r.Minutes, &r.RPE, &r.Note, on, withdrawn)
}
