-- Days on which a rider told of heavy legs. Several within a few days are said to
-- the rider and to the coaches.

-- +goose Up

CREATE TABLE heavy_legs (
    athlete_id INTEGER NOT NULL REFERENCES athlete (id) ON DELETE CASCADE,
    date       TEXT NOT NULL CHECK (date >= '1971-01-01' AND date(date) IS date),
    PRIMARY KEY (athlete_id, date)
) STRICT, WITHOUT ROWID;
