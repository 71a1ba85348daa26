package bot

import (
	"context"
	"fmt"
	"log/slog"

	"musette/bot/picture"
)

// paint draws a picture of an answer.
type paint func() (picture.Picture, error)

// attach adds a picture to a reply. An answer is never lost by a picture that
// fails: that is logged, and the text says all.
func (b *Bot) attach(ctx context.Context, reply *Reply, name string, p paint) {
	drawn, err := b.painted(p)
	if err != nil {
		b.log.LogAttrs(ctx, slog.LevelWarn, "picture left out", slog.String("file", name), slog.String("error", err.Error()))
		return
	}
	reply.Files = append(reply.Files, File{Name: name, Type: "image/png", Alt: drawn.Alt, Data: drawn.PNG})
}

// painted draws; a panic is a picture that fails.
func (b *Bot) painted(p paint) (drawn picture.Picture, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("panic: %s", PanicText(fault))
		}
	}()
	return b.draw(p)
}
