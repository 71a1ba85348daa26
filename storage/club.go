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

// FindClub is the club of that name, in capitals or not; ErrNotFound when there is none.
func (db *DB) FindClub(ctx context.Context, name string) (Club, error) {
	club, err := clubNamed(ctx, db.reader, name)
	if err != nil {
		return Club{}, fmt.Errorf("club by name: %w", explain(err))
	}
	return club, nil
}

// EnsureClub is the club of that name, in capitals or not, made with that zone
// when there is none yet. Name and zone of an existing club stay.
func (db *DB) EnsureClub(ctx context.Context, name, zone string) (Club, error) {
	club, err := db.FindClub(ctx, name)
	if errors.Is(err, ErrNotFound) {
		if club, err = db.addClub(ctx, name, zone); err != nil {
			err = fmt.Errorf("add club: %w", err)
		}
	}
	return club, err
}

func (db *DB) addClub(ctx context.Context, name, zone string) (club Club, err error) {
	if err := CheckName("club", name, "home"); err != nil {
		return Club{}, err
	}
	if err := checkZone(zone); err != nil {
		return Club{}, err
	}
	err = db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO club (name, folded, zone, added_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			name, Fold(name), zone, db.Now().UnixMilli())
		if err != nil {
			return err
		}
		club, err = clubNamed(ctx, tx, name)
		return err
	})
	return club, err
}

func clubNamed(ctx context.Context, q queryer, name string) (c Club, err error) {
	err = q.QueryRowContext(ctx, `SELECT id, name, zone, coalesce(channel, ''), added_ms FROM club WHERE folded = ?`, Fold(name)).
		Scan(&c.ID, &c.Name, &c.Zone, &c.Channel, instant{&c.Added})
	return c, err
}
