-- Riders of whom a coach entered the first fact, until they have come and were told.

-- +goose Up

ALTER TABLE athlete ADD COLUMN entered INTEGER NOT NULL DEFAULT 0 CHECK (entered IN (0, 1));
