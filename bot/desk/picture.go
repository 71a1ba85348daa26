package desk

import (
	"context"
	"fmt"
	"log/slog"

	"musette/bot/picture"
	"musette/bot/say"
)

// Paint draws a picture of an answer.
type Paint func() (picture.Picture, error)

// Attach adds a picture to a reply. An answer is never lost by a picture that
// fails or comes too late: that is logged, and the text says all.
func (b *Base) Attach(ctx context.Context, reply *say.Reply, name string, p Paint) {
	drawn, err := b.painted(ctx, p)
	if err != nil {
		b.Log.LogAttrs(ctx, slog.LevelWarn, "picture left out", slog.String("file", name), slog.String("error", err.Error()))
		return
	}
	reply.Files = append(reply.Files, say.File{Name: name, Type: "image/png", Alt: drawn.Alt, Data: drawn.PNG})
}

// painted draws once there is room, unless the request ends before; a panic is a
// picture that fails.
func (b *Base) painted(ctx context.Context, p Paint) (drawn picture.Picture, err error) {
	give, err := picture.Turn(ctx)
	if err != nil {
		return drawn, err
	}
	defer give()
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("panic: %s", PanicText(fault))
		}
	}()
	return b.Draw(p)
}
