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
	"musette/storage"
)

// Deps is what a Bot needs to work. A nil Log drops log lines.
type Deps struct {
	DB  *storage.DB
	Log *slog.Logger
}

// Bot answers requests. It is safe for use by several goroutines.
type Bot struct {
	db       *storage.DB
	log      *slog.Logger
	commands []Command
	draw     func(paint) (picture.Picture, error)
}

// New makes a bot over an open database.
func New(d Deps) *Bot {
	if d.Log == nil {
		d.Log = slog.New(slog.DiscardHandler)
	}
	return &Bot{db: d.DB, log: d.Log, commands: Commands(), draw: func(p paint) (picture.Picture, error) { return p() }}
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
	b.log.LogAttrs(ctx, level, "request", attrs...)
}

// Refusal is the reply to a fault of one field.
func Refusal(field string, t Template, args ...any) Reply {
	line := Say(t, args...)
	all := line
	if field != "" {
		all = Say("%s: %s", field, line)
	}
	return Reply{Topic: TopicCommand, Topics: []string{TopicCommand}, Lines: []Line{all}, Private: true,
		Err: &FieldError{Field: field, Message: line.String(), Line: line}}
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
	cmd, err := b.command(req.Command)
	if err != nil {
		return Reply{}, err
	}
	if req.rider, err = b.rider(ctx, *req); err != nil {
		return Reply{}, err
	}
	if err := b.allow(cmd, req); err != nil {
		return Reply{}, err
	}
	if req.Options, err = cmd.check(req.Options); err != nil {
		return Reply{}, err
	}
	reply, err = cmd.run(b, ctx, *req)
	reply.Private = !cmd.Public
	if err == nil && reply.Private {
		b.tellOff(ctx, req.rider, &reply)
	}
	return reply, err
}

// Forbids says why a command is not for the person who asks, before anything is
// done about it; forbidden is false where it is for them.
func (b *Bot) Forbids(ctx context.Context, req Request) (reply Reply, forbidden bool) {
	cmd, err := b.command(req.Command)
	if err == nil {
		if req.rider, err = b.rider(ctx, req); err == nil {
			err = b.allow(cmd, &req)
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

// allow refuses commands that are not for this person, at each call.
func (b *Bot) allow(cmd *Command, req *Request) error {
	switch {
	case cmd.Coach && !req.coach():
		return refuse("command", "%s is for the club's coaches. Ask one of them", cmd.Link())
	case cmd.Admin && !req.Admin && !req.coach():
		return refuse("command", "%s is for the club's coaches and those who run its server. Ask one of them", cmd.Link())
	}
	return nil
}
