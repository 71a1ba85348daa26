package desk

import (
	"log/slog"

	"musette/bot/picture"
	"musette/storage"
)

// Base is what every room works with: the database, the log, and what draws pictures.
type Base struct {
	Db   *storage.DB
	Log  *slog.Logger
	Draw func(Paint) (picture.Picture, error)
}

// Draw draws with package picture.
func Draw(p Paint) (picture.Picture, error) { return p() }
