-- Who was told what is amiss with a club's channels and its coach role. Before, it was told
-- once a club, so that whoever could mend it might never hear of it.

-- +goose Up

CREATE TABLE fault_told (
	club_id INTEGER NOT NULL REFERENCES club (id) ON DELETE CASCADE,
	person_key TEXT NOT NULL CHECK (person_key <> ''),
	fault TEXT NOT NULL CHECK (fault <> ''),
	PRIMARY KEY (person_key, club_id, fault)
) STRICT, WITHOUT ROWID;

CREATE INDEX fault_told_by_club ON fault_told (club_id);

ALTER TABLE club DROP COLUMN told;
