package main

import (
	"errors"
	"fmt"
	"log/slog"
	"os"
	"syscall"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/gateway"
	"musette/planner"
)

// serveCommand is the bot on Discord.
type serveCommand struct {
	DB *string `name:"db" placeholder:"FILE" help:"Database file (musette.db)."`
}

// Run implements the subcommand. It ends with the world's context.
func (c *serveCommand) Run(w *world) (err error) {
	conf, err := loadConfig(w.environ, w.configFile, dbFlag(c.DB))
	if err != nil {
		return err
	}
	token, err := conf.Discord.token()
	if err != nil {
		return err
	}
	lock, err := lockDatabase(conf.DB)
	if err != nil {
		return err
	}
	defer lock.Close() //nolint:errcheck // only the lock hangs on it
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

// lockDatabase keeps a second bot from the same database, where both would
// answer everything. The lock goes with the file returned, or with the process.
// The lock file stays: to delete it could let two processes in.
func lockDatabase(path string) (*os.File, error) {
	file, err := os.OpenFile(path+".lock", os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, fmt.Errorf("lock database: %w", err)
	}
	switch err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
	case errors.Is(err, syscall.EWOULDBLOCK):
		return nil, errors.Join(fmt.Errorf("%s: another musette serve answers with this database already. Stop it first, or name another file with --db", path), file.Close())
	case err != nil:
		return nil, errors.Join(fmt.Errorf("lock database %s: %w", path, err), file.Close())
	}
	return file, nil
}
