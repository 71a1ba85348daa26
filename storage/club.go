package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"musette/planner"
)

// ClubID is a club's number in the database.
type ClubID int64

// Club is a group of riders; no club sees another. Zone is an IANA name. Fault
// says why the channel could not be written to, and is empty when it could.
type Club struct {
	ID    ClubID
	Key   Key
	Name  string
	Zone  string
	Setup ClubSetup
	Fault string
	Added time.Time
}

// ClubSetup is what the club's admin chose. Channel, where public lines go,
// Coaches, the channel of the digest, and CoachRole are as the transport writes
// them, empty where there are none.
type ClubSetup struct {
	Channel, Coaches, CoachRole string
	DigestDay                   string // monday to sunday, or off
	DigestTime                  string // 07:00
}

// DefaultSetup is that of a new club.
func DefaultSetup() ClubSetup { return ClubSetup{DigestDay: "monday", DigestTime: "07:00"} }

// FindClub is the club with that key; ErrNotFound when there is none.
func (db *DB) FindClub(ctx context.Context, key Key) (Club, error) {
	club, err := clubByKey(ctx, db.source(), key)
	if err != nil {
		return Club{}, fmt.Errorf("club by key: %w", explain(err))
	}
	return club, nil
}

// EnsureClub is the club with that key, made with that name and zone when there
// is none yet. Name and zone of an existing club stay.
func (db *DB) EnsureClub(ctx context.Context, key Key, name, zone string) (Club, error) {
	club, err := db.FindClub(ctx, key)
	if errors.Is(err, ErrNotFound) {
		if club, err = db.addClub(ctx, key, name, zone); err != nil {
			err = fmt.Errorf("add club: %w", err)
		}
	}
	return club, err
}

func (db *DB) addClub(ctx context.Context, key Key, name, zone string) (club Club, err error) {
	if err := CheckName("club", name, "home"); err != nil {
		return Club{}, err
	}
	if err := checkZone(zone); err != nil {
		return Club{}, err
	}
	err = db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO club (name, key, zone, added_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			name, key.text, zone, db.Now().UnixMilli())
		if err != nil {
			return err
		}
		club, err = clubByKey(ctx, tx, key)
		return err
	})
	return club, err
}

// UpdateClub lets change work on the club's zone and setup and keeps the
// result, with nothing in between. An error of change or a value out of range
// keeps the old ones. A channel that is set anew has no fault yet. change must
// not use the database.
func (db *DB) UpdateClub(ctx context.Context, id ClubID, change func(zone *string, setup *ClubSetup) error) (Club, error) {
	var club Club
	err := db.write(ctx, func(tx *sql.Tx) (err error) {
		if club, err = clubByID(ctx, tx, id); err != nil {
			return err
		}
		zone, setup := club.Zone, club.Setup
		if err := change(&zone, &setup); err != nil {
			return err
		}
		if err := checkZone(zone); err != nil {
			return err
		}
		err = hit(tx.ExecContext(ctx, `UPDATE club SET zone = ?, channel = nullif(?, ''), coaches_channel = nullif(?, ''), coach_role = nullif(?, ''), digest_day = ?, digest_time = ?,
			fault = CASE WHEN coalesce(channel, '') = ? THEN fault END WHERE id = ?`,
			zone, setup.Channel, setup.Coaches, setup.CoachRole, setup.DigestDay, setup.DigestTime, setup.Channel, id))
		if err != nil {
			return err
		}
		club, err = clubByID(ctx, tx, id)
		return err
	})
	if err != nil {
		return Club{}, fmt.Errorf("setup of club %d: %w", id, err)
	}
	return club, nil
}

// RenameClub keeps a new name of a club.
func (db *DB) RenameClub(ctx context.Context, id ClubID, name string) error {
	return db.changeRow(ctx, "rename club", id, `UPDATE club SET name = ? WHERE id = ?`, name, id)
}

// SetFault notes why the club's channel could not be written to; "" that it could.
func (db *DB) SetFault(ctx context.Context, id ClubID, fault string) error {
	return db.changeRow(ctx, "fault of club", id, `UPDATE club SET fault = nullif(?, '') WHERE id = ?`, fault, id)
}

// Clubs lists the clubs of a platform that have not removed the bot.
func (db *DB) Clubs(ctx context.Context, platform string) ([]Club, error) {
	prefix := PlatformKey(platform, "").text
	clubs, err := list(ctx, db.source(), scanClub, selectClub+`WHERE substr(key, 1, length(?1)) = ?1 AND gone_ms IS NULL ORDER BY id`, prefix)
	if err != nil {
		return nil, fmt.Errorf("clubs of %s: %w", platform, explain(err))
	}
	return clubs, nil
}

// GoneClub is a club that removed the bot, and when.
type GoneClub struct {
	Key   Key
	Name  string
	Since time.Time
}

// GoneClubs lists the clubs of a platform that removed the bot and are not erased
// yet, those first that did so first.
func (db *DB) GoneClubs(ctx context.Context, platform string) ([]GoneClub, error) {
	scan := func(c *GoneClub, scan func(...any) error) error { return scan(&c.Key.text, &c.Name, instant{&c.Since}) }
	clubs, err := list(ctx, db.source(), scan,
		`SELECT key, name, gone_ms FROM club WHERE substr(key, 1, length(?1)) = ?1 AND gone_ms IS NOT NULL ORDER BY gone_ms, id`, PlatformKey(platform, "").text)
	if err != nil {
		return nil, fmt.Errorf("clubs that left %s: %w", platform, explain(err))
	}
	return clubs, nil
}

// DigestClubs lists the clubs that get a digest on that weekday, without those
// that removed the bot and those of a platform that have no channel for it.
func (db *DB) DigestClubs(ctx context.Context, weekday planner.Weekday) ([]Club, error) {
	clubs, err := list(ctx, db.source(), scanClub, digestClubs, strings.ToLower(weekday.String()))
	if err != nil {
		return nil, fmt.Errorf("clubs with a digest: %w", explain(err))
	}
	return clubs, nil
}

const digestClubs = selectClub + `WHERE digest_day = ? AND ` + wantsDigest + ` ORDER BY id`

// Club is the club with that number; ErrNotFound when there is none.
func (db *DB) Club(ctx context.Context, id ClubID) (Club, error) {
	club, err := clubByID(ctx, db.source(), id)
	if err != nil {
		return Club{}, fmt.Errorf("club %d: %w", id, explain(err))
	}
	return club, nil
}

// LeaveClub notes that the club removed the bot; nothing happens to one that is
// not stored or had done so before.
func (db *DB) LeaveClub(ctx context.Context, key Key) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `UPDATE club SET gone_ms = ? WHERE key = ? AND gone_ms IS NULL`, db.Now().UnixMilli(), key.text)
		return err
	})
	if err != nil {
		return fmt.Errorf("leave club: %w", err)
	}
	return nil
}

// RejoinClub notes that the club has the bot (again).
func (db *DB) RejoinClub(ctx context.Context, key Key) error {
	club, err := db.goneClub(ctx, key)
	if err != nil || club == 0 {
		return err
	}
	return db.changeRow(ctx, "rejoin club", club, `UPDATE club SET gone_ms = NULL WHERE id = ?`, club)
}

// goneClub is the club with that key if it removed the bot, else 0: most joins
// are of clubs that were there all the time, and need no write.
func (db *DB) goneClub(ctx context.Context, key Key) (id ClubID, err error) {
	err = db.source().QueryRowContext(ctx, `SELECT id FROM club WHERE key = ? AND gone_ms IS NOT NULL`, key.text).Scan(&id)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, nil
	}
	return id, explain(err)
}

// EraseClubs deletes all that is stored of clubs which removed the bot before
// an instant, and of people who ride for no club any more. It returns how many clubs went.
func (db *DB) EraseClubs(ctx context.Context, before time.Time) (int, error) {
	var gone int64
	err := db.write(ctx, func(tx *sql.Tx) error {
		result, err := tx.ExecContext(ctx, `DELETE FROM club WHERE gone_ms < ?`, before.UnixMilli())
		if err != nil {
			return err
		}
		if gone, err = result.RowsAffected(); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM person WHERE key NOT IN (SELECT key FROM athlete)`)
		return err
	})
	if err != nil {
		return 0, fmt.Errorf("erase clubs that left: %w", err)
	}
	return int(gone), nil
}

// changeRow runs one statement that must meet a row.
func (db *DB) changeRow(ctx context.Context, what string, id any, query string, args ...any) error {
	err := db.write(ctx, func(tx *sql.Tx) error { return hit(tx.ExecContext(ctx, query, args...)) })
	if err != nil {
		return fmt.Errorf("%s %v: %w", what, id, err)
	}
	return nil
}

const selectClub = `SELECT id, key, name, zone, coalesce(channel, ''), coalesce(coaches_channel, ''), coalesce(coach_role, ''), digest_day, digest_time, coalesce(fault, ''), added_ms FROM club `

func clubByKey(ctx context.Context, q queryer, key Key) (c Club, err error) {
	err = scanClub(&c, q.QueryRowContext(ctx, selectClub+`WHERE key = ?`, key.text).Scan)
	return c, err
}

func clubByID(ctx context.Context, q queryer, id ClubID) (c Club, err error) {
	err = scanClub(&c, q.QueryRowContext(ctx, selectClub+`WHERE id = ?`, id).Scan)
	return c, err
}

func scanClub(c *Club, scan func(...any) error) error {
	return scan(&c.ID, &c.Key.text, &c.Name, &c.Zone, &c.Setup.Channel, &c.Setup.Coaches, &c.Setup.CoachRole, &c.Setup.DigestDay, &c.Setup.DigestTime, &c.Fault, instant{&c.Added})
}
