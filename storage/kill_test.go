package storage

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"musette/planner"
)

// writerChild names the database that this test binary writes to when it runs as a child.
const writerChild = "MUSETTE_TEST_WRITER"

// writeUntilKilled adds races, changes each on the next day, claims a post for it
// and prints their numbers once all is acknowledged.
func writeUntilKilled(path string) {
	fail := func(err error) {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	ctx := context.Background()
	db, err := Open(ctx, path)
	if err != nil {
		fail(err)
	}
	club, err := db.EnsureClub(ctx, NameKey("home"), "home", "UTC")
	if err != nil {
		fail(err)
	}
	rider, err := db.EnsureAthlete(ctx, club.ID, NameKey("me"), "me")
	if err != nil {
		fail(err)
	}
	const enough = 10_000 // ends a child whose parent forgot it
	for i := range enough {
		name := fmt.Sprintf("Loop %d-%d", os.Getpid(), i)
		race, _, err := db.AddRace(ctx, rider.ID, today, planner.Race{Name: name, Date: today, Days: 1})
		if err != nil {
			fail(err)
		}
		if _, _, err := db.ChangeRace(ctx, rider.ID, today+1, race.ID, func(r *planner.Race) error { r.Days = 2; return nil }); err != nil {
			fail(err)
		}
		posts, err := db.Claim(ctx, []Post{{Kind: PostReminder, Key: NameKey(name), Day: 20000, Athlete: rider.ID, Club: club.ID}})
		if err != nil || len(posts) != 1 {
			fail(fmt.Errorf("claimed %d: %w", len(posts), err))
		}
		if _, err := fmt.Printf("%d %d %s\n", race.ID, posts[0].ID, name); err != nil {
			fail(err)
		}
	}
	os.Exit(0)
}

// killWriter lets a child write, kills it at a random moment and returns the lines that it acknowledged.
func killWriter(t *testing.T, path string) []string {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), writerChild+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	var lines []string
	killAfter, pipe := 60+rand.IntN(100), bufio.NewReader(out)
	for {
		line, err := pipe.ReadString('\n')
		if err == io.EOF {
			break // a line without its end was not acknowledged
		}
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, line)
		if len(lines) == killAfter {
			if err := child.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := child.Wait(); err == nil || child.ProcessState.ExitCode() != -1 {
		t.Fatalf("the child ended by itself: %v", child.ProcessState)
	}
	return lines
}

func TestKilledWriterLosesNothingAcknowledged(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "musette.db")
	var acknowledged []string
	for len(acknowledged) < 1000 {
		acknowledged = append(acknowledged, killWriter(t, path)...)
	}
	db := mustOpen(t, path)
	var verdict string
	if err := db.reader.QueryRow(`PRAGMA integrity_check`).Scan(&verdict); err != nil || verdict != "ok" {
		t.Errorf("got integrity %q and error %v, want ok", verdict, err)
	}
	stored, claimed := map[string]bool{}, map[Key]PostID{}
	for _, post := range must(db.OpenPosts(ctx)) {
		claimed[post.Key] = post.ID
	}
	rider := mustAthlete(t, db, "home", "me").ID
	past := map[int64]int{}
	for _, version := range must(db.Facts(ctx, rider)).Races {
		if version.Days == 1 && version.Withdrawn == today+1 {
			past[version.ID]++
		}
	}
	for _, race := range must(db.Races(ctx, rider)) {
		if past[race.Race.ID] != race.Days-1 {
			t.Errorf("race %d of %d days has %d past versions: a change was kept in part", race.ID, race.Days, past[race.Race.ID])
		}
		stored[fmt.Sprintf("%d %d %s\n", race.ID, claimed[NameKey(race.Name)], race.Name)] = true
	}
	for _, line := range acknowledged {
		if !stored[line] {
			t.Errorf("lost after its acknowledgement: %s", line)
		}
	}
	t.Logf("%d acknowledged, %d stored", len(acknowledged), len(stored))
}
