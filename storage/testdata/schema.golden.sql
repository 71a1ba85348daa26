CREATE TABLE absence (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    kind       TEXT NOT NULL CHECK (kind IN ('off', 'travel')),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
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
    openers    TEXT NOT NULL DEFAULT 'D-1' CHECK (openers IN ('D-1', 'D-2')),
    added_ms   INTEGER NOT NULL, remind TEXT NOT NULL DEFAULT 'off' CHECK (remind IN ('off', 'changed', 'always')), remind_at TEXT NOT NULL DEFAULT '06:30' CHECK (time(remind_at || ':00') IS remind_at || ':00'), remind_by TEXT NOT NULL DEFAULT 'direct' CHECK (remind_by IN ('direct', 'thread', 'ride')), remind_since_ms INTEGER NOT NULL DEFAULT 0, pause_to TEXT CHECK (pause_to >= '1971-01-01' AND date(pause_to) IS pause_to), thread TEXT CHECK (thread <> ''), off_untold INTEGER NOT NULL DEFAULT 0 CHECK (off_untold IN (0, 1)), pattern TEXT NOT NULL DEFAULT 'usual' CHECK (pattern IN ('usual', 'second', 'third')), taper_told TEXT CHECK (taper_told >= '1971-01-01' AND date(taper_told) IS taper_told), left_date TEXT CHECK (left_date >= '1971-01-01' AND date(left_date) IS left_date), usual_length INTEGER NOT NULL DEFAULT 0 CHECK (usual_length IN (0, 1)), entered INTEGER NOT NULL DEFAULT 0 CHECK (entered IN (0, 1)),
    UNIQUE (club_id, key)
) STRICT;

CREATE TABLE block (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date >= from_date AND date(to_date) IS to_date),
    percent    INTEGER NOT NULL CHECK (percent BETWEEN 1 AND 100),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;

CREATE TABLE button (
    id      TEXT PRIMARY KEY CHECK (id <> ''),
    command TEXT NOT NULL,
    options TEXT NOT NULL CHECK (json_valid(options)),
    made_ms INTEGER NOT NULL
, owner TEXT CHECK (owner <> '')) STRICT, WITHOUT ROWID;

CREATE TABLE calendar_given (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    uid        TEXT NOT NULL,
    sequence   INTEGER NOT NULL CHECK (sequence >= 0),
    state      TEXT NOT NULL, day TEXT CHECK (day >= '1971-01-01' AND date(day) IS day), until TEXT CHECK ((until IS NULL) = (day IS NULL) AND (until IS NULL OR until >= day AND date(until) IS until)), -- a sum of what the entry held
    PRIMARY KEY (athlete_id, uid)
) STRICT, WITHOUT ROWID;

CREATE TABLE changes (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    n  INTEGER NOT NULL
) STRICT;

CREATE TABLE clock (
    id      INTEGER PRIMARY KEY CHECK (id = 1),
    tick_ms INTEGER NOT NULL
, restored_from_ms INTEGER, restored_ms INTEGER) STRICT;

CREATE TABLE club (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    name     TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 200),
    key   TEXT NOT NULL UNIQUE CHECK (key <> ''),
    zone     TEXT NOT NULL CHECK (zone <> ''),
    channel  TEXT CHECK (channel <> ''),
    added_ms INTEGER NOT NULL
, coach_role TEXT CHECK (coach_role <> ''), digest_day TEXT NOT NULL DEFAULT 'monday'
    CHECK (digest_day IN ('monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday', 'off')), digest_time TEXT NOT NULL DEFAULT '07:00' CHECK (time(digest_time || ':00') IS digest_time || ':00'), fault TEXT CHECK (fault <> ''), gone_ms INTEGER, coaches_channel TEXT CHECK (coaches_channel <> '')) STRICT;

CREATE TABLE coach_note (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    text       TEXT NOT NULL CHECK (trim(text) <> '' AND length(text) <= 200),
    coach_id   INTEGER REFERENCES athlete (id) ON DELETE SET NULL, -- who wrote it; NULL: has left
    added_ms   INTEGER NOT NULL
) STRICT;

CREATE TABLE day_limit (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
, eased INTEGER NOT NULL DEFAULT 0 CHECK (eased IN (0, 1))) STRICT;

CREATE TABLE fault_told (
	club_id INTEGER NOT NULL REFERENCES club (id) ON DELETE CASCADE,
	person_key TEXT NOT NULL CHECK (person_key <> ''),
	fault TEXT NOT NULL CHECK (fault <> ''),
	PRIMARY KEY (person_key, club_id, fault)
) STRICT, WITHOUT ROWID;

CREATE TABLE heavy_legs (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    PRIMARY KEY (athlete_id, date)
) STRICT, WITHOUT ROWID;

CREATE TABLE hold (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date), -- on which it was told
    level      TEXT NOT NULL CHECK (level IN ('doctor', 'head', 'emergency')),
    ended      TEXT CHECK (ended IN ('not-that', 'cleared')), -- NULL: it stands
    ended_on   TEXT CHECK (ended_on >= date AND date(ended_on) IS ended_on),
    CHECK ((ended IS NULL) = (ended_on IS NULL))
) STRICT;

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

CREATE TABLE kit (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    item       TEXT NOT NULL CHECK (length(item) BETWEEN 1 AND 200),
    leave      INTEGER NOT NULL CHECK (leave IN (0, 1)), -- 1: is not packed
    PRIMARY KEY (athlete_id, item)
) STRICT, WITHOUT ROWID;

CREATE TABLE move (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    to_date    TEXT NOT NULL CHECK (to_date <> from_date AND to_date >= '1971-01-01' AND date(to_date) IS to_date)
, told TEXT CHECK (told >= '1971-01-01' AND date(told) IS told), withdrawn TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)) STRICT;

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
, status TEXT NOT NULL DEFAULT 'planned' CHECK (status IN ('planned', 'finished', 'gave-up', 'not-started', 'cancelled')), ended TEXT CHECK ((ended IS NOT NULL) = (status = 'gave-up') AND (ended IS NULL OR ended >= date AND date(ended) IS ended))) STRICT;

CREATE TABLE past_taper (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    taper_days INTEGER NOT NULL CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28),
    cut        INTEGER NOT NULL CHECK (cut = 0 OR cut BETWEEN 20 AND 80),
    pattern    TEXT NOT NULL CHECK (pattern IN ('usual', 'second', 'third')),
    openers    TEXT NOT NULL CHECK (openers IN ('D-1', 'D-2')),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT NOT NULL CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
, usual_length INTEGER NOT NULL DEFAULT 0 CHECK (usual_length IN (0, 1))) STRICT;

CREATE TABLE person (
    key        TEXT PRIMARY KEY CHECK (key <> ''),
    club_id    INTEGER REFERENCES club (id) ON DELETE SET NULL, -- of which club their direct messages speak; NULL: not chosen
    channel    TEXT CHECK (channel <> ''), -- of direct messages
    refused_ms INTEGER -- when a direct message was refused and they have not been told; NULL: none
, refusal_told INTEGER NOT NULL DEFAULT 0 CHECK (refusal_told IN (0, 1))) STRICT, WITHOUT ROWID;

CREATE TABLE pin (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    session    TEXT NOT NULL CHECK (session <> ''),
    coach_id   INTEGER REFERENCES athlete (id) ON DELETE SET NULL, -- who set it; NULL: has left
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
) STRICT;

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
    place      TEXT NOT NULL DEFAULT '' CHECK (length(place) <= 200),
    registered TEXT NOT NULL CHECK (registered >= '1971-01-01' AND date(registered) IS registered),
    taper_days INTEGER NOT NULL DEFAULT 0 CHECK (taper_days = 0 OR taper_days BETWEEN 4 AND 28), told TEXT CHECK (told >= '1971-01-01' AND date(told) IS told), withdrawn TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn), emphasis TEXT NOT NULL DEFAULT '' CHECK (emphasis IN ('', 'train-through', 'important')), status TEXT NOT NULL DEFAULT 'planned' CHECK (status IN ('planned', 'finished', 'gave-up', 'not-started', 'cancelled')), ended TEXT CHECK ((ended IS NOT NULL) = (status = 'gave-up') AND (ended IS NULL OR ended >= date AND date(ended) IS ended))) STRICT;

CREATE TABLE race_day (
    race_id INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    travel  INTEGER CHECK (travel BETWEEN 0 AND 1440), -- minutes to the start; NULL: not told
    zone    TEXT NOT NULL DEFAULT '' -- IANA zone of the start; '': the rider's
) STRICT;

CREATE TABLE result (
    race_id  INTEGER PRIMARY KEY REFERENCES race (id) ON DELETE CASCADE,
    feeling  INTEGER CHECK (feeling BETWEEN 1 AND 10), -- of the legs; NULL: not told
    result   TEXT NOT NULL DEFAULT '' CHECK (length(result) <= 200), -- placing or time
    compared TEXT NOT NULL DEFAULT '' CHECK (compared IN ('', 'worse', 'same', 'better')), -- with what was expected; '': not told
    note     TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200),
    added_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE ride (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    minutes    INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 1440), -- of the whole day; 0: missed
    rpe        REAL CHECK (rpe BETWEEN 1 AND 10), -- NULL: not told
    note       TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 200 AND (note = '' OR withdrawn IS NULL)),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
, nr INTEGER NOT NULL DEFAULT 1 CHECK (nr BETWEEN 1 AND 20)) STRICT;

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

CREATE TABLE week (
    id         INTEGER PRIMARY KEY,
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    from_date  TEXT NOT NULL CHECK (from_date >= '1971-01-01' AND date(from_date) IS from_date),
    text       TEXT NOT NULL CHECK (text <> ''),
    told       TEXT CHECK (told >= '1971-01-01' AND date(told) IS told),
    withdrawn  TEXT CHECK (withdrawn >= coalesce(told, '1971-01-01') AND date(withdrawn) IS withdrawn)
, second TEXT NOT NULL DEFAULT '') STRICT;

CREATE INDEX absence_by_athlete ON absence (athlete_id);

CREATE UNIQUE INDEX absence_once ON absence (athlete_id, from_date, to_date) WHERE withdrawn IS NULL;

CREATE INDEX athlete_by_key ON athlete (key);

CREATE INDEX athlete_to_remind ON athlete (remind_at, zone, club_id) WHERE remind <> 'off';

CREATE INDEX athlete_who_left ON athlete (left_date) WHERE left_date IS NOT NULL;

CREATE INDEX block_by_athlete ON block (athlete_id);

CREATE UNIQUE INDEX block_once ON block (athlete_id, from_date, to_date) WHERE withdrawn IS NULL;

CREATE INDEX button_by_age ON button (made_ms);

CREATE INDEX button_by_owner ON button (owner);

CREATE INDEX club_by_zone ON club (zone);

CREATE INDEX club_with_digest ON club (digest_day, zone, digest_time)
	WHERE digest_day <> 'off' AND gone_ms IS NULL AND (coaches_channel IS NOT NULL OR key NOT GLOB '[a-z]*:*');

CREATE INDEX coach_note_by_athlete ON coach_note (athlete_id, date);

CREATE INDEX coach_note_by_coach ON coach_note (coach_id);

CREATE INDEX day_limit_by_athlete ON day_limit (athlete_id);

CREATE UNIQUE INDEX day_limit_once ON day_limit (athlete_id, date) WHERE withdrawn IS NULL;

CREATE INDEX fault_told_by_club ON fault_told (club_id);

CREATE INDEX hold_by_athlete ON hold (athlete_id);

CREATE UNIQUE INDEX hold_once ON hold (athlete_id, level) WHERE ended IS NULL;

CREATE INDEX illness_by_athlete ON illness (athlete_id);

CREATE UNIQUE INDEX illness_once ON illness (athlete_id, from_date, kind) WHERE withdrawn IS NULL;

CREATE INDEX move_by_athlete ON move (athlete_id);

CREATE INDEX past_race_by_race ON past_race (race_id);

CREATE INDEX past_taper_by_athlete ON past_taper (athlete_id);

CREATE INDEX pin_by_athlete ON pin (athlete_id);

CREATE INDEX pin_by_coach ON pin (coach_id);

CREATE UNIQUE INDEX pin_once ON pin (athlete_id, date) WHERE withdrawn IS NULL;

CREATE INDEX post_by_athlete ON post (athlete_id);

CREATE INDEX post_by_club ON post (club_id, changed_ms);

CREATE INDEX post_old ON post (changed_ms) WHERE state <> 'claimed';

CREATE INDEX post_open ON post (state, due_ms) WHERE state = 'claimed';

CREATE INDEX race_by_athlete ON race (athlete_id, date, folded);

CREATE UNIQUE INDEX race_once ON race (athlete_id, date, folded) WHERE withdrawn IS NULL;

CREATE INDEX ride_by_athlete ON ride (athlete_id, date);

CREATE UNIQUE INDEX ride_once ON ride (athlete_id, date, nr) WHERE withdrawn IS NULL;

CREATE INDEX taught_by_athlete ON taught (athlete_id);

CREATE UNIQUE INDEX taught_once ON taught (athlete_id) WHERE withdrawn IS NULL;

CREATE INDEX week_by_athlete ON week (athlete_id);

CREATE UNIQUE INDEX week_once ON week (athlete_id, from_date) WHERE withdrawn IS NULL;
