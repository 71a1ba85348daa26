-- The morning of a race: the way to it and the zone in which it starts.

-- +goose Up

CREATE TABLE race_day (
    race_id INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    travel  INTEGER CHECK (travel BETWEEN 0 AND 1440), -- minutes to the start; NULL: not told
    zone    TEXT NOT NULL DEFAULT '' -- IANA zone of the start; '': the rider's
) STRICT;
