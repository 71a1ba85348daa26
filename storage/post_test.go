package storage

import (
	"context"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

func settle(db *DB, id PostID, state PostState, reason string) error {
	return db.SettlePosts(context.Background(), []Post{{ID: id, State: state, Reason: reason}})
}

func TestPosts(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-06-02T05:29:00Z")
	rider := mustAthlete(t, db, "home", "me")
	due := time.UnixMilli(1780378200123).UTC()
	reminder := Post{Kind: PostReminder, Key: rider.PostKey(), Day: day(t, "2026-06-02"), Athlete: rider.ID, Club: rider.Club, Due: due}
	skipped := Post{Kind: PostDigest, Key: NameKey("home"), Day: day(t, "2026-06-01"), Club: rider.Club, Due: due.Add(-time.Hour), State: PostSkipped, Reason: "too late"}
	claimed := must(db.Claim(ctx, []Post{reminder, skipped, reminder}))
	if len(claimed) != 2 {
		t.Fatalf("claimed %+v, want each once", claimed)
	}
	reminder.ID, reminder.State, reminder.Claimed, reminder.Changed = claimed[0].ID, PostClaimed, db.Now(), db.Now()
	skipped.ID, skipped.Claimed, skipped.Changed = claimed[1].ID, db.Now(), db.Now()
	if diff := diff([]Post{reminder, skipped}, claimed); diff != "" || reminder.ID == skipped.ID {
		t.Errorf("claimed (-want +got):\n%s", diff)
	}
	if diff := diff([]Post{reminder}, must(db.OpenPosts(ctx))); diff != "" {
		t.Errorf("open (-want +got):\n%s", diff)
	}
	if again := must(db.Claim(ctx, []Post{reminder, skipped})); len(again) != 0 {
		t.Errorf("claimed twice: %+v", again)
	}

	db.Now = fixedNow("2026-06-02T05:31:00Z")
	if err := settle(db, reminder.ID, PostClaimed, "busy"); err != nil {
		t.Fatal(err)
	}
	reminder.Tries, reminder.Reason, reminder.Changed = 1, "busy", db.Now()
	if diff := diff([]Post{reminder}, must(db.OpenPosts(ctx))); diff != "" {
		t.Errorf("after one more try (-want +got):\n%s", diff)
	}
	for since, want := range map[time.Time][]Post{db.Now(): {reminder}, db.Now().Add(time.Millisecond): nil, skipped.Changed: {skipped, reminder}} {
		if diff := diff(want, must(db.ClubPosts(ctx, rider.Club, since))); diff != "" {
			t.Errorf("posts since %s (-want +got):\n%s", since, diff)
		}
	}
	if got := must(db.ClubPosts(ctx, rider.Club+1, time.UnixMilli(0))); len(got) != 0 {
		t.Errorf("posts %+v of another club", got)
	}
}

// What became of a post is told once: it moves from claimed, and never back.
func TestPostsMoveFromClaimedAlone(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	for i, settled := range []PostState{PostSent, PostSkipped, PostFailed} {
		post := must(db.Claim(ctx, []Post{{Kind: PostReminder, Key: rider.PostKey(), Day: day(t, "2026-06-01").AddDays(i), Athlete: rider.ID, Club: rider.Club}}))[0]
		if err := settle(db, post.ID, settled, "why"); err != nil {
			t.Fatal(err)
		}
		for _, other := range []PostState{PostClaimed, PostSent, PostSkipped, PostFailed} {
			if err := settle(db, post.ID, other, "else"); err != nil {
				t.Error(err)
			}
		}
		all := must(db.ClubPosts(ctx, rider.Club, time.UnixMilli(0)))
		if got := all[len(all)-1]; got.State != settled || got.Reason != "why" || got.Tries != 1 {
			t.Errorf("a post that was %s is %+v", settled, got)
		}
		if again := must(db.Claim(ctx, []Post{post})); len(again) != 0 {
			t.Errorf("a post that was %s is claimed again", settled)
		}
	}
	open := must(db.Claim(ctx, []Post{{Kind: PostReminder, Key: rider.PostKey(), Day: day(t, "2026-07-01"), Athlete: rider.ID, Club: rider.Club}}))[0]
	if err := settle(db, open.ID+1, PostSent, ""); err != nil || must(db.OpenPosts(ctx))[0].ID != open.ID {
		t.Errorf("a post that is gone: %v", err)
	}
	if err := settle(db, open.ID, "lost", ""); err == nil {
		t.Error("a state that there is not was stored")
	}
}

// However many claim the same posts at once, on two handles, each is one's alone.
func TestClaimsOfManyAtOnce(t *testing.T) {
	ctx, path := context.Background(), filepath.Join(t.TempDir(), "musette.db")
	db := mustOpen(t, path)
	rider := mustAthlete(t, db, "home", "me")
	const posts, batch = 120, 15
	var wanted []Post
	for i := range posts {
		wanted = append(wanted, Post{Kind: PostReminder, Key: NameKey(fmt.Sprint("rider ", i)), Day: 20000, Athlete: rider.ID, Club: rider.Club})
	}
	handles := []*DB{db, mustOpen(t, path)}
	var mu sync.Mutex
	owners, numbers := map[Key]int{}, map[PostID]bool{}
	var group sync.WaitGroup
	for i := range 4 {
		group.Go(func() {
			for from := 0; from < posts; from += batch {
				claimed, err := handles[i%2].Claim(ctx, wanted[from:from+batch])
				if err != nil {
					t.Error(err)
				}
				mu.Lock()
				for _, p := range claimed {
					owners[p.Key]++
					numbers[p.ID] = true
				}
				mu.Unlock()
			}
		})
	}
	group.Wait()
	for _, p := range wanted {
		if owners[p.Key] != 1 {
			t.Errorf("a post was given to %d, want one", owners[p.Key])
		}
	}
	if got := must(db.OpenPosts(ctx)); len(got) != posts || len(numbers) != posts {
		t.Errorf("%d posts stored under %d numbers, want %d", len(got), len(numbers), posts)
	}
}

// A batch is claimed as a whole or not at all.
func TestBrokenClaimClaimsNothing(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	good := Post{Kind: PostReminder, Key: rider.PostKey(), Day: 20000, Athlete: rider.ID, Club: rider.Club}
	bad := good
	bad.Day, bad.Club = 20001, 99
	if got, err := db.Claim(ctx, []Post{good, bad}); err == nil || len(got) != 0 {
		t.Errorf("claimed %v, %v", got, err)
	}
	if got := must(db.OpenPosts(ctx)); len(got) != 0 {
		t.Errorf("left behind: %v", got)
	}
}

func TestErasePosts(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	post := Post{Kind: PostReminder, Key: rider.PostKey(), Athlete: rider.ID, Club: rider.Club, Day: 20000}
	claim := func(now string, state PostState) Post {
		db.Now, post.State = fixedNow(now), state
		post.Day++
		return must(db.Claim(ctx, []Post{post}))[0]
	}
	claim("2026-06-01T00:00:00Z", PostSent)
	open := claim("2026-06-01T00:00:00Z", PostClaimed)
	kept := claim("2026-06-02T00:00:00Z", PostFailed)
	if must(db.ErasePosts(ctx, kept.Changed)) {
		t.Error("more is left")
	}
	if diff := diff([]Post{open, kept}, must(db.ClubPosts(ctx, rider.Club, time.UnixMilli(0)))); diff != "" {
		t.Errorf("left (-want +got):\n%s", diff)
	}
	last := claim("2026-06-03T00:00:00Z", PostSent)
	if must(db.ErasePosts(ctx, last.Changed.Add(time.Millisecond))) {
		t.Error("more is left")
	}
	if next := claim("2026-06-04T00:00:00Z", PostSent); next.ID <= last.ID {
		t.Errorf("number %d is used again as %d", last.ID, next.ID)
	}
}

func TestClubTakesItsPostsAlong(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	gone, kept := mustAthlete(t, db, "home", "me"), mustAthlete(t, db, "away", "me")
	for _, a := range []Athlete{gone, kept} {
		must(db.Claim(ctx, []Post{{Kind: PostReminder, Key: a.PostKey(), Day: 20000, Athlete: a.ID, Club: a.Club}}))
	}
	if _, err := db.writer.Exec(`DELETE FROM club WHERE id = ?`, gone.Club); err != nil {
		t.Fatal(err)
	}
	if got := must(db.OpenPosts(ctx)); len(got) != 1 || got[0].Athlete != kept.ID {
		t.Errorf("left %+v, want that of the other club", got)
	}
}

func TestTicks(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	if got := must(db.LastTick(ctx)); !got.IsZero() {
		t.Errorf("a new database ran at %s", got)
	}
	for _, at := range []time.Time{time.UnixMilli(1780378200123).UTC(), time.UnixMilli(1780378140000).UTC()} { // clocks may step back
		if err := db.NoteTick(ctx, at); err != nil {
			t.Fatal(err)
		}
		if got := must(db.LastTick(ctx)); !got.Equal(at) {
			t.Errorf("ran at %s, want %s", got, at)
		}
	}
}
