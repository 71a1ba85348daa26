-- What coaches do for riders: sessions pinned to days, and notes on days.

-- +goose Up

CREATE TABLE pin (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    session    TEXT NOT NULL CHECK (session <> ''),
    coach_id   INTEGER REFERENCES athlete (id) ON DELETE SET NULL, -- who set it; NULL: has left
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX pin_once ON pin (athlete_id, date) WHERE withdrawn IS NULL;
CREATE INDEX pin_by_coach ON pin (coach_id);

CREATE TABLE coach_note (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    text       TEXT NOT NULL CHECK (trim(text) <> '' AND length(text) <= 200),
    coach_id   INTEGER REFERENCES athlete (id) ON DELETE SET NULL, -- who wrote it; NULL: has left
    added_ms   INTEGER NOT NULL
) STRICT;
CREATE INDEX coach_note_by_athlete ON coach_note (athlete_id, date);
CREATE INDEX coach_note_by_coach ON coach_note (coach_id);
