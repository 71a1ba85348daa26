-- What a rider packs otherwise, and the states of calendar entries that were given out.

-- +goose Up

CREATE TABLE kit (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    item       TEXT NOT NULL CHECK (length(item) BETWEEN 1 AND 200),
    leave      INTEGER NOT NULL CHECK (leave IN (0, 1)), -- 1: is not packed
    PRIMARY KEY (athlete_id, item)
) STRICT, WITHOUT ROWID;

CREATE TABLE calendar_given (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    uid        TEXT NOT NULL,
    sequence   INTEGER NOT NULL CHECK (sequence >= 0),
    state      TEXT NOT NULL, -- a sum of what the entry held
    PRIMARY KEY (athlete_id, uid)
) STRICT, WITHOUT ROWID;
