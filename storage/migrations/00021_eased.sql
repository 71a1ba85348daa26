-- Limits of days whose easier form was taken: what falls out of these is not made up.

-- +goose Up

ALTER TABLE day_limit ADD COLUMN eased INTEGER NOT NULL DEFAULT 0 CHECK (eased IN (0, 1));
