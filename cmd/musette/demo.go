package main

import (
	_ "embed"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"musette/bot"
	"musette/bot/terminal"
	"musette/storage"
)

// demoLines is a conversation of a made-up club: the lines that people type,
// with comments between.
//
//go:embed demo.txt
var demoLines string

// demoCommand plays the conversation through the same code as every other.
type demoCommand struct{}

// Run implements the subcommand.
func (c *demoCommand) Run(w *world) (err error) {
	dir, err := os.MkdirTemp("", "musette-demo-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	db, err := storage.Open(w.ctx, filepath.Join(dir, "demo.db"))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	clock := new(terminal.Clock)
	db.Now = clock.Now
	session, err := terminal.Open(w.ctx, terminal.Config{Bot: bot.New(bot.Deps{DB: db}), DB: db, Clock: clock,
		Club: "Marrow Vale Wheelers", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-05-29T08:00"})
	if err != nil {
		return err
	}
	for line := range strings.Lines(demoLines) {
		if w.ctx.Err() != nil {
			return nil
		}
		line = strings.TrimSpace(line)
		switch {
		case line == "":
			continue
		case line[0] == '#':
			_, err = fmt.Fprintln(w.stdout, line+"\n")
		default:
			_, err = fmt.Fprintln(w.stdout, "> "+line)
			err = errors.Join(err, session.Run(w.ctx, strings.NewReader(line), w.stdout))
		}
		if err != nil {
			return err
		}
	}
	return nil
}
