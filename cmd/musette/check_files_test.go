package main

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

// Files that others can use are named, and --fix takes them from the others.
func TestCheckMendsModes(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	t.Chdir(t.TempDir())
	changeDatabase(t, "musette.db", `PRAGMA user_version = 0`)
	files := []string{"musette.db", "musette.db.forgotten", "musette.db.schema-3.backup", "musette.toml"}
	for _, name := range files[1:] {
		text := ""
		if name == "musette.toml" {
			text = "[discord]\ntoken = 'abc'\n"
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range files {
		if err := os.Chmod(name, 0o646); err != nil {
			t.Fatal(err)
		}
	}
	_, out, _ := checkOn(t, s, hiddenToken)
	for _, name := range files {
		if !strings.Contains(out, name+" can be read and changed by others on this machine (mode 0646)") {
			t.Errorf("%s is not named in\n%s", name, out)
		}
	}
	if got := runIn(t, ".", "/help\n", "chat"); got.code != exitDone || !strings.Contains(got.errors, "musette: database: "+files[0]+" can be read and changed by others on this machine (mode 0646)") {
		t.Errorf("chat says nothing of it: %+v", got)
	}
	_, out, _ = checkOn(t, s, hiddenToken, "--fix")
	for _, name := range files {
		info, err := os.Stat(name)
		if err != nil || info.Mode().Perm() != 0o600 || !strings.Contains(out, name+" can be used by its owner alone now") {
			t.Errorf("%s has mode %v, %v:\n%s", name, info.Mode(), err, out)
		}
	}
	if _, out, _ = checkOn(t, s, hiddenToken); strings.Contains(out, "by others") {
		t.Errorf("after the fix:\n%s", out)
	}
}

// The backups and their folder are looked at, too. A folder that others use as well is not
// taken from them.
func TestCheckMendsBackups(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	dir := t.TempDir()
	t.Chdir(dir)
	changeDatabase(t, "musette.db", `PRAGMA user_version = 0`)
	for _, args := range [][]string{{"backup"}, {"backup", "--to", "shared"}} {
		if got := runIn(t, dir, "", args...); got.code != exitDone {
			t.Fatalf("%+v", got)
		}
	}
	err := os.WriteFile(filepath.Join("shared", "notes.txt"), nil, 0o644)
	var files []string
	for _, folder := range []string{"backups", "shared"} {
		made, _ := filepath.Glob(filepath.Join(folder, "musette*"))
		files = append(files, made...)
	}
	for _, name := range files {
		err = errors.Join(err, os.Chmod(name, 0o644))
	}
	if err := errors.Join(err, os.Chmod("backups", 0o755), os.Chmod("shared", 0o777)); err != nil || len(files) != 4 {
		t.Fatal(err, files)
	}
	_, out, _ := checkOn(t, s, hiddenToken)
	for _, want := range append(files, filepath.Join(dir, "backups")+" can be read by others on this machine (mode 0755), and it holds backups: chmod 700 ") {
		if !strings.Contains(out, want) {
			t.Errorf("%s is not named in\n%s", want, out)
		}
	}
	checkOn(t, s, hiddenToken, "--fix")
	modes := map[string]os.FileMode{"backups": 0o700, "shared": 0o777, filepath.Join("shared", "notes.txt"): 0o644}
	for _, name := range files {
		modes[name] = 0o600
	}
	for name, want := range modes {
		if info, err := os.Stat(name); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s has mode %v, %v, want %v", name, info.Mode(), err, want)
		}
	}
	if _, out, _ := checkOn(t, s, hiddenToken); strings.Contains(out, "by others") {
		t.Errorf("after the fix:\n%s", out)
	}
}

// What is no file, such as a device that was named by a slip, stays everybody's.
func TestCheckLeavesOthersThanFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := errors.Join(os.Mkdir("tokens", 0o700), os.Chmod("tokens", 0o777)); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	run(t.Context(), []string{"check", "--fix"}, []string{"TZ=UTC", "MUSETTE_DISCORD__TOKEN_FILE=tokens"}, strings.NewReader(""), &out, &errs)
	info, err := os.Stat("tokens")
	if err != nil || info.Mode().Perm() != 0o777 || strings.Contains(out.String(), "owner alone") {
		t.Errorf("%v, %v:\n%s", info.Mode(), err, out.String())
	}
}

// Neither check --fix nor a backup changes anything of another program's database,
// nor of one that the same tool has migrated for another program.
func TestForeignFilesAreLeftAlone(t *testing.T) {
	for _, schema := range []string{
		`CREATE TABLE n (x)`,
		`CREATE TABLE users (id, name); CREATE TABLE goose_db_version (id INTEGER PRIMARY KEY AUTOINCREMENT, version_id INTEGER, is_applied INTEGER, tstamp);
			INSERT INTO goose_db_version (version_id, is_applied) VALUES (0, 1), (5, 1)`,
	} {
		leavesForeignAlone(t, schema)
	}
}

func leavesForeignAlone(t *testing.T, schema string) {
	t.Helper()
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	t.Chdir(t.TempDir())
	foreign, err := sql.Open("sqlite3", "other.db")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := foreign.Exec(schema); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(foreign.Close(), os.Chmod("other.db", 0o644)); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile("other.db")
	if err != nil {
		t.Fatal(err)
	}
	if _, out, _ := checkOn(t, s, hiddenToken, "--fix", "--db", "other.db"); !strings.Contains(out, "not a musette database") {
		t.Errorf("check says\n%s", out)
	}
	for _, args := range [][]string{{"backup", "--db", "other.db", "--to", "copies"}, {"chat", "--db", "other.db"}} {
		if got := runIn(t, ".", "", args...); got.code != exitBroke {
			t.Errorf("%s: exit %d, %s", args, got.code, got.errors)
		}
	}
	after, err := os.ReadFile("other.db")
	info, failed := os.Stat("other.db")
	if err := errors.Join(err, failed); err != nil {
		t.Fatal(err)
	}
	if string(after) != string(before) || info.Mode().Perm() != 0o644 {
		t.Errorf("the file was changed; its mode is %v", info.Mode())
	}
	if files, err := os.ReadDir("."); err != nil || len(files) != 1 {
		t.Errorf("there are %v, %v", files, err)
	}
}

// A database that misses a part, or whose pages are damaged, is not called whole.
func TestCheckSeesDamage(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	for name, spoil := range map[string]func() error{
		"a table less": func() error { changeDatabase(t, "musette.db", `DROP TABLE pin`); return nil },
		"an older one, a table less": func() error {
			changeDatabase(t, "musette.db", schema22+`; DROP TABLE pin`)
			return nil
		},
		"zeros": func() error {
			file, err := os.OpenFile("musette.db", os.O_RDWR, 0)
			if err != nil {
				return err
			}
			_, err = file.WriteAt(make([]byte, 8192), 4096)
			return errors.Join(err, file.Close())
		},
	} {
		t.Chdir(t.TempDir())
		changeDatabase(t, "musette.db", `PRAGMA user_version = 0`)
		if err := spoil(); err != nil {
			t.Fatal(err)
		}
		code, out, _ := checkOn(t, s, hiddenToken)
		if code != exitBroke || !strings.Contains(out, "fix   database: ") || !strings.Contains(out, "put back a backup, see musette restore --help") {
			t.Errorf("%s: exit %d\n%s", name, code, out)
		}
		saysHowToMend(t, name)
	}
}

// saysHowToMend wants each command that opens a damaged database to name what puts the newest
// backup back, and none to write to it.
func saysHowToMend(t *testing.T, damage string) {
	t.Helper()
	newest, failed := filepath.Abs(filepath.Join("backups", "musette-2026-05-28T031500Z.db"))
	before, err := os.ReadFile("musette.db")
	if err := errors.Join(err, failed, os.Mkdir("backups", 0o700), os.WriteFile(newest, nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"chat"}, {"serve"}, {"backup"}, {"check"}, {"export", "--rider", "Ines"}, {"erase", "--yes", "--rider", "Ines"}} {
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second) // serve goes on where it takes the file for whole
		var out bytes.Buffer
		code := run(ctx, args, []string{"TZ=UTC", "MUSETTE_DISCORD__TOKEN=abc", "MUSETTE_METRICS=off", "MUSETTE_DISCORD__URL=http://127.0.0.1:9"}, strings.NewReader("/help\n"), &out, &out)
		cancel()
		text := out.String()
		if code != exitBroke || strings.Count(text, ". The newest backup found: musette restore --db musette.db "+newest) != 1 || !strings.Contains(text, "damaged") {
			t.Errorf("%s, %s: exit %d, %s", damage, args[0], code, text)
		}
		if after, err := os.ReadFile("musette.db"); err != nil || string(after) != string(before) {
			t.Errorf("%s, %s: the database was written to, %v", damage, args[0], err)
		}
	}
}

// Commands that people copy hold a name with blanks as one word.
func TestNamesInCommands(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "my club")
	db := filepath.Join(folder, "it's ours.db")
	if err := errors.Join(os.Mkdir(folder, 0o755), os.WriteFile(db, []byte("no database"), 0o644)); err != nil {
		t.Fatal(err)
	}
	word := "'" + strings.ReplaceAll(db, "'", `'\''`) + "'"
	for name, test := range map[string]struct{ got, want string }{
		"restore": {restoreWith(db), "musette restore --db " + word + " /var"},
		"modes":   {tooOpen(db, "health data", false), "chmod 600 " + word},
	} {
		if !strings.Contains(test.got, test.want) {
			t.Errorf("%s: got %s", name, test.got)
		}
	}
}
