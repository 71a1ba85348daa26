-- Stops that hold all training back, never with the words that made them.

-- +goose Up

CREATE TABLE hold (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date), -- on which it was told
    level      TEXT NOT NULL CHECK (level IN ('doctor', 'head', 'emergency')),
    ended      TEXT CHECK (ended IN ('not-that', 'cleared')), -- NULL: it stands
    ended_on   TEXT CHECK (ended_on >= date AND date(ended_on) IS ended_on),
    CHECK ((ended IS NULL) = (ended_on IS NULL))
) STRICT;
CREATE UNIQUE INDEX hold_once ON hold (athlete_id, level) WHERE ended IS NULL;
CREATE INDEX hold_by_athlete ON hold (athlete_id);
