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

// PostID is the number of something posted; it is never used twice.
type PostID int64

// PostKind is what is posted.
type PostKind string

// Kinds of posts.
const (
	PostReminder PostKind = "reminder"
	PostDigest   PostKind = "digest"
)

// PostState is how far a post has come.
type PostState string

// States of posts. A claimed one may or may not have been sent.
const (
	PostClaimed PostState = "claimed"
	PostSent    PostState = "sent"
	PostSkipped PostState = "skipped"
	PostFailed  PostState = "failed"
)

// Post is a reminder of a day, or a club's digest of a week. Key is the person's
// or the club's; Athlete is 0 for digests.
type Post struct {
	ID      PostID
	Kind    PostKind
	Key     Key
	Day     planner.Date
	Athlete AthleteID
	Club    ClubID
	Due     time.Time
	State   PostState
	Reason  string // why it was skipped or failed
	Tries   int
	Claimed time.Time // first
	Changed time.Time
}

// Claim stores posts as claimed, or as what their State says, in one
// transaction; it returns those that nobody had claimed before, with their
// numbers. After a claim a post is never claimed again. One that may have been sent
// before, which a database put back does not know, has the instant since when.
func (db *DB) Claim(ctx context.Context, posts []Post) ([]Post, error) {
	var claimed []Post
	err := db.note(ctx, func(tx *sql.Tx) error {
		claimed = claimed[:0]
		insert, err := tx.PrepareContext(ctx, `INSERT INTO post (kind, key, day, athlete_id, club_id, due_ms, state, reason, claimed_ms, changed_ms)
			VALUES (?, ?, ?, nullif(?, 0), ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`)
		if err != nil {
			return err
		}
		defer insert.Close()
		now := db.Now()
		for _, p := range posts {
			if p.State == "" {
				p.State = PostClaimed
			}
			if p.Changed = now; p.Claimed.IsZero() {
				p.Claimed = now
			}
			result, err := insert.ExecContext(ctx, p.Kind, p.Key.text, p.Day.String(), p.Athlete, p.Club, p.Due.UnixMilli(), p.State, p.Reason,
				p.Claimed.UnixMilli(), now.UnixMilli())
			switch err := hit(result, err); {
			case errors.Is(err, ErrNotFound):
				continue // claimed before
			case err != nil:
				return err
			}
			id, err := result.LastInsertId()
			if err != nil {
				return err
			}
			p.ID = PostID(id)
			claimed = append(claimed, p)
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("claim posts: %w", err)
	}
	return claimed, nil
}

const settlePost = `UPDATE post SET state = ?, reason = ?, tries = tries + 1, changed_ms = ? WHERE id = ? AND state = 'claimed'`

// SettlePosts keeps what happened to claimed posts, by their State and Reason, in
// one transaction; those that are not claimed any more are passed over. A State
// of PostClaimed counts one more try.
func (db *DB) SettlePosts(ctx context.Context, posts []Post) error {
	err := db.note(ctx, func(tx *sql.Tx) error {
		settle, err := tx.PrepareContext(ctx, settlePost)
		if err != nil {
			return err
		}
		defer settle.Close()
		now := db.Now().UnixMilli()
		for _, p := range posts {
			if _, err := settle.ExecContext(ctx, p.State, p.Reason, now, p.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("settle posts: %w", err)
	}
	return nil
}

// Unreadable reports that an error is about what is stored and makes no sense:
// reading it again is of no use. Package sql has no type for it.
func Unreadable(err error) bool {
	return err != nil && strings.Contains(err.Error(), "sql: Scan error")
}

// Posted reports whether a post of that kind, key and day was claimed.
func (db *DB) Posted(ctx context.Context, p Post) (there bool, err error) {
	err = db.source().QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM post WHERE kind = ? AND key = ? AND day = ?)`, p.Kind, p.Key.text, p.Day.String()).Scan(&there)
	if err != nil {
		return false, fmt.Errorf("post by key: %w", explain(err))
	}
	return there, nil
}

// DigestTime is a zone with a weekday and time of day at which clubs of it get a digest.
type DigestTime struct {
	Zone    string
	Weekday planner.Weekday
	At      string
}

// DigestTimes lists the zones, weekdays and times at which any club gets a digest.
func (db *DB) DigestTimes(ctx context.Context) ([]DigestTime, error) {
	times, err := list(ctx, db.source(), func(d *DigestTime, scan func(...any) error) error {
		var name string
		err := scan(&name, &d.Zone, &d.At)
		d.Weekday, _ = planner.ParseWeekday(name)
		return err
	}, digestTimes)
	if err != nil {
		return nil, fmt.Errorf("times of digests: %w", explain(err))
	}
	return times, nil
}

// wantsDigest are the clubs that get a digest: a club of a platform only where it
// has a channel for it. It is also what the index club_with_digest holds.
const wantsDigest = `digest_day <> 'off' AND gone_ms IS NULL AND (coaches_channel IS NOT NULL OR key NOT GLOB '[a-z]*:*')`

const digestTimes = `SELECT DISTINCT digest_day, zone, digest_time FROM club WHERE ` + wantsDigest + ` ORDER BY 1, 2, 3`

// OpenPosts lists the claimed posts of which nothing more is known, the oldest first.
func (db *DB) OpenPosts(ctx context.Context) ([]Post, error) {
	return db.posts(ctx, `WHERE state = 'claimed' ORDER BY due_ms, id`)
}

// ClubPosts lists a club's posts that changed since an instant, the oldest first.
func (db *DB) ClubPosts(ctx context.Context, club ClubID, since time.Time) ([]Post, error) {
	return db.posts(ctx, `WHERE club_id = ? AND changed_ms >= ? ORDER BY changed_ms, id`, club, since.UnixMilli())
}

// LastReminder is the day before another one of which the rider was reminded last,
// zero where there is none.
func (db *DB) LastReminder(ctx context.Context, athlete AthleteID, before planner.Date) (planner.Date, error) {
	var last planner.Date
	err := db.reader.QueryRowContext(ctx, `SELECT max(day) FROM post WHERE kind = 'reminder' AND state = 'sent' AND athlete_id = ? AND day < ?`,
		athlete, before.String()).Scan((*optionalDate)(&last))
	if err != nil {
		return 0, fmt.Errorf("last reminder of rider %d: %w", athlete, explain(err))
	}
	return last, nil
}

// Old posts are erased in pieces, so that riders who write at that time need not wait.
const (
	erasePiece  = 500 // posts a transaction
	erasePieces = 20  // transactions a call
)

const eraseOld = `DELETE FROM post WHERE id IN (SELECT id FROM post WHERE changed_ms < ? AND state <> 'claimed' ORDER BY changed_ms LIMIT ?)`

// ErasePosts deletes posts that changed before an instant and are not open, the
// oldest first and no more than 10,000 of them; left tells that there may be more.
func (db *DB) ErasePosts(ctx context.Context, before time.Time) (left bool, err error) {
	for range erasePieces {
		var gone int64
		err := db.note(ctx, func(tx *sql.Tx) error {
			result, err := tx.ExecContext(ctx, eraseOld, before.UnixMilli(), erasePiece)
			if err != nil {
				return err
			}
			gone, err = result.RowsAffected()
			return err
		})
		if err != nil {
			return true, fmt.Errorf("erase old posts: %w", err)
		}
		if gone < erasePiece {
			return false, nil
		}
	}
	return true, nil
}

func (db *DB) posts(ctx context.Context, where string, args ...any) ([]Post, error) {
	posts, err := list(ctx, db.source(), func(p *Post, scan func(...any) error) error {
		return scan(&p.ID, &p.Kind, &p.Key.text, date(&p.Day), &p.Athlete, &p.Club, instant{&p.Due}, &p.State, &p.Reason, &p.Tries, instant{&p.Claimed}, instant{&p.Changed})
	}, `SELECT id, kind, key, day, coalesce(athlete_id, 0), club_id, due_ms, state, reason, tries, claimed_ms, changed_ms FROM post `+where, args...)
	if err != nil {
		return nil, fmt.Errorf("posts: %w", explain(err))
	}
	return posts, nil
}

// LastTick is when the scheduler ran last; the zero time when it never did.
func (db *DB) LastTick(ctx context.Context) (at time.Time, err error) {
	err = db.source().QueryRowContext(ctx, `SELECT tick_ms FROM clock WHERE id = 1 AND tick_ms > 0`).Scan(instant{&at})
	if errors.Is(err, sql.ErrNoRows) {
		return time.Time{}, nil
	}
	if err != nil {
		return time.Time{}, fmt.Errorf("last tick: %w", explain(err))
	}
	return at, nil
}

// NoteTick keeps when the scheduler ran.
func (db *DB) NoteTick(ctx context.Context, at time.Time) error {
	err := db.note(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO clock (id, tick_ms) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET tick_ms = excluded.tick_ms`, at.UnixMilli())
		return err
	})
	if err != nil {
		return fmt.Errorf("note tick: %w", err)
	}
	return nil
}
