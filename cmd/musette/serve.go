package main

import (
	"errors"
	"io"
	"log/slog"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/gateway"
	"musette/bot/meter"
	"musette/planner"
	"musette/storage"
)

// serveCommand is the bot on Discord.
type serveCommand struct {
	DB     *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
	Shards *string `placeholder:"N" help:"Shards of the bot: a number, or as many as Discord recommends (auto)."`
	Own    *string `placeholder:"0-1" help:"Shards that this process runs, where others run the rest (all)."`
}

// Run implements the subcommand. It ends with the world's context.
func (c *serveCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, flagSettings(map[string]*string{"db": c.DB, "shards": c.Shards, "own": c.Own}))
	if err != nil {
		return err
	}
	share, err := conf.share()
	if err != nil {
		return err
	}
	token, err := conf.Discord.token(w.ctx)
	if err != nil {
		return err
	}
	lock, err := storage.LockServing(w.ctx, conf.DB)
	if err != nil {
		return err
	}
	defer lock.Release() //nolint:errcheck // only the lock hangs on it
	log := newLog(w.stderr, conf)
	db, err := openDatabase(w.ctx, conf.DB, log)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for _, warning := range openFiles(conf) {
		log.Warn(warning[1])
	}
	counts := meter.New()
	stop := serveMetrics(conf.Metrics, counts, db, log)
	defer stop()
	app, err := discord.New(discord.Config{
		Token: string(token), URL: conf.Discord.URL, Zone: conf.Zone, Share: share,
		DB: db, Bot: bot.New(bot.Deps{DB: db, Log: log, Meter: counts}), Log: log, Out: w.stdout, Meter: counts,
	})
	if err != nil {
		return err
	}
	err = app.Run(w.ctx)
	if fatal, ok := errors.AsType[*gateway.FatalError](err); ok {
		// Trying again would end the same way, so it counts as bad configuration.
		return &planner.InputError{Msg: fatal.Error()}
	}
	return err
}

// newLog writes a line for each event, with its fields by name.
func newLog(out io.Writer, conf Config) *slog.Logger {
	options := &slog.HandlerOptions{Level: levels[conf.Log]}
	if conf.LogFormat == "json" {
		return slog.New(slog.NewJSONHandler(out, options))
	}
	return slog.New(slog.NewTextHandler(out, options))
}

// dbFlag is the flag of the database as a setting, where it was given.
func dbFlag(db *string) map[string]string { return flagSettings(map[string]*string{"db": db}) }

// flagSettings are those flags, by setting, that were given.
func flagSettings(flags map[string]*string) map[string]string {
	given := map[string]string{}
	for key, value := range flags {
		if value != nil {
			given[key] = *value
		}
	}
	return given
}
