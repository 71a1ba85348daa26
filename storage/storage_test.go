package storage

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"musette/planner"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(writerChild); path != "" {
		writeUntilKilled(path)
	}
	os.Exit(m.Run())
}

// newTestDB opens an empty database, a copy of one that was migrated once.
func newTestDB(t testing.TB) *DB {
	t.Helper()
	path := filepath.Join(t.TempDir(), "musette.db")
	copyBlank(t, path)
	db, err := OpenUnsynced(context.Background(), path)
	return opened(t, db, err)
}

// copyBlank puts an empty database in place: migrating one takes long under the race detector.
func copyBlank(t testing.TB, path string) {
	t.Helper()
	blank, err := migratedOnce()
	if err == nil {
		err = os.WriteFile(path, blank, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// migratedOnce is the file of an empty database.
var migratedOnce = sync.OnceValues(func() (file []byte, err error) {
	folder, err := os.MkdirTemp("", "musette-blank-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "blank.db")
	db, err := OpenUnsynced(context.Background(), path)
	if err != nil {
		return nil, err
	}
	if err := db.Close(); err != nil {
		return nil, err
	}
	return os.ReadFile(path)
})

// diff is cmp.Diff that looks into keys.
func diff(want, got any) string { return cmp.Diff(want, got, cmp.AllowUnexported(Key{})) }

func mustOpen(t testing.TB, path string) *DB {
	t.Helper()
	db, err := Open(context.Background(), path)
	return opened(t, db, err)
}

func opened(t testing.TB, db *DB, err error) *DB {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return db
}

func mustAthlete(t testing.TB, db *DB, club, name string) Athlete {
	t.Helper()
	c, err := db.EnsureClub(context.Background(), NameKey(club), club, "Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	a, err := db.EnsureAthlete(context.Background(), c.ID, NameKey(name), name)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func mustAddRace(t testing.TB, db *DB, athlete AthleteID, race planner.Race) Race {
	t.Helper()
	added, _, err := db.AddRace(context.Background(), athlete, race.Registered, race)
	if err != nil {
		t.Fatal(err)
	}
	return added
}

func day(t testing.TB, text string) planner.Date {
	t.Helper()
	d, err := planner.ParseISODate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// today is the day on which tests tell most: 1 May 2026.
const today planner.Date = 20574

// on makes a fact one that was entered on a day.
func on(t testing.TB, date string) planner.Told { return planner.Told{On: day(t, date)} }

// raceOn is a race as it is read back, but for its number.
func raceOn(t testing.TB, name, date string) planner.Race {
	t.Helper()
	return planner.Race{Name: name, Date: day(t, date), Days: 1, Registered: today, Told: planner.Told{On: today}}
}

func athleteNow(t testing.TB, db *DB, id AthleteID) Athlete {
	t.Helper()
	a, err := athleteByID(context.Background(), db.reader, id)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func wantError(t testing.TB, got, want error) {
	t.Helper()
	if !errors.Is(got, want) {
		t.Errorf("got error %v, want %v", got, want)
	}
}

func wantInputError(t testing.TB, got error, field string) {
	t.Helper()
	var input *planner.InputError
	if !errors.As(got, &input) || input.Field != field || !strings.Contains(strings.ToLower(input.Msg), "for example") {
		t.Errorf("got error %v, want one on %s with an example", got, field)
	}
}

func TestEveryConnectionRunsAsAsked(t *testing.T) {
	ctx, db := context.Background(), mustOpen(t, filepath.Join(t.TempDir(), "musette.db"))
	for range readers { // held open, so that each is another connection
		conn, err := db.reader.Conn(ctx)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		if err := checkPragmas(ctx, conn, synced, true); err != nil {
			t.Error(err)
		}
		if _, err := conn.ExecContext(ctx, `DELETE FROM club`); err == nil {
			t.Error("a reading connection wrote")
		}
	}
	conn, err := db.writer.Conn(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if err := checkPragmas(ctx, conn, synced, false); err != nil {
		t.Error(err)
	}
	_, err = conn.ExecContext(ctx, `INSERT INTO athlete (club_id, name, key, added_ms) VALUES (77, 'nobody', 'NOBODY', 0)`)
	wantError(t, explain(err), ErrNotFound)
	_, err = conn.ExecContext(ctx, `INSERT INTO club (name, key, zone, added_ms) VALUES ('home', 'HOME', 'UTC', 'noon')`)
	if err == nil {
		t.Error("a strict table took text for an integer")
	}
}

func TestPragmaCheckSeesMisspelling(t *testing.T) {
	path := filepath.Join(t.TempDir(), "musette.db")
	for _, key := range []string{"_journal_mode", "_synchronous", "_busy_timeout", "_foreign_keys"} {
		if err := makePrivate(path); err != nil {
			t.Fatal(err)
		}
		misspelt := strings.Replace(writerDSN(path, synced), key, key+"s", 1)
		if pool, err := openPool(context.Background(), plain(misspelt), synced, 1, false); err == nil {
			t.Errorf("%ss passed unseen", key)
			pool.Close()
		}
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
}

func TestOpenMakesPrivateFileWithAnyName(t *testing.T) {
	for _, name := range []string{"plain.db", "50% of it?.db", "a#b&c=d ü.db"} {
		path := filepath.Join(t.TempDir(), name)
		mustAthlete(t, mustOpen(t, path), "home", "me")
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := info.Mode().Perm(), os.FileMode(0o600); got != want {
			t.Errorf("%s: got mode %v, want %v", name, got, want)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	folder := t.TempDir()
	text := filepath.Join(folder, "notes.txt")
	if err := os.WriteFile(text, []byte(strings.Repeat("shopping list\n", 100)), 0o600); err != nil {
		t.Fatal(err)
	}
	letter := filepath.Join(folder, "letter.txt") // SQLite takes a file of one byte for an empty one
	if err := os.WriteFile(letter, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct{ path, want string }{
		"one byte":        {letter, "not a musette database"},
		"no name":         {"", "has no name"},
		"folder missing":  {filepath.Join(folder, "none", "musette.db"), "no such file or directory"},
		"path is folder":  {folder, "is a folder"},
		"not a database":  {text, "not a musette database"},
		"of another kind": {foreignDatabase(t), "not a musette database"},
	} {
		t.Run(name, func(t *testing.T) {
			db, err := Open(context.Background(), test.path)
			if err == nil {
				db.Close()
				t.Fatal("opened")
			}
			if got := err.Error(); !strings.Contains(got, test.want) || !strings.Contains(got, test.path) {
				t.Errorf("got %q, want path and %q", got, test.want)
			}
		})
	}
	kept, err := os.ReadFile(text)
	if err != nil || !strings.HasPrefix(string(kept), "shopping list\n") {
		t.Errorf("the refused file changed: %q, %v", kept, err)
	}
	if kept, err = os.ReadFile(letter); err != nil || string(kept) != "x" {
		t.Errorf("the refused letter changed: %.20q, %v", kept, err)
	}
}

func TestManyOpenAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "musette.db")
	var group sync.WaitGroup
	for range 6 {
		group.Go(func() {
			db, err := Open(context.Background(), path)
			if err != nil {
				t.Error(err)
				return
			}
			if err := db.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	mustAthlete(t, mustOpen(t, path), "home", "me")
}

// Each writer reads and then writes: without the immediate lock most of them fail or lose an update.
func TestSixteenWritersOnTwoHandles(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "musette.db")
	handles := []*DB{mustOpen(t, path), mustOpen(t, path)}
	rider := mustAthlete(t, handles[0], "home", "me")
	const writers = 16
	var group sync.WaitGroup
	for i := range writers {
		group.Go(func() {
			db := handles[i%len(handles)]
			_, err := db.UpdateSettings(ctx, rider.ID, today, func(s *Settings) error {
				s.Taper.Cut = max(s.Taper.Cut, planner.MinCut) + 1
				return nil
			})
			if err != nil {
				t.Error(err)
			}
			if _, _, err := db.AddRace(ctx, rider.ID, today, planner.Race{Name: fmt.Sprint("Loop ", i), Date: today, Days: 1}); err != nil {
				t.Error(err)
			}
			// All of them look for the same two, who may not be there yet.
			if _, err := db.EnsureClub(ctx, NameKey("second"), "second", "UTC"); err != nil {
				t.Error(err)
			}
			if _, err := db.EnsureAthlete(ctx, rider.Club, NameKey("other"), "other"); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	if got, want := athleteNow(t, handles[0], rider.ID).Settings.Taper.Cut, planner.MinCut+writers; got != want {
		t.Errorf("got cut %d, want %d: an update was lost", got, want)
	}
	races, err := handles[1].Races(ctx, rider.ID)
	if err != nil || len(races) != writers {
		t.Errorf("got %d races and error %v, want %d", len(races), err, writers)
	}
}

func TestClosedDatabaseGivesErrors(t *testing.T) {
	ctx := context.Background()
	db, err := Open(ctx, filepath.Join(t.TempDir(), "musette.db"))
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	keep := func(*Settings) error { return nil }
	key := PlatformKey("discord", "1")
	for name, call := range map[string]func() error{
		"EnsureClub":     func() error { _, err := db.EnsureClub(ctx, NameKey("home"), "home", "UTC"); return err },
		"FindClub":       func() error { _, err := db.FindClub(ctx, NameKey("home")); return err },
		"FindAthlete":    func() error { _, err := db.FindAthlete(ctx, 1, NameKey("me")); return err },
		"EnsureAthlete":  func() error { _, err := db.EnsureAthlete(ctx, 1, NameKey("me"), "me"); return err },
		"UpdateSettings": func() error { _, err := db.UpdateSettings(ctx, 1, today, keep); return err },
		"AddRace":        func() error { return third(db.AddRace(ctx, 1, today, raceOn(t, "Hill Loop", "2026-06-13"))) },
		"ChangeRace":     func() error { return third(db.ChangeRace(ctx, 1, today, 1, func(*planner.Race) error { return nil })) },
		"RemoveRace":     func() error { return db.RemoveRace(ctx, 1, today, 1) },
		"Races":          func() error { _, err := db.Races(ctx, 1); return err },
		"ClubRaces":      func() error { _, err := db.ClubRaces(ctx, 1); return err },
		"SetWeek":        func() error { return db.SetWeek(ctx, 1, today, planner.DatedWeek{From: 20000}) },
		"Weeks":          func() error { _, err := db.Weeks(ctx, 1); return err },
		"AddAbsence": func() error {
			_, err := db.AddAbsence(ctx, 1, today, planner.Absence{From: 20000, To: 20001})
			return err
		},
		"RemoveAbsence": func() error { return db.RemoveAbsence(ctx, 1, today, 1) },
		"Absences":      func() error { _, err := db.Absences(ctx, 1); return err },
		"AddBlock": func() error {
			_, err := db.AddBlock(ctx, 1, today, planner.Block{From: 1, To: 2, Percent: 20})
			return err
		},
		"RemoveBlock":   func() error { return db.RemoveBlock(ctx, 1, today, 1) },
		"Blocks":        func() error { _, err := db.Blocks(ctx, 1); return err },
		"SetLimit":      func() error { return db.SetLimit(ctx, 1, today, planner.Limit{Date: 20000, Minutes: 45}) },
		"RemoveLimit":   func() error { return db.RemoveLimit(ctx, 1, today, 20000) },
		"AddMove":       func() error { _, err := db.AddMove(ctx, 1, today, planner.Move{From: 20000, To: 20001}); return err },
		"RemoveMove":    func() error { return db.RemoveMove(ctx, 1, today, 1) },
		"Moves":         func() error { _, err := db.Moves(ctx, 1); return err },
		"Facts":         func() error { _, err := db.Facts(ctx, 1); return err },
		"UpdateClub":    func() error { return second(db.UpdateClub(ctx, 1, func(*string, *ClubSetup) error { return nil })) },
		"RenameClub":    func() error { return db.RenameClub(ctx, 1, "home") },
		"RenameAthlete": func() error { return db.RenameAthlete(ctx, 1, "me") },
		"SetFault":      func() error { return db.SetFault(ctx, 1, "gone") },
		"Clubs":         func() error { _, err := db.Clubs(ctx, "discord"); return err },
		"GoneClubs":     func() error { _, err := db.GoneClubs(ctx, "discord"); return err },
		"ClubsOf":       func() error { _, err := db.ClubsOf(ctx, key); return err },
		"LeaveClub":     func() error { return db.LeaveClub(ctx, key) },
		"RejoinClub":    func() error { return db.RejoinClub(ctx, key) },
		"EraseClubs":    func() error { _, err := db.EraseClubs(ctx, time.Now()); return err },
		"FindPerson":    func() error { _, err := db.FindPerson(ctx, key); return err },
		"ChooseClub":    func() error { return db.ChooseClub(ctx, key, 1) },
		"KeepChannel":   func() error { return db.KeepChannel(ctx, key, "2") },
		"NoteRefusal":   func() error { return db.NoteRefusal(ctx, key) },
		"ForgetRefusal": func() error { return db.ForgetRefusal(ctx, key) },
		"SaveButton":    func() error { return db.SaveButton(ctx, "id", Button{Command: "ride"}) },
		"FindButton":    func() error { _, err := db.FindButton(ctx, "id"); return err },
		"EraseButtons":  func() error { return db.EraseButtons(ctx, time.Now()) },
	} {
		if err := call(); err == nil || !strings.Contains(err.Error(), "database is closed") {
			t.Errorf("%s: got error %v, want one that the database is closed", name, err)
		}
	}
}

func TestCancelledWriteKeepsNothing(t *testing.T) {
	db := newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	ctx, cancel := context.WithCancel(context.Background())
	_, err := db.UpdateSettings(ctx, rider.ID, today, func(s *Settings) error {
		cancel()
		s.Coach = true
		return nil
	})
	if err == nil {
		t.Error("a cancelled write went through")
	}
	if diff := diff(rider, athleteNow(t, db, rider.ID)); diff != "" {
		t.Errorf("the rider changed (-want +got):\n%s", diff)
	}
}

func fixedNow(text string) func() time.Time {
	now, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	return func() time.Time { return now }
}
