// Package desk is where every request arrives: who asks and which day it is for
// them, what they told, the one way to change it, and which race they mean.
package desk

import (
	"fmt"
	"log/slog"
	"runtime"

	"musette/bot/picture"
	"musette/storage"
)

// PanicText is what a log may hold of a panic: of one that is not the runtime's
// own its kind alone, since it may quote what people wrote.
func PanicText(p any) string {
	if err, ok := p.(runtime.Error); ok {
		return err.Error()
	}
	return fmt.Sprintf("%T", p)
}

// Base is what every room works with: the database, the log, and what draws pictures.
type Base struct {
	DB   *storage.DB
	Log  *slog.Logger
	Draw func(Paint) (picture.Picture, error)

	Talks Talks
}

// Draw draws with package picture.
func Draw(p Paint) (picture.Picture, error) { return p() }
