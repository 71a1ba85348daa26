package storage

import (
	"context"
	"database/sql"
	"errors"

	"musette/planner"
)

// openersDay tells whether openers stand two days before a race instead of one.
type openersDay bool

// String is the word of the plan file.
func (twoBefore openersDay) String() string {
	if twoBefore {
		return "D-2"
	}
	return "D-1"
}

// taperColumns are the columns of taperValues.
const taperColumns = `taper_days, usual_length, cut, pattern, openers`

// taperValues are taper settings for writing, in the order of taperColumns.
func taperValues(t *planner.Taper) []any {
	return []any{t.Days, t.Usual, t.Cut, t.Pattern.String(), openersDay(t.OpenersD2).String()}
}

// retireTaper keeps the taper settings that were in force until today, if they
// change, and returns since when the new ones are told. Settings that change back
// on the same day are as if nothing had been.
func retireTaper(ctx context.Context, tx *sql.Tx, rider *Athlete, is planner.Taper, today planner.Date) (on planner.Date, err error) {
	was := rider.Settings.Taper
	if is.Told = was.Told; is == was {
		return was.On, nil
	}
	if was.On < today {
		_, err = tx.ExecContext(ctx, `INSERT INTO past_taper (athlete_id, `+taperColumns+`, told, withdrawn) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
			concat([]any{rider.ID}, taperValues(&was), []any{stored(was.On), today.String()})...)
		if err != nil {
			return 0, err
		}
	}
	err = tx.QueryRowContext(ctx, `DELETE FROM past_taper WHERE id = (
		SELECT max(id) FROM past_taper WHERE athlete_id = ? AND taper_days = ? AND usual_length = ? AND cut = ? AND pattern = ? AND openers = ? AND withdrawn >= ?) RETURNING told`,
		concat([]any{rider.ID}, taperValues(&is), []any{today.String()})...).Scan((*optionalDate)(&on))
	if errors.Is(err, sql.ErrNoRows) {
		return today, nil
	}
	return on, err
}

// taperOf are the taper settings of a rider that are in force.
func taperOf(ctx context.Context, q queryer, athlete AthleteID) (t planner.Taper, err error) {
	err = scanTaper(&t, q.QueryRowContext(ctx, `SELECT `+taperColumns+`, taper_told, NULL FROM athlete WHERE id = ?`, athlete).Scan)
	return t, err
}

// pastTaperTable has the taper settings that were in force before.
var pastTaperTable = factTable[planner.Taper]{"past_taper", taperColumns + ", told, withdrawn", "withdrawn, id", scanTaper}

func scanTaper(t *planner.Taper, scan func(...any) error) error {
	var openers openersDay
	on, withdrawn := told(&t.Told)
	err := scan(&t.Days, &t.Usual, &t.Cut, oneOf(&t.Pattern, planner.UsualDays, planner.EverySecondDay, planner.EveryThirdDay), oneOf(&openers, false, true), on, withdrawn)
	t.OpenersD2 = bool(openers)
	return err
}
