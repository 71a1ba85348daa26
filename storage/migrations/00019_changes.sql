-- How often anything but posts has changed: where the number is the same, a message
-- that was made before is still true.

-- +goose Up

CREATE TABLE changes (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    n  INTEGER NOT NULL
) STRICT;

INSERT INTO changes (id, n) VALUES (1, 0);

CREATE INDEX pin_by_athlete ON pin (athlete_id); -- those that were withdrawn, too
