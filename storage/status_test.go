package storage

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"musette/planner"
)

// What becomes of a race is told on a day: before it was planned, and what is
// undone on the same day leaves no trace.
func TestRaceStatus(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	race := raceOn(t, "Tour", "2026-06-13")
	race.Days = 5
	id := mustAddRace(t, db, rider, race).ID
	was := must(db.Facts(ctx, rider))
	become := func(today planner.Date, s planner.RaceStatus, on planner.Date) error {
		return third(db.ChangeRace(ctx, rider, today, id, func(r *planner.Race) error { r.Became(s, on); return nil }))
	}
	for _, s := range []planner.RaceStatus{planner.Cancelled, planner.NotStarted, planner.GaveUp, planner.Finished} {
		if err := become(today+5, s, race.Date+2); err != nil {
			t.Fatal(err)
		}
		facts := must(db.Facts(ctx, rider))
		if got := facts.KnownOn(today + 4).Races; len(got) != 1 || got[0].Status != planner.Planned || got[0].Days != 5 {
			t.Errorf("%s: the day before it is %+v", s, got)
		}
		days := 0
		if got := facts.KnownOn(today + 5).Races; len(got) == 1 && got[0].Status == s {
			days = got[0].Days
		}
		if want := map[planner.RaceStatus]int{planner.GaveUp: 3, planner.Finished: 5}[s]; days != want {
			t.Errorf("%s: it counts with %d days, want %d", s, days, want)
		}
		if got := must(db.Races(ctx, rider)); len(got) != 1 || got[0].Status != s || got[0].Days != 5 {
			t.Errorf("%s: the calendar has %+v", s, got)
		}
	}
	if err := become(today+5, planner.Planned, 0); err != nil {
		t.Fatal(err)
	}
	wantFacts(t, db, rider, was)
	if err := third(db.ChangeRace(ctx, rider, today+5, id, func(r *planner.Race) error { r.Status, r.Ended = planner.GaveUp, r.Date+5; return nil })); err == nil {
		t.Error("given up after its last day")
	}
	if err := third(db.ChangeRace(ctx, rider, today+6, id, func(r *planner.Race) error { r.Status = planner.Cancelled; r.Postpone(r.Date + 7); return nil })); err != nil {
		t.Fatal(err)
	}
	if got := must(db.Races(ctx, rider)); got[0].Date != race.Date+7 || got[0].Status != planner.Planned || got[0].ID != id {
		t.Errorf("postponed it is %+v", got[0])
	}
}

// Parts of a result are told one by one, and none drops another.
func TestResultInParts(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-06-14T18:00:00Z")
	rider := mustAthlete(t, db, "home", "me").ID
	race := raceOn(t, "Tour", "2026-06-13")
	race.Days = 3
	id := mustAddRace(t, db, rider, race).ID
	want := Result{Race: id, Added: db.Now()}
	tell := func(name string, change func(*Result)) {
		t.Helper()
		change(&want)
		_, after, err := db.UpdateResult(ctx, rider, race.Date+1, id, func(r *Result) error {
			ended := r.Ended
			change(r)
			if r.Outcome != planner.GaveUp {
				r.Ended = ended
			}
			return nil
		})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want.Ended = 0
		if want.Outcome == planner.GaveUp {
			want.Ended = race.Date + 1
		}
		if after != want || must(db.Results(ctx, rider))[id] != want {
			t.Errorf("%s: got %+v and %+v, want %+v", name, after, must(db.Results(ctx, rider))[id], want)
		}
	}
	tell("the note", func(r *Result) { r.Note = "windy" })
	if got := must(db.Facts(ctx, rider)).Results; len(got) != 0 {
		t.Errorf("without a feeling the planner has %v", got)
	}
	tell("how it was", func(r *Result) { r.Compared = planner.ComparedWorse })
	tell("the feeling", func(r *Result) { r.Feeling = 4 })
	tell("given up", func(r *Result) { r.Outcome = planner.GaveUp })
	if got := must(db.Facts(ctx, rider)).KnownOn(race.Date + 1); got.Races[0].Last() != race.Date+1 || len(got.Results) != 1 {
		t.Errorf("given up, yet the race goes on: %+v", got.Races)
	}
	tell("the place", func(r *Result) { r.Place = "DNF" })
	tell("finished after all", func(r *Result) { r.Outcome = planner.Finished })
	for name, change := range map[string]func(*Result) error{
		"feeling 11":     func(r *Result) error { r.Feeling = 11; return nil },
		"feeling -1":     func(r *Result) error { r.Feeling = -1; return nil },
		"a long note":    func(r *Result) error { r.Note = strings.Repeat("x", 201); return nil },
		"a refusal":      func(r *Result) error { r.Feeling, r.Outcome = 1, planner.NotStarted; return errors.New("no") },
		"another day":    func(r *Result) error { r.Outcome, r.Ended = planner.GaveUp, race.Date+9; return nil },
		"an early ended": func(r *Result) error { r.Outcome, r.Ended = planner.GaveUp, race.Date-1; return nil },
	} {
		if err := third(db.UpdateResult(ctx, rider, race.Date+1, id, change)); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
	if got := must(db.Results(ctx, rider))[id]; got != want {
		t.Errorf("refused parts left %+v, want %+v", got, want)
	}
	wantError(t, third(db.UpdateResult(ctx, rider+1, today, id, func(*Result) error { return nil })), ErrNotFound)
	if err := third(db.UpdateResult(ctx, rider, race.Date+1, id, func(r *Result) error { *r = Result{}; return nil })); err != nil {
		t.Fatal(err)
	}
	if got := must(db.Results(ctx, rider)); len(got) != 0 || must(db.Races(ctx, rider))[0].Status != planner.Planned {
		t.Errorf("nothing told leaves %+v", got)
	}
}

func TestJoinRace(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	ines, tom := mustAthlete(t, db, "home", "Ines").ID, mustAthlete(t, db, "home", "Tom").ID
	stranger := mustAthlete(t, db, "away", "Ann").ID
	race := raceOn(t, "Hill Loop", "2026-06-13")
	race.Start, race.Place, race.Kind, race.Days, race.Hours, race.Emphasis, race.TaperDays = "10:30", "Market Square", "stage race", 2, 3.5, planner.Important, 9
	id := mustAddRace(t, db, ines, race).ID
	got, err := db.JoinRace(ctx, tom, today+1, id, planner.PriorityB)
	if err != nil {
		t.Fatal(err)
	}
	want := planner.Race{ID: got.Race.ID, Name: race.Name, Date: race.Date, Start: race.Start, Place: race.Place, Kind: race.Kind, Days: 2, Priority: planner.PriorityB,
		Registered: today + 1, Told: planner.Told{On: today + 1}}
	if diff := diff([]Race{{got.ID, want}}, must(db.Races(ctx, tom))); diff != "" || got.ID == id {
		t.Errorf("joined (-want +got):\n%s", diff)
	}
	wantError(t, second(db.JoinRace(ctx, tom, today+1, id, planner.PriorityB)), ErrExists)
	wantError(t, second(db.JoinRace(ctx, stranger, today+1, id, planner.PriorityB)), ErrNotFound)
	other := mustAthlete(t, db, "home", "Ann").ID
	wantError(t, second(db.JoinRace(ctx, other, race.Date+1, id, planner.PriorityB)), ErrPast)
	if err := third(db.ChangeRace(ctx, ines, today+2, id, func(r *planner.Race) error { r.Became(planner.Cancelled, 0); return nil })); err != nil {
		t.Fatal(err)
	}
	wantError(t, second(db.JoinRace(ctx, other, today+2, id, planner.PriorityB)), ErrNotFound)
}

func TestSeries(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	race := raceOn(t, "Wednesday Crit", "2026-06-10")
	race.Priority = planner.PriorityC
	own := race
	own.Date, own.Name, own.Hours = race.Date+7, "wednesday crit", 2
	mustAddRace(t, db, rider, own)
	got := must(db.AddSeries(ctx, rider, today, race, race.Date+27))
	dates := ""
	for _, r := range got {
		dates += fmt.Sprint(" ", race.Date.DaysUntil(r.Date))
	}
	if all := must(db.Races(ctx, rider)); dates != " 0 14 21" || len(all) != 4 || all[1].Hours != 2 {
		t.Errorf("added on days%s of %+v", dates, all)
	}
	if got := must(db.Races(ctx, rider)); got[0].Registered != today || got[0].Race.ID != int64(got[0].ID) {
		t.Errorf("the first is %+v", got[0])
	}
	wantError(t, second(db.AddSeries(ctx, rider, today, race, race.Date+6)), ErrExists)
	if err := second(db.AddSeries(ctx, rider, today, race, race.Date-1)); err == nil {
		t.Error("a series that ends before it begins is taken")
	}
	if err := second(db.AddSeries(ctx, rider, today, race, race.Date.AddDays(7*mostRepeats))); err == nil {
		t.Error("an endless series is taken")
	}
	past := race
	past.Name, past.Date = "Old", today-7
	wantError(t, second(db.AddSeries(ctx, rider, today, past, today+7)), ErrPast)
	if got := must(db.Races(ctx, rider)); len(got) != 4 {
		t.Errorf("half a series is left: %+v", got)
	}
}
