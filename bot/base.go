package bot

import (
	"log/slog"

	"musette/bot/picture"
	"musette/storage"
)

// Base is what every room works with: the database, the log, and what draws pictures.
type Base struct {
	db   *storage.DB
	log  *slog.Logger
	draw func(paint) (picture.Picture, error)
}

// draw draws with package picture.
func draw(p paint) (picture.Picture, error) { return p() }
