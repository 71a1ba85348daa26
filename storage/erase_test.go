package storage

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"musette/planner"
)

// secrets are what a person is called and wrote; none may be left in any file.
var secrets = []string{"Quendolin", "QUENDOLIN", "discord:4242", "Wharfstone", "WHARFSTONE", "Kelpbridge", "gravelish", "soggy hands", "fourth, 3:11", "numb toes", "88771", "66551"}

// life stores a bit of everything of a rider, all of it with words from secrets.
func life(t *testing.T, db *DB, a Athlete) {
	t.Helper()
	ctx := context.Background()
	race := raceOn(t, "Wharfstone Loop", "2026-05-02")
	race.Place, race.Kind = "Kelpbridge", "gravelish"
	kept, removed := mustAddRace(t, db, a.ID, race), race
	removed.Name = "Wharfstone Return"
	gone := mustAddRace(t, db, a.ID, removed)
	for _, err := range []error{
		third(db.ChangeRace(ctx, a.ID, today+1, kept.ID, func(r *planner.Race) error { r.Days = 2; return nil })),
		db.SetResult(ctx, a.ID, Result{Race: kept.ID, Feeling: 7, Place: "fourth, 3:11", Note: "numb toes"}),
		db.SetResult(ctx, a.ID, Result{Race: gone.ID, Feeling: 6, Place: "fourth, 3:11", Note: "numb toes"}),
		db.RemoveRace(ctx, a.ID, today+2, gone.ID),
		db.SetRaceDay(ctx, a.ID, kept.ID, RaceDay{Travel: 45, Way: true, Zone: "Europe/Madrid"}),
		db.SetRide(ctx, a.ID, today, Ride{Ride: planner.Ride{Date: today, Minutes: 61}, Note: "soggy hands"}),
		db.SetRide(ctx, a.ID, today+1, Ride{Ride: planner.Ride{Date: today, Minutes: 62}, Note: "soggy hands again"}),
		db.SetWeek(ctx, a.ID, today, planner.DatedWeek{From: today, Week: mustWeek(t, "sat long 3h")}),
		db.SetLimit(ctx, a.ID, today, planner.Limit{Date: today, Minutes: 45}),
		second(db.AddAbsence(ctx, a.ID, today, planner.Absence{From: today, To: today})),
		second(db.AddBlock(ctx, a.ID, today, planner.Block{From: today, To: today + 3, Percent: 20})),
		second(db.AddMove(ctx, a.ID, today, planner.Move{From: today, To: today + 1})),
		second(db.UpdateSettings(ctx, a.ID, today+1, func(s *Settings) error { s.Taper.Days = 10; return nil })),
		db.SetTaught(ctx, a.ID, today, &planner.Taught{Races: 5, Low: 61, Mid: 72, High: 83}),
		db.SetTaught(ctx, a.ID, today+1, &planner.Taught{Races: 6, Low: 64, Mid: 73, High: 82}),
		db.KeepThread(ctx, a.ID, "88771"),
		db.KeepChannel(ctx, a.Key, "66551"),
		db.SaveButton(ctx, "own"+a.Name+clubText(a), Button{Owner: a.Key, Command: "ask", Options: map[string]string{"question": "soggy hands?"}}),
		db.SaveButton(ctx, "nobody"+clubText(a), Button{Command: "ask", Options: map[string]string{"question": "soggy hands?"}}),
		db.SaveButton(ctx, "coach"+clubText(a), Button{Owner: NameKey("coach"), Command: "coach athlete", Options: map[string]string{"athlete": a.Name}}),
		second(db.Claim(ctx, []Post{{Kind: PostReminder, Key: a.PostKey(), Day: today + planner.Date(a.ID), Athlete: a.ID, Club: a.Club}})),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
}

func clubText(a Athlete) string { return string(rune('a' + a.Club)) }

// lives is a closed database with the person in two clubs, a bystander, and copies
// of it as migrations and people would have left them.
func lives(t *testing.T) (path string, person Whose, bystander AthleteID) {
	t.Helper()
	ctx := context.Background()
	path = filepath.Join(t.TempDir(), "musette.db")
	db, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	db.Now = fixedNow("2026-05-01T08:00:00Z")
	key := PlatformKey("discord", "4242")
	for _, id := range []string{"1", "2"} {
		club := mustClub(t, db, id)
		life(t, db, must(db.EnsureAthlete(ctx, club.ID, key, "Quendolin")))
		bystander = must(db.EnsureAthlete(ctx, club.ID, PlatformKey("discord", "5"), "Bea")).ID
		mustAddRace(t, db, bystander, raceOn(t, "Hill Loop", "2026-06-13"))
	}
	if err := db.SaveButton(ctx, "bea", Button{Owner: PlatformKey("discord", "5"), Command: "ride", Options: map[string]string{"day": "friday"}}); err != nil {
		t.Fatal(err)
	}
	if _, err := db.writer.Exec(`VACUUM INTO ?`, backupName(path, 4)); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Close(), os.WriteFile(path+".copy-123", []byte("Quendolin"), 0o600)); err != nil {
		t.Fatal(err)
	}
	return path, Whose{Key: key}, bystander
}

// bytesWith lists the files beside a database that hold one of the words.
func bytesWith(t *testing.T, path string, words ...string) (found []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(path), e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range words {
			if bytes.Contains(data, []byte(word)) {
				found = append(found, e.Name()+": "+word)
			}
		}
	}
	return found
}

func wantNoBytes(t *testing.T, path string) {
	t.Helper()
	if left := bytesWith(t, path, secrets...); len(left) > 0 {
		t.Errorf("left in files: %s", strings.Join(left, ", "))
	}
}

func copyFile(t *testing.T, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err == nil {
		err = os.WriteFile(to, data, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestEraseLeavesNoByte(t *testing.T) {
	ctx := context.Background()
	path, person, bystander := lives(t)
	db := mustOpen(t, path)
	db.Now = fixedNow("2026-06-01T08:00:00Z")
	if before := bytesWith(t, path, secrets...); len(before) < len(secrets) {
		t.Fatalf("the files hold only %v before", before)
	}
	done, err := db.Erase(ctx, person)
	if err != nil || !done.At.Equal(db.Now()) || !slices.Equal(done.Clubs, []string{"Club 1", "Club 2"}) {
		t.Fatalf("got %+v, %v", done, err)
	}
	wantNoBytes(t, path)
	if info, err := os.Stat(path + "-wal"); err != nil || info.Size() != 0 {
		t.Errorf("the log is %v, %v; want it empty", info, err)
	}
	for _, name := range []string{forgottenName(path), backupName(path, 4)} {
		if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v; want mode 0600", name, info, err)
		}
	}
	wantOneRace(t, db, bystander)
	wantOneRace(t, mustOpen(t, backupName(path, 4)), bystander)
	if got := must(db.FindButton(ctx, "bea")); got.Command != "ride" {
		t.Errorf("a bystander's button is %+v", got)
	}
	_, err = db.Erase(ctx, person)
	wantError(t, err, ErrNotFound)
	if err := checkForeignKeys(ctx, db.reader); err != nil {
		t.Error(err)
	}
}

// A copy from before that is put back forgets again, once, and nobody else.
func TestRestoredCopyForgetsAgain(t *testing.T) {
	ctx := context.Background()
	path, person, bystander := lives(t)
	older := filepath.Join(t.TempDir(), "older.db")
	copyFile(t, path, older)
	restore := func(t *testing.T) {
		for _, left := range []string{"-wal", "-shm"} {
			if err := os.Remove(path + left); err != nil && !errors.Is(err, os.ErrNotExist) {
				t.Fatal(err)
			}
		}
		copyFile(t, older, path)
	}
	first, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	must(first.Erase(ctx, person))
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	restore(t)
	db, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	if got := db.ForgottenAgain(); got != 2 {
		t.Errorf("%d riders were forgotten again, want 2", got)
	}
	wantNoBytes(t, path)
	wantOneRace(t, db, bystander)
	// Who comes back stays, even if the clock is behind.
	db.Now = fixedNow("2026-04-01T08:00:00Z")
	back := must(db.EnsureAthlete(ctx, 1, person.Key, "Quendolin"))
	if err := errors.Join(db.KeepChannel(ctx, person.Key, "66551"), db.Close()); err != nil {
		t.Fatal(err)
	}
	again := mustOpen(t, path)
	if got := must(again.Athlete(ctx, back.ID)); got.Name != "Quendolin" || again.ForgottenAgain() != 0 || must(again.FindPerson(ctx, person.Key)).Channel != "66551" {
		t.Errorf("who came back is %+v, %d forgotten", got, again.ForgottenAgain())
	}
}

// An older schema is put back: its copy from before the migration forgets, too.
func TestRestoredOldSchemaForgets(t *testing.T) {
	ctx := context.Background()
	for schema, rows := range map[int]string{1: schemaOne, 2: schemaTwo, 3: schemaThree} {
		path := databaseOfSchema(t, schema, rows)
		older := path + ".older"
		copyFile(t, path, older)
		db, err := Open(ctx, path)
		if err != nil {
			t.Fatal(err)
		}
		who := must(db.Athlete(ctx, 3))
		if _, err := db.Erase(ctx, who.Whose()); err != nil {
			t.Fatal(err)
		}
		if got := must(list(ctx, mustPool(t, backupName(path, int64(schema))), func(s *string, scan func(...any) error) error { return scan(s) }, `SELECT name FROM athlete WHERE id = 3`)); len(got) > 0 {
			t.Errorf("schema %d: the copy holds %v", schema, got)
		}
		if err := errors.Join(db.Close(), os.Rename(older, path)); err != nil {
			t.Fatal(err)
		}
		again := mustOpen(t, path)
		if _, err := again.Athlete(ctx, 3); !errors.Is(err, ErrNotFound) || again.ForgottenAgain() != 1 {
			t.Errorf("schema %d: %v, %d forgotten", schema, err, again.ForgottenAgain())
		}
	}
}

func mustPool(t *testing.T, path string) *sql.DB {
	t.Helper()
	pool, err := sql.Open("sqlite3", copyDSN(path, nil))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { pool.Close() })
	return pool
}

// An erasure that was cut short after its first note is finished at the next opening.
func TestErasureIsFinishedLater(t *testing.T) {
	path, person, _ := lives(t)
	at := int64(1790000000000)
	if err := noteForgotten(path, []erased{{kindPerson, "", person.Key.text, at}}); err != nil {
		t.Fatal(err)
	}
	db := mustOpen(t, path)
	wantNoBytes(t, path)
	if got := must(loadForgotten(path)); got.pending || db.ForgottenAgain() != 2 {
		t.Errorf("%+v, %d forgotten; want it settled and 2", got, db.ForgottenAgain())
	}
}

// A program that has the database open, as musette serve has, goes on and sees it at once.
func TestEraseWhileAnotherReads(t *testing.T) {
	ctx := context.Background()
	path, person, _ := lives(t)
	db, serving := mustOpen(t, path), mustOpen(t, path)
	must(serving.Races(ctx, 1))
	if _, err := db.Erase(ctx, person); err != nil {
		t.Fatal(err)
	}
	wantNoBytes(t, path)
	if races, err := serving.Races(ctx, 1); err != nil || len(races) != 0 {
		t.Errorf("another program still reads %v, %v", races, err)
	}
}

func TestEraseOfNames(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	one, other := mustAthlete(t, db, "home", "Ines"), mustAthlete(t, db, "away", "Ines")
	mustAddRace(t, db, other.ID, raceOn(t, "Hill Loop", "2026-06-13"))
	must(db.Erase(ctx, one.Whose()))
	wantOneRace(t, db, other.ID)
	_, err := db.Athlete(ctx, one.ID)
	wantError(t, err, ErrNotFound)
	if again := mustAthlete(t, db, "home", "INES"); again.ID <= one.ID || must(db.forget(ctx)) != 0 {
		t.Errorf("the next of that name is %+v", again)
	}
}

// Somebody of whom only a channel is known can be erased, too.
func TestEraseWithoutRiders(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	key := PlatformKey("discord", "12")
	if err := db.KeepChannel(ctx, key, "66551"); err != nil {
		t.Fatal(err)
	}
	must(db.Erase(ctx, Whose{Key: key}))
	if got := must(db.FindPerson(ctx, key)); got != (Person{}) {
		t.Errorf("left: %+v", got)
	}
	_, err := db.Erase(ctx, Whose{Key: key})
	wantError(t, err, ErrNotFound)
}

func TestForgottenListThatCannotBeRead(t *testing.T) {
	path, _ := olderDatabase(t)
	for _, text := range []string{"garbage\n", forgottenHead + "zz\n", forgottenHead + strings.Repeat("ab", 32) + "\nperson 12 now\n", forgottenHead + strings.Repeat("ab", 32) + "\nperson " + strings.Repeat("0", 64) + " yesterday\n"} {
		if err := os.WriteFile(forgottenName(path), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if db, err := Open(context.Background(), path); err == nil || !strings.Contains(err.Error(), "it is not known who was erased") {
			t.Errorf("%q: opened, %v", text, err)
			db.Close()
		}
	}
	// A line that was never finished counts as not written, and is written over.
	whole := forgottenHead + strings.Repeat("ab", 32) + "\n"
	if err := os.WriteFile(forgottenName(path), []byte(whole+"person 1234"), 0o600); err != nil {
		t.Fatal(err)
	}
	db := mustOpen(t, path)
	must(db.Erase(context.Background(), Whose{NameKey("me"), 1}))
	if got := must(loadForgotten(path)); len(got.until) != 1 || got.pending {
		t.Errorf("list %+v", got)
	}
}

// A reading that lasts keeps the log from being emptied: that is an error, and the
// next opening makes up for it.
func TestEraseWithALongReading(t *testing.T) {
	ctx := context.Background()
	path, person, _ := lives(t)
	db, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	reading, err := db.reader.Begin()
	if err != nil {
		t.Fatal(err)
	}
	var riders int
	if err := reading.QueryRow(`SELECT count(*) FROM athlete`).Scan(&riders); err != nil {
		t.Fatal(err)
	}
	short, cancel := context.WithCancel(ctx)
	go func() { // ends the wait for the reader once the rows are gone
		for n := riders; n == riders; {
			if db.reader.QueryRow(`SELECT count(*) FROM athlete`).Scan(&n) != nil {
				break
			}
		}
		cancel()
	}()
	if _, err := db.Erase(short, person); err == nil {
		t.Error("the log was emptied under a reader")
	}
	if err := errors.Join(reading.Rollback(), db.Close()); err != nil {
		t.Fatal(err)
	}
	mustOpen(t, path)
	wantNoBytes(t, path)
}
