-- The other of two weeks in turn.

-- +goose Up

ALTER TABLE week ADD COLUMN second TEXT NOT NULL DEFAULT ''; -- '': every week is the same
