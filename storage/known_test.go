package storage

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"testing"

	"musette/planner"
)

// What is read of several riders at once is what is read of each.
func TestKnownIsWhatIsStored(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	var ids []AthleteID
	for i := range 3 {
		rider := mustAthlete(t, db, fmt.Sprint("club ", i%2), fmt.Sprint("Rider ", i))
		if ids = append(ids, rider.ID); i > 0 {
			fillFacts(t, db, rider.ID)
		}
	}
	day := must(planner.ParseISODate("2026-06-14"))
	if err := db.AddCoachNote(ctx, ids[0], day, "Stay in the group", ids[2]); err != nil {
		t.Fatal(err)
	}
	for from, notes := range map[planner.Date]int{day: 1, day + 1: 0} {
		all := must(db.Known(ctx, from, append(ids, 999)...))
		if len(all) != len(ids) {
			t.Errorf("%d riders, want %d", len(all), len(ids))
		}
		for _, id := range ids {
			athlete := must(db.Athlete(ctx, id))
			want := &Known{Athlete: athlete, Club: must(db.Club(ctx, athlete.Club)), Facts: must(db.Facts(ctx, id)), State: must(db.State(ctx))}
			if id == ids[2] && notes > 0 {
				want.Notes = must(db.CoachNotes(ctx, id, from, from))
			}
			if got := all[id]; !reflect.DeepEqual(got, want) {
				t.Errorf("rider %d is\n%+v\nwant\n%+v", id, got, want)
			}
		}
	}
	_, err := db.KnownOf(ctx, day, 999)
	wantError(t, err, ErrNotFound)
}

// The state's number grows with all that reminders are made from, and with nothing
// that the sending of them writes.
func TestStateCountsChanges(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "Ines")
	race := raceOn(t, "Hill Loop", "2026-06-14")
	post := Post{Kind: PostReminder, Key: rider.PostKey(), Day: race.Date, Athlete: rider.ID, Club: rider.Club}
	add := func(db *DB) error { _, _, err := db.AddRace(ctx, rider.ID, race.Registered, race); return err }
	for _, tc := range []struct {
		what string
		do   func() error
		by   int64
	}{
		{"a race", func() error { return add(db) }, 1},
		{"the same race, refused", func() error { wantError(t, add(db), ErrExists); return nil }, 0},
		{"a setting", func() error {
			_, err := db.UpdateSettings(ctx, rider.ID, race.Date, func(s *Settings) error { s.Remind.Mode = RemindAlways; return nil })
			return err
		}, 1},
		{"a club's name", func() error { return db.RenameClub(ctx, rider.Club, "away") }, 1},
		{"a change of two things", func() error {
			return db.Change(ctx, func(tx *DB) error {
				return errors.Join(tx.RenameAthlete(ctx, rider.ID, "Greta"), tx.AddCoachNote(ctx, rider.ID, race.Date, "Rest", rider.ID))
			})
		}, 1},
		{"a claim", func() error { claimed, err := db.Claim(ctx, []Post{post}); post = claimed[0]; return err }, 0},
		{"what became of it", func() error { post.State = PostSent; return db.SettlePosts(ctx, []Post{post}) }, 0},
		{"a tick", func() error { return db.NoteTick(ctx, db.Now()) }, 0},
		{"a channel", func() error { return db.KeepChannel(ctx, rider.Key, "77") }, 0},
		{"a button", func() error { return db.SaveButton(ctx, "b", Button{Owner: rider.Key, Command: "ride"}) }, 0},
		{"an erasure", func() error { _, err := db.Erase(ctx, rider.Whose()); return err }, 1},
	} {
		before := must(db.State(ctx))
		if err := tc.do(); err != nil {
			t.Fatalf("%s: %v", tc.what, err)
		}
		if grew := must(db.State(ctx)) - before; grew != tc.by {
			t.Errorf("%s: the number grew by %d, want %d", tc.what, grew, tc.by)
		}
	}
}
