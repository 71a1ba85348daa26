-- What was told already of what is amiss: to a person whose direct messages are
-- closed, and of a club's channels and role. It is told again after it was well in between.

-- +goose Up

ALTER TABLE person ADD COLUMN refusal_told INTEGER NOT NULL DEFAULT 0 CHECK (refusal_told IN (0, 1));
ALTER TABLE club ADD COLUMN told TEXT CHECK (told <> ''); -- words for what was amiss when it was told last, parted by commas
