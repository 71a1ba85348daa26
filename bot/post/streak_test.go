package post

import (
	"database/sql"
	"testing"

	"musette/storage"
)

func setDigestTime(t *testing.T, h *house, club storage.ClubID, at string) {
	t.Helper()
	must(h.db.UpdateClub(t.Context(), club, func(_ *string, s *storage.ClubSetup) error { s.DigestTime = at; return nil }))
}

// After an outage in which all were claimed, and nothing new comes due, each
// tick tries a few of them: all arrive.
func TestOutageWithNothingNew(t *testing.T) {
	const riders = 20
	h, r, _ := morning(t, riders, false)
	p := h.poster(r, words{})
	r.fault = func(Message) error { return errWeather }
	h.stormyMinutes(t, p, 10)
	r.fault = nil
	h.stormyMinutes(t, p, 30)
	wantSeen(t, "in the half hour after it", r.take(), wanted(riders)...)
}

// Clubs of one zone get their digests each at its own time.
func TestDigestsOfOneZoneAtTheirTimes(t *testing.T) {
	h, r := newScene(t, "2026-06-08T05:00Z") // a Monday, 06:00 in Lisbon
	for id, at := range map[string]string{"1": "06:30", "2": "07:30"} {
		club := h.club(t, id, "Europe/Lisbon")
		setDigestTime(t, h, club.ID, at)
	}
	p := h.poster(r, words{})
	h.minutes(t, p, 45)
	wantSeen(t, "by 06:45", r.take(), "digest 1 2026-06-08")
	h.minutes(t, p, 60)
	wantSeen(t, "by 07:45", r.take(), "digest 2 2026-06-08")
}

// Riders and clubs whose zone cannot be read get nothing; all others theirs.
func TestBadZones(t *testing.T) {
	h, r, club := morning(t, 3, true)
	bad := h.club(t, "9", "Europe/Lisbon")
	h.rider(t, bad, "99", "", "06:30")
	h.fill(t, func(tx *sql.Tx) error {
		if _, err := tx.Exec(`UPDATE athlete SET zone = 'Mars/Olympus' WHERE key = 'discord:12'`); err != nil {
			return err
		}
		_, err := tx.Exec(`UPDATE club SET zone = 'Nowhere' WHERE id = ?`, bad.ID)
		return err
	})
	h.minutes(t, h.poster(r, words{}), 3)
	wantSeen(t, "the others", r.take(), "reminder 11 2026-06-08", "reminder 13 2026-06-08", "digest 1 2026-06-08")
	if n := len(h.posts(t, club.ID)); n != 3 {
		t.Errorf("%d posts of the club, want 3", n)
	}
}
