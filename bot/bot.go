// Package bot is the conversation: requests in, replies out. It knows no
// transport; terminals and chat services carry its values to and fro.
package bot

import (
	"cmp"
	"context"
	"fmt"
	"log/slog"
	"runtime"
	"runtime/debug"
	"time"

	"musette/bot/picture"
	"musette/planner"
	"musette/storage"
)

// Deps is what a Bot needs to work. A nil Log drops log lines, a nil Draw draws
// with package picture, and More are commands beside those of the table.
type Deps struct {
	DB   *storage.DB
	Log  *slog.Logger
	Draw func(paint) (picture.Picture, error)
	More []Command
}

// Bot answers requests. It is safe for use by several goroutines.
type Bot struct {
	base     *Base
	commands []Command
}

// New makes a bot over an open database.
func New(d Deps) *Bot {
	if d.Log == nil {
		d.Log = slog.New(slog.DiscardHandler)
	}
	if d.Draw == nil {
		d.Draw = draw
	}
	return &Bot{base: &Base{db: d.DB, log: d.Log, draw: d.Draw}, commands: append(Commands(), d.More...)}
}

// Handle answers one request. The reply is always fit to be shown: a fault is
// in its Err and in its Lines. The error is non-nil only where something broke
// that is not the person's doing; it has been logged with the reply's reference.
func (b *Bot) Handle(ctx context.Context, req Request) (Reply, error) {
	began := time.Now()
	reply, err := b.answer(ctx, &req)
	var broken error
	ref := ""
	if err != nil {
		reply, ref = refusalOf(err, req.Ref, req.rider != nil && req.rider.saved, reply.Buttons)
		if ref != "" {
			broken = fmt.Errorf("%s (ref %s): %w", req.Command, ref, err)
		}
	}
	if reply.Topic == "" {
		reply.Topic = TopicCommand
	}
	if len(reply.Topics) == 0 {
		reply.Topics = []string{reply.Topic}
	}
	b.logLine(ctx, req, reply, ref, broken, time.Since(began))
	return reply, broken
}

// Fail is the reply to what went wrong outside the command table, in a control
// line of a transport: worded and logged as Handle does it.
func (b *Bot) Fail(ctx context.Context, what string, err error) Reply {
	reply, ref := refusalOf(err, "", false, nil)
	if ref != "" {
		b.logLine(ctx, Request{Command: what}, reply, ref, err, 0)
	}
	return reply
}

// refusalOf words an error. Buttons, which lead on, stay where the input was at fault.
// known is the request's own reference, if it has one.
func refusalOf(err error, known string, saved bool, buttons []Button) (reply Reply, ref string) {
	fault, ref := userError(err, known, saved)
	reply = Refusal(fault.field, "%s", fault.line)
	if ref == "" {
		reply.Buttons = buttons
	}
	return reply, ref
}

// logLine writes one line for a request, never its texts.
func (b *Bot) logLine(ctx context.Context, req Request, reply Reply, ref string, broken error, took time.Duration) {
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
		attrs = append(attrs, slog.String("field", reply.Err.Field))
	}
	b.base.log.LogAttrs(ctx, level, "request", attrs...)
}

// answer finds the handler and runs it; a panic becomes an error.
func (b *Bot) answer(ctx context.Context, req *Request) (reply Reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %s\n%s", PanicText(p), debug.Stack())
		}
	}()
	if req.Command == "" {
		return b.unknown(), nil
	}
	cmd, err := findCommand(b.commands, req.Command)
	if err != nil {
		return Reply{}, err
	}
	if req.rider, err = b.base.rider(ctx, *req); err != nil {
		return Reply{}, err
	}
	if err := cmd.allow(req); err != nil {
		return Reply{}, err
	}
	if req.Options, err = cmd.check(req.Options); err != nil {
		return Reply{}, err
	}
	reply, err = cmd.run(b.base, ctx, *req)
	reply.Private = !cmd.Public
	if err == nil && reply.Private {
		b.base.tellOff(ctx, req.rider, &reply)
	}
	return reply, err
}

// Forbids says why a command is not for the person who asks, before anything is
// done about it; forbidden is false where it is for them.
func (b *Bot) Forbids(ctx context.Context, req Request) (reply Reply, forbidden bool) {
	cmd, err := findCommand(b.commands, req.Command)
	if err == nil {
		if req.rider, err = b.base.rider(ctx, req); err == nil {
			err = cmd.allow(&req)
		}
	}
	if err == nil {
		return Reply{}, false
	}
	return b.Fail(ctx, req.Command, err), true
}

// PanicText is what a log may hold of a panic: of one that is not the runtime's
// own its kind alone, since it may quote what people wrote.
func PanicText(p any) string {
	if err, ok := p.(runtime.Error); ok {
		return err.Error()
	}
	return fmt.Sprintf("%T", p)
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
func (b *Bot) Enter(ctx context.Context, req Request) (Person, error) {
	who, err := b.base.rider(ctx, req)
	if err != nil {
		return Person{}, err
	}
	return Person{Club: who.club.Name, Athlete: who.athlete.Name, Known: who.known(), Zone: who.zone, OwnZone: who.athlete.Settings.Zone != ""}, nil
}

// Form is the form of a command, filled with what the request gives.
func (b *Bot) Form(ctx context.Context, req Request) (Form, error) { return b.base.formOf(ctx, req) }

// Digest is the coaches' week of a club.
func (b *Bot) Digest(ctx context.Context, club storage.Club, now time.Time) (Reply, error) {
	return b.base.digest(ctx, club, now)
}

// Reminder is what a rider is told of a day by themselves; due is false on days
// that say nothing.
func (b *Bot) Reminder(ctx context.Context, a storage.Athlete, club storage.Club, day planner.Date, now time.Time) (reply Reply, due bool, err error) {
	return b.base.reminder(ctx, a, club, day, now)
}

// unknown answers a plain question: it never guesses.
func (b *Bot) unknown() Reply {
	var p page
	p.addf("I cannot answer questions in plain words; I know commands only.")
	p.addf("Today's session: /ride")
	p.addf("Your schedule: /plan show")
	p.addf("Why a day is so: /plan why")
	p.addf("Everything else: /help")
	return Reply{Topic: TopicUnknown, Private: true, Lines: p.done()}
}
