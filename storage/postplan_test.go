package storage

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

// A call erases no more than its pieces hold, the oldest first, and says whether more is left.
func TestErasePostsInPieces(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	const most, old = erasePiece * erasePieces, erasePiece*erasePieces + 700
	posts := make([]Post, old)
	for i := range posts {
		posts[i] = Post{Kind: PostReminder, Key: rider.PostKey(), Day: planner.Date(1000 + i), Athlete: rider.ID, Club: rider.Club, State: PostSent}
	}
	db.Now = fixedNow("2026-06-01T00:00:00Z")
	must(db.Claim(ctx, posts))
	count := func() (n int) {
		if err := db.reader.QueryRow(`SELECT count(*) FROM post`).Scan(&n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	for i, want := range []int{old - most, 0} {
		if left := must(db.ErasePosts(ctx, db.Now().Add(time.Hour))); left != (want > 0) || count() != want {
			t.Errorf("call %d: %d left, said %t; want %d", i+1, count(), left, want)
		}
	}
}

// What runs each minute, each day or when riders leave goes by an index.
func TestPostQueriesGoByIndex(t *testing.T) {
	db := newTestDB(t)
	for index, query := range map[string]string{
		"post_old":                               eraseOld,
		"post_open":                              `SELECT id FROM post WHERE state = 'claimed' ORDER BY due_ms, id`,
		"post_by_club":                           `SELECT id FROM post WHERE club_id = ? AND changed_ms >= ? ORDER BY changed_ms, id`,
		"post_by_athlete":                        `DELETE FROM post WHERE athlete_id = ?`,
		"club_with_digest":                       digestClubs,
		"SCAN club USING INDEX club_with_digest": digestTimes,
	} {
		var args []any
		for range strings.Count(query, "?") {
			args = append(args, "1")
		}
		rows, err := db.reader.Query("EXPLAIN QUERY PLAN "+query, args...)
		if err != nil {
			t.Fatal(err)
		}
		var plan strings.Builder
		for rows.Next() {
			var id, parent, unused int
			var detail string
			if err := rows.Scan(&id, &parent, &unused, &detail); err != nil {
				t.Fatal(err)
			}
			fmt.Fprintln(&plan, detail)
		}
		rows.Close()
		scans := strings.Contains(plan.String(), "SCAN post") || strings.Contains(plan.String(), "SCAN club\n")
		if !strings.Contains(plan.String(), index) || scans {
			t.Errorf("want %s for %s:\n%s", index, query, plan.String())
		}
	}
}

// What is stored and makes no sense is told from what may be read later.
func TestUnreadable(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	must(db.Claim(ctx, []Post{{Kind: PostReminder, Key: rider.PostKey(), Day: 20000, Athlete: rider.ID, Club: rider.Club}}))
	if _, err := db.writer.Exec(`PRAGMA ignore_check_constraints = ON; UPDATE post SET day = 'soon'`); err != nil {
		t.Fatal(err)
	}
	if _, err := db.OpenPosts(ctx); !Unreadable(err) {
		t.Errorf("a day called soon: %v", err)
	}
	ended, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := db.OpenPosts(ended); err == nil || Unreadable(err) || Unreadable(ErrNotFound) || Unreadable(nil) {
		t.Errorf("no time: %v", err)
	}
}
