package main

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
	"musette/storage/storagetest"
)

// checkOn runs a check against a double: exit code, lines, errors.
func checkOn(t *testing.T, s *discordtest.Server, token string, args ...string) (int, string, string) {
	t.Helper()
	var out shared
	code, errs := runOn(t.Context(), s, token, &out, append([]string{"check"}, args...)...)
	if strings.Contains(out.String()+errs, hiddenToken) {
		t.Errorf("the token is given away: %s%s", out.String(), errs)
	}
	return code, out.String(), errs
}

// hasLines looks for beginnings of lines.
func hasLines(t *testing.T, out string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains("\n"+out, "\n"+w) {
			t.Errorf("%q is missing in\n%s", w, out)
		}
	}
}

func TestCheckBeforeTheFirstStart(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	t.Chdir(t.TempDir())
	elsewhere := filepath.Join("none", "club.db")
	for name, test := range map[string]struct {
		token string
		args  []string
		lines int // to fix
		want  []string
	}{
		"nothing told": {"", nil, 1, []string{"note  configuration: no musette.toml", "ok    zone: UTC", "note  database: musette.db is not there yet",
			"fix   token: is missing. Set MUSETTE_DISCORD__TOKEN to your bot's token, see docs/admin.md\n", "ok    discord: " + s.URL + " answers\n"}},
		"wrong token": {"another", nil, 1, []string{"ok    discord: ", "fix   token: Discord does not know it"}},
		"right token": {hiddenToken, nil, 2, []string{"ok    token: Discord knows it", "fix   commands: ", "fix   club Marrow Vale Wheelers: is not set up"}},
		"no folder":   {hiddenToken, []string{"--db", elsewhere}, 3, []string{"fix   database: " + elsewhere + " cannot be made there ("}},
		"a folder":    {hiddenToken, []string{"--db", "."}, 2, []string{"fix   database: open database .", "note  clubs: servers that have the bot: 1. "}},
	} {
		code, out, errs := checkOn(t, s, test.token, test.args...)
		hasLines(t, out, test.want...)
		if way := ". Make the folder, which is not there, or name another file: --db or MUSETTE_DB\n"; strings.Contains(out, way) != (name == "no folder") {
			t.Errorf("%s: the way out is told: %t\n%s", name, name != "no folder", out)
		}
		if want := fmt.Sprintf("musette: lines to fix: %d. How: docs/admin.md\n", test.lines); code != exitBroke || errs != want {
			t.Errorf("%s: exit %d, errors %q; want %q", name, code, errs, want)
		}
	}
	if left, err := os.ReadDir("."); err != nil || len(left) > 0 {
		t.Errorf("checks left %v, %v", left, err)
	}
}

// A bot that serves once brings the commands; then the club is set up.
func TestCheckFindsNothingMissing(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	guild := s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	t.Chdir(t.TempDir())
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() {
		defer close(done)
		var out shared
		runOn(ctx, s, hiddenToken, &out, "serve")
	}()
	waitFor(t, func() bool { return len(s.Commands()) > 0 })
	cancel()
	<-done
	setUp(t, "musette.db", guild)
	if err := os.WriteFile("musette.toml", []byte("zone = 'Europe/Lisbon'\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, errs := checkOn(t, s, hiddenToken)
	hasLines(t, out, "ok    configuration: read from musette.toml\n", "ok    zone: Europe/Lisbon", "ok    database: musette.db can be written",
		"ok    commands: ", "ok    club Marrow Vale Wheelers: channel #races is there\n", "note  club Marrow Vale Wheelers: no coach role")
	if code != exitDone || errs != "" || strings.Contains(out, "fix ") {
		t.Errorf("nothing is missing, but: exit %d, %s\n%s", code, errs, out)
	}
}

// schema22 makes a database of today one of schema 22.
const schema22 = `DROP TABLE fault_told; ALTER TABLE club ADD COLUMN told TEXT; DELETE FROM goose_db_version WHERE version_id >= 23`

// A database of another musette may be in use by that one: it stays as it is.
func TestCheckLeavesOtherSchemasAlone(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	for name, test := range map[string]struct{ change, want string }{
		"older": {schema22,
			"note  database: musette.db has schema "},
		"newer": {`INSERT INTO goose_db_version (version_id, is_applied) SELECT max(version_id) + 1, 1 FROM goose_db_version`,
			"fix   database: open database musette.db: a newer musette made it"},
	} {
		t.Chdir(t.TempDir())
		changeDatabase(t, "musette.db", test.change)
		before, err := os.ReadFile("musette.db")
		if err != nil {
			t.Fatal(err)
		}
		_, out, _ := checkOn(t, s, hiddenToken)
		hasLines(t, out, test.want, "note  clubs: servers that have the bot: 1. ")
		if after, err := os.ReadFile("musette.db"); err != nil || !bytes.Equal(before, after) {
			t.Errorf("%s: the database changed, or %v", name, err)
		}
		if files, err := os.ReadDir("."); err != nil || len(files) != 1 {
			t.Errorf("%s: beside the database are %v, %v", name, files, err)
		}
	}
}

// changeDatabase makes a database and then does to it what only another musette would.
func changeDatabase(t *testing.T, path, statement string) {
	t.Helper()
	made, err := storage.Open(t.Context(), path)
	if err == nil {
		err = made.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(statement); err != nil {
		t.Fatal(err)
	}
}

// setUp sets the club's channel as the club itself would.
func setUp(t *testing.T, path string, guild discordtest.Guild) {
	t.Helper()
	db := storagetest.Open(t, path)
	defer db.Close()
	club, err := db.EnsureClub(t.Context(), storage.PlatformKey("discord", guild.ID), guild.Name, "Europe/Lisbon")
	if err == nil {
		_, err = db.UpdateClub(t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error {
			s.Channel = "<#" + guild.ChannelID("races") + ">"
			return nil
		})
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestCheckOfBadConfiguration(t *testing.T) {
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{"check"}, []string{"MUSETTE_ZONE=Mars", "MUSETTE_LOG=loud"}, nil, &out, &errs)
	want := "musette: MUSETTE_LOG: \"loud\" is none of debug, info and warn. For example info\nmusette: MUSETTE_ZONE: \"Mars\" is not a time zone. For example Europe/Lisbon\n"
	if code != exitInput || out.Len() > 0 || errs.String() != want {
		t.Errorf("exit %d, %q, errors %q; want %q", code, out.String(), errs.String(), want)
	}
}

// A file of the token that is missing is one line; the rest is looked at all the same.
func TestCheckOfTokenFile(t *testing.T) {
	server := httptest.NewServer(http.NotFoundHandler())
	defer server.Close()
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{"check"}, []string{"MUSETTE_DISCORD__TOKEN_FILE=none", "MUSETTE_DISCORD__URL=" + server.URL}, nil, &out, &errs)
	for _, want := range []string{"fix   token: cannot be read (open none: no such file or directory). ", "fix   discord: " + server.URL + " refuses (", "note  database: "} {
		if code != exitBroke || !strings.Contains(out.String(), want) {
			t.Errorf("exit %d: %q is missing in\n%s", code, want, out.String())
		}
	}
}

// waitFor looks again and again until there is what it waits for.
func waitFor(t *testing.T, there func() bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	tick := time.NewTicker(10 * time.Millisecond)
	defer tick.Stop()
	for !there() {
		select {
		case <-tick.C:
		case <-ctx.Done():
			t.Fatal("waited in vain")
		}
	}
}

// A fault stays on its line, whatever the system says of it.
func TestOneLineAFault(t *testing.T) {
	if got, want := oneLine("it is gone\nand its log\r\ntoo\n"), "it is gone; and its log; too"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := oneLine("near \"\x1b[2Jab\xff\u202e\x00\", a\u0308 \U0001f6b4\u200d\u2640\ufe0f"), "near \"\ufffd[2Jab\ufffd\ufffd\ufffd\", a\u0308 \U0001f6b4\u200d\u2640\ufe0f"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	var errs strings.Builder
	complain(&errs, fmt.Errorf("open the database: %w", errors.Join(errors.New("first"), errors.New("second"))), exitBroke)
	if got, want := errs.String(), "musette: open the database: first; second\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What was not looked at before an interrupt is not called missing.
func TestCheckIsInterrupted(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	defer interrupt()
	server := httptest.NewServer(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		interrupt()
		<-r.Context().Done()
	}))
	defer server.Close()
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	code := run(ctx, []string{"check"}, []string{"MUSETTE_DISCORD__TOKEN=abc", "MUSETTE_METRICS=off", "MUSETTE_DISCORD__URL=" + server.URL}, nil, &out, &errs)
	if code != exitBroke || out.Len() > 0 || !strings.HasPrefix(errs.String(), "musette: interrupted. ") {
		t.Errorf("exit %d, %q, %q", code, out.String(), errs.String())
	}
}
