package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"musette/bot/discord"
	"musette/planner"
	"musette/storage"
)

// checkTime bounds a whole check, readTime the reading of the whole database.
const (
	checkTime = 30 * time.Second
	readTime  = 15 * time.Second
)

// checkCommand says what the bot still needs.
type checkCommand struct {
	DB     *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	Shards *string `placeholder:"N" help:"As given to musette serve (auto)."`
	Own    *string `placeholder:"0-1" help:"As given to musette serve (all)."`
	Fix    bool    `help:"Take the files of database, token and backups from others on this machine."`
}

// Run implements the subcommand. Something to fix is an error.
func (c *checkCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, flagSettings(map[string]*string{"db": c.DB, keyShards: c.Shards, keyOwn: c.Own}))
	if err != nil {
		return err
	}
	share, err := conf.share()
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(w.ctx, checkTime)
	defer cancel()
	db, there, aboutDB, wrongDB := checkDatabase(ctx, conf.DB)
	if db != nil {
		defer func() { err = errors.Join(err, db.Close()) }()
	}
	token, wrong := conf.Discord.token(w.ctx)
	findings := []discord.Finding{checkFile(w), {State: discord.StateOK, What: "zone", Text: conf.Zone + ", for clubs that are new"}, aboutDB}
	findings = append(findings, checkSpace(conf.DB)...)
	findings = append(findings, checkLists(conf.DB)...)
	findings = append(findings, c.checkModes(conf, storage.Foreign(wrongDB))...)
	if in, ok := errors.AsType[*planner.InputError](wrong); ok {
		findings = append(findings, discord.Finding{State: discord.StateFix, What: "token", Text: in.Msg})
	}
	if db != nil {
		findings = append(findings, checkPosts(ctx, db)...)
	}
	findings = append(findings, checkRunning(ctx, conf.Metrics)...)
	findings = append(findings, discord.Check(ctx, discord.Config{Token: string(token), URL: conf.Discord.URL, DB: db, Share: share}, there && db == nil)...)
	if err := w.ctx.Err(); err != nil { // what could not be reached may be there
		return err
	}
	missing := 0
	for _, f := range findings {
		if f.State == discord.StateFix {
			missing++
		}
		if _, err := fmt.Fprintf(w.stdout, "%-5s %s: %s\n", f.State, f.What, oneLine(f.Text)); err != nil {
			return err
		}
	}
	if missing > 0 {
		return fmt.Errorf("lines to fix: %d. How: docs/admin.md", missing)
	}
	return nil
}

// oneLine keeps what was found on the line of its fault. A damaged file may hold
// anything, so what moves a terminal's cursor or turns the line around is left out.
func oneLine(text string) string {
	text = strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' }), "; ")
	return hideTokens(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return utf8.RuneError
		}
		return r
	}, text))
}

// checkFile tells which configuration file is read, if any.
func checkFile(w *world) discord.Finding {
	path, _ := configPath(w.configFile, w.getenv(envConfig))
	if path == "" {
		return discord.Finding{State: discord.StateNote, What: "configuration",
			Text: "no " + defaultConfigFile + " in this folder. Environment and defaults hold"}
	}
	return discord.Finding{State: discord.StateOK, What: "configuration", Text: "read from " + path}
}

// checkDatabase only looks: the bot may be at work with the database, and be an
// older one. The database is nil where it is not there or cannot be read: wrong tells why.
func checkDatabase(ctx context.Context, path string) (db *storage.DB, there bool, about discord.Finding, wrong error) {
	found := func(state, format string, args ...any) discord.Finding {
		return discord.Finding{State: state, What: "database", Text: fmt.Sprintf(format, args...)}
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := canMake(path); err != nil {
			deed := "Make the folder writable"
			if errors.Is(err, fs.ErrNotExist) {
				deed = "Make the folder, which is not there,"
			}
			return nil, false, found(discord.StateFix, "%s cannot be made there (%v). %s or name another file: --db or %s", path, err, deed, setting{key: "db"}.envName()), err
		}
		return nil, false, found(discord.StateNote, "%s is not there yet. musette serve makes it", path), nil
	}
	db, err := storage.OpenAsIs(ctx, path)
	switch other, ok := errors.AsType[*storage.SchemaError](err); {
	case err == nil:
		if state, damage := checkDamage(ctx, db, path); damage != "" {
			return db, true, found(state, "%s: %s", path, damage), nil
		}
		return db, true, found(discord.StateOK, "%s can be written and is whole, its schema is up to date", path), nil
	case ok && other.Have == 0:
		return nil, false, found(discord.StateNote, "%s is empty. musette serve sets it up", path), nil
	case ok && other.Have < other.Newest:
		if _, err := lookThrough(ctx, path); err != nil {
			return nil, true, found(discord.StateFix, "%v", err), err
		}
		return nil, true, found(discord.StateNote, "%s has schema %d of %d: it is of an older musette, or its first start did not end. musette serve brings it up to date, with a copy beside it", path, other.Have, other.Newest), nil
	}
	return nil, true, found(discord.StateFix, "%v", mended(err, path)), err
}

// canMake tells why no file can be made in the folder of path.
func canMake(path string) error {
	probe, err := os.CreateTemp(filepath.Dir(path), ".musette-check-*")
	if err != nil {
		return err
	}
	return errors.Join(probe.Close(), os.Remove(probe.Name()))
}
