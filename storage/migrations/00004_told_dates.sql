-- Facts become versions: told is the rider's day on which a version was told
-- (NULL: before everything), withdrawn the day on which it was taken back or
-- changed (NULL: it stands). What stands is unique, what is withdrawn is not.
-- Rows of before count as told before everything, rides on their own date.

-- +goose Up

-- Ids are never used twice, also where a table is made anew.
CREATE TABLE kept AS SELECT name, seq FROM sqlite_sequence;

CREATE TABLE old_week AS SELECT * FROM week;
DROP TABLE week;
CREATE TABLE week (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    text       TEXT NOT NULL CHECK (text <> ''),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX week_once ON week (athlete_id, from_date) WHERE withdrawn IS NULL;
CREATE INDEX week_by_athlete ON week (athlete_id);

-- A day off was one on which nothing is possible; now it is free by habit. Those
-- whose week had one that counts are told so once.
ALTER TABLE athlete ADD COLUMN off_untold INTEGER NOT NULL DEFAULT 0 CHECK (off_untold IN (0, 1));
UPDATE athlete SET off_untold = 1 WHERE id IN (
    SELECT athlete_id FROM old_week w WHERE text LIKE '% off%' AND NOT EXISTS (
        SELECT 1 FROM old_week later WHERE later.athlete_id = w.athlete_id AND w.from_date < later.from_date AND later.from_date <= date('now')));
INSERT INTO week (athlete_id, from_date, text) SELECT athlete_id, from_date, replace(text, ' off', ' rest') FROM old_week ORDER BY athlete_id, from_date;
DROP TABLE old_week;

CREATE TABLE old_absence AS SELECT * FROM absence;
DROP TABLE absence;
CREATE TABLE absence (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    kind       TEXT NOT NULL CHECK (kind IN ('off', 'travel')),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX absence_once ON absence (athlete_id, from_date, to_date) WHERE withdrawn IS NULL;
CREATE INDEX absence_by_athlete ON absence (athlete_id);
INSERT INTO absence (id, athlete_id, from_date, to_date, kind) SELECT id, athlete_id, from_date, to_date, kind FROM old_absence;
DROP TABLE old_absence;

CREATE TABLE old_block AS SELECT * FROM block;
DROP TABLE block;
CREATE TABLE block (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    percent    INTEGER NOT NULL CHECK (percent BETWEEN 1 AND 100),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX block_once ON block (athlete_id, from_date, to_date) WHERE withdrawn IS NULL;
CREATE INDEX block_by_athlete ON block (athlete_id);
INSERT INTO block (id, athlete_id, from_date, to_date, percent) SELECT id, athlete_id, from_date, to_date, percent FROM old_block;
DROP TABLE old_block;

CREATE TABLE old_limit AS SELECT * FROM day_limit;
DROP TABLE day_limit;
CREATE TABLE day_limit (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX day_limit_once ON day_limit (athlete_id, date) WHERE withdrawn IS NULL;
CREATE INDEX day_limit_by_athlete ON day_limit (athlete_id);
INSERT INTO day_limit (athlete_id, date, minutes) SELECT athlete_id, date, minutes FROM old_limit ORDER BY athlete_id, date;
DROP TABLE old_limit;

CREATE TABLE old_ride AS SELECT * FROM ride;
DROP TABLE ride;
CREATE TABLE ride (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440), -- of the whole day; 0: missed
    rpe        REAL CHECK (rpe BETWEEN 1 AND 10), -- NULL: not told
    note       TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200 AND (note = '' OR withdrawn IS NULL)),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE UNIQUE INDEX ride_once ON ride (athlete_id, date) WHERE withdrawn IS NULL;
CREATE INDEX ride_by_athlete ON ride (athlete_id, date);
INSERT INTO ride (athlete_id, date, minutes, rpe, note, told) SELECT athlete_id, date, minutes, rpe, note, date FROM old_ride ORDER BY athlete_id, date;
DROP TABLE old_ride;

ALTER TABLE move ADD COLUMN told TEXT CHECK (told >= '1971-01-01' AND date(told) IS told);
ALTER TABLE move ADD COLUMN withdrawn TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn);

-- A race's row is its last version: that in the calendar, or that which was taken out.
DROP INDEX race_once;
DROP INDEX race_removed;
ALTER TABLE race ADD COLUMN taper_days INTEGER NOT NULL DEFAULT 0 CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28); -- 0: no length of its own
ALTER TABLE race ADD COLUMN told TEXT CHECK (told >= '1971-01-01' AND date(told) IS told);
ALTER TABLE race ADD COLUMN withdrawn TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn);
-- A B race gets a few easier days now unless something was told: train-through was
-- what nobody had chosen.
ALTER TABLE race RENAME COLUMN emphasis TO old_emphasis;
ALTER TABLE race ADD COLUMN emphasis TEXT NOT NULL DEFAULT '' CHECK (emphasis IN ('', 'train-through', 'important')); -- '': not told
UPDATE race SET emphasis = old_emphasis WHERE old_emphasis = 'important';
ALTER TABLE race DROP COLUMN old_emphasis;
UPDATE race SET withdrawn = date(removed_ms / 1000, 'unixepoch'), place = '' WHERE removed_ms IS NOT NULL;
ALTER TABLE race DROP COLUMN removed_ms;
CREATE UNIQUE INDEX race_once ON race (athlete_id, date, folded) WHERE withdrawn IS NULL;
CREATE INDEX race_by_athlete ON race (athlete_id, date, folded);

-- What a race was before: it keeps no place.
CREATE TABLE past_race (
    id         INTEGER PRIMARY KEY,
    race_id    INTEGER NOT NULL REFERENCES race (id) ON DELETE CASCADE,
    name       TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 200),
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    priority   TEXT NOT NULL CHECK (priority IN ('A', 'B', 'C')),
    hours      REAL CHECK (hours > 0 AND hours <= 48), -- a race day; NULL: not told
    kind       TEXT NOT NULL CHECK (length(kind) <= 200),
    days       INTEGER NOT NULL CHECK (days BETWEEN 1 AND 28),
    start      TEXT NOT NULL CHECK (start = '' OR time(start || ':00') IS start || ':00'),
    emphasis   TEXT NOT NULL CHECK (emphasis IN ('', 'train-through', 'important')),
    taper_days INTEGER NOT NULL CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT NOT NULL CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE INDEX past_race_by_race ON past_race (race_id);

-- How minutes fall is no setting any more, and hard days are the usual ones: every
-- second day was what nobody had chosen.
ALTER TABLE athlete DROP COLUMN shape;
ALTER TABLE athlete RENAME COLUMN pattern TO old_pattern;
ALTER TABLE athlete ADD COLUMN pattern TEXT NOT NULL DEFAULT 'usual' CHECK (pattern IN ('usual', 'second', 'third'));
UPDATE athlete SET pattern = old_pattern WHERE old_pattern = 'third';
ALTER TABLE athlete DROP COLUMN old_pattern;
ALTER TABLE athlete ADD COLUMN taper_told TEXT CHECK (taper_told >= '1971-01-01' AND date(taper_told) IS taper_told); -- NULL: before everything

-- What the taper settings were before.
CREATE TABLE past_taper (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    taper_days INTEGER NOT NULL CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28),
    cut        INTEGER NOT NULL CHECK (cut = 0 OR cut BETWEEN 20 AND 80),
    pattern    TEXT NOT NULL CHECK (pattern IN ('usual', 'second', 'third')),
    openers    TEXT NOT NULL CHECK (openers IN ('D-1', 'D-2')),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT NOT NULL CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;
CREATE INDEX past_taper_by_athlete ON past_taper (athlete_id);

DELETE FROM sqlite_sequence WHERE name IN (SELECT name FROM kept);
INSERT INTO sqlite_sequence (name, seq) SELECT name, seq FROM kept;
DROP TABLE kept;
