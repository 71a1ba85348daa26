-- The days of calendar entries that were given out: an entry that fell away is given
-- out as cancelled, with its days.

-- +goose Up

ALTER TABLE calendar_given ADD COLUMN day TEXT CHECK (day >= '1971-01-01' AND date(day) IS day); -- NULL: given before days were kept
ALTER TABLE calendar_given ADD COLUMN until TEXT CHECK ((until IS NULL) = (day IS NULL) AND (until IS NULL OR until >= day AND date(until) IS until)); -- its last day
