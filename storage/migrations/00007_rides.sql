-- Several rides a day: each is a row, in the order in which they were told.

-- +goose Up

ALTER TABLE ride ADD COLUMN nr INTEGER NOT NULL DEFAULT 1 CHECK (nr BETWEEN 1 AND 20);
DROP INDEX ride_once;
CREATE UNIQUE INDEX ride_once ON ride (athlete_id, date, nr) WHERE withdrawn IS NULL;
