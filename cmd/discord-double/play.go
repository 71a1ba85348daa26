package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"musette/bot/command"
	"musette/bot/discord/discordtest"
)

// patience is how long an answer is waited for.
const patience = 20 * time.Second

// play carries out the lines of `run`.
type play struct {
	s     *discordtest.Server
	out   io.Writer
	guild discordtest.Guild
	wg    sync.WaitGroup

	mu    sync.Mutex
	shown map[string]shown // by rider
}

// shown is what a rider has on the screen.
type shown struct {
	message discordtest.Message
	form    *discordtest.Modal
	at      discordtest.At
	done    chan struct{} // closed when the newest answer is on the screen; nil before the first
}

func (p *play) say(format string, args ...any) {
	_, _ = fmt.Fprintf(p.out, format+"\n", args...) // the terminal may be gone
}

// line carries out one line.
func (p *play) line(ctx context.Context, line string) error {
	word, rest, _ := strings.Cut(line, " ")
	switch word {
	case "", "#":
		return nil
	case "help":
		p.say("%s", runHelp)
	case "wait":
		ctx, cancel := context.WithTimeout(ctx, time.Minute)
		defer cancel()
		return errors.Join(p.s.WaitConnected(ctx), p.s.WaitCommands(ctx))
	case "drop":
		p.s.Drop()
	case "op7":
		p.s.Reconnect()
	case "silence":
		p.s.Silence()
	case "invalid":
		p.s.InvalidateSessions()
	case "hold-acks":
		p.s.HoldAcks(strings.TrimSpace(rest) != "off")
	default:
		return p.rider(ctx, line)
	}
	return nil
}

// rider carries out "Ines: ...", "Ines dm: ...", "Ines press ...", "Ines form ...",
// "Ines offers ...".
func (p *play) rider(ctx context.Context, line string) error {
	name, does, _ := strings.Cut(line, " ")
	name, colon := strings.CutSuffix(name, ":")
	id := p.guild.UserID(name)
	if id == "" {
		return fmt.Errorf("no rider %q; there are Ines and Tomas, and help", name)
	}
	at := discordtest.At{Guild: p.guild.ID, User: id}
	does = strings.TrimSpace(does)
	if colon {
		return p.writes(ctx, name, at, does)
	}
	verb, rest, _ := strings.Cut(does, " ")
	switch verb {
	case "dm:":
		return p.writes(ctx, name, discordtest.At{User: id}, strings.TrimSpace(rest))
	case "press":
		return p.watch(ctx, name, at)(p.s.Press(at, p.screen(ctx, name).message, rest))
	case "form":
		on := p.screen(ctx, name)
		return p.watch(ctx, name, on.at)(p.s.SubmitForm(on.at, on.form, formFields(rest)))
	case "offers":
		command, options, last, err := p.parse("/" + rest)
		if err != nil {
			return err
		}
		return p.watch(ctx, name, at)(p.s.Autocomplete(at, command, options, last))
	}
	return fmt.Errorf("%q is not understood; try help", does)
}

// writes sends a slash command, or else a message.
func (p *play) writes(ctx context.Context, name string, at discordtest.At, text string) error {
	if !strings.HasPrefix(text, "/") {
		text, mention := strings.CutPrefix(text, "@musette ")
		before := len(p.s.Sent(p.s.DM(at.User)))
		_, err := p.s.Say(at, text, mention)
		if err == nil && (mention || at.Guild == "") {
			p.watchDM(ctx, name, at, before)
		}
		return err
	}
	command, options, _, err := p.parse(text)
	if err != nil {
		return err
	}
	return p.watch(ctx, name, at)(p.s.Command(at, command, options))
}

// parse reads a slash line against the commands that the bot has registered, and
// also names the option that was written last.
func (p *play) parse(line string) (typed string, options map[string]any, last string, err error) {
	var table []command.Command
	for name, known := range p.s.Commands() {
		c := command.Command{Name: name, Example: name}
		for _, o := range known {
			c.Options = append(c.Options, command.Option{Name: o.Name, Type: "text", MaxLen: 4000})
		}
		table = append(table, c)
	}
	req, err := command.ParseLine(table, line)
	if err != nil {
		return "", nil, "", err
	}
	options, at := map[string]any{}, -1
	for name, value := range req.Options {
		options[name] = value
		if i := strings.LastIndex(line, name+":"); i > at {
			at, last = i, name
		}
	}
	return req.Command, options, last, nil
}

// watch prints the answer when it comes and keeps it on the rider's screen.
func (p *play) watch(ctx context.Context, name string, at discordtest.At) func(*discordtest.Interaction, error) error {
	return func(i *discordtest.Interaction, err error) error {
		if err != nil {
			return err
		}
		p.later(ctx, name, func(ctx context.Context) error {
			a, err := i.Answer(ctx)
			if err != nil {
				return err
			}
			p.show(name, func(on *shown) {
				if a.Modal != nil {
					on.form, on.at = a.Modal, at
				} else if a.Message.ID != "" {
					on.message = a.Message
				}
			})
			p.print(name, a.Text(), &a.Message, a.Ephemeral() || at.Guild == "", i.Latency())
			return nil
		})
		return nil
	}
}

// watchDM prints the bot's next direct message to the rider, behind those before.
func (p *play) watchDM(ctx context.Context, name string, at discordtest.At, before int) {
	channel := p.s.DM(at.User)
	p.later(ctx, name, func(ctx context.Context) error {
		sent, err := p.s.WaitSent(ctx, channel, before+1)
		if err != nil {
			return fmt.Errorf("no direct message came: %w", err)
		}
		m := sent[before]
		p.show(name, func(on *shown) { on.message = m })
		p.print(name, m.Text(), &m, true, 0)
		return nil
	})
}

// later waits for an answer without holding up the next line.
func (p *play) later(ctx context.Context, name string, hear func(context.Context) error) {
	done := make(chan struct{})
	p.show(name, func(on *shown) { on.done = done })
	p.wg.Go(func() {
		defer close(done)
		ctx, cancel := context.WithTimeout(ctx, patience)
		defer cancel()
		if err := hear(ctx); err != nil {
			p.say("?? %v", err)
		}
	})
}

func (p *play) show(name string, change func(*shown)) {
	p.mu.Lock()
	defer p.mu.Unlock()
	on := p.shown[name]
	change(&on)
	p.shown[name] = on
}

// screen is what a rider sees once the newest answer has come.
func (p *play) screen(ctx context.Context, name string) shown {
	p.mu.Lock()
	done := p.shown[name].done
	p.mu.Unlock()
	if done != nil {
		select {
		case <-done:
		case <-ctx.Done():
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.shown[name]
}

// print shows a text with the files and buttons of its message, which a form has none of.
func (p *play) print(name, text string, m *discordtest.Message, private bool, took time.Duration) {
	head := "all see"
	if private {
		head = name + " alone sees"
	}
	if took > 0 {
		head += fmt.Sprintf(" (first answer after %d ms)", took.Milliseconds())
	}
	out := "== " + head + ":\n   " + strings.ReplaceAll(text, "\n", "\n   ")
	for _, f := range m.Attachments {
		out += fmt.Sprintf("\n   file %s (%d bytes)", f.Filename, f.Size)
		if f.Description != "" {
			out += ": " + strings.ReplaceAll(f.Description, "\n", "\n   ")
		}
	}
	if buttons := m.Buttons(); len(buttons) > 0 {
		out += "\n   [" + strings.Join(buttons, "] [") + "]"
	}
	p.say("%s", out)
}

// formFields reads Monday="off" Tuesday="1h easy".
func formFields(text string) map[string]string {
	fields := map[string]string{}
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimSpace(text) {
		name, rest, found := strings.Cut(text, `="`)
		if !found {
			break
		}
		fields[name], text, _ = strings.Cut(rest, `"`)
	}
	return fields
}
