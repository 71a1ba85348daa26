package storage

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"musette/planner"
	"musette/planner/typed"
)

const (
	fullWeek = "mon recovery 40min; strength 30min; tue intervals 1h30 5x3min/2min + 4x30s; wed endurance 1h45; thu off; " +
		"fri openers 45min; sat long 3h30; sun other 1h"
	shortWeek = "tue intervals 1h 4x4min; thu endurance 1h; sat long 2h"
)

func mustWeek(t testing.TB, text string) planner.Week {
	t.Helper()
	week, err := typed.Week(text)
	if err != nil {
		t.Fatal(err)
	}
	return week
}

// fillFacts stores one or more of every fact and returns what Facts must read back.
func fillFacts(t testing.TB, db *DB, rider AthleteID) *planner.Facts {
	t.Helper()
	ctx := context.Background()
	told := planner.Told{On: today}
	want := &planner.Facts{
		Weeks: []planner.DatedWeek{
			{From: day(t, "2026-01-05"), Week: mustWeek(t, shortWeek), Told: told},
			{From: day(t, "2026-04-06"), Week: mustWeek(t, fullWeek), Told: told},
		},
		Races: []planner.Race{
			raceOn(t, "Town Sprint", "2026-05-30"),
			{
				Name: `Hill "Loop"; Ü`, Date: day(t, "2026-06-13"), Priority: planner.PriorityB, Hours: 3.5, Kind: "road race", Days: 3,
				Start: "10:30", Emphasis: planner.Important, Place: "Market Square", TaperDays: 12, Registered: today, Told: told,
			},
		},
		Taper:    planner.Taper{Days: 10, Cut: 45, Pattern: planner.EveryThirdDay, OpenersD2: true, Told: told},
		Taught:   []planner.Taught{{Races: 6, Low: 110, Mid: 125, High: 140, Told: told}},
		OldTaper: []planner.Taper{{Told: planner.Told{Withdrawn: today}}},
		Blocks:   []planner.Block{{From: day(t, "2026-05-11"), To: day(t, "2026-05-17"), Percent: 20, Told: told}},
		Absences: []planner.Absence{{From: day(t, "2026-05-04"), To: day(t, "2026-05-04"), Told: told}, {From: day(t, "2026-06-01"), To: day(t, "2026-06-03"), Travel: true, Told: told}},
		Limits:   []planner.Limit{{Date: day(t, "2026-05-20"), Minutes: 45, Told: told}, {Date: day(t, "2026-05-21"), Told: told}},
		Done: []planner.Ride{{Date: day(t, "2025-12-31"), Minutes: 1440, RPE: 10, Told: told}, {Date: day(t, "2026-05-02"), Told: told},
			{Date: day(t, "2026-05-03"), Minutes: 95, RPE: 7.5, Told: told}},
		Results: []planner.Result{{Race: "Town Sprint", Feeling: 10}, {Race: `Hill "Loop"; Ü`, Feeling: 1}},
		Moves:   []planner.Move{{From: day(t, "2026-06-09"), To: day(t, "2026-06-10"), Told: told}, {From: day(t, "2026-05-26"), To: day(t, "2026-05-25"), Told: told}},
	}
	var steps []error
	for i := range want.Weeks { // later first: reading sorts by date
		steps = append(steps, db.SetWeek(ctx, rider, today, want.Weeks[len(want.Weeks)-1-i]))
	}
	for i := range want.Races {
		steps = append(steps, third(db.AddRace(ctx, rider, today, want.Races[len(want.Races)-1-i])))
	}
	for i := range want.Absences {
		steps = append(steps, second(db.AddAbsence(ctx, rider, today, want.Absences[len(want.Absences)-1-i])))
	}
	for i := range want.Limits {
		steps = append(steps, db.SetLimit(ctx, rider, today, want.Limits[len(want.Limits)-1-i]))
	}
	for i := range want.Done {
		steps = append(steps, db.SetRide(ctx, rider, today, Ride{Ride: want.Done[len(want.Done)-1-i]}))
	}
	steps = append(steps, db.SetTaught(ctx, rider, today, &want.Taught[0]))
	races := must(db.Races(ctx, rider))
	for i := range want.Results {
		want.Races[i].ID = int64(races[i].ID)
		want.Results[i].RaceID = int64(races[i].ID)
		steps = append(steps, db.SetResult(ctx, rider, Result{Race: races[i].ID, Feeling: want.Results[i].Feeling}))
	}
	for _, b := range want.Blocks {
		steps = append(steps, second(db.AddBlock(ctx, rider, today, b)))
	}
	for _, m := range want.Moves {
		steps = append(steps, second(db.AddMove(ctx, rider, today, m)))
	}
	steps = append(steps, second(db.UpdateSettings(ctx, rider, today, func(s *Settings) error { s.Taper = want.Taper; return nil })))
	for _, err := range steps {
		if err != nil {
			t.Fatal(err)
		}
	}
	return want
}

func wantFacts(t *testing.T, db *DB, rider AthleteID, want *planner.Facts) {
	t.Helper()
	got, err := db.Facts(context.Background(), rider)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("facts (-want +got):\n%s", diff)
	}
}

func TestEveryFactComesBack(t *testing.T) {
	db := newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	wantFacts(t, db, rider, &planner.Facts{})
	want := fillFacts(t, db, rider)
	wantFacts(t, db, rider, want)

	lists := map[string][2]any{
		"Weeks":    {want.Weeks, must(db.Weeks(context.Background(), rider))},
		"Races":    {want.Races, without(must(db.Races(context.Background(), rider)), func(r Race) planner.Race { return r.Race })},
		"Absences": {want.Absences, without(must(db.Absences(context.Background(), rider)), func(a Absence) planner.Absence { return a.Absence })},
		"Blocks":   {want.Blocks, without(must(db.Blocks(context.Background(), rider)), func(b Block) planner.Block { return b.Block })},
		"Moves":    {want.Moves, without(must(db.Moves(context.Background(), rider)), func(m Move) planner.Move { return m.Move })},
	}
	for name, pair := range lists {
		if diff := cmp.Diff(pair[0], pair[1]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

func TestToldAgainReplaces(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	want := fillFacts(t, db, rider)

	want.Weeks[0].Week = mustWeek(t, fullWeek)
	want.Limits[0].Minutes = 30
	want.Blocks[0].Percent = 30
	want.Absences[0].Travel = true
	blocks, absences := must(db.Blocks(ctx, rider)), must(db.Absences(ctx, rider))
	blockID := must(db.AddBlock(ctx, rider, today, want.Blocks[0]))
	absenceID := must(db.AddAbsence(ctx, rider, today, want.Absences[0]))
	for _, err := range []error{db.SetWeek(ctx, rider, today, want.Weeks[0]), db.SetLimit(ctx, rider, today, want.Limits[0])} {
		if err != nil {
			t.Error(err)
		}
	}
	wantFacts(t, db, rider, want)
	if blockID != blocks[0].ID || absenceID != absences[0].ID {
		t.Errorf("got block %d and absence %d, want %d and %d as before", blockID, absenceID, blocks[0].ID, absences[0].ID)
	}
}

func TestRemovedFactsAreGone(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	want := fillFacts(t, db, rider)
	remove := map[string]func() error{
		"race":    func() error { return db.RemoveRace(ctx, rider, today, must(db.Races(ctx, rider))[0].ID) },
		"absence": func() error { return db.RemoveAbsence(ctx, rider, today, must(db.Absences(ctx, rider))[0].ID) },
		"block":   func() error { return db.RemoveBlock(ctx, rider, today, must(db.Blocks(ctx, rider))[0].ID) },
		"limit":   func() error { return db.RemoveLimit(ctx, rider, today, want.Limits[0].Date) },
		"ride":    func() error { return db.RemoveRide(ctx, rider, today, want.Done[0].Date) },
		"move":    func() error { return db.RemoveMove(ctx, rider, today, must(db.Moves(ctx, rider))[0].ID) },
	}
	for name, call := range remove {
		if err := call(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	want.Races, want.Absences, want.Blocks, want.Limits, want.Moves = want.Races[1:], want.Absences[1:], nil, want.Limits[1:], want.Moves[1:]
	want.Done, want.Results = want.Done[1:], want.Results[1:] // a race takes its result along
	wantFacts(t, db, rider, want)
}

// Nobody reaches the facts of another rider, of the same club or of another.
func TestRidersAndClubsAreApart(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	owner := mustAthlete(t, db, "home", "me").ID
	want := fillFacts(t, db, owner)
	for _, stranger := range []Athlete{mustAthlete(t, db, "home", "other"), mustAthlete(t, db, "away", "me")} {
		race := must(db.Races(ctx, owner))[0]
		for name, err := range map[string]error{
			"change race":    third(db.ChangeRace(ctx, stranger.ID, today, race.ID, func(r *planner.Race) error { r.Name = "Taken over"; return nil })),
			"remove race":    db.RemoveRace(ctx, stranger.ID, today, race.ID),
			"remove absence": db.RemoveAbsence(ctx, stranger.ID, today, must(db.Absences(ctx, owner))[0].ID),
			"remove block":   db.RemoveBlock(ctx, stranger.ID, today, must(db.Blocks(ctx, owner))[0].ID),
			"remove limit":   db.RemoveLimit(ctx, stranger.ID, today, want.Limits[0].Date),
			"remove ride":    db.RemoveRide(ctx, stranger.ID, today, want.Done[0].Date),
			"set result":     db.SetResult(ctx, stranger.ID, Result{Race: race.ID, Feeling: 5}),
			"remove result":  db.RemoveResult(ctx, stranger.ID, race.ID),
			"remove move":    db.RemoveMove(ctx, stranger.ID, today, must(db.Moves(ctx, owner))[0].ID),
		} {
			t.Run(name, func(t *testing.T) { wantError(t, err, ErrNotFound) })
		}
		wantFacts(t, db, stranger.ID, &planner.Facts{})
	}
	wantFacts(t, db, owner, want)
}

func TestClubTakesEverythingAlong(t *testing.T) {
	db := newTestDB(t)
	gone, kept := mustAthlete(t, db, "home", "me"), mustAthlete(t, db, "away", "me")
	fillFacts(t, db, gone.ID)
	want := fillFacts(t, db, kept.ID)
	if _, err := db.writer.Exec(`DELETE FROM club WHERE id = ?`, gone.Club); err != nil {
		t.Fatal(err)
	}
	for _, table := range []string{"race", "week", "absence", "day_limit", "block", "move", "ride", "past_taper"} {
		var left int
		if err := db.reader.QueryRow(`SELECT count(*) FROM `+table+` WHERE athlete_id = ?`, gone.ID).Scan(&left); err != nil || left != 0 {
			t.Errorf("%s: got %d rows of the club and error %v, want none", table, left, err)
		}
	}
	_, err := db.Facts(context.Background(), gone.ID)
	wantError(t, err, ErrNotFound)
	wantFacts(t, db, kept.ID, want)
}

// Blocks lie apart; the one in the way is named.
func TestBlocksNeverOverlap(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider, other := mustAthlete(t, db, "home", "me").ID, mustAthlete(t, db, "home", "other").ID
	first := planner.Block{From: 20000, To: 20010, Percent: 20, Told: planner.Told{On: today}}
	must(db.AddBlock(ctx, rider, today, first))
	for _, b := range []planner.Block{{From: 20010, To: 20020, Percent: 20}, {From: 19990, To: 20000, Percent: 20}, {From: 20000, To: 20009, Percent: 20}} {
		_, err := db.AddBlock(ctx, rider, today, b)
		var overlap *Overlap
		if !errors.As(err, &overlap) || overlap.With != first {
			t.Errorf("%s to %s: got %v, want an overlap with the first", b.From, b.To, err)
		}
		must(db.AddBlock(ctx, other, today, b))
		if err := db.RemoveBlock(ctx, other, today, must(db.Blocks(ctx, other))[0].ID); err != nil {
			t.Fatal(err)
		}
	}
	must(db.AddBlock(ctx, rider, today, planner.Block{From: 20011, To: 20020, Percent: 20}))
	if got := must(db.Blocks(ctx, rider)); len(got) != 2 || got[0].Block != first {
		t.Errorf("stored %+v", got)
	}
}

func TestFactsOfNobody(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	const nobody AthleteID = 99
	for name, err := range map[string]error{
		"Facts":          second(db.Facts(ctx, nobody)),
		"EnsureAthlete":  second(db.EnsureAthlete(ctx, 99, NameKey("me"), "me")),
		"FindAthlete":    second(db.FindAthlete(ctx, 99, NameKey("me"))),
		"FindClub":       second(db.FindClub(ctx, NameKey("nowhere"))),
		"UpdateSettings": second(db.UpdateSettings(ctx, nobody, today, func(*Settings) error { return nil })),
		"AddRace":        third(db.AddRace(ctx, nobody, today, raceOn(t, "Hill Loop", "2026-06-13"))),
		"SetWeek":        db.SetWeek(ctx, nobody, today, planner.DatedWeek{From: 20000}),
		"AddAbsence":     second(db.AddAbsence(ctx, nobody, today, planner.Absence{From: 20000, To: 20000})),
		"AddBlock":       second(db.AddBlock(ctx, nobody, today, planner.Block{From: 20000, To: 20000, Percent: 20})),
		"SetLimit":       db.SetLimit(ctx, nobody, today, planner.Limit{Date: 20000}),
		"AddMove":        second(db.AddMove(ctx, nobody, today, planner.Move{From: 20000, To: 20001})),
		"UpdateClub":     second(db.UpdateClub(ctx, 99, func(*string, *ClubSetup) error { return nil })),
		"RenameClub":     db.RenameClub(ctx, 99, "home"),
		"RenameAthlete":  db.RenameAthlete(ctx, nobody, "me"),
		"SetFault":       db.SetFault(ctx, 99, "gone"),
		"ChooseClub":     db.ChooseClub(ctx, PlatformKey("discord", "1"), 99),
		"SetRide":        db.SetRide(ctx, nobody, today, Ride{Ride: planner.Ride{Date: 20000, Minutes: 60}}),
		"RemoveRide":     db.RemoveRide(ctx, nobody, today, 20000),
		"SetResult":      db.SetResult(ctx, nobody, Result{Race: 99, Feeling: 5}),
		"RemoveResult":   db.RemoveResult(ctx, nobody, 99),
		"Athlete":        second(db.Athlete(ctx, nobody)),
		"Club":           second(db.Club(ctx, 99)),
		"KeepThread":     db.KeepThread(ctx, nobody, "1"),
		"Claim":          second(db.Claim(ctx, []Post{{Kind: PostReminder, Key: NameKey("me"), Day: 20000, Athlete: nobody, Club: 99}})),
		"FindButton":     second(db.FindButton(ctx, "none")),
	} {
		t.Run(name, func(t *testing.T) { wantError(t, err, ErrNotFound) })
	}
}

func TestDamagedRowsAreReported(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	fillFacts(t, db, rider)
	if _, err := db.writer.Exec(`UPDATE week SET text = 'mon juggling 1h'`); err != nil {
		t.Fatal(err)
	}
	if _, err := db.Facts(ctx, rider); err == nil {
		t.Error("a week that nobody can read was left out in silence")
	}
	if _, err := db.Weeks(ctx, rider); err == nil {
		t.Error("a week that nobody can read was left out in silence")
	}
}

func TestFactsRefuseBadInput(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	for field, err := range map[string]error{
		"to":      second(db.AddAbsence(ctx, rider, today, planner.Absence{From: 20001, To: 20000})),
		"percent": second(db.AddBlock(ctx, rider, today, planner.Block{From: 20000, To: 20001, Percent: 101})),
		"minutes": db.SetLimit(ctx, rider, today, planner.Limit{Date: 20000, Minutes: 1441}),
		"Minutes": db.SetRide(ctx, rider, today, Ride{Ride: planner.Ride{Date: 20000, Minutes: -1}}),
		"name":    third(db.AddRace(ctx, rider, today, planner.Race{Date: 20000, Days: 1, Registered: 20000})),
	} {
		wantInputError(t, err, strings.ToLower(field))
	}
	wantInputError(t, second(db.AddBlock(ctx, rider, today, planner.Block{From: 20001, To: 20000, Percent: 20})), "to")
	wantInputError(t, second(db.AddMove(ctx, rider, today, planner.Move{From: 20000, To: 20000})), "to")
	wantInputError(t, second(db.UpdateSettings(ctx, rider, today, func(s *Settings) error { s.Taper.Cut = 90; return nil })), "cut")
	wantFacts(t, db, rider, &planner.Facts{})
}

// What a change has read before and what it has written together are what is stored.
func TestFactsAfter(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	fillFacts(t, db, rider)
	races := must(db.Races(ctx, rider))
	later := today.AddDays(1)
	for name, write := range map[string]func(tx *DB) error{
		"nothing": func(*DB) error { return nil },
		"race":    func(tx *DB) error { return third(tx.AddRace(ctx, rider, later, raceOn(t, "Loop", "2026-08-01"))) },
		"changed race": func(tx *DB) error {
			_, _, err := tx.ChangeRace(ctx, rider, later, races[1].ID, func(r *planner.Race) error { r.Hours = 4; return nil })
			return err
		},
		"race gone": func(tx *DB) error { return tx.RemoveRace(ctx, rider, later, races[0].ID) },
		"result":    func(tx *DB) error { return tx.SetResult(ctx, rider, Result{Race: races[1].ID, Feeling: 3}) },
		"week": func(tx *DB) error {
			return tx.SetWeek(ctx, rider, later, planner.DatedWeek{From: later, Week: mustWeek(t, shortWeek)})
		},
		"away": func(tx *DB) error {
			return second(tx.AddAbsence(ctx, rider, later, planner.Absence{From: later, To: later}))
		},
		"block": func(tx *DB) error {
			return second(tx.AddBlock(ctx, rider, later, planner.Block{From: later, To: later.AddDays(7), Percent: 30}))
		},
		"limit":      func(tx *DB) error { return tx.SetLimit(ctx, rider, later, planner.Limit{Date: later, Minutes: 5}) },
		"limit gone": func(tx *DB) error { return tx.RemoveLimit(ctx, rider, later, day(t, "2026-05-20")) },
		"illness": func(tx *DB) error {
			return second(tx.AddIllness(ctx, rider, time.Now(), planner.Illness{From: later, Level: planner.LevelRest}))
		},
		"hold": func(tx *DB) error { return tx.AddHold(ctx, rider, time.Now(), planner.LevelHead) },
		"ride": func(tx *DB) error {
			return tx.SetRide(ctx, rider, later, Ride{Ride: planner.Ride{Date: later, Minutes: 7}})
		},
		"taught": func(tx *DB) error { return tx.SetTaught(ctx, rider, later, nil) },
		"pin":    func(tx *DB) error { return tx.SetPin(ctx, rider, rider, later, planner.Pin{Date: later}) },
		"move": func(tx *DB) error {
			return second(tx.AddMove(ctx, rider, later, planner.Move{From: later, To: later.AddDays(1)}))
		},
		"settings": func(tx *DB) error {
			return second(tx.UpdateSettings(ctx, rider, later, func(s *Settings) error { s.Taper.Cut = 30; return nil }))
		},
	} {
		err := db.Change(ctx, func(tx *DB) error {
			before := must(tx.Facts(ctx, rider))
			if err := write(tx); err != nil {
				return err
			}
			after, whole := must(tx.FactsAfter(ctx, rider, before)), must(tx.Facts(ctx, rider))
			if diff := cmp.Diff(whole, after); diff != "" {
				t.Errorf("%s (-whole +after):\n%s", name, diff)
			}
			if name != "nothing" && cmp.Equal(before, after) {
				t.Errorf("%s changes nothing", name)
			}
			return nil
		})
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
