-- What became of a race, and results whose parts are told one by one.

-- +goose Up

ALTER TABLE race ADD COLUMN status TEXT NOT NULL DEFAULT 'planned' CHECK (status IN ('planned', 'finished', 'gave-up', 'not-started', 'cancelled'));
ALTER TABLE race ADD COLUMN ended TEXT CHECK ((ended IS NOT NULL) = (status = 'gave-up') AND (ended IS NULL OR ended >= date AND date(ended) IS ended)); -- the race day on which it was given up
ALTER TABLE past_race ADD COLUMN status TEXT NOT NULL DEFAULT 'planned' CHECK (status IN ('planned', 'finished', 'gave-up', 'not-started', 'cancelled'));
ALTER TABLE past_race ADD COLUMN ended TEXT CHECK ((ended IS NOT NULL) = (status = 'gave-up') AND (ended IS NULL OR ended >= date AND date(ended) IS ended));

CREATE TABLE old_result AS SELECT * FROM result;
DROP TABLE result;
CREATE TABLE result (
    race_id  INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    feeling  INTEGER CHECK (feeling BETWEEN 1 AND 10), -- of the legs; NULL: not told
    result   TEXT NOT NULL DEFAULT '' CHECK (length(result) <= 200), -- placing or time
    compared TEXT NOT NULL DEFAULT '' CHECK (compared IN ('', 'worse', 'same', 'better')), -- with what was expected; '': not told
    note     TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    added_ms INTEGER NOT NULL
) STRICT;
INSERT INTO result (race_id, feeling, result, note, added_ms) SELECT race_id, feeling, result, note, added_ms FROM old_result;
DROP TABLE old_result;
