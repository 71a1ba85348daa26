package storage

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"musette/planner"
)

// limitRows are the versions of the limit on a day, as text.
func limitRows(t *testing.T, db *DB, rider AthleteID) (rows []string) {
	t.Helper()
	for _, l := range must(db.Facts(context.Background(), rider)).Limits {
		row := fmt.Sprintf("%d told %d", l.Minutes, today.DaysUntil(l.On))
		if !l.Withdrawn.IsZero() {
			row += fmt.Sprintf(" withdrawn %d", today.DaysUntil(l.Withdrawn))
		}
		rows = append(rows, row)
	}
	return rows
}

// A fact that changes on a later day leaves a version; on the same day it does
// not, and telling again what stood before is as if nothing had been.
func TestVersionsOfAFact(t *testing.T) {
	const lift = -1
	type step struct{ day, minutes int }
	for name, tc := range map[string]struct {
		steps []step
		want  []string
	}{
		"told":                         {[]step{{0, 60}}, []string{"60 told 0"}},
		"told twice":                   {[]step{{0, 60}, {2, 60}}, []string{"60 told 0"}},
		"changed on the same day":      {[]step{{0, 60}, {0, 45}}, []string{"45 told 0"}},
		"taken back on the same day":   {[]step{{0, 60}, {0, lift}}, nil},
		"changed later":                {[]step{{0, 60}, {2, 45}}, []string{"60 told 0 withdrawn 2", "45 told 2"}},
		"taken back later":             {[]step{{0, 60}, {2, lift}}, []string{"60 told 0 withdrawn 2"}},
		"changed and undone":           {[]step{{0, 60}, {2, 45}, {2, 60}}, []string{"60 told 0"}},
		"changed twice and undone":     {[]step{{0, 60}, {2, 45}, {2, 30}, {2, 60}}, []string{"60 told 0"}},
		"taken back and undone":        {[]step{{0, 60}, {2, lift}, {2, 60}}, []string{"60 told 0"}},
		"changed, taken back, undone":  {[]step{{0, 60}, {2, 45}, {2, lift}, {2, 60}}, []string{"60 told 0"}},
		"taken back, told anew":        {[]step{{0, 60}, {2, lift}, {2, 45}}, []string{"60 told 0 withdrawn 2", "45 told 2"}},
		"taken back, told again later": {[]step{{0, 60}, {2, lift}, {3, 60}}, []string{"60 told 0 withdrawn 2", "60 told 3"}},
		"changed on each day":          {[]step{{0, 60}, {1, 45}, {2, 60}}, []string{"60 told 0 withdrawn 1", "45 told 1 withdrawn 2", "60 told 2"}},
		"a zone further west":          {[]step{{0, 60}, {2, 45}, {1, 30}}, []string{"60 told 0 withdrawn 2", "30 told 1"}},
		"a zone further west, undone":  {[]step{{0, 60}, {2, 45}, {1, 60}}, []string{"60 told 0"}},
		"west, taken back":             {[]step{{2, 60}, {1, lift}}, nil},
	} {
		ctx, db := context.Background(), newTestDB(t)
		rider := mustAthlete(t, db, "home", "me").ID
		on := today.AddDays(30)
		for _, s := range tc.steps {
			err := db.SetLimit(ctx, rider, today.AddDays(s.day), planner.Limit{Date: on, Minutes: max(0, s.minutes)})
			if s.minutes == lift {
				err = db.RemoveLimit(ctx, rider, today.AddDays(s.day), on)
			}
			if err != nil && !(s.minutes < 0 && errors.Is(err, ErrExists)) {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if got := limitRows(t, db, rider); !slices.Equal(got, tc.want) {
			t.Errorf("%s: got %q, want %q", name, got, tc.want)
		}
	}
}

// What is withdrawn keeps no note and no place, and gets them again when it is told again.
func TestWithdrawnVersionsKeepNoWords(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	race := raceOn(t, "Hill Loop", "2026-06-13")
	race.Place = "Market Square"
	id := mustAddRace(t, db, rider, race).ID
	ride := Ride{Ride: planner.Ride{Date: today, Minutes: 60}, Note: "sore knee"}
	was := must(db.Facts(ctx, rider))
	check := func(errs ...error) {
		t.Helper()
		for _, err := range errs {
			if err != nil {
				t.Fatal(err)
			}
		}
		var words int
		err := db.reader.QueryRow(`SELECT (SELECT count(*) FROM ride WHERE withdrawn IS NOT NULL AND note <> '') + (SELECT count(*) FROM race WHERE withdrawn IS NOT NULL AND place <> '')`).Scan(&words)
		if err != nil || words != 0 {
			t.Errorf("%d withdrawn rows keep words, %v", words, err)
		}
	}
	moved := func(r *planner.Race) error { r.Days = 2; return nil }
	check(db.SetRide(ctx, rider, today, ride), db.SetRide(ctx, rider, today+1, Ride{Ride: planner.Ride{Date: today, Minutes: 50}, Note: "less"}),
		third(db.ChangeRace(ctx, rider, today+1, id, moved)))
	check(db.RemoveRide(ctx, rider, today+2, today), db.RemoveRace(ctx, rider, today+2, id))
	if got := must(db.Facts(ctx, rider)); len(got.Done) != 2 || len(got.Races) != 2 || got.Races[0].Place+got.Races[1].Place != "" {
		t.Errorf("versions of rides %+v and races %+v, want two of each without a place", got.Done, got.Races)
	}
	check(db.SetRide(ctx, rider, today+2, Ride{Ride: planner.Ride{Date: today, Minutes: 50}, Note: "again"}))
	if rides := must(db.Rides(ctx, rider, today)); len(rides) != 1 || rides[0].Note != "again" || rides[0].Ride != (planner.Ride{Date: today, Minutes: 50, Told: planner.Told{On: today + 1}}) {
		t.Errorf("told again: %+v", rides)
	}
	race.Days = 2
	check(third(db.AddRace(ctx, rider, today+2, race)))
	check(third(db.ChangeRace(ctx, rider, today+2, id, func(r *planner.Race) error { r.Place = "Mill Bridge"; return nil })))
	if got := must(db.Races(ctx, rider)); len(got) != 1 || got[0].Place != "Mill Bridge" || got[0].On != today+1 || got[0].Registered != was.Races[0].Registered {
		t.Errorf("a race with another place is %+v, want it told as before", got)
	}
}

// spell is a row of days on which random facts are told, for the property below.
type spell struct {
	t     *testing.T
	r     *rand.Rand
	db    *DB
	rider AthleteID
	today planner.Date
}

// pick is one of few, so that things are told again.
func pick[T any](r *rand.Rand, all ...T) T { return all[r.IntN(len(all))] }

// tell changes one fact at random.
func (s *spell) tell() {
	ctx, r := context.Background(), s.r
	date := today.AddDays(60 + r.IntN(2))
	gone := r.IntN(3) == 0
	var err error
	switch r.IntN(8) {
	case 0:
		err = s.db.SetWeek(ctx, s.rider, s.today, planner.DatedWeek{From: date, Week: mustWeek(s.t, pick(r, "mon 1h", "tue 2h"))})
	case 1:
		if err = s.db.SetLimit(ctx, s.rider, s.today, planner.Limit{Date: date, Minutes: pick(r, 0, 45)}); gone {
			err = s.db.RemoveLimit(ctx, s.rider, s.today, date)
		}
	case 2:
		id, added := s.db.AddAbsence(ctx, s.rider, s.today, planner.Absence{From: date, To: date, Travel: r.IntN(2) == 0})
		if err = added; gone {
			err = s.db.RemoveAbsence(ctx, s.rider, s.today, id)
		}
	case 3:
		id, added := s.db.AddBlock(ctx, s.rider, s.today, planner.Block{From: date, To: date, Percent: pick(r, 10, 20)})
		if err = added; gone {
			err = s.db.RemoveBlock(ctx, s.rider, s.today, id)
		}
	case 4:
		id, added := s.db.AddMove(ctx, s.rider, s.today, planner.Move{From: date, To: date + 1})
		if err = added; gone {
			err = s.db.RemoveMove(ctx, s.rider, s.today, id)
		}
	case 5:
		ride := Ride{Ride: planner.Ride{Date: today.AddDays(-r.IntN(2)), Minutes: pick(r, 0, 60), RPE: pick(r, 0.0, 7.5)}, Note: pick(r, "", "windy")}
		if err = s.db.SetRide(ctx, s.rider, s.today, ride); gone {
			err = s.db.RemoveRide(ctx, s.rider, s.today, ride.Date)
		}
	case 6:
		_, err = s.db.UpdateSettings(ctx, s.rider, s.today, func(set *Settings) error {
			set.Taper.Days, set.Taper.Pattern, set.Coach = pick(r, 0, 10), pick(r, planner.UsualDays, planner.EveryThirdDay), r.IntN(2) == 0
			return nil
		})
	case 7:
		err = s.tellRace(gone)
	}
	if err != nil {
		s.t.Fatal(err)
	}
}

// tellRace adds, changes or removes a race, or changes the season as a whole.
func (s *spell) tellRace(gone bool) error {
	ctx, r := context.Background(), s.r
	races := must(s.db.Races(ctx, s.rider))
	change := func(race *planner.Race) error {
		race.Priority, race.Hours, race.Place, race.TaperDays = pick(r, planner.PriorityA, planner.PriorityB), pick(r, 0, 3.33), pick(r, "", "Mill Bridge"), pick(r, 0, 10)
		return nil
	}
	race := planner.Race{Name: pick(r, "Hill Loop", "Mill"), Date: today.AddDays(90), Days: 1}
	change(&race)
	switch _, _, err := s.db.AddRace(ctx, s.rider, s.today, race); {
	case !errors.Is(err, ErrExists):
		return err
	case gone:
		return s.db.RemoveRace(ctx, s.rider, s.today, pick(r, races...).ID)
	case r.IntN(3) == 0:
		return s.db.ChangeSeason(ctx, s.rider, s.today, func(races []Race, taper *planner.Taper) error {
			for i := range races {
				races[i].Priority = planner.PriorityA
			}
			taper.Days = 10
			return nil
		})
	}
	return third(s.db.ChangeRace(ctx, s.rider, s.today, pick(r, races...).ID, change))
}

// restore tells again what was known, as undoing all of a day does.
func (s *spell) restore(was *planner.Facts) {
	ctx := context.Background()
	now := must(s.db.Facts(ctx, s.rider)).KnownOn(s.today)
	var errs []error
	for _, l := range now.Limits {
		errs = append(errs, s.db.RemoveLimit(ctx, s.rider, s.today, l.Date))
	}
	for _, a := range must(s.db.Absences(ctx, s.rider)) {
		errs = append(errs, s.db.RemoveAbsence(ctx, s.rider, s.today, a.ID))
	}
	for _, b := range must(s.db.Blocks(ctx, s.rider)) {
		errs = append(errs, s.db.RemoveBlock(ctx, s.rider, s.today, b.ID))
	}
	for _, m := range must(s.db.Moves(ctx, s.rider)) {
		errs = append(errs, s.db.RemoveMove(ctx, s.rider, s.today, m.ID))
	}
	for _, d := range now.Done {
		errs = append(errs, s.db.RemoveRide(ctx, s.rider, s.today, d.Date))
	}
	for _, r := range must(s.db.Races(ctx, s.rider)) {
		errs = append(errs, s.db.RemoveRace(ctx, s.rider, s.today, r.ID))
	}
	for _, w := range was.Weeks {
		errs = append(errs, s.db.SetWeek(ctx, s.rider, s.today, w))
	}
	for _, l := range was.Limits {
		errs = append(errs, s.db.SetLimit(ctx, s.rider, s.today, l))
	}
	for _, a := range was.Absences {
		errs = append(errs, second(s.db.AddAbsence(ctx, s.rider, s.today, a)))
	}
	for _, b := range was.Blocks {
		errs = append(errs, second(s.db.AddBlock(ctx, s.rider, s.today, b)))
	}
	for _, m := range was.Moves {
		errs = append(errs, second(s.db.AddMove(ctx, s.rider, s.today, m)))
	}
	for _, d := range was.Done {
		errs = append(errs, s.db.SetRide(ctx, s.rider, s.today, Ride{Ride: d}))
	}
	for _, r := range was.Races {
		errs = append(errs, third(s.db.AddRace(ctx, s.rider, s.today, r)))
	}
	errs = append(errs, second(s.db.UpdateSettings(ctx, s.rider, s.today, func(set *Settings) error { set.Taper = was.Taper; return nil })))
	if err := errors.Join(errs...); err != nil {
		s.t.Fatal(err)
	}
}

// bare is what was known, without its dates, and without places, which go with time.
func bare(f *planner.Facts) *planner.Facts {
	f = f.Undated()
	for i := range f.Races {
		f.Races[i].Place = ""
	}
	slices.SortFunc(f.Races, func(a, b planner.Race) int { return cmp.Or(int(a.Date-b.Date), cmp.Compare(a.Name, b.Name)) })
	return f
}

// For every day: what the facts say later was known on it is what was known when
// it was over, whatever has been told since. A day whose changes are all undone
// leaves the facts as they were.
func TestWhatWasKnownStaysKnown(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	races, tapers := 0, 0
	for seed := range uint64(8) {
		db := newTestDB(t)
		s := &spell{t: t, r: rand.New(rand.NewPCG(seed, 1)), db: db, rider: mustAthlete(t, db, "home", "me").ID, today: today}
		if err := db.SetWeek(ctx, s.rider, today, planner.DatedWeek{From: today.AddDays(60)}); err != nil {
			t.Fatal(err)
		}
		known := map[planner.Date]*planner.Facts{}
		for ; s.today < today+25; s.today++ {
			before := must(db.Facts(ctx, s.rider))
			for range s.r.IntN(6) {
				s.tell()
			}
			if had := before.KnownOn(s.today); s.today > today && len(had.Weeks) == len(must(db.Weeks(ctx, s.rider))) && s.r.IntN(3) == 0 {
				s.restore(had)
				if diff := gocmp.Diff(noPlaces(before), noPlaces(must(db.Facts(ctx, s.rider)))); diff != "" {
					t.Fatalf("seed %d: undone on day %d (-before +after):\n%s", seed, today.DaysUntil(s.today), diff)
				}
			}
			known[s.today] = bare(must(db.Facts(ctx, s.rider)).KnownOn(s.today))
		}
		facts := must(db.Facts(ctx, s.rider))
		for day, want := range known {
			if diff := gocmp.Diff(want, bare(facts.KnownOn(day)), cmpopts.EquateEmpty()); diff != "" {
				t.Fatalf("seed %d: known on day %d (-then +now):\n%s", seed, today.DaysUntil(day), diff)
			}
		}
		races, tapers = races+len(facts.Races), tapers+len(facts.OldTaper)
	}
	if races < 24 || tapers < 24 {
		t.Errorf("%d versions of races and %d of tapers are too few to tell", races, tapers)
	}
}

// noPlaces leaves out places, which a removal takes away.
func noPlaces(f *planner.Facts) *planner.Facts {
	copied := *f
	copied.Races = slices.Clone(f.Races)
	for i := range copied.Races {
		copied.Races[i].Place = ""
	}
	return &copied
}
