package desk

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"musette/bot/picture"
	"musette/bot/say"
)

// Paint draws a picture of an answer.
type Paint func() (picture.Picture, error)

// drawWithin is how long a picture waits for its turn: its answer should not wait
// for those of many others.
const drawWithin = time.Second

// Attach adds a picture to a reply. An answer is never lost by a picture that
// fails or would come too late: the reply says so, and that is logged.
func (b *Base) Attach(ctx context.Context, reply *say.Reply, name string, p Paint) {
	drawn, err := b.painted(ctx, p)
	if err != nil {
		b.Log.LogAttrs(ctx, slog.LevelWarn, "picture left out", slog.String("file", name), slog.String("error", err.Error()))
		reply.Gap()
		if errors.Is(err, context.DeadlineExceeded) {
			reply.Addf("The picture is left out, since many are being drawn just now. Ask again in a minute.")
		} else {
			reply.Addf("The picture is left out, since it could not be drawn.")
		}
		return
	}
	reply.Files = append(reply.Files, say.File{Name: name, Type: "image/png", Alt: drawn.Alt, Data: drawn.PNG})
}

// painted draws once there is room, unless that takes too long or the request ends
// before; a panic is a picture that fails.
func (b *Base) painted(ctx context.Context, p Paint) (drawn picture.Picture, err error) {
	soon, cancel := context.WithTimeout(ctx, drawWithin)
	defer cancel()
	give, err := picture.Turn(soon)
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
