package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// ClubID is a club's number in the database.
type ClubID int64

// Club is a group of riders; no club sees another. Zone is an IANA name,
// Channel is where public lines go and empty when the club has none.
type Club struct {
	ID      ClubID
	Name    string
	Zone    string
	Channel string
	Added   time.Time
}

// EnsureClub is the club of that name, made with that zone when there is none
// yet. The zone of an existing club stays.
func (db *DB) EnsureClub(ctx context.Context, name, zone string) (Club, error) {
	club, err := clubNamed(ctx, db.reader, name)
	if errors.Is(err, sql.ErrNoRows) {
		club, err = db.addClub(ctx, name, zone)
	}
	if err != nil {
		return Club{}, fmt.Errorf("club by name: %w", explain(err))
	}
	return club, nil
}

func (db *DB) addClub(ctx context.Context, name, zone string) (club Club, err error) {
	if err := checkName("club", name, "home"); err != nil {
		return Club{}, err
	}
	if err := checkZone(zone); err != nil {
		return Club{}, err
	}
	err = db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO club (name, zone, added_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`,
			name, zone, db.Now().UnixMilli())
		if err != nil {
			return err
		}
		club, err = clubNamed(ctx, tx, name)
		return err
	})
	return club, err
}

func clubNamed(ctx context.Context, q queryer, name string) (c Club, err error) {
	err = q.QueryRowContext(ctx, `SELECT id, name, zone, coalesce(channel, ''), added_ms FROM club
		WHERE name = ? COLLATE NOCASE ORDER BY name <> ? LIMIT 1`, name, name).
		Scan(&c.ID, &c.Name, &c.Zone, &c.Channel, instant{&c.Added})
	return c, err
}

// SetChannel says where the club's public lines go; empty means nowhere.
func (db *DB) SetChannel(ctx context.Context, id ClubID, channel string) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `UPDATE club SET channel = nullif(?, '') WHERE id = ?`, channel, id))
	})
	if err != nil {
		return fmt.Errorf("channel of club %d: %w", id, err)
	}
	return nil
}
