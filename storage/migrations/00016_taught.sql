-- What a rider's races have taught of the length of tapers, and who wants the usual one whatever they say.

-- +goose Up

CREATE TABLE taught (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    races      INTEGER NOT NULL CHECK (races BETWEEN 3 AND 1000), -- that said something
    low        INTEGER NOT NULL CHECK (low BETWEEN 1 AND middle),    -- per cent of the usual length: the range holds 80 %
    middle     INTEGER NOT NULL,
    high       INTEGER NOT NULL CHECK (high BETWEEN middle AND 1000),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE INDEX taught_by_athlete ON taught (athlete_id);
CREATE UNIQUE INDEX taught_once ON taught (athlete_id) WHERE withdrawn IS NULL;

ALTER TABLE athlete ADD COLUMN usual_length INTEGER NOT NULL DEFAULT 0 CHECK (usual_length IN (0, 1));
ALTER TABLE past_taper ADD COLUMN usual_length INTEGER NOT NULL DEFAULT 0 CHECK (usual_length IN (0, 1));
