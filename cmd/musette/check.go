package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"musette/bot/discord"
	"musette/planner"
	"musette/storage"
)

// checkTime bounds a whole check.
const checkTime = 30 * time.Second

// checkCommand says what the bot still needs.
type checkCommand struct {
	DB *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
}

// Run implements the subcommand. Something to fix is an error.
func (c *checkCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.environ, w.configFile, dbFlag(c.DB))
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(w.ctx, checkTime)
	defer cancel()
	db, aboutDB := checkDatabase(ctx, conf.DB)
	if db != nil {
		defer func() { err = errors.Join(err, db.Close()) }()
	}
	token, wrong := conf.Discord.token()
	findings := []discord.Finding{checkFile(w), {State: discord.StateOK, What: "zone", Text: conf.Zone + ", for clubs that are new"}, aboutDB}
	if in, ok := errors.AsType[*planner.InputError](wrong); ok {
		findings = append(findings, discord.Finding{State: discord.StateFix, What: "token", Text: in.Msg})
	}
	findings = append(findings, discord.Check(ctx, discord.Config{Token: string(token), URL: conf.Discord.URL, DB: db})...)
	missing := 0
	for _, f := range findings {
		if f.State == discord.StateFix {
			missing++
		}
		if _, err := fmt.Fprintf(w.stdout, "%-5s %s: %s\n", f.State, f.What, f.Text); err != nil {
			return err
		}
	}
	if missing > 0 {
		return fmt.Errorf("lines to fix: %d; how: docs/admin.md", missing)
	}
	return nil
}

// checkFile tells which configuration file is read, if any.
func checkFile(w *world) discord.Finding {
	path, _ := configPath(w.configFile, w.getenv(envConfig))
	if path == "" {
		return discord.Finding{State: discord.StateNote, What: "configuration",
			Text: "no " + defaultConfigFile + " in this folder; environment and defaults hold"}
	}
	return discord.Finding{State: discord.StateOK, What: "configuration", Text: "read from " + path}
}

// checkDatabase opens the database, which brings its schema up to date; it makes
// none. The database is nil where there is none or it cannot be opened.
func checkDatabase(ctx context.Context, path string) (*storage.DB, discord.Finding) {
	found := func(state, text string) discord.Finding {
		return discord.Finding{State: state, What: "database", Text: text}
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		probe, err := os.CreateTemp(filepath.Dir(path), ".musette-check-*")
		if err != nil {
			return nil, found(discord.StateFix, fmt.Sprintf("%s cannot be made there (%v); make the folder writable or name another file: %s", path, err, setting{key: "db"}.envName()))
		}
		err = errors.Join(probe.Close(), os.Remove(probe.Name()))
		if err != nil {
			return nil, found(discord.StateFix, err.Error())
		}
		return nil, found(discord.StateNote, path+" is not there yet; musette serve makes it")
	}
	db, err := storage.Open(ctx, path)
	if err != nil {
		return nil, found(discord.StateFix, err.Error())
	}
	return db, found(discord.StateOK, path+" can be written, its schema is up to date")
}
