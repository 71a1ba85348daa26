-- Indexes that two earlier migrations did not make when they were first given out.

-- +goose Up

CREATE INDEX IF NOT EXISTS club_with_digest ON club (digest_day, zone, digest_time)
	WHERE digest_day <> 'off' AND gone_ms IS NULL AND (coaches_channel IS NOT NULL OR key NOT GLOB '[a-z]*:*');
CREATE INDEX IF NOT EXISTS post_by_athlete ON post (athlete_id); -- who leaves takes them along
CREATE INDEX IF NOT EXISTS post_old ON post (changed_ms) WHERE state <> 'claimed';
CREATE INDEX IF NOT EXISTS pin_by_athlete ON pin (athlete_id); -- those that were withdrawn, too
