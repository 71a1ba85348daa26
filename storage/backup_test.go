package storage

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var backupTime = time.Date(2026, 5, 28, 3, 15, 0, 0, time.UTC)

// backedUp is a database that is open, a rider of it and a backup.
func backedUp(t *testing.T) (db *DB, path, name string, rider AthleteID) {
	t.Helper()
	path, rider = olderDatabase(t)
	db = mustOpen(t, path)
	folder := filepath.Join(filepath.Dir(path), "backups")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	return db, path, must(Backup(context.Background(), path, folder, backupTime)), rider
}

// racesIn counts the races of a rider in the database at path.
func racesIn(t *testing.T, path string, rider AthleteID) int {
	t.Helper()
	db, err := Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	return len(must(db.Races(context.Background(), rider)))
}

// A backup is made while the database is written to. Each holds all that was
// acknowledged before it began, is one file for its owner alone, and is whole.
func TestBackupWhileServing(t *testing.T) {
	ctx := context.Background()
	db, path, _, rider := backedUp(t)
	folder := filepath.Join(filepath.Dir(path), "backups")
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			default:
				added := mustAddRace(t, db, rider, raceOn(t, "Loop "+strings.Repeat("i", i%150), "2026-07-11"))
				if err := db.RemoveRace(ctx, rider, today, added.ID); err != nil {
					t.Error(err)
				}
			}
		}
	}()
	for i := range 5 {
		club := must(db.EnsureClub(ctx, NameKey(string(rune('a'+i))), "club", "UTC"))
		name, err := Backup(ctx, path, folder, backupTime.Add(time.Duration(i+1)*time.Second))
		if err != nil {
			t.Fatal(err)
		}
		if info := must(os.Stat(name)); info.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v", name, info.Mode())
		}
		copied, err := OpenAsIs(ctx, name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := copied.Club(ctx, club.ID); err != nil {
			t.Errorf("what was stored before the backup is not in it: %v", err)
		}
		copied.Close()
		if beside, _ := filepath.Glob(name + "-*"); len(beside) > 0 {
			t.Errorf("beside the backup are %v", beside)
		}
	}
	close(stop)
	<-stopped
}

// Whoever has installed a newer program can back up before it touches the database.
func TestBackupOfAnOlderDatabase(t *testing.T) {
	ctx, path, folder := context.Background(), databaseOfSchemaOne(t), t.TempDir()
	_, sum := folderOf(t, path)
	name, err := Backup(ctx, path, folder, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if _, now := folderOf(t, path); now != sum {
		t.Error("the database has changed")
	}
	if version, err := checkCopy(ctx, name); version != 1 || err != nil {
		t.Errorf("the copy has schema %d, %v; want 1", version, err)
	}
	if _, err := Restore(ctx, name, path, time.Now()); err != nil {
		t.Fatal(err)
	}
	if races := must(mustOpen(t, path).ClubRaces(ctx, 1)); len(races) != 1 || races[0].Athlete != "Ines" {
		t.Errorf("races of the copy: %v", races)
	}
	newer, _ := olderDatabase(t)
	alter(t, newer, `INSERT INTO goose_db_version (version_id, is_applied) SELECT max(version_id) + 1, 1 FROM goose_db_version`)
	if _, err := Backup(ctx, newer, folder, time.Now()); err == nil || !strings.Contains(err.Error(), "a newer musette made it") {
		t.Errorf("of a newer one: %v", err)
	}
}

func TestRestore(t *testing.T) {
	ctx := context.Background()
	db, path, name, rider := backedUp(t)
	mustAddRace(t, db, rider, raceOn(t, "Far Tour", "2026-08-01"))
	if err := db.NoteTick(ctx, backupTime); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(ctx, name, path, backupTime); !errors.Is(err, ErrBusy) {
		t.Errorf("over an open database: %v", err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	lock, err := LockServing(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(ctx, name, path, backupTime); !errors.Is(err, ErrServed) {
		t.Errorf("under a bot: %v", err)
	}
	if err := lock.Release(); err != nil {
		t.Fatal(err)
	}
	if n := racesIn(t, path, rider); n != 2 {
		t.Errorf("refused restorations left %d races, want 2", n)
	}
	done, err := Restore(ctx, name, path, backupTime.Add(time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	if n := racesIn(t, path, rider); n != 1 {
		t.Errorf("the backup has %d races, want 1", n)
	}
	if n := racesIn(t, done.Aside, rider); n != 2 {
		t.Errorf("the database from before has %d races, want 2", n)
	}
	if n := racesIn(t, name, rider); n != 1 {
		t.Errorf("the backup itself has %d races, want 1", n)
	}
}

// What the backup cannot know is when messages were sent: from its last tick up
// to its restoration. A second restoration widens that.
func TestRestoreNotesWhatItCannotKnow(t *testing.T) {
	ctx := context.Background()
	path, _ := olderDatabase(t)
	db := mustOpen(t, path)
	tick := backupTime.Add(-time.Minute)
	if err := db.NoteTick(ctx, tick); err != nil {
		t.Fatal(err)
	}
	if from, at, err := db.PutBack(ctx); err != nil || !from.IsZero() || !at.IsZero() {
		t.Errorf("before: %v %v %v", from, at, err)
	}
	name := must(Backup(ctx, path, filepath.Dir(path), backupTime))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	later := backupTime.Add(time.Hour)
	if _, err := Restore(ctx, name, path, later); err != nil {
		t.Fatal(err)
	}
	db = mustOpen(t, path)
	if from, at, err := db.PutBack(ctx); err != nil || !from.Equal(tick) || !at.Equal(later) {
		t.Errorf("after: %v %v %v", from, at, err)
	}
}

// A backup that is damaged, or of something else, is refused and changes nothing;
// a database that is damaged is no hindrance.
func TestRestoreOfDamage(t *testing.T) {
	ctx := context.Background()
	db, path, name, rider := backedUp(t)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	bad := map[string][]byte{"text": []byte("no database"), "nothing": nil}
	whole := must(os.ReadFile(name))
	bad["half"] = whole[:len(whole)/2]
	holed := append([]byte(nil), whole...)
	for i := 4096 * 3; i < 4096*30; i++ {
		holed[i] = 'x'
	}
	bad["holed"] = holed
	valued := filepath.Join(t.TempDir(), "valued.db") // has a value that no musette stores
	if err := os.WriteFile(valued, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	alter(t, valued, `PRAGMA ignore_check_constraints = on`, `UPDATE race SET date = '2026-27-12'`)
	bad["valued"] = must(os.ReadFile(valued))
	if _, err := Backup(ctx, valued, filepath.Dir(valued), backupTime); !Damaged(err) {
		t.Errorf("a backup with a value that cannot be: %v", err)
	}
	for what, data := range bad {
		file := filepath.Join(t.TempDir(), "bad.db")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		names, sum := folderOf(t, path)
		if _, err := Restore(ctx, file, path, backupTime); err == nil || strings.Contains(err.Error(), "put back a backup") || !strings.Contains(err.Error(), "Name another ") {
			t.Errorf("%s: it was taken, or the way out is the one just taken: %v", what, err)
		}
		if gotNames, gotSum := folderOf(t, path); gotSum != sum || len(gotNames) != len(names) {
			t.Errorf("%s: the database changed, or beside it are %v", what, gotNames)
		}
	}
	if err := os.WriteFile(path, bad["holed"], 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Backup(ctx, path, filepath.Dir(path), backupTime); err == nil {
		t.Error("a backup of a damaged database was called whole")
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".musette-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	done, err := Restore(ctx, name, path, backupTime)
	if err != nil || !strings.Contains(done.Aside, ".damaged-") {
		t.Fatalf("over a damaged database: %+v, %v", done, err)
	}
	if n := racesIn(t, path, rider); n != 1 {
		t.Errorf("%d races, want 1", n)
	}
}

// A restoration that is refused for the list of those who were erased leaves no list, and no
// work of its own, beside the database, whether there is one or not.
func TestRestoreOfADamagedList(t *testing.T) {
	ctx := context.Background()
	db, path, name, _ := backedUp(t)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	list := forgottenName(listIn(filepath.Dir(name), path))
	if err := os.WriteFile(list, []byte("musette forgotten 1 zz\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	empty := t.TempDir()
	for _, goal := range []string{path, filepath.Join(empty, filepath.Base(path))} {
		before := must(os.ReadDir(filepath.Dir(goal)))
		if _, err := Restore(ctx, name, goal, backupTime); err == nil || !strings.Contains(err.Error(), list+": line 1 cannot be read") {
			t.Errorf("%s: %v", goal, err)
		}
		if after := must(os.ReadDir(filepath.Dir(goal))); len(after) != len(before) {
			t.Errorf("beside %s are %v, and %v were before", goal, after, before)
		}
	}
}

// A file of another program is not replaced; ours with a damaged beginning is.
func TestRestoreOverOtherFiles(t *testing.T) {
	ctx := context.Background()
	db, path, name, _ := backedUp(t)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	notes, letter, other := filepath.Join(folder, "notes.txt"), filepath.Join(folder, "letter.txt"), foreignDatabase(t)
	if err := errors.Join(os.WriteFile(notes, []byte("not a database"), 0o600), os.WriteFile(letter, []byte("x"), 0o600)); err != nil {
		t.Fatal(err)
	}
	for _, goal := range []string{notes, letter, other} {
		names, sum := folderOf(t, goal)
		if _, err := Restore(ctx, name, goal, backupTime); !Foreign(err) {
			t.Errorf("%s: %v", goal, err)
		}
		if gotNames, gotSum := folderOf(t, goal); gotSum != sum || len(gotNames) != len(names) {
			t.Errorf("%s changed: %v; beside it are %v", goal, gotSum != sum, gotNames)
		}
	}
	file, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := file.WriteAt(make([]byte, 4096), 0); err != nil {
		t.Fatal(err)
	}
	file.Close()
	if done, err := Restore(ctx, name, path, backupTime); err != nil || !strings.Contains(done.Aside, ".damaged-") {
		t.Errorf("%+v, %v", done, err)
	}
}

// Who was erased after the backup stays erased, also where only the backup's
// folder is left of the machine.
func TestRestoreForgetsTheErased(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path, person, bystander := lives(t)
	db := mustOpen(t, path)
	folder := t.TempDir()
	old := must(Backup(ctx, path, folder, backupTime))
	if _, err := db.Erase(ctx, person); err != nil {
		t.Fatal(err)
	}
	later := must(Backup(ctx, path, folder, backupTime.Add(time.Hour)))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	elsewhere := filepath.Join(t.TempDir(), filepath.Base(path))
	for _, goal := range []string{path, elsewhere} {
		done, err := Restore(ctx, old, goal, backupTime.Add(2*time.Hour))
		if err != nil || done.Riders == 0 {
			t.Fatalf("%+v, %v", done, err)
		}
		for _, secret := range secrets {
			if found := bytesWith(t, goal, secret); len(found) > 0 {
				t.Errorf("%q is left in %v", secret, found)
			}
		}
		look := mustOpen(t, goal)
		if _, err := look.Athlete(ctx, bystander); err != nil {
			t.Errorf("the bystander: %v", err)
		}
		look.Close()
	}
	if strings.Contains(string(must(os.ReadFile(later))), secrets[0]) {
		t.Error("a backup made after the erasure still holds the person")
	}
}

// An erasure takes its list into the folders of the backups, so that one of them is enough
// where nothing else is left. A folder where it cannot be written is named.
func TestErasureReachesTheBackups(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	path, person, _ := lives(t)
	db := mustOpen(t, path)
	defer db.Close()
	folder, shut, gone := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "gone")
	if err := os.Mkdir(gone, 0o700); err != nil {
		t.Fatal(err)
	}
	var old string
	for _, to := range []string{gone, shut, folder, folder} {
		old = must(Backup(ctx, path, to, backupTime))
		if list := must(loadForgotten(listIn(to, path))); len(list.salt) == 0 || len(list.until) > 0 {
			t.Errorf("the list of nobody in %s: %+v", to, list)
		}
	}
	if err := errors.Join(os.RemoveAll(gone), os.Remove(forgottenName(listIn(shut, path))), os.MkdirAll(filepath.Join(forgottenName(listIn(shut, path)), "in the way"), 0o700)); err != nil {
		t.Fatal(err)
	}
	done := must(db.Erase(ctx, person))
	if diff := cmp.Diff([]string{shut}, done.Missed); diff != "" {
		t.Errorf("folders that were not reached: %s", diff)
	}
	if err := os.RemoveAll(forgottenName(listIn(shut, path))); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{shut}, StaleLists(path)); diff != "" {
		t.Errorf("stale lists: %s", diff)
	}
	must(Backup(ctx, path, shut, backupTime.Add(time.Hour)))
	if stale := StaleLists(path); len(stale) > 0 {
		t.Errorf("stale after a backup: %v", stale)
	}
	elsewhere := filepath.Join(t.TempDir(), filepath.Base(path))
	want := Lists{InFolder: forgottenName(listIn(folder, path))}
	if got := FindLists(old, elsewhere); got != want {
		t.Errorf("found %+v, want %+v", got, want)
	}
	if done := must(Restore(ctx, old, elsewhere, backupTime.Add(2*time.Hour))); done.Riders == 0 {
		t.Error("nobody is erased again")
	}
	for _, secret := range secrets {
		if found := bytesWith(t, elsewhere, secret); len(found) > 0 {
			t.Errorf("%q is left in %v", secret, found)
		}
	}
	if diff := cmp.Diff([]string{folder}, backupFolders(elsewhere)); diff != "" {
		t.Errorf("folders of the database that was put back: %s", diff)
	}
}

func TestExpireBackups(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "musette.db")
	write := func(name string) {
		if err := os.WriteFile(filepath.Join(folder, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, day := range []string{"01", "25", "26", "27"} {
		write("musette-2026-05-" + day + "T031500Z.db")
	}
	write("musette-2026-04-20T031500Z.db")
	for _, other := range []string{"musette.db", "musette-old.db", "other-2026-05-01T031500Z.db", "musette-2026-05-01T031500Z.db.gz"} {
		write(other)
	}
	gone, err := ExpireBackups(path, folder, 3, backupTime)
	if err != nil || len(gone) != 2 {
		t.Fatalf("gone: %v, %v", gone, err)
	}
	if gone, err = ExpireBackups(path, folder, 9, backupTime.Add(28*24*time.Hour)); err != nil || len(gone) != 1 {
		t.Fatalf("of age: %v, %v", gone, err)
	}
	if left := must(os.ReadDir(folder)); len(left) != 2+4 {
		t.Errorf("left: %v", left)
	}
	// A clock that ran ahead leaves backups of the future, which push out none of today's.
	for _, name := range []string{"musette-2026-05-28T031500Z.db", "musette-2099-01-01T000000Z.db", "musette-2099-01-02T000000Z.db"} {
		write(name)
	}
	was := backupTime.Add(-KeepBackups - time.Hour)
	if err := os.Chtimes(filepath.Join(folder, "musette-2099-01-01T000000Z.db"), was, was); err != nil {
		t.Fatal(err)
	}
	if gone, err = ExpireBackups(path, folder, 9, backupTime); err != nil || len(gone) != 1 || filepath.Base(gone[0]) != "musette-2099-01-01T000000Z.db" {
		t.Fatalf("after a clock that ran ahead: %v, %v", gone, err)
	}
	gone, err = ExpireBackups(path, folder, 1, backupTime)
	if err != nil || len(gone) != 2 {
		t.Fatalf("the newest alone: %v, %v", gone, err)
	}
	for name, want := range map[string]bool{"musette-2026-05-28T031500Z.db": true, "musette-2099-01-02T000000Z.db": true} {
		if _, err := os.Stat(filepath.Join(folder, name)); (err == nil) != want {
			t.Errorf("%s: %v", name, err)
		}
	}
}
