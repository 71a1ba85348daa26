CREATE TABLE absence (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    kind       TEXT NOT NULL CHECK (kind IN ('off', 'travel')),
    UNIQUE (athlete_id, from_date, to_date)
) STRICT;

CREATE TABLE athlete (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    club_id    INTEGER NOT NULL REFERENCES club (id) ON DELETE CASCADE,
    name       TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 200),
    key     TEXT NOT NULL CHECK (key <> ''),
    zone       TEXT CHECK (zone <> ''), -- NULL: the club's
    is_coach   INTEGER NOT NULL DEFAULT 0 CHECK (is_coach IN (0, 1)),
    announce   INTEGER NOT NULL DEFAULT 1 CHECK (announce IN (0, 1)),
    taper_days INTEGER NOT NULL DEFAULT 0 CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28), -- 0: automatic
    cut        INTEGER NOT NULL DEFAULT 0 CHECK (cut = 0 OR cut BETWEEN 20 AND 80), -- 0: the planner's default
    pattern    TEXT NOT NULL DEFAULT 'second' CHECK (pattern IN ('second', 'third')),
    shape      TEXT NOT NULL DEFAULT 'exponential' CHECK (shape IN ('exponential', 'linear', 'step')),
    openers    TEXT NOT NULL DEFAULT 'D-1' CHECK (openers IN ('D-1', 'D-2')),
    added_ms   INTEGER NOT NULL, remind TEXT NOT NULL DEFAULT 'off' CHECK (remind IN ('off', 'changed', 'always')), remind_at TEXT NOT NULL DEFAULT '06:30' CHECK (time(remind_at || ':00') IS remind_at || ':00'), remind_by TEXT NOT NULL DEFAULT 'direct' CHECK (remind_by IN ('direct', 'thread', 'ride')), remind_since_ms INTEGER NOT NULL DEFAULT 0, pause_to TEXT CHECK (pause_to >= '1971-01-01' AND date(pause_to) IS pause_to), thread TEXT CHECK (thread <> ''),
    UNIQUE (club_id, key)
) STRICT;

CREATE TABLE block (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    percent    INTEGER NOT NULL CHECK (percent BETWEEN 1 AND 100),
    UNIQUE (athlete_id, from_date, to_date)
) STRICT;

CREATE TABLE button (
    id      TEXT PRIMARY KEY CHECK (id <> ''),
    command TEXT NOT NULL,
    options TEXT NOT NULL CHECK (json_valid(options)),
    made_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE clock (
    id      INTEGER PRIMARY KEY CHECK (id = 1),
    tick_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE club (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    name     TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 200),
    key   TEXT NOT NULL UNIQUE CHECK (key <> ''),
    zone     TEXT NOT NULL CHECK (zone <> ''),
    channel  TEXT CHECK (channel <> ''),
    added_ms INTEGER NOT NULL
, coach_role TEXT CHECK (coach_role <> ''), digest_day TEXT NOT NULL DEFAULT 'monday'
    CHECK (digest_day IN ('monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday', 'off')), digest_time TEXT NOT NULL DEFAULT '07:00' CHECK (time(digest_time || ':00') IS digest_time || ':00'), fault TEXT CHECK (fault <> ''), gone_ms INTEGER, coaches_channel TEXT CHECK (coaches_channel <> '')) STRICT;

CREATE TABLE day_limit (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440),
    PRIMARY KEY (athlete_id, date)
) STRICT, WITHOUT ROWID;

CREATE TABLE move (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date <> from_date AND to_date >= '1971-01-01' AND date(to_date) IS to_date)
) STRICT;

CREATE TABLE person (
    key        TEXT PRIMARY KEY CHECK (key <> ''),
    club_id    INTEGER REFERENCES club (id) ON DELETE SET NULL, -- of which club their direct messages speak; NULL: not chosen
    channel    TEXT CHECK (channel <> ''), -- of direct messages
    refused_ms INTEGER -- when a direct message was refused and they have not been told; NULL: none
) STRICT, WITHOUT ROWID;

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

CREATE TABLE race (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    name       TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 200),
    folded     TEXT NOT NULL CHECK (folded <> ''),
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    priority   TEXT NOT NULL CHECK (priority IN ('A', 'B', 'C')),
    hours      REAL CHECK (hours > 0 AND hours <= 48), -- a race day; NULL: not told
    kind       TEXT NOT NULL DEFAULT '' CHECK (length(kind) <= 200),
    days       INTEGER NOT NULL DEFAULT 1 CHECK (days BETWEEN 1 AND 28),
    start      TEXT NOT NULL DEFAULT '' CHECK (start = '' OR time(start || ':00') IS start || ':00'),
    emphasis   TEXT NOT NULL DEFAULT 'train-through' CHECK (emphasis IN ('train-through', 'important')),
    place      TEXT NOT NULL DEFAULT '' CHECK (length(place) <= 200),
    registered TEXT NOT NULL CHECK (registered >= '1971-01-01' AND date(registered) IS registered),
    removed_ms INTEGER -- NULL: in the calendar; else when it was taken out, so that it can come back as it was
) STRICT;

CREATE TABLE result (
    race_id  INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    feeling  INTEGER NOT NULL CHECK (feeling BETWEEN 1 AND 10), -- of the legs
    result   TEXT NOT NULL DEFAULT '' CHECK (length(result) <= 200), -- placing or time
    note     TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    added_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE ride (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440), -- of the whole day; 0: missed
    rpe        REAL CHECK (rpe BETWEEN 1 AND 10), -- NULL: not told
    note       TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    PRIMARY KEY (athlete_id, date)
) STRICT, WITHOUT ROWID;

CREATE TABLE week (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    text       TEXT NOT NULL CHECK (text <> ''),
    PRIMARY KEY (athlete_id, from_date)
) STRICT, WITHOUT ROWID;

CREATE INDEX athlete_by_key ON athlete (key);

CREATE INDEX athlete_to_remind ON athlete (remind_at, zone, club_id) WHERE remind <> 'off';

CREATE INDEX button_by_age ON button (made_ms);

CREATE INDEX club_by_zone ON club (zone);

CREATE INDEX club_with_digest ON club (digest_day, zone, digest_time)
	WHERE digest_day <> 'off' AND gone_ms IS NULL AND (coaches_channel IS NOT NULL OR key NOT GLOB '[a-z]*:*');

CREATE INDEX move_by_athlete ON move (athlete_id);

CREATE INDEX post_by_athlete ON post (athlete_id);

CREATE INDEX post_by_club ON post (club_id, changed_ms);

CREATE INDEX post_old ON post (changed_ms) WHERE state <> 'claimed';

CREATE INDEX post_open ON post (state, due_ms) WHERE state = 'claimed';

CREATE UNIQUE INDEX race_once ON race (athlete_id, date, folded) WHERE removed_ms IS NULL;

CREATE INDEX race_removed ON race (athlete_id, date, folded) WHERE removed_ms IS NOT NULL;
