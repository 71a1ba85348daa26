package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"musette/bot/bottest/notice"
	"musette/bot/discord/discordtest"
	"musette/storage"
	"musette/storage/storagetest"
)

// people is a closed database, musette.db in a new working folder: Ines of home by
// name, account 4242 in two clubs, and two accounts of one name.
func people(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	db := storagetest.Open(t, "musette.db")
	add := func(club, rider storage.Key, name, shown string) {
		t.Helper()
		c, err := db.EnsureClub(t.Context(), club, name, "UTC")
		if err == nil {
			_, err = db.EnsureAthlete(t.Context(), c.ID, rider, shown)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	account := func(id string) storage.Key { return storage.PlatformKey("discord", id) }
	add(storage.NameKey("home"), storage.NameKey("Ines"), "home", "Ines")
	add(account("1"), account("4242"), "Marrow Vale Wheelers", "Rui")
	add(account("2"), account("4242"), "Mill Riders", "Rui")
	add(account("2"), account("51"), "Mill Riders", "Ann")
	add(account("2"), account("52"), "Mill Riders", "Ann")
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// tell runs the program in the working folder.
func tell(t *testing.T, stdin string, args ...string) result {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(t.Context(), args, []string{"TZ=UTC", "XDG_STATE_HOME=" + must(filepath.Abs("state"))}, strings.NewReader(stdin), &out, &errs)
	return result{code, out.String(), errs.String()}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func TestPersonCommandsRefuse(t *testing.T) {
	people(t)
	before := must(os.ReadFile("musette.db"))
	if err := os.WriteFile("there.json", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		args []string
		says string
	}{
		{nil, "musette: --rider: name one person"},
		{[]string{"--rider", "Ines", "--discord", "1"}, "musette: --rider: name one person"},
		{[]string{"--rider", " "}, "musette: --rider: is empty"},
		{[]string{"--discord", "Ines"}, "musette: --discord: is no number of an account"},
		{[]string{"--discord", "1", "--club", "home"}, "musette: --club: goes with --rider alone"},
		{[]string{"--discord", "99"}, "musette: --discord: nothing is stored of 99"},
		{[]string{"--rider", "Rui"}, "musette: --rider: no rider Rui is stored in the club home"},
		{[]string{"--rider", "ann", "--club", "mill riders"}, "musette: --rider: several riders have the name ann in the club mill riders: 51, 52. Name one of them"},
		{[]string{"--rider", "Ines", "--db", "none.db"}, "musette: --db: none.db is not there"},
	} {
		for _, command := range [][]string{{"export"}, {"erase", "--yes"}} {
			got := tell(t, "", append(command, tc.args...)...)
			if got.code != exitInput || got.out != "" || !strings.HasPrefix(got.errors, tc.says) || !strings.Contains(got.errors, "or example") {
				t.Errorf("%s %q: %+v", command, tc.args, got)
			}
		}
	}
	for _, out := range []string{"", "there.json", "musette.db", filepath.Join("nowhere", "x.json")} {
		if got := tell(t, "", "export", "--rider", "Ines", "--out", out); got.code != exitInput || got.out != "" || !strings.HasPrefix(got.errors, "musette: --out: ") {
			t.Errorf("--out %q: %+v", out, got)
		}
	}
	for _, typed := range []string{"", "\n", "Rui\n"} {
		if got := tell(t, typed, "erase", "--rider", "Ines"); got.code != exitInput || !strings.Contains(got.errors, "nothing was erased") {
			t.Errorf("typed %q: %+v", typed, got)
		}
	}
	if _, err := os.Stat("none.db"); !errors.Is(err, os.ErrNotExist) || !bytes.Equal(before, must(os.ReadFile("musette.db"))) || string(must(os.ReadFile("there.json"))) != "mine" {
		t.Errorf("a refused command changed something, %v", err)
	}
}

func TestExportCommand(t *testing.T) {
	people(t)
	shown := tell(t, "", "export", "--discord", "4242")
	var got struct {
		Key   string
		Clubs []struct{ Club, Name string }
	}
	if err := json.Unmarshal([]byte(shown.out), &got); err != nil || shown.code != exitDone || got.Key != "discord:4242" || len(got.Clubs) != 2 || got.Clubs[1].Club != "Mill Riders" {
		t.Fatalf("%v, %+v", err, shown)
	}
	kept := tell(t, "", "export", "--club", "Mill Riders", "--rider", "rui", "--out", "rui.json")
	if kept.code != exitDone || kept.out != "All that is stored of Rui (Marrow Vale Wheelers, Mill Riders) is in rui.json.\n" {
		t.Errorf("%+v", kept)
	}
	if info := must(os.Stat("rui.json")); info.Mode().Perm() != 0o600 || !json.Valid(must(os.ReadFile("rui.json"))) {
		t.Errorf("the file has mode %v", info.Mode())
	}
}

func TestEraseCommand(t *testing.T) {
	people(t)
	history := filepath.Join("state", "musette", "history")
	if err := errors.Join(os.MkdirAll(filepath.Dir(history), 0o700), os.WriteFile(history, []byte("/week show\n"), 0o600)); err != nil {
		t.Fatal(err)
	}
	// Of an account the lines of a terminal are not.
	account := tell(t, "rui\n", "erase", "--discord", "4242")
	if account.code != exitDone || !strings.Contains(account.out, "Type the name Rui to go on: \nRui is erased: Marrow Vale Wheelers, Mill Riders.\n") ||
		!strings.Contains(account.out, "Messages that musette sent stay in Discord.\n") {
		t.Errorf("%+v", account)
	}
	if _, err := os.Stat(history); err != nil {
		t.Error(err)
	}
	name := tell(t, "", "erase", "--rider", "ines", "--yes")
	if name.code != exitDone || !strings.HasPrefix(name.out, "Ines is erased: home.\n") || !strings.Contains(name.out, "The lines typed in musette chat are deleted, too: ") {
		t.Errorf("%+v", name)
	}
	if _, err := os.Stat(history); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the history is there: %v", err)
	}
	for _, args := range [][]string{{"--rider", "ines"}, {"--discord", "4242"}} {
		if got := tell(t, "", append([]string{"export"}, args...)...); got.code != exitInput {
			t.Errorf("%s: %+v", args, got)
		}
	}
	for _, file := range must(filepath.Glob("musette.db*")) {
		if data := must(os.ReadFile(file)); bytes.Contains(data, []byte("Rui")) || bytes.Contains(data, []byte("Ines")) || !bytes.Contains(data, []byte("Ann")) && file == "musette.db" {
			t.Errorf("%s holds who was erased, or not who stays", file)
		}
	}
}

// Erasing works while the bot runs; a restored copy is told of once, and files
// that are too open are warned of by serve and check.
func TestServeAfterRestoreAndBesideErase(t *testing.T) {
	people(t)
	copied := must(os.ReadFile("musette.db"))
	if got := tell(t, "", "erase", "--rider", "Ines", "--yes"); got.code != exitDone {
		t.Fatalf("%+v", got)
	}
	if err := errors.Join(os.WriteFile("musette.db", copied, 0o600), os.Chmod("musette.db", 0o666), os.WriteFile("token", []byte(hiddenToken), 0o600), os.Chmod("token", 0o640)); err != nil {
		t.Fatal(err)
	}
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	environ := []string{"TZ=UTC", "MUSETTE_DISCORD__URL=" + s.URL, "MUSETTE_DISCORD__TOKEN_FILE=token"}
	serve := func(beside func()) string {
		ctx, cancel := context.WithCancel(t.Context())
		var out, errs shared
		done := make(chan struct{})
		go func() {
			defer close(done)
			run(ctx, []string{"serve"}, environ, strings.NewReader(""), &out, &errs)
		}()
		waitFor(t, func() bool { return strings.Contains(out.String()+errs.String(), "onnected") })
		beside()
		cancel()
		<-done
		return errs.String()
	}
	first := serve(func() {
		if got := tell(t, "", "erase", "--discord", "51", "--yes"); got.code != exitDone {
			t.Errorf("beside serve: %+v", got)
		}
	})
	for _, want := range []string{"riders who had been erased", "musette.db can be read and changed by others on this machine (mode 0666), and it holds health data: chmod 600 musette.db", "token can be read by others on this machine (mode 0640)"} {
		if strings.Count(first, want) != 1 {
			t.Errorf("the log has %q not once:\n%s", want, first)
		}
	}
	if again := serve(func() {}); strings.Contains(again, "erased") {
		t.Errorf("told again:\n%s", again)
	}
	var out, errs shared
	run(t.Context(), []string{"check"}, environ, nil, &out, &errs)
	hasLines(t, out.String(), "note  database: musette.db can be read and changed by others", "note  token: token can be read by others")
}

func TestVersion(t *testing.T) {
	if got := runIn(t, t.TempDir(), "", "--version"); got.code != exitDone || !strings.HasPrefix(got.out, "musette ") || !strings.Contains(got.out, "go1") || got.errors != "" {
		t.Errorf("%+v", got)
	}
}

// What root makes beside a database belongs to the owner of the database: else the bot,
// which runs as that user, could not read its own files any more.
func TestRootKeepsTheOwner(t *testing.T) {
	if os.Geteuid() != 0 {
		notice.Skip(t, "the owner of files that root makes beside a database: only root can give files away")
	}
	people(t)
	const owner = 65534
	dir := must(os.Getwd())
	if err := errors.Join(os.WriteFile("musette.db.schema-3.backup", must(os.ReadFile("musette.db")), 0o600), os.Chown(dir, owner, owner),
		os.Chown("musette.db", owner, owner), os.Chown("musette.db.schema-3.backup", owner, owner)); err != nil {
		t.Fatal(err)
	}
	others := func(when string) {
		t.Helper()
		for _, name := range must(filepath.Glob("musette.db*")) {
			if info := must(os.Stat(name)); info.Sys().(*syscall.Stat_t).Uid != owner {
				t.Errorf("%s: %s belongs to root", when, name)
			}
		}
	}
	for _, to := range []string{"backups", "."} {
		if got := tell(t, "", "backup", "--to", to); got.code != exitDone {
			t.Fatalf("%+v", got)
		}
		others("a backup to " + to)
	}
	if got := tell(t, "", "erase", "--yes", "--discord", "4242"); got.code != exitDone {
		t.Fatalf("%+v", got)
	}
	others("an erasure")
	backup := must(filepath.Glob("backups/musette-*.db"))[0]
	for _, when := range []string{"a restoration", "a restoration on a new machine"} {
		if got := tell(t, "", "restore", "--yes", backup); got.code != exitDone {
			t.Fatalf("%+v", got)
		}
		others(when)
		for _, name := range must(filepath.Glob("musette.db*")) {
			if err := os.Remove(name); err != nil {
				t.Fatal(err)
			}
		}
	}
}
