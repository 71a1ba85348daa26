package main

import (
	"context"
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
		"no answer":    {"no\n", "musette: answer: is not yes, so nothing has changed. ", []string{"restore", names[0]}},
		"no such file": {"", "musette: FILE: none.db is no file. ", []string{"restore", "--yes", "none.db"}},
		"itself":       {"", "musette: FILE: is the database itself. ", []string{"restore", "--yes", "musette.db"}},
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
	if kept, err := os.ReadDir("kept"); err != nil || len(kept) != 1 {
		t.Errorf("kept: %v, %v", kept, err)
	}
}
