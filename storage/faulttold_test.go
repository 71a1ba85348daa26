package storage

import (
	"context"
	"slices"
	"testing"
)

// What a person was told of a club is kept for that person alone, until it is well again.
func TestFaultsTold(t *testing.T) {
	ctx := context.Background()
	path, _ := olderDatabase(t)
	db := mustOpen(t, path)
	defer db.Close()
	club, other := mustClub(t, db, "1"), mustClub(t, db, "2")
	ada, bea := PlatformKey("discord", "4"), PlatformKey("discord", "5")
	note := func(club Club, key Key, faults ...string) {
		t.Helper()
		if err := db.NoteFaultsTold(ctx, club.ID, key, faults); err != nil {
			t.Fatal(err)
		}
	}
	told := func(club Club, key Key, want ...string) {
		t.Helper()
		if got := must(db.FaultsTold(ctx, club.ID, key)); !slices.Equal(got, want) {
			t.Errorf("got %v, want %v", got, want)
		}
	}
	note(club, ada, "channel", "coach-role")
	note(club, ada, "channel")
	note(other, bea, "channel")
	told(club, ada, "channel", "coach-role")
	told(club, bea)
	told(other, ada)
	if err := db.EndFaults(ctx, club.ID, []string{"coach-role"}); err != nil {
		t.Fatal(err)
	}
	told(club, ada, "coach-role")
	told(other, bea, "channel")
	if err := db.EndFaults(ctx, club.ID, nil); err != nil {
		t.Fatal(err)
	}
	told(club, ada)
	if _, err := db.Erase(ctx, Whose{Key: bea}); err != nil {
		t.Fatal(err)
	}
	told(other, bea)
}
