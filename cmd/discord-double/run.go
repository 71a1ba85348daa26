package main

import (
	"bufio"
	"context"
	"io"
	"strings"
	"sync"
	"time"

	"musette/bot/discord/discordtest"
)

// runCommand keeps a double with a made-up club and acts as its riders.
type runCommand struct {
	Listen string `default:"127.0.0.1:8585" help:"Address on the loopback."`
	Quiet  bool   `help:"Do not print the traffic."`
}

const runHelp = `Type what happens, a line each:
  Ines: /race add name:"Hill Loop" date:2026-06-13 priority:A      in #races
  Ines dm: /ride tomorrow                                          in a direct message
  Ines dm: hello            Tomas: @musette hello                  plain messages
  Ines offers race remove name:hil                                 autocompletion of the last option
  Ines press Show plan                                             a button of the newest answer
  Ines form Monday="off" Tuesday="1h easy"                         the form that was shown last
  wait                                                             until the bot is connected
  drop   op7   silence   invalid   hold-acks on|off   help   quit
`

// Run starts the double and reads lines until "quit", the end of input, or ctx.
func (r *runCommand) Run(w *world) error {
	out := &lockedWriter{to: w.stdout}
	o := discordtest.Options{Listen: r.Listen, Date: time.Now}
	if !r.Quiet {
		o.Traffic = out
	}
	s, err := discordtest.Start(o)
	if err != nil {
		return err
	}
	defer s.Close()
	p := &play{s: s, out: out, shown: map[string]shown{}, guild: wheelers(s)}
	p.say("Marrow Vale Wheelers are at %s. In another terminal:\n\n  MUSETTE_DISCORD__TOKEN=%s MUSETTE_DISCORD__URL=%s go run ./cmd/musette serve\n\n%s",
		s.URL, s.Token, s.URL, runHelp)
	return p.run(w.ctx, readLines(w.ctx, w.stdin))
}

// run carries out lines until "quit" or ctx's end; at the end of input it waits
// for the answers that are still to come.
func (p *play) run(ctx context.Context, lines <-chan string) error {
	ctx, stop := context.WithCancel(ctx)
	defer p.wg.Wait()
	defer stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case line, more := <-lines:
			if !more {
				p.wg.Wait()
				return nil
			}
			if line == "quit" {
				return nil
			}
			if err := p.line(ctx, line); err != nil {
				p.say("?? %v", err)
			}
		}
	}
}

// wheelers is the club of the double, with more riders where they are named.
func wheelers(s *discordtest.Server, more ...string) discordtest.Guild {
	members := []discordtest.Member{
		{Name: "Ines", Nick: "Ines K", Roles: []string{"Coach"}, Permissions: discordtest.PermAdmin},
		{Name: "Tomas"},
	}
	for _, name := range more {
		members = append(members, discordtest.Member{Name: name})
	}
	return s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers",
		Channels: []discordtest.Channel{{Name: "races"}, {Name: "rides"}, {Name: "coaches", Private: true}},
		Roles:    []discordtest.Role{{Name: "Coach"}}, Members: members})
}

// readLines gives the lines of r until its end or ctx's. A read that waits for a
// terminal cannot be called off; it ends with the program.
func readLines(ctx context.Context, r io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for in := bufio.NewScanner(r); in.Scan(); {
			select {
			case lines <- strings.TrimSpace(in.Text()):
			case <-ctx.Done():
				return
			}
		}
	}()
	return lines
}

// lockedWriter keeps lines of several goroutines apart.
type lockedWriter struct {
	mu sync.Mutex
	to io.Writer
}

func (l *lockedWriter) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.to.Write(p)
}
