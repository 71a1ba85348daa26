package storage

import (
	"context"
	"fmt"
	"testing"
)

// BenchmarkFacts reads what one plan needs: a season of 12 races, weeks and life events.
func BenchmarkFacts(b *testing.B) {
	ctx, db := context.Background(), newTestDB(b)
	rider := mustAthlete(b, db, "home", "me").ID
	fillFacts(b, db, rider)
	for i := range 10 {
		mustAddRace(b, db, rider, raceOn(b, fmt.Sprint("Loop ", i), fmt.Sprintf("2026-07-%02d", 10+i)))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := db.Facts(ctx, rider); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAddRace is one durable write, the wait for the disk included.
func BenchmarkAddRace(b *testing.B) {
	db := newTestDB(b)
	rider := mustAthlete(b, db, "home", "me").ID
	race, n := raceOn(b, "", "2026-06-13"), 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		race.Name = fmt.Sprint("Loop ", n)
		mustAddRace(b, db, rider, race)
	}
}
