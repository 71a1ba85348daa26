package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/peterh/liner"
)

// Interactive reports whether a person sits at standard input.
func Interactive() bool {
	_, err := liner.TerminalMode()
	return err == nil && liner.TerminalSupported()
}

// HistoryFile is where typed lines are remembered, by the XDG rules; "" where
// there is no home.
func HistoryFile(getenv func(string) string) string {
	state := getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(state) {
		home := getenv("HOME")
		if home == "" {
			return ""
		}
		state = filepath.Join(home, ".local", "state")
	}
	return filepath.Join(state, "musette", "history")
}

// RunInteractive is Run for a person at the terminal: with a prompt, history
// and completion of commands, options and values by the tab key.
func (s *Session) RunInteractive(ctx context.Context, out io.Writer) error {
	edit := liner.NewLiner()
	defer edit.Close()
	edit.SetTabCompletionStyle(liner.TabPrints)
	edit.SetCompleter(func(line string) []string { return s.complete(ctx, line) })
	readHistory(edit, s.history)
	fmt.Fprintln(out, "musette: /help lists the commands, the tab key completes, Ctrl-D ends.")
	for !s.ended {
		line, err := prompt(ctx, edit, s.who.Athlete+"> ")
		switch {
		case ctx.Err() != nil, errors.Is(err, io.EOF):
			fmt.Fprintln(out)
			keepHistory(edit, s.history, out)
			return nil
		case err != nil:
			return err
		}
		if trim(line) != "" {
			edit.AppendHistory(line)
		}
		if err := s.put(ctx, line, len(line) > MaxLine, out); err != nil {
			return err
		}
		if s.wipe {
			s.wipe = false
			edit.ClearHistory()
		}
	}
	keepHistory(edit, s.history, out)
	return nil
}

// keepHistory writes the lines typed. A talk without them was as good.
func keepHistory(edit *liner.State, path string, out io.Writer) {
	if err := writeHistory(edit, path); err != nil {
		fmt.Fprintf(out, "The lines that you typed are not kept (%v).\n", err)
	}
}

// prompt reads a line, or gives up when ctx ends.
func prompt(ctx context.Context, edit *liner.State, text string) (string, error) {
	typed := make(chan input, 1)
	go func() {
		line, err := edit.Prompt(text)
		typed <- input{text: line, err: err}
	}()
	select {
	case <-ctx.Done():
		return "", ctx.Err()
	case line := <-typed:
		return line.text, line.err
	}
}

// readHistory brings back earlier lines; without them the session is as good.
func readHistory(edit *liner.State, path string) {
	f, err := os.Open(path)
	if err != nil {
		return
	}
	defer f.Close()
	_, _ = edit.ReadHistory(f)
}

// forgetLines deletes the lines typed up to now: they do not say who typed them.
func (s *Session) forgetLines() error {
	s.wipe = true
	if s.history == "" {
		return nil
	}
	if err := os.Remove(s.history); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("forget history: %w", err)
	}
	return nil
}

func writeHistory(edit *liner.State, path string) error {
	if path == "" {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = edit.WriteHistory(f)
	return errors.Join(err, f.Close())
}
