package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"sync/atomic"
	"time"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/storage"
)

// clockCommand lets the bot's clock run ahead and back while reminders come due.
type clockCommand struct {
	Riders int           `default:"200" help:"Riders with a reminder that comes due meanwhile."`
	Wrong  time.Duration `default:"130s" help:"How long the clock is ahead, and then how long it is behind: less than the three minutes after which it is believed."`
}

const (
	clockAhead  = 48*time.Hour + 10*time.Minute // past the reminders of the day after tomorrow
	clockBehind = 24 * time.Hour
	clockSettle = 5 * time.Second // for the first tick
	clockSpare  = 90 * time.Second
)

// Run implements the subcommand.
func (c *clockCommand) Run(w *world) (err error) {
	k, err := newDrillFolder(w, "in this process")
	if err != nil {
		return err
	}
	k.double = discordtest.New(discordtest.Options{KeepRequests: -1, OnRequest: k.see, Date: time.Now})
	defer func() { err = errors.Join(err, k.end()) }()
	due := time.Now().Add(c.Wrong + 2*clockSettle + clockSpare).Truncate(time.Minute)
	k.due = due
	if err := k.fill(w.ctx, c.Riders); err != nil {
		return err
	}
	var wrong atomic.Int64
	stop, err := k.here(w.ctx, func() time.Time { return time.Now().Add(time.Duration(wrong.Load())) })
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, stop()) }()
	if err := sleep(w.ctx, clockSettle); err != nil {
		return err
	}
	wrong.Store(int64(clockAhead))
	if err := sleep(w.ctx, c.Wrong); err != nil {
		return err
	}
	early := k.arrived()
	wrong.Store(0)
	if err := sleep(w.ctx, time.Until(due.Add(clockSpare))); err != nil {
		return err
	}
	inTime := k.arrived()
	wrong.Store(-int64(clockBehind))
	if err := sleep(w.ctx, c.Wrong); err != nil {
		return err
	}
	wrong.Store(0)
	if err := sleep(w.ctx, clockSpare); err != nil {
		return err
	}
	fmt.Fprintf(w.stdout, "clock     %v ahead for %v, then right, then %v behind for %v\nearly     %d\nin time   %d\n", clockAhead, c.Wrong, clockBehind, c.Wrong, early, inTime-early)
	if early > 0 || inTime < len(k.riders) {
		err = errors.New("reminders followed the wrong clock")
	}
	return errors.Join(err, k.report(w.stdout, inTime, time.Since(due)))
}

// here runs the bot in this process, by that clock; stop ends it.
func (k *killDrill) here(ctx context.Context, now func() time.Time) (stop func() error, err error) {
	db, err := storage.Open(ctx, k.database())
	if err != nil {
		return nil, err
	}
	log := slog.New(slog.NewTextHandler(k.log, nil))
	app, err := discord.New(discord.Config{Token: k.double.Token, URL: k.double.URL, Zone: "UTC", DB: db, Bot: bot.New(bot.Deps{DB: db, Log: log}), Log: log, Out: io.Discard, Now: now})
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	running, cancel := context.WithCancel(ctx)
	ended := make(chan error, 1)
	go func() { ended <- app.Run(running) }()
	stop = func() error { cancel(); return errors.Join(<-ended, db.Close()) }
	ready, late := context.WithTimeout(ctx, 30*time.Second)
	defer late()
	return stop, k.double.WaitConnected(ready)
}
