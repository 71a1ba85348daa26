package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

// A backup made while the bot serves is put back, after questions that protect
// what is there.
func TestBackupAndRestore(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	guild := s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	dir := t.TempDir()
	t.Chdir(dir)
	setUp(t, "musette.db", guild)

	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	done := make(chan struct{})
	go func() {
		defer close(done)
		var out shared
		runOn(ctx, s, hiddenToken, &out, "serve")
	}()
	if err := s.WaitConnected(ctx); err != nil {
		t.Fatal(err)
	}
	got := runIn(t, dir, "", "backup")
	names, _ := filepath.Glob(filepath.Join("backups", "musette-*.db"))
	if got.code != exitDone || len(names) != 1 || !strings.HasPrefix(got.out, names[0]+" is a whole copy of musette.db. ") {
		t.Fatalf("backup: %+v, files %v", got, names)
	}
	if got := runIn(t, dir, "", "restore", "--yes", names[0]); got.code != exitBroke || !strings.Contains(got.errors, "another musette serve answers with this database already") {
		t.Errorf("over the bot: %+v", got)
	}
	cancel()
	<-done
	runIn(t, dir, "/week share week:\"mon recovery 45min\"\n", "chat", "--as", "Ines")

	for name, test := range map[string]struct {
		stdin, says string
		args        []string
	}{
		"no answer":    {"no\n", "musette: answer: is not yes, so nothing has changed. For example musette restore --yes --db musette.db " + names[0] + "\n", []string{"restore", names[0]}},
		"no such file": {"", "musette: FILE: none.db is no file. ", []string{"restore", "--yes", "none.db"}},
		"itself":       {"", "musette: FILE: is the database itself. ", []string{"restore", "--yes", "musette.db"}},
		"keep less":    {"", "musette: --keep: must be 1 or more. For example --keep 7\n", []string{"backup", "--keep", "-3"}},
		"keep nothing": {"", "musette: --keep: must be 1 or more. ", []string{"backup", "--keep", "0"}},
		"no database":  {"", "musette: --db: none.db is not there. ", []string{"backup", "--db", "none.db"}},
	} {
		if got := runIn(t, dir, test.stdin, test.args...); got.code != exitInput || !strings.HasPrefix(got.errors, test.says) {
			t.Errorf("%s: %+v", name, got)
		}
	}
	if got := runIn(t, dir, "", "export", "--rider", "Ines"); got.code != exitDone {
		t.Errorf("after refusals: %+v", got)
	}
	got = runIn(t, dir, "yes\n", "restore", names[0])
	if got.code != exitDone || !strings.Contains(got.out, names[0]+" is the database musette.db now.\n") {
		t.Errorf("restore: %+v", got)
	}
	if got := runIn(t, dir, "", "export", "--rider", "Ines"); got.code != exitInput {
		t.Errorf("Ines, who came after the backup, is in it: %+v", got)
	}
	for range 2 { // the second takes the place of the first
		if got := runIn(t, dir, "", "backup", "--keep", "1", "--to", "kept"); got.code != exitDone {
			t.Errorf("kept: %+v", got)
		}
	}
	if kept, err := os.ReadDir("kept"); err != nil || len(kept) != 2 || kept[1].Name() != "musette.db.forgotten" {
		t.Errorf("kept: %v, %v", kept, err)
	}
}

// Who was erased does not come back in silence: restore says which list it heeded, and
// does nothing where there is none and the database is gone.
func TestRestoreSaysWhoIsForgotten(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	week := "/week share week:\"mon recovery 45min\"\n"
	runIn(t, dir, week, "chat", "--as", "Ines")
	runIn(t, dir, week, "chat", "--as", "Tomas")
	runIn(t, dir, "", "backup")
	names, err := filepath.Glob(filepath.Join("backups", "musette-*.db"))
	if err != nil || len(names) != 1 {
		t.Fatalf("backups %v, %v", names, err)
	}
	move := func(from, to string) {
		t.Helper()
		if err := os.Rename(from, to); err != nil {
			t.Fatal(err)
		}
	}
	restore := func(code int, there bool, says string, args ...string) {
		t.Helper()
		got := runIn(t, dir, "", append([]string{"restore", "--yes"}, args...)...)
		if got.code != code || !strings.Contains(got.out+got.errors, says) {
			t.Errorf("%v: %+v, want %q", args, got, says)
		}
		if got := runIn(t, dir, "", "export", "--rider", "Ines"); code == exitDone && (got.code == exitDone) != there {
			t.Errorf("%v: Ines is there: %+v", args, got)
		}
	}
	if err := os.Symlink("loop.db", "loop.db"); err != nil {
		t.Fatal(err)
	}
	restore(exitInput, false, "musette: FILE: cannot be read (stat loop.db: too many levels of symbolic links). Name a backup that the user who runs this may read", "loop.db")
	restore(exitDone, true, "List of erased people: backups/musette.db.forgotten. Beside the database there was none.\n", names[0])
	if got := runIn(t, dir, "", "erase", "--yes", "--rider", "Ines"); got.code != exitDone {
		t.Fatalf("%+v", got)
	}
	restore(exitDone, false, "List of erased people: musette.db.forgotten.\n", names[0])
	lose := func() {
		t.Helper()
		all, err := filepath.Glob("musette.db*")
		for _, name := range all {
			err = errors.Join(err, os.Remove(name))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	lose()
	restore(exitDone, false, "List of erased people: backups/musette.db.forgotten, as it was when a backup or an erasure last wrote it. Whoever was erased after that is in the database again: erase them once more, for example musette erase --db musette.db --discord 81384788765712384.\n", names[0])
	lose()
	if err := os.Mkdir("far", 0o700); err != nil {
		t.Fatal(err)
	}
	farther := filepath.Join("far", filepath.Base(names[0]))
	if data, err := os.ReadFile(names[0]); err != nil || os.WriteFile(farther, data, 0o600) != nil || os.WriteFile("far/musette.db.forgotten", nil, 0o600) != nil {
		t.Fatal("far is not there")
	}
	move("backups/musette.db.forgotten", "elsewhere")
	refusal := "musette: FILE: has no list of erased people: musette.db.forgotten is neither beside it nor beside the database that is gone, so riders who were erased would be back. Put the list there, from the folder of the backups or from the old machine, for example cp /var/backups/musette/musette.db.forgotten backups/musette.db.forgotten. Without one: musette restore --without-list --db musette.db " + names[0] + "\n"
	restore(exitInput, false, refusal, names[0])
	if all, _ := filepath.Glob("musette.db*"); len(all) > 0 {
		t.Errorf("a refusal left %v", all)
	}
	odd := filepath.Join(t.TempDir(), "it's a list")
	if err := errors.Join(os.Mkdir(odd, 0o700), os.WriteFile(filepath.Join(odd, "a.db.forgotten"), nil, 0o600), os.WriteFile(filepath.Join(odd, "-b"), nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	word := func(name string) string { return "'" + strings.ReplaceAll(filepath.Join(odd, name), "'", `'\''`) + "'" }
	restore(exitInput, false, "for example cp "+word("a.db.forgotten")+" "+word("x y.db.forgotten")+". Without one: musette restore --without-list --db 'x y.db' "+word("-b")+"\n", "--db", "x y.db", filepath.Join(odd, "-b"))
	restore(exitInput, false, "Put the list there, from the folder, where it has the name of another database, for example cp far/musette.db.forgotten far/other.db.forgotten. Without one", "--db", "other.db", farther)
	restore(exitDone, true, "There is no list of erased people. Whoever was erased after the backup was made is in the database again: erase them once more", "--without-list", names[0])
	restore(exitDone, true, "There is no list of erased people, so nobody was erased from the database that was here.\n", names[0])
	// A list in the folder that is older than the database's is named by check.
	move("elsewhere", "backups/musette.db.forgotten")
	runIn(t, dir, "", "backup", "--to", "far")
	if got := runIn(t, dir, "", "erase", "--yes", "--rider", "Tomas"); got.code != exitDone || strings.Contains(got.out, "could not write") {
		t.Errorf("%+v", got)
	}
	if err := os.WriteFile("far/musette.db.forgotten", nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := runIn(t, dir, "", "check"); !strings.Contains(got.out, filepath.Join(dir, "far")+" does not know yet of everybody who was erased. A backup takes the list there: musette backup --db musette.db --to "+filepath.Join(dir, "far")+"\n") {
		t.Errorf("check: %s", got.out)
	}
}
