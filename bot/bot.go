// Package bot is the conversation: requests in, replies out. It knows no
// transport; terminals and chat services carry its values to and fro.
package bot

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"runtime/debug"
	"strings"
	"time"

	"golang.org/x/text/unicode/norm"

	"musette/bot/ask"
	"musette/bot/coach"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/life"
	"musette/bot/meter"
	"musette/bot/picture"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/bot/weeks"
	"musette/planner"
	"musette/planner/care"
	"musette/planner/typed"
	"musette/storage"
)

// Deps is what a Bot needs to work. A nil Log drops log lines, a nil Draw draws
// with package picture, and More are commands beside those of the table.
type Deps struct {
	DB   *storage.DB
	Log  *slog.Logger
	Draw func(desk.Paint) (picture.Picture, error)
	More []command.Command

	Meter *meter.Meter // nil: nothing is counted
}

// Bot answers requests. It is safe for use by several goroutines.
type Bot struct {
	base     *desk.Base
	commands []command.Command
	meter    *meter.Meter
}

// New makes a bot over an open database.
func New(d Deps) *Bot {
	if d.Log == nil {
		d.Log = slog.New(slog.DiscardHandler)
	}
	if d.Draw == nil {
		d.Draw = desk.Draw
	}
	return &Bot{base: &desk.Base{DB: d.DB, Log: d.Log, Draw: d.Draw}, commands: append(Commands(), d.More...), meter: d.Meter}
}

// Handle answers one request. The reply is always fit to be shown: a fault is
// in its Err and in its Lines. The error is non-nil only where something broke
// that is not the person's doing; it has been logged with the reply's reference.
func (b *Bot) Handle(ctx context.Context, req desk.Request) (say.Reply, error) {
	began := time.Now()
	req.Options = composed(req.Options)
	reply, err := b.answer(ctx, &req)
	var broken error
	ref := ""
	if err != nil {
		reply, ref = refusalOf(err, req.Ref, req.Rider != nil && req.Rider.Saved, reply.Buttons)
		if ref != "" {
			broken = fmt.Errorf("%s (ref %s): %w", req.Command, ref, err)
		} else if cmd, err := command.Find(b.commands, req.Command); err == nil {
			reply.Err.Unsaved = cmd.Writes
		}
	}
	if err == nil && len(req.Waiting) > 0 {
		ask.StillWaits(&reply, req.Waiting)
	}
	if req.Rider != nil {
		b.base.Talks.Open(req.Rider, reply.Buttons, ask.Proposes(reply), req.Now)
		reply.Sent = append(reply.Sent, req.Rider.TellCoaches()...)
	}
	if reply.Topic == "" {
		reply.Topic = say.TopicCommand
	}
	if len(reply.Topics) == 0 {
		reply.Topics = []string{reply.Topic}
	}
	took := time.Since(began)
	b.logLine(ctx, req, reply, ref, broken, took)
	b.count(req.Command, took, reply.Err == nil, broken)
	return reply, broken
}

// composed are options with each letter and its accents as one character where Unicode has
// one, so that names that look the same are the same.
func composed(options map[string]string) map[string]string {
	out := make(map[string]string, len(options))
	for name, value := range options {
		out[name] = norm.NFC.String(value)
	}
	return out
}

// count counts a request by its command; what is no command of ours has no name there.
func (b *Bot) count(name string, took time.Duration, ok bool, broken error) {
	if _, err := command.Find(b.commands, name); err != nil && name != "" {
		name = "unknown"
	}
	b.meter.Request(name, took, ok, broken)
}

// Fail is the reply to what went wrong outside the command table, in a control
// line of a transport: worded and logged as Handle does it.
func (b *Bot) Fail(ctx context.Context, what string, err error) say.Reply {
	reply, ref := refusalOf(err, "", false, nil)
	if ref != "" {
		b.logLine(ctx, desk.Request{Command: what}, reply, ref, err, 0)
	}
	return reply
}

// refusalOf words an error. Buttons, which lead on, stay where the input was at fault.
// known is the request's own reference, if it has one.
func refusalOf(err error, known string, saved bool, buttons []say.Button) (reply say.Reply, ref string) {
	fault, ref := say.UserError(err, known, saved)
	reply = say.RefusalOf(fault)
	if ref == "" {
		reply.Buttons = buttons
	}
	return reply, ref
}

// logLine writes one line for a request, never its texts.
func (b *Bot) logLine(ctx context.Context, req desk.Request, reply say.Reply, ref string, broken error, took time.Duration) {
	attrs := []slog.Attr{slog.String("command", req.Command), slog.String("topic", reply.Topic),
		slog.Bool("ok", reply.Err == nil), slog.Duration("took", took)}
	if ref = cmp.Or(ref, req.Ref); ref != "" {
		attrs = append(attrs, slog.String("ref", ref))
	}
	level := slog.LevelInfo
	switch {
	case broken != nil:
		level = slog.LevelError
		attrs = append(attrs, slog.String("error", broken.Error()))
	case reply.Err != nil:
		attrs = append(attrs, slog.String("field", strings.Join(reply.Err.Fields(), ",")))
	}
	b.base.Log.LogAttrs(ctx, level, "request", attrs...)
}

// answer finds the handler and runs it; a panic becomes an error.
func (b *Bot) answer(ctx context.Context, req *desk.Request) (reply say.Reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %s\n%s", desk.PanicText(p), debug.Stack())
		}
	}()
	var cmd *command.Command
	if req.Command != "" {
		if cmd, err = command.Find(b.commands, req.Command); err != nil {
			return say.Reply{}, err
		}
	}
	heard := life.Listen(req, cmd, nil)
	if req.Command == "" && req.Fault == nil && heard.Verdict < care.Stop {
		answer, err := b.answered(ctx, req)
		switch {
		case err != nil:
			return say.Reply{}, err
		case answer != nil:
			return b.obey(ctx, req, answer)
		}
	}
	if heard.Danger() {
		return b.heed(ctx, req, cmd, heard)
	}
	return b.obey(ctx, req, cmd)
}

// obey does what a request asks for.
func (b *Bot) obey(ctx context.Context, req *desk.Request, cmd *command.Command) (reply say.Reply, err error) {
	switch {
	case req.Fault != nil:
		return say.Reply{}, req.Fault
	case cmd == nil:
		// A plain line is a question, whatever it holds.
		if cmd, err = command.Find(b.commands, ask.Name); err != nil {
			return say.Reply{}, err
		}
		req.Options = map[string]string{ask.Question: req.Text}
	}
	if err := b.known(ctx, req); err != nil {
		return say.Reply{}, err
	}
	if err := cmd.Allow(req); err != nil {
		return say.Reply{}, err
	}
	if req.Command != "" {
		if req.Options, err = cmd.Check(req.Options); err != nil {
			if cmd.Read != nil {
				err = say.Together(err, cmd.Read(req))
			}
			return say.Reply{}, say.InOrder(err, cmd.OptionNames())
		}
	}
	reply, err = cmd.Run(ctx, b.base, *req)
	if cmd.Name == "me erase" {
		b.base.Talks.Forget(req.Rider)
	}
	reply.Buttons = append(reply.Buttons, readings(req, err)...)
	reply.Private = !cmd.Public
	if err == nil && reply.Private {
		tellOff(ctx, b.base, req.Rider, &reply)
		if cmd.Name != "me erase" {
			tellEntered(ctx, b.base, req.Rider, &reply)
		}
	}
	return reply, err
}

// known looks up who asks, once for a request.
func (b *Bot) known(ctx context.Context, req *desk.Request) (err error) {
	if req.Rider == nil {
		req.Rider, err = b.base.Rider(ctx, *req)
	}
	return err
}

// readings are the buttons of an option that can mean more than one thing: each gives
// the command once more with one of its meanings.
func readings(req *desk.Request, err error) []say.Button {
	var refused *say.Refused
	var open *typed.Ambiguous
	if !errors.As(err, &refused) || len(refused.More) > 0 || !errors.As(err, &open) {
		return nil
	}
	var out []say.Button
	for _, r := range open.Readings {
		options := maps.Clone(req.Options)
		options[refused.Field] = r.Value
		out = append(out, say.Button{Label: r.Label, Command: req.Command, Options: options})
	}
	return out
}

// Forbids says why a command is not for the person who asks, before anything is
// done about it; forbidden is false where it is for them. Whom it looks up stays in
// the request, so that Handle need not.
func (b *Bot) Forbids(ctx context.Context, req *desk.Request) (reply say.Reply, forbidden bool) {
	cmd, err := command.Find(b.commands, req.Command)
	if err == nil {
		if err = b.known(ctx, req); err == nil {
			err = cmd.Allow(req)
		}
	}
	if err == nil {
		return say.Reply{}, false
	}
	return b.Fail(ctx, req.Command, err), true
}

// Person is who a request speaks for. Names are as they are stored, or as they
// were given where Known is false: nothing is stored of that rider yet.
type Person struct {
	Club, Athlete string
	Known         bool
	Zone          *time.Location // by which the rider's days begin
	OwnZone       bool           // the rider has set it
}

// Enter tells who a request speaks for; it stores nothing. Names that cannot be
// anybody's are *planner.InputError of the fields club and rider.
func (b *Bot) Enter(ctx context.Context, req desk.Request) (Person, error) {
	who, err := b.base.Rider(ctx, req)
	if err != nil {
		return Person{}, err
	}
	return Person{Club: who.Club.Name, Athlete: who.Athlete.Name, Known: who.Known(), Zone: who.Zone, OwnZone: who.Athlete.Settings.Zone != ""}, nil
}

// Form is the form of a command, filled with what the request gives.
func (b *Bot) Form(ctx context.Context, req desk.Request) (command.Form, error) {
	return weeks.Form(ctx, b.base, req)
}

// Digest is the coaches' week of a club.
func (b *Bot) Digest(ctx context.Context, club storage.Club, now time.Time) (say.Reply, error) {
	return coach.Digest(ctx, b.base, club, now)
}

// Reminder is what a rider is told of a day by themselves; due is false on days
// that say nothing.
func (b *Bot) Reminder(ctx context.Context, who *storage.Known, day planner.Date, now time.Time) (reply say.Reply, due bool, err error) {
	return remind.Reminder(ctx, b.base, who, day, now)
}

// Forget drops what the conversation remembers of a person.
func (b *Bot) Forget(ctx context.Context, req desk.Request) error {
	who, err := b.base.Rider(ctx, req)
	if err == nil {
		b.base.Talks.Forget(who)
	}
	return err
}
