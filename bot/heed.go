package bot

import (
	"context"
	"log/slog"

	"musette/bot/ask"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/life"
	"musette/bot/say"
)

// heed answers a request in whose words there is danger, unless they turn out to
// be a name of the rider's own.
func (b *Bot) heed(ctx context.Context, req *desk.Request, cmd *command.Command, heard *life.Heard) (reply say.Reply, err error) {
	if !req.Nowhere {
		if err = b.known(ctx, req); err != nil { // the danger is answered all the same
			b.base.Log.ErrorContext(ctx, "who tells of danger", slog.Any("error", err))
			req.Nowhere = true
		}
	}
	if names := life.Names(ctx, b.base, req); life.Holds(req, names) {
		heard = life.Listen(req, cmd, names)
	}
	if !heard.Danger() {
		return b.obey(ctx, req, cmd)
	}
	return life.Heed(ctx, b.base, req, heard, func() (say.Reply, error) {
		req.Heeded = true
		return b.obey(ctx, req, cmd)
	})
}

// Alarms reports words of danger in a request: it is answered whichever club is meant.
func (b *Bot) Alarms(req *desk.Request) bool {
	cmd, err := command.Find(b.commands, req.Command)
	if err != nil {
		cmd = nil
	}
	return life.Listen(req, cmd, nil).Stops()
}

// answered makes of a line that answers a question about danger, or says yes to what was
// proposed, the command of its button; nil for any other line.
func (b *Bot) answered(ctx context.Context, req *desk.Request) (*command.Command, error) {
	if req.Nowhere {
		return nil, nil
	}
	if err := b.known(ctx, req); err != nil {
		return nil, err
	}
	button, ok := life.Answered(b.base, req)
	if !ok {
		button, ok = ask.Chosen(b.base, req)
	}
	if !ok || button.Form {
		return nil, nil
	}
	req.Waiting = ask.Waiting(b.base, req, button)
	req.Command, req.Options = button.Command, button.Options
	return command.Find(b.commands, button.Command)
}
