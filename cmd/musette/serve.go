package main

import (
	"errors"
	"log/slog"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/gateway"
	"musette/planner"
	"musette/storage"
)

// serveCommand is the bot on Discord.
type serveCommand struct {
	DB *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
}

// Run implements the subcommand. It ends with the world's context.
func (c *serveCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.ctx, w.environ, w.configFile, dbFlag(c.DB))
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
	log := slog.New(slog.NewTextHandler(w.stderr, &slog.HandlerOptions{Level: levels[conf.Log]}))
	db, err := openDatabase(w.ctx, conf.DB, log)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for _, warning := range openFiles(conf) {
		log.Warn(warning[1])
	}
	app, err := discord.New(discord.Config{
		Token: string(token), URL: conf.Discord.URL, Zone: conf.Zone,
		DB: db, Bot: bot.New(bot.Deps{DB: db, Log: log}), Log: log, Out: w.stdout,
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

// dbFlag is the flag of the database as a setting, where it was given.
func dbFlag(db *string) map[string]string {
	if db == nil {
		return nil
	}
	return map[string]string{"db": *db}
}
