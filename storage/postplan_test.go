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
		plan := planOf(t, db, query, strings.Count(query, "?"))
		scans := strings.Contains(plan, "SCAN post") || strings.Contains(plan, "SCAN club\n")
		if !strings.Contains(plan, index) || scans {
			t.Errorf("want %s for %s:\n%s", index, query, plan)
		}
	}
}

// planOf is how SQLite looks for the rows of a query with so many values.
func planOf(t *testing.T, db *DB, query string, values int) string {
	t.Helper()
	args := make([]any, values)
	for i := range args {
		args[i] = "1"
	}
	rows, err := db.reader.Query("EXPLAIN QUERY PLAN "+query, args...)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var plan strings.Builder
	for rows.Next() {
		var id, parent, unused int
		var detail string
		if err := rows.Scan(&id, &parent, &unused, &detail); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintln(&plan, detail)
	}
	return plan.String()
}

// What is known of a few riders is found without a look at those of all others.
func TestFactsGoByIndex(t *testing.T) {
	db := newTestDB(t)
	for _, query := range []string{
		pastTaperTable.query(""), weekTable.query(""), raceVersions, absenceTable.query(""), blockTable.query(""), limitTable.query(""), illnessTable.query(""),
		holdTable.query(""), rideTable.query(""), resultFacts, taughtTable.query(""), pinTable.query(""), moveTable.query(""), coachNoteTable.query(""), athletesOf, clubsOf,
	} {
		for line := range strings.Lines(planOf(t, db, query, 1)) {
			if strings.Contains(line, "SCAN") && !strings.Contains(line, "json_each") && !strings.Contains(line, "subquery") {
				t.Errorf("%s: %s", query, line)
			}
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
