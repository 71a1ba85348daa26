package storage

import (
	"context"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

func TestRides(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me").ID
	first, day, on := planner.Ride{Date: day(t, "2026-05-31"), Minutes: 95, RPE: 7.5}, day(t, "2026-06-02"), planner.Told{On: today}
	for _, ride := range []Ride{{Ride: first, Note: strings.Repeat("ü", 200)}, {Ride: planner.Ride{Date: day, Minutes: 60}}, {Ride: planner.Ride{Date: day, Minutes: 55, RPE: 8}, Note: "flat"}} {
		if err := db.SetRide(ctx, rider, today, ride); err != nil {
			t.Fatal(err)
		}
	}
	first.Told = on
	told := Ride{Ride: planner.Ride{Date: day, Minutes: 55, RPE: 8, Told: on}, Note: "flat"}
	want := []Ride{{Ride: first, Note: strings.Repeat("ü", 200)}, told}
	for from, rest := range map[planner.Date][]Ride{first.Date: want, first.Date - 1: want, first.Date + 1: want[1:], day: want[1:], day + 1: nil} {
		if diff := diff(rest, must(db.Rides(ctx, rider, from))); diff != "" {
			t.Errorf("rides from %s (-want +got):\n%s", from, diff)
		}
	}
	told = Ride{Ride: planner.Ride{Date: day, Told: on}} // told again: rating and note go too
	if err := db.SetRide(ctx, rider, today, told); err != nil {
		t.Fatal(err)
	}
	if diff := diff([]Ride{told}, must(db.Rides(ctx, rider, day))); diff != "" {
		t.Errorf("told again (-want +got):\n%s", diff)
	}
	if err := db.RemoveRide(ctx, rider, today, day); err != nil {
		t.Error(err)
	}
	wantError(t, db.RemoveRide(ctx, rider, today, day), ErrNotFound)
	if got := must(db.Rides(ctx, rider, day)); len(got) != 0 {
		t.Errorf("left are %v", got)
	}
}

func TestResults(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-06-14T18:00:00Z")
	rider := mustAthlete(t, db, "home", "me").ID
	race := mustAddRace(t, db, rider, raceOn(t, "Hill Loop", "2026-06-14"))
	want := Result{Race: race.ID, Feeling: 8, Place: "12th", Note: "windy", Added: db.Now()}
	for _, result := range []Result{{Race: race.ID, Feeling: 3, Note: "x"}, want} {
		if err := db.SetResult(ctx, rider, result); err != nil {
			t.Fatal(err)
		}
	}
	if diff := diff(map[RaceID]Result{race.ID: want}, must(db.Results(ctx, rider))); diff != "" {
		t.Errorf("results (-want +got):\n%s", diff)
	}
	if err := db.RemoveRace(ctx, rider, today, race.ID); err != nil {
		t.Fatal(err)
	}
	wantError(t, db.SetResult(ctx, rider, want), ErrNotFound)
	if got := must(db.Results(ctx, rider)); len(got) != 0 {
		t.Errorf("a race that was taken out has the result %v", got)
	}
	if back := mustAddRace(t, db, rider, raceOn(t, "Hill Loop", "2026-06-14")); back.ID != race.ID {
		t.Errorf("the race comes back as %d, was %d", back.ID, race.ID)
	}
	want.Place, want.Note = "", "" // words about what was taken out are kept nowhere
	if diff := diff(map[RaceID]Result{race.ID: want}, must(db.Results(ctx, rider))); diff != "" {
		t.Errorf("results of the race that came back (-want +got):\n%s", diff)
	}
	if err := db.RemoveResult(ctx, rider, race.ID); err != nil {
		t.Error(err)
	}
	wantError(t, db.RemoveResult(ctx, rider, race.ID), ErrNotFound)
}

// A CHECK stands behind each range of what is new.
func TestRangesOfRidesResultsAndReminders(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	race := mustAddRace(t, db, rider.ID, raceOn(t, "Hill Loop", "2026-06-14"))
	long, now := strings.Repeat("x", 201), db.Now()
	ride := func(r Ride) error { return db.SetRide(ctx, rider.ID, today, r) }
	result := func(r Result) error { r.Race = race.ID; return db.SetResult(ctx, rider.ID, r) }
	remind := func(r Reminders) error {
		return second(db.UpdateSettings(ctx, rider.ID, today, func(s *Settings) error { s.Remind = r; return nil }))
	}
	post := func(p Post) error { p.Club = rider.Club; return second(db.Claim(ctx, []Post{p})) }
	for name, err := range map[string]error{
		"minutes over a day": ride(Ride{Ride: planner.Ride{Date: 20000, Minutes: 1441}}),
		"minutes below 0":    ride(Ride{Ride: planner.Ride{Date: 20000, Minutes: -1}}),
		"rating 0.5":         ride(Ride{Ride: planner.Ride{Date: 20000, RPE: 0.5}}),
		"rating 10.5":        ride(Ride{Ride: planner.Ride{Date: 20000, RPE: 10.5}}),
		"a day before 1971":  ride(Ride{Ride: planner.Ride{Date: 1}}),
		"long note":          ride(Ride{Ride: planner.Ride{Date: 20000}, Note: long}),
		"feeling 0":          result(Result{}),
		"feeling 11":         result(Result{Feeling: 11}),
		"long result":        result(Result{Feeling: 5, Place: long}),
		"long result's note": result(Result{Feeling: 5, Note: long}),
		"no time":            remind(Reminders{}),
		"time 24:00":         remind(Reminders{At: "24:00"}),
		"time 6:30":          remind(Reminders{At: "6:30"}),
		"time with seconds":  remind(Reminders{At: "06:30:00"}),
		"another kind":       post(Post{Kind: "letter", Key: rider.Key, Day: 20000, Due: now}),
		"another state":      post(Post{Kind: PostDigest, Key: rider.Key, Day: 20000, Due: now, State: "lost"}),
		"a post in 1970":     post(Post{Kind: PostDigest, Key: rider.Key, Day: 2, Due: now}),
		"a pause in 1970":    remind(Reminders{At: "06:30", Pause: 2}),
		"no key":             post(Post{Kind: PostDigest, Day: 20000, Due: now}),
		"a rider of nobody":  post(Post{Kind: PostDigest, Key: rider.Key, Day: 20000, Athlete: 99, Due: now}),
	} {
		if err == nil {
			t.Errorf("%s: stored", name)
		}
	}
	if got, posts := must(db.Facts(ctx, rider.ID)), must(db.OpenPosts(ctx)); len(got.Done) != 0 || len(got.Results) != 0 || len(posts) != 0 {
		t.Errorf("refused rows left %v, %v, %v", got.Done, got.Results, posts)
	}
	if diff := diff(rider, athleteNow(t, db, rider.ID)); diff != "" {
		t.Errorf("refused settings left a trace (-want +got):\n%s", diff)
	}
	for name, err := range map[string]error{
		"least ride": ride(Ride{Ride: planner.Ride{Date: 20000, RPE: 1}}), "longest": ride(Ride{Ride: planner.Ride{Date: 20001, Minutes: 1440, RPE: 10}, Note: long[1:]}),
		"worst legs": result(Result{Feeling: 1}), "best legs": result(Result{Feeling: 10, Place: long[1:], Note: long[1:]}),
		"midnight": remind(Reminders{At: "00:00", By: RemindThread, Since: time.Time{}}), "last minute": remind(Reminders{At: "23:59"}),
	} {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got := athleteNow(t, db, rider.ID).Settings.Remind.Since; got.UnixMilli() != 0 {
		t.Errorf("a missing instant is read as %s, want the first one", got)
	}
}

// What reads or writes what is new tells of a closed database.
func TestClosedDatabaseOfWhatIsNew(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	post := Post{Kind: PostReminder, Key: NameKey("me"), Day: 20000, Athlete: 1, Club: 1, Due: time.UnixMilli(0)}
	for name, err := range map[string]error{
		"SetRide": db.SetRide(ctx, 1, today, Ride{Ride: planner.Ride{Date: 20000}}), "RemoveRide": db.RemoveRide(ctx, 1, today, 20000), "Rides": second(db.Rides(ctx, 1, 20000)),
		"SetResult": db.SetResult(ctx, 1, Result{Race: 1, Feeling: 5}), "RemoveResult": db.RemoveResult(ctx, 1, 1), "Results": second(db.Results(ctx, 1)),
		"RemindTimes": second(db.RemindTimes(ctx)), "ToRemind": second(db.ToRemind(ctx, RemindTime{"UTC", "06:30"}, 20000, time.UnixMilli(0))),
		"Claim": second(db.Claim(ctx, []Post{post})), "SettlePosts": db.SettlePosts(ctx, []Post{post}), "OpenPosts": second(db.OpenPosts(ctx)),
		"ClubPosts": second(db.ClubPosts(ctx, 1, time.UnixMilli(0))), "ErasePosts": second(db.ErasePosts(ctx, time.UnixMilli(0))), "LastTick": second(db.LastTick(ctx)),
		"NoteTick": db.NoteTick(ctx, time.UnixMilli(0)), "Athletes": second(db.Athletes(ctx, 1)), "Athlete": second(db.Athlete(ctx, 1)), "KeepThread": db.KeepThread(ctx, 1, "1"),
		"AddIllness": second(db.AddIllness(ctx, 1, time.UnixMilli(0), planner.Illness{})), "EndIllness": third(db.EndIllness(ctx, 1, time.UnixMilli(0), 1, today)),
		"RemoveIllness": db.RemoveIllness(ctx, 1, time.UnixMilli(0), 1), "Illnesses": second(db.Illnesses(ctx, 1)), "AddHold": db.AddHold(ctx, 1, time.UnixMilli(0), planner.LevelHead),
		"ClearHolds": db.ClearHolds(ctx, 1, time.UnixMilli(0)), "DenyHold": db.DenyHold(ctx, 1, time.UnixMilli(0), planner.LevelHead), "Holds": second(db.Holds(ctx, 1)),
		"AddRide": db.AddRide(ctx, 1, today, Ride{}), "PutRide": db.PutRide(ctx, 1, today, 1, Ride{}), "RemoveEntry": db.RemoveEntry(ctx, 1, today, today, 1), "Entries": second(db.Entries(ctx, 1, today)),
		"SetPin": db.SetPin(ctx, 1, 1, today, planner.Pin{}), "RemovePin": db.RemovePin(ctx, 1, today, today), "Pins": second(db.Pins(ctx, 1)),
		"AddCoachNote": db.AddCoachNote(ctx, 1, today, "x", 1), "RemoveCoachNote": db.RemoveCoachNote(ctx, 1, 1), "CoachNotes": second(db.CoachNotes(ctx, 1, today, today)),
		"UpdateResult": third(db.UpdateResult(ctx, 1, today, 1, nil)), "JoinRace": second(db.JoinRace(ctx, 1, today, 1, planner.PriorityA)), "WithdrawWeek": db.WithdrawWeek(ctx, 1, today, today),
		"AddSeries":   second(db.AddSeries(ctx, 1, today, planner.Race{Name: "x", Date: today, Days: 1}, today)),
		"DigestClubs": second(db.DigestClubs(ctx, planner.Monday)), "Club": second(db.Club(ctx, 1)),
	} {
		if err == nil {
			t.Errorf("%s worked", name)
		}
	}
}

func TestAthletesOfAClub(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	tomas, ines, other := mustAthlete(t, db, "home", "tomas"), mustAthlete(t, db, "home", "Ines"), mustAthlete(t, db, "away", "Ines")
	if err := db.KeepThread(ctx, tomas.ID, "77"); err != nil {
		t.Fatal(err)
	}
	tomas.Thread = "77"
	if diff := diff([]Athlete{ines, tomas}, must(db.Athletes(ctx, ines.Club))); diff != "" {
		t.Errorf("riders (-want +got):\n%s", diff)
	}
	if diff := diff(other, must(db.Athlete(ctx, other.ID))); diff != "" {
		t.Errorf("rider (-want +got):\n%s", diff)
	}
	if err := db.KeepThread(ctx, tomas.ID, ""); err != nil {
		t.Fatal(err)
	}
	if got := must(db.Athlete(ctx, tomas.ID)).Thread; got != "" {
		t.Errorf("a forgotten thread is %q", got)
	}
	if got := must(db.Athletes(ctx, 99)); len(got) != 0 {
		t.Errorf("riders %v of no club", got)
	}
}

func TestDigestClubs(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	var clubs []Club
	for i, day := range []string{"monday", "sunday", "off", "monday", "monday"} {
		club := mustClub(t, db, strings.Repeat("9", i+1))
		clubs = append(clubs, setUp(t, db, club.ID, func(s *ClubSetup) { s.DigestDay, s.Coaches = day, "55" }))
	}
	if err := db.LeaveClub(ctx, clubs[3].Key); err != nil {
		t.Fatal(err)
	}
	for day, want := range map[planner.Weekday][]Club{planner.Monday: {clubs[0], clubs[4]}, planner.Sunday: {clubs[1]}, planner.Friday: nil} {
		if diff := diff(want, must(db.DigestClubs(ctx, day))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", day, diff)
		}
	}
	unnamed := mustClub(t, db, "77") // on Mondays, but nowhere
	home := must(db.EnsureClub(ctx, NameKey("home"), "home", "Europe/Paris"))
	if diff := diff([]Club{clubs[0], clubs[4], home}, must(db.DigestClubs(ctx, planner.Monday))); diff != "" {
		t.Errorf("without %q, which has no channel (-want +got):\n%s", unnamed.Name, diff)
	}
	setUp(t, db, unnamed.ID, func(s *ClubSetup) { s.DigestTime = "09:00" })
	times := []DigestTime{{"Europe/Lisbon", planner.Monday, "07:00"}, {"Europe/Paris", planner.Monday, "07:00"}, {"Europe/Lisbon", planner.Sunday, "07:00"}}
	if diff := diff(times, must(db.DigestTimes(ctx))); diff != "" {
		t.Errorf("times (-want +got):\n%s", diff)
	}
	if got := must(db.Club(ctx, clubs[0].ID)); got.Setup.Coaches != "55" || diff(clubs[0], got) != "" {
		t.Errorf("got %+v, want %+v", got, clubs[0])
	}
	if got := setUp(t, db, clubs[0].ID, func(s *ClubSetup) { s.Coaches = "" }); got.Setup.Coaches != "" {
		t.Errorf("a forgotten channel of the coaches is %q", got.Setup.Coaches)
	}
}
