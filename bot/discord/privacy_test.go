package discord

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/bot/discord/gateway"
)

// withHarbour adds a second club for which Ines rides, each with a race of hers.
func (s *stage) withHarbour() (there discordtest.At) {
	s.t.Helper()
	other := s.double.AddGuild(discordtest.Guild{Name: "Harbour Riders", Channels: []discordtest.Channel{{Name: "general"}},
		Members: []discordtest.Member{{UserID: s.club.UserID("Ines"), Name: "Ines"}}})
	there = discordtest.At{Guild: other.ID, User: s.club.UserID("Ines")}
	s.eventually("both servers are known", func() bool { return s.servers() == 2 })
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.give(there, "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "C")
	return there
}

// A button acts on the club that it was shown for, whatever club direct messages
// are about by then.
func TestButtonsKeepTheirClub(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	there := s.withHarbour()
	m := s.say("Ines", "/ride", 1)
	s.await(s.double.Press(s.direct("Ines"), m, "Harbour Riders"))
	if _, err := s.double.Say(s.in("Ines"), `/race remove race:"Hill Loop"`, true); err != nil {
		t.Fatal(err)
	}
	direct, err := s.double.WaitSent(s.within(), s.double.DM(s.club.UserID("Ines")), 2)
	if err != nil {
		t.Fatal(err)
	}
	s.shows(s.await(s.double.Press(s.direct("Ines"), direct[1], "Remove it")), "out of your calendar")
	s.shows(s.give(s.in("Ines"), "race list"), "No race is to come")
	s.shows(s.give(there, "race list"), "Hill Loop")
}

// Who left a server is no rider of its club any more in direct messages.
func TestWhoLeftIsNoRider(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	a := s.give(s.direct("Ines"), "race remove", "race", "Hill Loop")
	s.app.riders.forget()
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Status: 404, Code: 10007, Times: -1})
	if got := s.give(s.direct("Ines"), "race list"); strings.Contains(got.Text(), "Hill Loop") {
		t.Errorf("the calendar is shown to somebody who left:\n%s", got.Text())
	}
	s.shows(s.press(s.direct("Ines"), a, "Remove it"), "do not ride any more")
	s.shows(s.give(s.in("Tomas"), "race list"), "No race is to come")
}

// Direct messages know no nicknames: what the club calls a rider stays.
func TestNicknamesStay(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	club := s.double.AddGuild(discordtest.Guild{Name: "Harbour Riders", Channels: []discordtest.Channel{{Name: "general"}},
		Members: []discordtest.Member{{Name: "Joana", Nick: "Jo the Climber"}}})
	s.eventually("both servers are known", func() bool { return s.servers() == 2 })
	here := discordtest.At{Guild: club.ID, User: club.UserID("Joana")}
	s.give(here, "race add", "name", "Pier Race", "date", "2026-07-05", "priority", "A")
	s.give(discordtest.At{User: here.User}, "race add", "name", "Mole Sprint", "date", "2026-07-12", "priority", "B")
	s.shows(s.give(here, "race list"), "Pier Race: Jo the Climber (A, you)", "Mole Sprint: Jo the Climber (B, you)")
}

// Rights come before anything that is asked of Discord.
func TestRightsComeFirst(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.double.OpenToAll("club")
	s.shows(s.give(s.in("Ines"), "club setup", "channel", s.club.ChannelID("races")), "for the club's coaches")
	for _, r := range s.double.Requests() {
		if r.Method == "GET" && strings.Contains(r.Path, "/channels/") {
			t.Errorf("a rider made the bot ask for %s", r.Path)
		}
	}
}

// First contacts are paced; commands do not wait for them.
func TestMentionsDoNotHoldUpCommands(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	var crowd discordtest.Guild
	for i := range 40 {
		crowd.Members = append(crowd.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", i)})
	}
	crowd.Name, crowd.Channels = "Crowd", []discordtest.Channel{{Name: "general"}}
	crowd = s.double.AddGuild(crowd)
	for _, m := range crowd.Members {
		if _, err := s.double.Say(discordtest.At{Guild: crowd.ID, User: m.UserID}, "hello", true); err != nil {
			t.Fatal(err)
		}
	}
	for range 5 {
		s.shows(s.give(s.in("Ines"), "help"), "race tapers")
	}
}

// A club that came back while the bot was away is not erased, however long it was gone.
func TestComingBackLate(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.double.RemoveGuild(s.club.ID)
	s.eventually("the club is gone", func() bool {
		clubs, err := s.db.Clubs(t.Context(), platform)
		return err == nil && len(clubs) == 0
	})
	s.end()
	s.double.AddGuild(s.club)
	s.db.Now = func() time.Time { return start.Add(keepGone + 24*time.Hour) }
	s.run()
	time.Sleep(settleTime + 200*time.Millisecond) // longer than the wait before erasing
	s.shows(s.give(s.in("Tomas"), "race list"), "Hill Loop")
}

// Another shard's READY says nothing of this one's servers.
func TestReadyOfAnotherShard(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	var mine uint64
	if _, err := fmt.Sscan(s.club.ID, &mine); err != nil {
		t.Fatal(err)
	}
	for shard := range uint64(2) {
		ready, err := json.Marshal(map[string]any{"shard": [2]uint64{shard, 2}, "guilds": []any{}})
		if err != nil {
			t.Fatal(err)
		}
		if err := s.app.onGuild(t.Context(), gateway.Event{Type: "READY", Data: ready}); err != nil {
			t.Fatal(err)
		}
		clubs, err := s.db.Clubs(t.Context(), platform)
		if gone := (mine>>22)%2 == shard; err != nil || (len(clubs) == 0) != gone {
			t.Errorf("shard %d: %d clubs, %v", shard, len(clubs), err)
		}
		if err := s.db.RejoinClub(t.Context(), clubKey(s.club.ID)); err != nil {
			t.Fatal(err)
		}
	}
}

// A refusal is told until it has got through.
func TestRefusalIsToldForSure(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.double.CloseDMs(s.club.UserID("Ines"), 50007)
	s.give(s.in("Ines"), "me set", "taper", "10") // what is kept of people who ride for no club goes soon
	for n := range 2 {
		if _, err := s.double.Say(s.in("Ines"), "/me show", true); err != nil {
			t.Fatal(err)
		}
		if _, err := s.double.WaitSent(s.within(), s.club.ChannelID("general"), n+1); err != nil {
			t.Fatal(err)
		}
	}
	s.eventually("the refusal is kept", func() bool {
		p, err := s.db.FindPerson(t.Context(), personKey(s.club.UserID("Ines")))
		return err == nil && !p.Refused.IsZero()
	})
	s.shows(s.give(s.in("Ines"), "me show"), "could not write to you")
}

// Two clubs of one name can be told apart.
func TestClubsOfOneName(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	twin := s.double.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "general"}},
		Members: []discordtest.Member{{UserID: s.club.UserID("Ines"), Name: "Ines"}}})
	s.eventually("both servers are known", func() bool { return s.servers() == 2 })
	s.give(s.in("Ines"), "me set", "taper", "10")
	s.end()
	s.db.Now = func() time.Time { return start.Add(48 * time.Hour) }
	s.run()
	s.give(discordtest.At{Guild: twin.ID, User: s.club.UserID("Ines")}, "me set", "taper", "7")
	s.eventually("the club has its name", func() bool {
		club, err := s.db.FindClub(t.Context(), clubKey(twin.ID))
		return err == nil && club.Name == "Marrow Vale Wheelers"
	})
	m := s.say("Ines", "/me show", 1)
	if got := strings.Join(m.Buttons(), "|"); got != "Marrow Vale Wheelers, here since 1 Jun 2026, 07:00|Marrow Vale Wheelers, here since 3 Jun 2026, 07:00" {
		t.Errorf("buttons %s", got)
	}
}

// Help needs no club.
func TestHelpForStrangers(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.withHarbour()
	s.shows(s.give(s.direct("Tomas"), "help"), "race tapers")
}

// Nothing of a club is shown, offered or counted in another one, neither to its coach
// nor to a rider, and nothing can be changed from there.
func TestNothingLeaksIntoAnotherClub(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "week share", "week", typicalWeek)
	s.give(s.in("Ines"), "race add", "name", "Quiet Heron Cup", "date", "2026-06-14", "priority", "A", "hours", "3")
	s.give(s.in("Ines"), "tell tired")
	other := s.double.AddGuild(discordtest.Guild{Name: "Harbour Riders", Channels: []discordtest.Channel{{Name: "general"}}, Roles: []discordtest.Role{{Name: "Coach"}},
		Members: []discordtest.Member{{Name: "Olaf", Roles: []string{"Coach"}}, {Name: "Petra"}, {Name: "Boss", Permissions: rightManageServer}}})
	s.eventually("both servers are known", func() bool { return s.servers() == 2 })
	at := func(name string) discordtest.At { return discordtest.At{Guild: other.ID, User: other.UserID(name)} }
	s.double.OpenToAll("coach")
	s.double.OpenToAll("club")
	s.give(at("Boss"), "club setup", "coach-role", other.RoleID("Coach"))
	s.give(at("Petra"), "race add", "name", "Pier Race", "date", "2026-06-21", "priority", "B")
	secret := func(text string) bool {
		return strings.Contains(text, "Ines") || strings.Contains(text, "Heron") || strings.Contains(text, "2 riders") || strings.Contains(strings.ToLower(text), "heavy legs")
	}
	for _, who := range []string{"Olaf", "Petra"} {
		for _, line := range [][]string{{"race list"}, {"coach roster"}, {"coach digest"}, {"club show"}, {"plan show"}, {"ride"}, {"me show"}, {"season check"}, {"taper history"},
			{"plan show", "race", "Quiet Heron Cup"}, {"race join", "race", "Quiet Heron Cup"}, {"race remove", "race", "Quiet Heron Cup"}, {"ask", "question", "who is tapering?"},
			{"coach note", "athlete", "all", "day", "today", "text", "Drink"}} {
			name := line[0]
			if _, known := commandNamed(name); !known {
				continue
			}
			a := s.give(at(who), name, line[1:]...)
			if text := strings.ReplaceAll(a.Text(), `"Quiet Heron Cup"`, ""); secret(text) {
				t.Errorf("%s in another club, /%s %q:\n%s", who, name, line[1:], a.Text())
			}
		}
		for _, line := range [][]string{{"coach athlete"}, {"coach release", "day", "today"}, {"coach adjust", "day", "today", "session", "rest"}, {"coach week", "week", "mon rest"}, {"coach race", "name", "X", "date", "2026-07-05", "priority", "A"}} {
			a := s.give(at(who), line[0], append([]string{"athlete", "Ines"}, line[1:]...)...)
			if text := strings.ReplaceAll(a.Text(), `"Ines"`, ""); secret(text) || strings.Contains(text, "you set ") {
				t.Errorf("%s in another club, /%s:\n%s", who, line[0], a.Text())
			}
		}
		for command, option := range map[string]string{"coach athlete": "athlete", "coach note": "athlete", "plan show": "race", "race join": "race", "race change": "race"} {
			a := s.await(s.double.Autocomplete(at(who), command, options(option, ""), option))
			if secret(fmt.Sprint(a.Choices)) {
				t.Errorf("%s in another club is offered %v", who, a.Choices)
			}
		}
	}
	if _, ines := s.rider("Ines"); ines.Name != "Ines" {
		t.Errorf("the rider is %+v", ines)
	}
	s.shows(s.give(s.in("Ines"), "race list"), "Quiet Heron Cup")
}
