-- Illness and injury as they were told: versions, of which those that are
-- withdrawn keep no words.

-- +goose Up

CREATE TABLE illness (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT CHECK (to_date >= from_date AND date(to_date) IS to_date), -- the last ill day; NULL: still ill
    kind       TEXT NOT NULL CHECK (kind IN ('ill', 'injured')),
    level      TEXT NOT NULL CHECK (level IN ('easy', 'rest')),
    symptoms   TEXT NOT NULL DEFAULT '' CHECK (length(symptoms) <= 200 AND (symptoms = '' OR withdrawn IS NULL)), -- one a line
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX illness_once ON illness (athlete_id, from_date, kind) WHERE withdrawn IS NULL;
CREATE INDEX illness_by_athlete ON illness (athlete_id);
