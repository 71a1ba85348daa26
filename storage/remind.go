package storage

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"musette/planner"
)

// Remind is when a rider wants to be reminded.
type Remind uint8

// What is reminded of: nothing, days that differ from the usual week, or every
// day of a race's build-up.
const (
	RemindOff Remind = iota
	RemindChanged
	RemindAlways
)

// String is the word of /me set.
func (r Remind) String() string { return [...]string{"off", "changed", "always"}[r] }

// RemindBy is how a reminder reaches the rider.
type RemindBy uint8

// Ways: a direct message, a private thread in the club's channel, or none but
// the answer of /ride.
const (
	RemindDirect RemindBy = iota
	RemindThread
	RemindRide
)

// String is the word of /me set.
func (r RemindBy) String() string { return [...]string{"direct", "thread", "ride"}[r] }

// Reminders is what a rider chose about them. At is a time of day, 06:30, in the
// rider's zone; Pause is the last day without reminders, zero for none; nothing
// is due before Since.
type Reminders struct {
	Mode  Remind
	At    string
	By    RemindBy
	Pause planner.Date
	Since time.Time
}

// DefaultReminders are those of a new rider: none.
func DefaultReminders() Reminders {
	return Reminders{At: "06:30", Since: time.UnixMilli(0).UTC()}
}

// PostKey is by what a person is posted to once a day: somebody on a platform
// rides for several clubs, a name is of one.
func (a *Athlete) PostKey() Key {
	if a.Key.isPlatform() {
		return a.Key
	}
	return Key{fmt.Sprintf("%d %s", a.Club, a.Key.text)}
}

// postKey is PostKey in SQL.
const postKey = `CASE WHEN a.key GLOB '[a-z]*:*' THEN a.key ELSE a.club_id || ' ' || a.key END`

// RemindTime is a zone with a time of day at which riders of it are reminded.
type RemindTime struct{ Zone, At string }

// RemindTimes lists the zones and times at which anybody is reminded. It jumps
// through the index from one time to the next, so that its work grows with them
// and not with the riders.
func (db *DB) RemindTimes(ctx context.Context) ([]RemindTime, error) {
	times, err := list(ctx, db.source(), func(r *RemindTime, scan func(...any) error) error { return scan(&r.Zone, &r.At) }, remindTimes)
	if err != nil {
		return nil, fmt.Errorf("times of reminders: %w", explain(err))
	}
	return times, nil
}

const remindTimes = `WITH RECURSIVE
	used (at) AS (
		SELECT min(remind_at) FROM athlete WHERE remind <> 'off'
		UNION ALL SELECT (SELECT min(remind_at) FROM athlete WHERE remind <> 'off' AND remind_at > used.at) FROM used WHERE at IS NOT NULL),
	own (at, zone) AS (
		SELECT at, (SELECT min(zone) FROM athlete WHERE remind <> 'off' AND remind_at = used.at AND zone > '') FROM used WHERE at IS NOT NULL
		UNION ALL SELECT at, (SELECT min(zone) FROM athlete WHERE remind <> 'off' AND remind_at = own.at AND zone > own.zone) FROM own WHERE zone IS NOT NULL),
	home (at) AS MATERIALIZED (
		SELECT at FROM used WHERE EXISTS (SELECT 1 FROM athlete WHERE remind <> 'off' AND remind_at = used.at AND zone IS NULL)),
	zones (zone) AS (
		SELECT min(zone) FROM club
		UNION ALL SELECT (SELECT min(zone) FROM club WHERE zone > zones.zone) FROM zones WHERE zone IS NOT NULL)
	SELECT zone, at FROM own WHERE zone IS NOT NULL
		AND EXISTS (SELECT 1 FROM athlete r JOIN club c ON c.id = r.club_id WHERE r.remind <> 'off' AND r.remind_at = own.at AND r.zone = own.zone AND c.gone_ms IS NULL)
	UNION SELECT zone, at FROM zones z CROSS JOIN home
		WHERE EXISTS (SELECT 1 FROM club c CROSS JOIN athlete r ON r.club_id = c.id WHERE c.zone = z.zone AND c.gone_ms IS NULL
			AND r.remind <> 'off' AND r.remind_at = home.at AND r.zone IS NULL)
	ORDER BY 1, 2`

// ToRemind lists the riders who are to be reminded at that time of day in that
// zone and for whom nothing is posted yet on that day. Riders in a pause, whose
// settings are newer than due, who left their club, or of clubs that removed the
// bot are left out.
func (db *DB) ToRemind(ctx context.Context, at RemindTime, day planner.Date, due time.Time) ([]Athlete, error) {
	athletes, err := list(ctx, db.source(), scanAthleteRow,
		selectAthlete+`WHERE a.id IN (
			SELECT id FROM athlete WHERE remind <> 'off' AND remind_at = ?1 AND zone = ?2
			UNION ALL SELECT r.id FROM club CROSS JOIN athlete r ON r.club_id = club.id AND r.remind <> 'off' AND r.remind_at = ?1 AND r.zone IS NULL WHERE club.zone = ?2)
		AND c.gone_ms IS NULL AND a.left_date IS NULL AND coalesce(a.pause_to, '') < ?3 AND a.remind_since_ms <= ?4
		AND NOT EXISTS (SELECT 1 FROM post p WHERE p.kind = 'reminder' AND p.key = `+postKey+` AND p.day = ?3) ORDER BY a.id`,
		at.At, at.Zone, day.String(), due.UnixMilli())
	if err != nil {
		return nil, fmt.Errorf("riders to remind: %w", explain(err))
	}
	return athletes, nil
}

// ChosenClubs tells of which club the direct messages of people speak; those who
// chose none are not in it.
func (db *DB) ChosenClubs(ctx context.Context, keys []Key) (map[Key]ClubID, error) {
	texts := make([]string, len(keys))
	for i, key := range keys {
		texts[i] = key.text
	}
	wanted, err := json.Marshal(texts)
	if err != nil {
		return nil, fmt.Errorf("chosen clubs: %w", err)
	}
	type choice struct {
		key  Key
		club ClubID
	}
	choices, err := list(ctx, db.source(), func(c *choice, scan func(...any) error) error { return scan(&c.key.text, &c.club) },
		`SELECT key, club_id FROM person WHERE club_id IS NOT NULL AND key IN (SELECT value FROM json_each(?))`, string(wanted))
	if err != nil {
		return nil, fmt.Errorf("chosen clubs: %w", explain(err))
	}
	chosen := make(map[Key]ClubID, len(choices))
	for _, c := range choices {
		chosen[c.key] = c.club
	}
	return chosen, nil
}
