package discord

import (
	"testing"

	"musette/bot/discord/discordtest"
)

// A coach names a member who has never written; no name of an option is asked for but
// the server's own. The member reads of it with the first answer.
func TestCoachEntersAMember(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"))
	week := s.give(s.in("Mira"), "coach week", "member", s.club.UserID("Ines"), "week", "tue intervals 1h 4x4min; sat long 3h")
	s.shows(week, "The week of Ines", "has not written to me yet")
	if n := len(s.written("Ines")); n != 0 {
		t.Errorf("%d messages to somebody who never wrote", n)
	}
	s.shows(s.give(s.in("Mira"), "coach race", "member", s.club.UserID("Ines"), "name", "Hill Loop", "date", "2026-07-12", "priority", "A"), "in the calendar of Ines")
	s.shows(s.give(s.in("Ines"), "ride"), "your coach entered for you: your typical week and Hill Loop", "/me erase")
	s.shows(s.give(s.in("Mira"), "coach week", "week", "tue intervals 1h"), "is missing")
}
