package storage

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"sync"

	"musette/planner"
	"musette/planner/typed"
)

var weekVersions = versions{table: "week", key: []string{"from_date"}, content: []string{"text", "second"}}

// SetWeek keeps a typical week from its date on; a week from the same date is replaced.
func (db *DB) SetWeek(ctx context.Context, athlete AthleteID, today planner.Date, week planner.DatedWeek) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		_, err := weekVersions.keep(ctx, tx, athlete, today, fact{key: []any{week.From.String()}, content: []any{week.Week.String(), secondText(week.Second)}})
		return err
	})
	if err != nil {
		return fmt.Errorf("week from %s of rider %d: %w", week.From, athlete, err)
	}
	return nil
}

// secondText is the other of two weeks in turn as it is stored, "" for none.
func secondText(w *planner.Week) string {
	if w == nil {
		return ""
	}
	return w.String()
}

// WithdrawWeek takes back a week that was entered for later, or today. One that was entered
// before and holds is ErrPast, then the only one is refused, and where none begins it
// is ErrNotFound.
func (db *DB) WithdrawWeek(ctx context.Context, athlete AthleteID, today, from planner.Date) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		told, err := weekTable.of(ctx, tx, athlete, standing)
		if err != nil {
			return err
		}
		at := slices.IndexFunc(told, func(w planner.DatedWeek) bool { return w.From == from })
		switch {
		case at < 0:
			return ErrNotFound
		case told[at].On >= today: // as if it had never been told
		case from <= today:
			return ErrPast
		case len(told) == 1:
			return planner.BadInput("from", "the week from %s is your only one. Share another one first", from)
		}
		return weekVersions.withdraw(ctx, tx, athlete, today, from.String())
	})
	if err != nil {
		return fmt.Errorf("take back the week from %s of rider %d: %w", from, athlete, err)
	}
	return nil
}

// Weeks lists the rider's typical weeks, the earliest first.
func (db *DB) Weeks(ctx context.Context, athlete AthleteID) ([]planner.DatedWeek, error) {
	weeks, err := weekTable.of(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("weeks of rider %d: %w", athlete, explain(err))
	}
	return weeks, nil
}

var weekTable = factTable[planner.DatedWeek]{"week", "from_date, text, second, told, withdrawn", "from_date, told, id", scanWeek}

// weeksRead are weeks by their stored text, which are read time and again.
var weeksRead struct {
	sync.Mutex
	of map[string]planner.Week
}

// mostWeeksRead bounds them: a kilobyte each.
const mostWeeksRead = 1000

// forgetWeeks drops them, for they are what riders have written.
func forgetWeeks() {
	weeksRead.Lock()
	defer weeksRead.Unlock()
	weeksRead.of = nil
}

// parsed is the week of a stored text. Nobody shares its sessions.
func parsed(text string) (planner.Week, error) {
	weeksRead.Lock()
	week, ok := weeksRead.of[text]
	weeksRead.Unlock()
	if !ok {
		var err error
		if week, err = typed.Week(text); err != nil {
			return week, err
		}
		weeksRead.Lock()
		if weeksRead.of == nil || len(weeksRead.of) >= mostWeeksRead {
			weeksRead.of = map[string]planner.Week{}
		}
		weeksRead.of[text] = week
		weeksRead.Unlock()
	}
	for d := range week {
		week[d].Sessions = slices.Clone(week[d].Sessions)
	}
	return week, nil
}

func scanWeek(w *planner.DatedWeek, scan func(...any) error) error {
	var text, other string
	on, withdrawn := told(&w.Told)
	err := scan(date(&w.From), &text, &other, on, withdrawn)
	if err != nil {
		return err
	}
	if w.Week, err = parsed(text); err == nil && other != "" {
		w.Second = new(planner.Week)
		*w.Second, err = parsed(other)
	}
	if err != nil {
		return fmt.Errorf("stored week from %s: %w", w.From, err)
	}
	return nil
}
