package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Person is somebody on a platform, in whatever clubs they ride.
type Person struct {
	Club    ClubID    // of which club their direct messages speak; 0: not chosen
	Channel string    // of direct messages; empty: none yet
	Refused time.Time // when a direct message was refused and they have not been told; zero: none
	Told    bool      // they have been told of a refusal, and no message has arrived since
}

// FindPerson is what is known of a person; the zero Person when nothing is.
func (db *DB) FindPerson(ctx context.Context, key Key) (p Person, err error) {
	var refused sql.Null[int64]
	err = db.source().QueryRowContext(ctx, `SELECT coalesce(club_id, 0), coalesce(channel, ''), refused_ms, refusal_told FROM person WHERE key = ?`, key.text).
		Scan(&p.Club, &p.Channel, &refused, &p.Told)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Person{}, nil
	case err != nil:
		return Person{}, fmt.Errorf("person by key: %w", explain(err))
	}
	if refused.Valid {
		p.Refused = time.UnixMilli(refused.V).UTC()
	}
	return p, nil
}

// ChooseClub keeps of which club a person's direct messages speak.
func (db *DB) ChooseClub(ctx context.Context, key Key, club ClubID) error {
	return db.setPerson(ctx, `INSERT INTO person (key, club_id) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET club_id = excluded.club_id`, key.text, club)
}

// KeepChannel keeps the channel of a person's direct messages; "" forgets it.
func (db *DB) KeepChannel(ctx context.Context, key Key, channel string) error {
	return db.setPerson(ctx, `INSERT INTO person (key, channel) VALUES (?, nullif(?, '')) ON CONFLICT (key) DO UPDATE SET channel = excluded.channel`, key.text, channel)
}

// NoteRefusal keeps that a person could not be written to, unless they have been
// told so since a message arrived last.
func (db *DB) NoteRefusal(ctx context.Context, key Key) error {
	return db.setPerson(ctx, `INSERT INTO person (key, refused_ms) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET refused_ms = excluded.refused_ms WHERE refusal_told = 0`,
		key.text, db.Now().UnixMilli())
}

// ForgetRefusal notes that the person has been told.
func (db *DB) ForgetRefusal(ctx context.Context, key Key) error {
	return db.setPerson(ctx, `UPDATE person SET refused_ms = NULL, refusal_told = 1 WHERE key = ?`, key.text)
}

// NoteReached notes that messages arrive again, so that the next refusal is news.
func (db *DB) NoteReached(ctx context.Context, key Key) error {
	return db.setPerson(ctx, `UPDATE person SET refusal_told = 0 WHERE key = ?`, key.text)
}

func (db *DB) setPerson(ctx context.Context, query string, args ...any) error {
	err := db.note(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, query, args...)
		return err
	})
	if err != nil {
		return fmt.Errorf("keep what is known of a person: %w", err)
	}
	return nil
}

// ClubsOf lists the clubs for which a person rides, without those that removed the bot.
func (db *DB) ClubsOf(ctx context.Context, key Key) ([]Club, error) {
	clubs, err := list(ctx, db.source(), scanClub,
		selectClub+`WHERE gone_ms IS NULL AND id IN (SELECT club_id FROM athlete WHERE key = ?) ORDER BY id`, key.text)
	if err != nil {
		return nil, fmt.Errorf("clubs of a person: %w", explain(err))
	}
	return clubs, nil
}
