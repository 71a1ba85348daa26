-- What was ridden and how races felt, when riders want to be reminded, and what
-- has been posted: a row is claimed before a message is sent, so that none is
-- sent twice.

-- +goose Up

CREATE TABLE ride (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440), -- of the whole day; 0: missed
    rpe        REAL CHECK (rpe BETWEEN 1 AND 10), -- NULL: not told
    note       TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    PRIMARY KEY (athlete_id, date)
) STRICT, WITHOUT ROWID;

CREATE TABLE result (
    race_id  INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    feeling  INTEGER NOT NULL CHECK (feeling BETWEEN 1 AND 10), -- of the legs
    result   TEXT NOT NULL DEFAULT '' CHECK (length(result) <= 200), -- placing or time
    note     TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    added_ms INTEGER NOT NULL
) STRICT;

ALTER TABLE athlete ADD COLUMN remind TEXT NOT NULL DEFAULT 'off' CHECK (remind IN ('off', 'changed', 'always'));
ALTER TABLE athlete ADD COLUMN remind_at TEXT NOT NULL DEFAULT '06:30' CHECK (time(remind_at || ':00') IS remind_at || ':00');
ALTER TABLE athlete ADD COLUMN remind_by TEXT NOT NULL DEFAULT 'direct' CHECK (remind_by IN ('direct', 'thread', 'ride'));
ALTER TABLE athlete ADD COLUMN remind_since_ms INTEGER NOT NULL DEFAULT 0; -- when mode, time or zone were set last: nothing is due before
ALTER TABLE athlete ADD COLUMN pause_to TEXT CHECK (pause_to >= '1971-01-01' AND date(pause_to) IS pause_to); -- the last day without reminders; NULL: no pause
ALTER TABLE athlete ADD COLUMN thread TEXT CHECK (thread <> ''); -- private thread of the reminders

CREATE INDEX athlete_to_remind ON athlete (remind_at, zone, club_id) WHERE remind <> 'off';

CREATE INDEX club_by_zone ON club (zone);

ALTER TABLE club ADD COLUMN coaches_channel TEXT CHECK (coaches_channel <> ''); -- where the digest goes; NULL: nowhere but on demand

-- Those who get a digest: clubs of a platform only where they have a channel for it.
CREATE INDEX club_with_digest ON club (digest_day, zone, digest_time)
	WHERE digest_day <> 'off' AND gone_ms IS NULL AND (coaches_channel IS NOT NULL OR key NOT GLOB '[a-z]*:*');

-- Key is the person (or, of those without a platform, club and name), day the
-- recipient's own; a digest's key is its club's.
CREATE TABLE post (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    kind       TEXT NOT NULL CHECK (kind IN ('reminder', 'digest')),
    key        TEXT NOT NULL CHECK (key <> ''),
    day        TEXT NOT NULL CHECK (day >= '1971-01-01' AND date(day) IS day),
    athlete_id INTEGER REFERENCES athlete (id) ON DELETE CASCADE,
    club_id    INTEGER NOT NULL REFERENCES club (id) ON DELETE CASCADE,
    due_ms     INTEGER NOT NULL,
    state      TEXT NOT NULL CHECK (state IN ('claimed', 'sent', 'skipped', 'failed')),
    reason     TEXT NOT NULL DEFAULT '',
    tries      INTEGER NOT NULL DEFAULT 0,
    claimed_ms INTEGER NOT NULL, -- when it was claimed first
    changed_ms INTEGER NOT NULL,
    UNIQUE (kind, day, key) -- of one day together: a morning writes few pages
) STRICT;

CREATE INDEX post_open ON post (state, due_ms) WHERE state = 'claimed';
CREATE INDEX post_by_club ON post (club_id, changed_ms);
CREATE INDEX post_by_athlete ON post (athlete_id); -- who leaves takes them along
CREATE INDEX post_old ON post (changed_ms) WHERE state <> 'claimed';

-- When the scheduler ran last, so that it knows what it slept through.
CREATE TABLE clock (
    id      INTEGER PRIMARY KEY CHECK (id = 1),
    tick_ms INTEGER NOT NULL
) STRICT;
