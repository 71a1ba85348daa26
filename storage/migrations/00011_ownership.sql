-- Who left their club, whose a button is; and races that were taken out keep no
-- words of their results.

-- +goose Up

ALTER TABLE athlete ADD COLUMN left_date TEXT CHECK (left_date >= '1971-01-01' AND date(left_date) IS left_date); -- when a look-up said that they are no member; NULL: they are

CREATE INDEX athlete_who_left ON athlete (left_date) WHERE left_date IS NOT NULL;

ALTER TABLE button ADD COLUMN owner TEXT CHECK (owner <> ''); -- key of the person; NULL: not known, or every coach

CREATE INDEX button_by_owner ON button (owner);

UPDATE race SET place = '' WHERE withdrawn IS NOT NULL;
UPDATE result SET result = '', note = '' WHERE race_id IN (SELECT id FROM race WHERE withdrawn IS NOT NULL);
