package main

import (
	"errors"
	"fmt"
	"log/slog"
	"os"
	"strings"

	"musette/bot"
	"musette/bot/terminal"
	"musette/planner"
)

// chatCommand is the conversation in a terminal. Pointers tell a flag that was
// given from one that was not.
type chatCommand struct {
	DB    *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	Club  *string `placeholder:"NAME" help:"Club to speak in (home)."`
	As    *string `placeholder:"NAME" help:"Rider to speak as (me)."`
	Coach bool    `help:"Speak as one of the club's coaches."`
	Zone  *string `placeholder:"IANA" help:"Time zone of the rider, for example Europe/Lisbon."`
	Now   *string `placeholder:"TIME" help:"Freeze the clock, for example 2026-06-01T08:00."`
	JSON  bool    `name:"json" help:"Answer each line with one line of JSON."`
}

// Run implements the subcommand.
func (c *chatCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, c.flags())
	if err := errors.Join(usable("--as", c.As, "Ines"), usable("--now", c.Now, "2026-06-01T08:00"), err); err != nil {
		return err
	}
	rider := told(c.As)
	if c.As == nil {
		rider = "me"
	}
	log := slog.New(slog.NewTextHandler(w.stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	db, err := openDatabase(w.ctx, conf.DB, log)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for _, warning := range openFiles(conf) {
		fmt.Fprintf(w.stderr, "musette: %s: %s\n", warning[0], warning[1])
	}
	clock := new(terminal.Clock)
	db.Now = clock.Now // what is stored and what is owed go by one clock
	session, err := terminal.Open(w.ctx, terminal.Config{
		Bot: bot.New(bot.Deps{DB: db, Log: log}), DB: db, Clock: clock,
		Club: conf.Club, Athlete: rider, Coach: c.Coach,
		Zone: told(c.Zone), Home: conf.Zone, Now: told(c.Now), JSON: c.JSON, History: terminal.HistoryFile(w.getenv),
	})
	if err != nil {
		return err
	}
	if w.stdin == os.Stdin && !c.JSON && terminal.Interactive() {
		return session.RunInteractive(w.ctx, w.stdout)
	}
	return session.Run(w.ctx, w.stdin, w.stdout)
}

// flags are the settings that were given as flags.
func (c *chatCommand) flags() map[string]string {
	out := map[string]string{}
	for key, value := range map[string]*string{"db": c.DB, "club": c.Club, "zone": c.Zone} {
		if value != nil {
			out[key] = *value
		}
	}
	return out
}

// usable refuses a flag that was given without a value, or with a token instead.
func usable(name string, flag *string, example string) error {
	wrong := ""
	switch {
	case flag == nil:
		return nil
	case strings.TrimSpace(*flag) == "":
		wrong = "is empty"
	case tokenLike.MatchString(*flag):
		wrong = tokenThere(setting{key: keyToken}.envName())
	default:
		return nil
	}
	return &planner.InputError{Field: name, Msg: wrong + ". For example " + name + " " + example}
}

func told(flag *string) string {
	if flag == nil {
		return ""
	}
	return *flag
}

// getenv is os.Getenv over the world's environment.
func (w *world) getenv(name string) string {
	for _, entry := range w.environ {
		if value, ok := strings.CutPrefix(entry, name+"="); ok {
			return value
		}
	}
	return ""
}
