-- What a backup cannot know: messages sent between it and the moment at which it was put back.

-- +goose Up

ALTER TABLE clock ADD COLUMN restored_from_ms INTEGER; -- NULL: never put back
ALTER TABLE clock ADD COLUMN restored_ms INTEGER;
