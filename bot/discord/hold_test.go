package discord

import (
	"strings"
	"testing"

	"musette/bot/discord/discordtest"
)

// A hold through Discord: danger in a note stops everything, the three buttons answer
// it, coaches are told in their channel of what they set and read no word of it.
func TestHoldThroughButtons(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"), "coaches-channel", s.club.ChannelID("coaches"))
	s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	s.shows(s.give(s.in("Mira"), "coach adjust", "athlete", "Ines", "day", "2026-06-03", "session", "endurance 40min"), "you set ")
	coaches := len(s.double.Sent(s.club.ChannelID("coaches")))
	stopped := s.give(s.in("Ines"), "done", "minutes", "30", "note", "had to stop, chest pain on the climb")
	s.shows(stopped, "call the emergency number", "no training", "30min")
	if !stopped.Ephemeral() {
		t.Error("a stop is shown to others")
	}
	got, err := s.double.WaitSent(s.within(), s.club.ChannelID("coaches"), coaches+1)
	if err != nil || !strings.Contains(got[coaches].Text(), "Ines: not training: health. What you set for Wed 3 Jun waits.") {
		t.Errorf("the coaches are told %v, %v", got, err)
	}
	ride := func(what string, words ...string) {
		t.Helper()
		a := s.give(s.in("Ines"), "ride", "day", "2026-06-02")
		s.shows(a, words...)
		if held := strings.Contains(a.Text(), "Your health comes first"); held != (what == "held") {
			t.Errorf("want %s:\n%s", what, a.Text())
		}
	}
	ride("held", "no training")
	s.shows(s.press(s.in("Ines"), stopped, "Not cleared yet"), "training stays held back")
	ride("held", "no training")
	s.lisbon(2, 6, 30)
	s.lisbon(2, 6, 45)
	if n := len(s.written("Ines")); n != 0 {
		t.Errorf("%d reminders while training is held", n)
	}
	for _, name := range []string{"coach digest", "coach roster"} {
		a := s.give(s.in("Mira"), name)
		s.shows(a, "not training: health")
		if strings.Contains(a.Text(), "chest") && !strings.Contains(a.Text(), "Chest pain, fainting") {
			t.Errorf("%s tells of it:\n%s", name, a.Text())
		}
	}
	ride("held", "no training")
	back := s.press(s.in("Ines"), stopped, "You misread me")
	s.shows(back, "it is not that. Your plan is back")
	ride("free")
	again := s.give(s.in("Ines"), "tell sick", "symptoms", "knock to the head")
	s.shows(again, "have your head checked")
	ride("held", "no training")
	s.shows(s.press(s.in("Ines"), again, "A doctor has cleared me"), "a doctor has cleared you", "20, 30, 40, 45, 60 minutes easy")
	ride("free", "rest", "even when a doctor has cleared you")
}
