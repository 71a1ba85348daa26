-- Clubs and riders of a chat platform are found by its numbers, since names
-- there change and repeat; those of a terminal by their folded name.

-- +goose Up

ALTER TABLE club RENAME COLUMN folded TO key;
ALTER TABLE athlete RENAME COLUMN folded TO key;

ALTER TABLE club ADD COLUMN coach_role TEXT CHECK (coach_role <> '');
ALTER TABLE club ADD COLUMN digest_day TEXT NOT NULL DEFAULT 'monday'
    CHECK (digest_day IN ('monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday', 'off'));
ALTER TABLE club ADD COLUMN digest_time TEXT NOT NULL DEFAULT '07:00' CHECK (time(digest_time || ':00') IS digest_time || ':00');
ALTER TABLE club ADD COLUMN fault TEXT CHECK (fault <> ''); -- why the channel could not be written to; NULL: it could
ALTER TABLE club ADD COLUMN gone_ms INTEGER; -- when the club removed the bot; NULL: it is there

-- Somebody on a platform, in whatever clubs they ride.
CREATE TABLE person (
    key        TEXT PRIMARY KEY CHECK (key <> ''),
    club_id    INTEGER REFERENCES club (id) ON DELETE SET NULL, -- of which club their direct messages speak; NULL: not chosen
    channel    TEXT CHECK (channel <> ''), -- of direct messages
    refused_ms INTEGER -- when a direct message was refused and they have not been told; NULL: none
) STRICT, WITHOUT ROWID;

CREATE INDEX athlete_by_key ON athlete (key);

-- What a button does that has no room in its own id.
CREATE TABLE button (
    id      TEXT PRIMARY KEY CHECK (id <> ''),
    command TEXT NOT NULL,
    options TEXT NOT NULL CHECK (json_valid(options)),
    made_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX button_by_age ON button (made_ms);
