package discord

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
)

// say writes in direct messages and waits for the n-th message back.
func (s *stage) say(name, text string, n int) discordtest.Message {
	s.t.Helper()
	if _, err := s.double.Say(s.direct(name), text, false); err != nil {
		s.t.Fatal(err)
	}
	got, err := s.double.WaitSent(s.within(), s.double.DM(s.club.UserID(name)), n)
	if err != nil {
		s.t.Fatalf("%v\nlog:\n%s", err, s.log)
	}
	return got[n-1]
}

// Direct messages reach the same conversation, buttons included.
func TestDirectMessages(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "week share", "week", typicalWeek)
	if m := s.say("Ines", "/ride day:tomorrow", 1); !strings.Contains(m.Text(), "Tomorrow, Tue 2 Jun") {
		t.Errorf("got %s", m.Text())
	}
	m := s.say("Ines", "what is on tomorrow?", 2)
	if !strings.Contains(m.Text(), "Tomorrow, Tue 2 Jun") {
		t.Errorf("a question got %s", m.Text())
	}
	m = s.say("Ines", "/ride", 3)
	a := s.await(s.double.Press(s.direct("Ines"), m, "Why"))
	s.shows(a, "Today, Mon 1 Jun")
	if a.Ephemeral() {
		t.Error("direct messages have nobody to hide from")
	}
	s.shows(s.give(s.direct("Ines"), "plan show"), "No race is to come")
	m = s.say("Ines", "/club setup zone:Europe/Paris", 4)
	if !strings.Contains(m.Text(), "in the club's server only") {
		t.Errorf("got %s", m.Text())
	}
	if m = s.say("Ines", "/week share week:mon nonsense", 5); !strings.Contains(m.Text(), "week") || !strings.Contains(m.Text(), "nonsense") {
		t.Errorf("got %s", m.Text())
	}
}

// A mention in a channel is answered in direct messages; the channel gets a
// pointer that tells nothing.
func TestMentions(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "week share", "week", typicalWeek)
	general := s.club.ChannelID("general")
	if _, err := s.double.Say(s.in("Ines"), "I have a fever, what do I ride tomorrow?", true); err != nil {
		t.Fatal(err)
	}
	public, err := s.double.WaitSent(s.within(), general, 1)
	if err != nil || !strings.Contains(public[0].Text(), "direct messages") || strings.Contains(public[0].Text(), "fever") {
		t.Errorf("the channel got %v, %v", public, err)
	}
	direct, err := s.double.WaitSent(s.within(), s.double.DM(s.club.UserID("Ines")), 1)
	if err != nil || !strings.Contains(direct[0].Text(), "Do not train with this") || strings.Contains(direct[0].Text(), "intervals") {
		t.Errorf("the rider got %v, %v", direct, err)
	}
	if _, err := s.double.Say(s.in("Ines"), "just talking", false); err != nil {
		t.Fatal(err)
	}
	if _, err := s.double.Say(s.in("Ines"), "/ride tomorrow", true); err != nil {
		t.Fatal(err)
	}
	direct, err = s.double.WaitSent(s.within(), s.double.DM(s.club.UserID("Ines")), 2)
	if err != nil || !strings.Contains(direct[1].Text(), "Tomorrow, Tue 2 Jun") {
		t.Errorf("the rider got %v, %v", direct, err)
	}
	if public, err := s.double.WaitSent(s.within(), general, 2); err != nil || len(public) != 2 {
		t.Errorf("%d pointers, want 2: %v", len(public), err)
	}
}

// Closed direct messages are never tried again for the same message, and told
// at the next command, once.
func TestClosedDirectMessages(t *testing.T) {
	for _, code := range []int{50007, 50278} {
		t.Run(strconv.Itoa(code), func(t *testing.T) { closedDirectMessages(t, code) })
	}
}

func closedDirectMessages(t *testing.T, code int) {
	s := newStage(t, discordtest.Options{})
	s.double.CloseDMs(s.club.UserID("Ines"), code)
	if _, err := s.double.Say(s.in("Ines"), "/ride", true); err != nil {
		t.Fatal(err)
	}
	public, err := s.double.WaitSent(s.within(), s.club.ChannelID("general"), 1)
	if err != nil || !strings.Contains(public[0].Text(), "cannot write to you") {
		t.Errorf("the channel got %v, %v", public, err)
	}
	tries := 0
	for _, r := range s.double.Requests() {
		if r.Method == "POST" && strings.HasSuffix(r.Path, "/channels/"+s.double.DM(s.club.UserID("Ines"))+"/messages") {
			tries++
		}
	}
	if tries != 1 {
		t.Errorf("tried %d times", tries)
	}
	refused := func() bool {
		p, err := s.db.FindPerson(t.Context(), personKey(s.club.UserID("Ines")))
		return err == nil && !p.Refused.IsZero()
	}
	s.eventually("the refusal is kept", refused)
	s.shows(s.give(s.in("Ines"), "me show"), "could not write to you on 1 June")
	s.eventually("it was told", func() bool { return !refused() })
	again := func(public int, want bool) {
		t.Helper()
		if _, err := s.double.Say(s.in("Ines"), "/ride", true); err != nil {
			t.Fatal(err)
		}
		if _, err := s.double.WaitSent(s.within(), s.club.ChannelID("general"), public); err != nil {
			t.Fatal(err)
		}
		if a := s.give(s.in("Ines"), "me show"); strings.Contains(a.Text(), "could not write") != want {
			t.Errorf("told again, want %t:\n%s", want, a.Text())
		}
	}
	again(2, false) // still closed
	s.double.CloseDMs(s.club.UserID("Ines"), 0)
	again(3, false) // well again
	s.double.CloseDMs(s.club.UserID("Ines"), code)
	again(4, true)
}

// Who rides for two clubs is asked once for which one they speak.
func TestTwoClubs(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	ines := s.club.UserID("Ines")
	other := s.double.AddGuild(discordtest.Guild{Name: "Harbour Riders", Channels: []discordtest.Channel{{Name: "general"}},
		Members: []discordtest.Member{{UserID: ines, Name: "Ines"}}})
	there := discordtest.At{Guild: other.ID, User: ines}
	s.eventually("both servers are known", func() bool { return s.servers() == 2 })

	if m := s.say("Tomas", "/ride", 1); !strings.Contains(m.Text(), "for which club") {
		t.Errorf("somebody unknown to two clubs got %s", m.Text())
	}
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	if m := s.say("Ines", "/race list", 1); !strings.Contains(m.Text(), "Hill Loop") {
		t.Errorf("got %s", m.Text())
	}
	s.give(there, "race add", "name", "Pier Race", "date", "2026-07-05", "priority", "A")
	m := s.say("Ines", "/race list", 2)
	if !strings.Contains(m.Text(), "which club") {
		t.Fatalf("got %s", m.Text())
	}
	s.shows(s.await(s.double.Press(s.direct("Ines"), m, "Harbour Riders")), "Harbour Riders")
	s.shows(s.give(s.direct("Ines"), "race list"), "Pier Race")
	a := s.give(s.direct("Ines"), "me show")
	s.shows(s.press(s.direct("Ines"), a, "Marrow Vale Wheelers"), "Marrow Vale Wheelers")
	if m := s.say("Ines", "/race list", 3); !strings.Contains(m.Text(), "Hill Loop") || strings.Contains(m.Text(), "Pier Race") {
		t.Errorf("got %s", m.Text())
	}
}

// Data of a server that removed the bot are kept for 30 days, and found again
// when it comes back before.
func TestRemovedFromAServer(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	gone := func() bool {
		clubs, err := s.db.Clubs(t.Context(), platform)
		return err == nil && len(clubs) == 0
	}
	s.double.GuildOutage(s.club.ID)
	s.double.RemoveGuild(s.club.ID)
	s.eventually("the club is gone", gone)
	s.double.AddGuild(s.club)
	s.eventually("the club is back", func() bool { return !gone() })
	s.shows(s.give(s.in("Tomas"), "race list"), "Hill Loop")

	s.end()
	s.double.RemoveGuild(s.club.ID) // while the bot is away
	s.run()
	s.eventually("the club is gone", gone)
	if n, err := s.db.EraseClubs(t.Context(), start); n != 0 || err != nil {
		t.Errorf("%d clubs erased too early, %v", n, err)
	}
	s.end()
	s.db.Now = func() time.Time { return start.Add(keepGone + time.Hour) }
	s.run()
	s.eventually("it is erased", func() bool {
		_, err := s.db.FindClub(t.Context(), clubKey(s.club.ID))
		return err != nil
	})
}

// A channel that is gone or closed is noted and shown, and mended by a new one.
func TestChannelFaults(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	races, general := s.club.ChannelID("races"), s.club.ChannelID("general")
	fault := func() string {
		club, err := s.db.FindClub(t.Context(), clubKey(s.club.ID))
		if err != nil {
			return err.Error()
		}
		return club.Fault
	}
	s.double.SetBotPermissions(races, discordtest.PermView)
	s.shows(s.give(s.in("Admin"), "club setup", "channel", races), "may not write there", "Send Messages")
	if _, err := s.db.FindClub(t.Context(), clubKey(s.club.ID)); err == nil {
		t.Error("a channel that cannot be used is stored")
	}
	s.double.SetBotPermissions(races, Permissions)
	s.shows(s.give(s.in("Admin"), "club setup", "channel", races), "is set up")
	s.double.SetBotPermissions(races, discordtest.PermView)
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.eventually("the fault is noted", func() bool { return strings.Contains(fault(), "may not write") })
	s.shows(s.give(s.in("Admin"), "club show"), "cannot be written to")
	s.double.SetBotPermissions(races, Permissions)
	s.give(s.in("Ines"), "race add", "name", "Quarry Crit", "date", "2026-07-05", "priority", "C")
	s.eventually("the fault is mended", func() bool { return fault() == "" })
	s.double.DeleteChannel(races)
	s.eventually("the deletion is noted", func() bool { return fault() == "it was deleted" })
	s.shows(s.give(s.in("Admin"), "club setup", "channel", general), "is set up")
	if got := fault(); got != "" {
		t.Errorf("a new channel has the old one's fault: %s", got)
	}
}
