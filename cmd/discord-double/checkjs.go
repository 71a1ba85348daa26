package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"musette/bot/discord/discordtest"
)

// checkJSCommand plays a short session with discord.js.
type checkJSCommand struct {
	Dir string `default:"bot/discord/discordtest/discordjs" type:"existingdir" help:"Folder of check.mjs."`
}

// checkPatience bounds the whole check, npm's part not counted.
const checkPatience = time.Minute

// Run starts the double and discord.js, and plays the double's part: a command,
// a dropped socket, a command missed meanwhile.
func (c *checkJSCommand) Run(w *world) error {
	if _, err := os.Stat(filepath.Join(c.Dir, "node_modules", "discord.js")); errors.Is(err, os.ErrNotExist) {
		ctx, cancel := context.WithTimeout(w.ctx, 5*time.Minute)
		defer cancel()
		npm := exec.CommandContext(ctx, "npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts")
		npm.Dir, npm.Stdout, npm.Stderr = c.Dir, w.stderr, w.stderr
		if err := npm.Run(); err != nil {
			return fmt.Errorf("npm ci: %w", err)
		}
	}
	s := discordtest.New(discordtest.Options{})
	defer s.Close()
	guild := wheelers(s)
	ctx, cancel := context.WithTimeout(w.ctx, checkPatience)
	defer cancel()
	node := exec.CommandContext(ctx, "node", "check.mjs")
	node.Dir, node.Stdout, node.Stderr = c.Dir, w.stdout, w.stderr
	node.Env = append(os.Environ(), "DOUBLE_URL="+s.URL, "DOUBLE_TOKEN="+s.Token)
	if err := node.Start(); err != nil {
		return fmt.Errorf("node: %w", err)
	}
	ended := make(chan error, 1)
	go func() {
		ended <- node.Wait()
		cancel()
	}()
	played := playForJS(ctx, s, guild)
	if err := errors.Join(<-ended, played); err != nil {
		return fmt.Errorf("discord.js and the double disagree: %w", err)
	}
	return nil
}

// playForJS is the double's part. It ends when the last answer has come.
func playForJS(ctx context.Context, s *discordtest.Server, guild discordtest.Guild) error {
	ines := discordtest.At{Guild: guild.ID, User: guild.UserID("Ines")}
	if _, err := s.WaitSent(ctx, guild.ChannelID("races"), 1); err != nil {
		return fmt.Errorf("not ready: %w", err)
	}
	say := func(word string) (*discordtest.Interaction, error) {
		return s.Command(ines, "echo", map[string]any{"word": word})
	}
	hear := func(i *discordtest.Interaction, word string) error {
		if _, err := i.WaitFollowUps(ctx, 1); err != nil {
			return fmt.Errorf("answer to %q: %w", word, err)
		}
		a, err := i.Answer(ctx)
		if err != nil {
			return err
		}
		if a.Text() != "You said "+word || !a.Ephemeral() || i.Callbacks() != 1 {
			return fmt.Errorf("%q was answered with %q, %d callbacks", word, a.Text(), i.Callbacks())
		}
		return nil
	}
	first, err := say("first")
	if err != nil {
		return err
	}
	if err := hear(first, "first"); err != nil {
		return err
	}
	s.Drop()
	missed, err := say("missed")
	if err != nil {
		return err
	}
	if err := hear(missed, "missed"); err != nil {
		return err
	}
	if n := s.Counters(); n.Resumed != 1 || n.ResumeURL != 1 || n.Identifies != 1 {
		return fmt.Errorf("resumed %d times, %d of them at the resume URL, identified %d times", n.Resumed, n.ResumeURL, n.Identifies)
	}
	return nil
}
