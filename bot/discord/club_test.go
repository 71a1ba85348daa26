package discord

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/desk"
	"musette/bot/discord/discordtest"
)

const typicalWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// The main job from the set-up to a pressed button.
func TestFromRaceToButton(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	a := s.give(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races"), "zone", "Europe/Lisbon", "coach-role", s.club.RoleID("Coach"))
	s.shows(a, "Marrow Vale Wheelers is set up", "<#"+s.club.ChannelID("races")+">", "<@&"+s.club.RoleID("Coach")+">", "monday at 07:00")
	if lines, err := s.double.WaitSent(s.within(), s.club.ChannelID("races"), 1); err != nil || !strings.Contains(lines[0].Content, "races go here") {
		t.Errorf("the channel was told %v, %v", lines, err)
	}

	a = s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "28 June", "priority", "A", "hours", "3h30", "start", "10:30")
	s.shows(a, "Hill Loop is in your calendar", "<t:1782639000:F>")
	if !a.Ephemeral() {
		t.Error("everybody sees the answer")
	}
	lines, err := s.double.WaitSent(s.within(), s.club.ChannelID("races"), 2)
	if err != nil || !strings.Contains(lines[1].Text(), "Ines races Hill Loop on Sunday 28 June 2026") {
		t.Errorf("the club was told %v, %v", lines, err)
	}

	form := s.press(s.in("Ines"), a, "Share my week")
	if form.Modal == nil || !strings.Contains(form.Text(), "mon recovery 40min") {
		t.Fatalf("no form but %+v", form)
	}
	a = s.await(s.double.SubmitForm(s.in("Ines"), form.Modal, map[string]string{"week": strings.ReplaceAll(typicalWeek, "; ", "\n")}))
	s.shows(a, "Your week from Monday 1 June 2026", "Its taper takes ")
	if !a.Ephemeral() {
		t.Error("everybody sees the week")
	}

	a = s.press(s.in("Ines"), a, "Show plan")
	s.shows(a, "Taper for Hill Loop", "Chest pain")
	s.shows(s.press(s.in("Ines"), a, "Whole plan"), "openers")
	a = s.give(s.in("Ines"), "ride", "day", "tomorrow")
	s.shows(a, "Tomorrow, Tue 2 Jun", "5x3min")
	a = s.press(s.in("Ines"), a, "Next day")
	s.shows(a, "Wed 3 Jun", "endurance 1h45")
	a = s.press(s.in("Ines"), a, "Why")
	s.shows(a, "Wed 3 Jun", "usual week")

	list := s.give(s.in("Tomas"), "race list")
	s.shows(list, "Hill Loop", "Ines (A)")
	if list.Ephemeral() {
		t.Error("the calendar is hidden")
	}
}

// Without a channel, or when the rider wants none, no public line.
func TestNoPublicLine(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "C")
	s.give(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races"))
	s.give(s.in("Ines"), "me set", "announce", "off")
	s.give(s.in("Ines"), "race add", "name", "Quarry Crit", "date", "2026-07-05", "priority", "C")
	s.give(s.in("Tomas"), "race add", "name", "Lake Circuit", "date", "2026-07-12", "priority", "C")
	lines, err := s.double.WaitSent(s.within(), s.club.ChannelID("races"), 2)
	if err != nil || len(lines) != 2 || !strings.Contains(lines[1].Text(), "Lake Circuit") {
		t.Errorf("the club was told %v, %v", lines, err)
	}
	if n := len(s.double.Sent(s.club.ChannelID("general"))); n != 0 {
		t.Errorf("%d lines in a channel that was not set", n)
	}
}

// Rights are checked at each call: by the server's permission or the club's role.
func TestClubSetupRights(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.double.OpenToAll("club")
	zone := []string{"zone", "Europe/Paris"}
	s.shows(s.give(s.in("Mira"), "club setup", zone...), "for the club's coaches")
	s.shows(s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach")), "is set up")
	s.shows(s.give(s.in("Mira"), "club setup", zone...), "is set up", "Europe/Paris")
	s.shows(s.give(s.in("Ines"), "club setup", zone...), "for the club's coaches")
	s.shows(s.give(s.in("Admin"), "club setup", "forget", "coach-role"), "coach-role: none")
	s.shows(s.give(s.in("Mira"), "club setup", zone...), "for the club's coaches")
	s.shows(s.give(s.in("Admin"), "club setup"), "nothing to set")
	s.shows(s.give(s.in("Admin"), "club setup", "digest-time", "25:00"), "digest-time")
	show := s.give(s.in("Ines"), "club show")
	s.shows(show, "Europe/Paris")
	if show.Ephemeral() {
		t.Error("how the club is set up is hidden")
	}
}

// Removing asks first; the answer takes the place of the question.
func TestRemoveAsksFirst(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	a := s.give(s.in("Ines"), "race remove", "race", "Hill Loop")
	s.shows(a, "Take Hill Loop", "Nothing has changed yet")
	kept := s.press(s.in("Ines"), a, "Keep it")
	s.shows(kept, "Nothing has changed")
	if kept.Kind != 7 || len(kept.Buttons()) != 0 {
		t.Errorf("the question stays: kind %d, buttons %v", kept.Kind, kept.Buttons())
	}
	s.shows(s.give(s.in("Ines"), "race list"), "Hill Loop")
	a = s.give(s.in("Ines"), "race remove", "race", "Hill Loop")
	gone := s.press(s.in("Ines"), a, "Remove it")
	s.shows(gone, "out of your calendar")
	s.shows(s.give(s.in("Ines"), "race list"), "No race is to come")
	s.shows(s.press(s.in("Ines"), gone, "Undo"), "back in your calendar")
	s.shows(s.press(s.in("Ines"), a, "Remove it"), "out of your calendar") // the race is there again, so is the button
	s.shows(s.press(s.in("Ines"), a, "Remove it"), "no race yet")
}

// Only who asked may press, and old buttons are answered kindly.
func TestButtonsOfOthersAndOldOnes(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "week share", "week", typicalWeek)
	a := s.give(s.in("Ines"), "ride")
	public := s.give(s.in("Tomas"), "race list")
	public.Message.Components = a.Message.Components // as if Ines's buttons stood where all see them
	other := s.press(s.in("Tomas"), public, "Why")
	s.shows(other, "for the rider who asked")
	if !other.Ephemeral() {
		t.Error("everybody sees it")
	}
	for _, id := range []string{"0x.1.2", "made-up", strings.Repeat("é", 50)} {
		old := a.Message
		old.Components = []discordtest.Component{{Type: 1, Components: []discordtest.Component{{Type: 2, Label: "Old", CustomID: id, Style: 2}}}}
		s.shows(s.await(s.double.Press(s.in("Ines"), old, "Old")), "old message")
	}
	s.end()
	s.run()
	s.shows(s.press(s.in("Ines"), a, "Why"), "usual week")
}

// What a form refuses is not typed again.
func TestFormKeepsWhatWasTyped(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	form := s.give(s.in("Ines"), "week share")
	typed := "mon recovery 40min\ntue intrvlls 1h30 5x3min\nsat long 3h"
	a := s.await(s.double.SubmitForm(s.in("Ines"), form.Modal, map[string]string{"week": typed}))
	s.shows(a, "week", "intervals")
	again := s.press(s.in("Ines"), a, "Open the form again")
	if again.Modal == nil || !strings.Contains(again.Text(), "intrvlls 1h30") {
		t.Fatalf("the form does not hold what was typed: %s", again.Text())
	}
	a = s.await(s.double.SubmitForm(s.in("Ines"), again.Modal, map[string]string{"week": strings.Replace(typed, "intrvlls", "intervals", 1)}))
	s.shows(a, "Your week from Monday 1 June 2026", "5x3min")
}

func TestOffersWhileTyping(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.give(s.in("Ines"), "race add", "name", "Quarry Crit", "date", "2026-07-05", "priority", "C")
	for _, tc := range []struct{ command, option, typed, want string }{
		{"plan show", "race", "", "Hill Loop 2026-06-28|Quarry Crit 2026-07-05"},
		{"plan show", "race", "hil lop", "Hill Loop 2026-06-28"},
		{"plan show", "race", "5 jul", "Quarry Crit 2026-07-05"},
		{"me set", "zone", "lisbon", "Europe/Lisbon"},
		{"ride", "day", "tomor", "tomorrow"},
		{"ride", "day", "fri", "2026-06-05"},
	} {
		a := s.await(s.double.Autocomplete(s.in("Ines"), tc.command, options(tc.option, tc.typed), tc.option))
		var values []string
		for _, c := range a.Choices {
			values = append(values, c.Value.(string))
		}
		if got := strings.Join(values, "|"); !strings.HasPrefix(got, tc.want) {
			t.Errorf("/%s %s:%s offers %q, want %q", tc.command, tc.option, tc.typed, got, tc.want)
		}
	}
	a := s.await(s.double.Autocomplete(s.in("Tomas"), "plan show", options("race", ""), "race"))
	if len(a.Choices) != 0 {
		t.Errorf("another rider's races are offered: %v", a.Choices)
	}
}

// Names full of markdown and mentions are shown as they are and call nobody.
func TestNamesArePlainText(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races"))
	hostile := "**@everyone** <@" + s.double.BotID + "> [x](https://example.org) `a` ||b||"
	a := s.give(s.in("Ines"), "race add", "name", hostile, "date", "2026-06-28", "priority", "A")
	lines, err := s.double.WaitSent(s.within(), s.club.ChannelID("races"), 2)
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{a.Message.Content, lines[1].Content} {
		text = regexp.MustCompile(`\\.`).ReplaceAllString(text, "") // what is escaped is not live
		for _, live := range []string{"@everyone", "<@" + s.double.BotID + ">", "[x](", "`a`", "||"} {
			if strings.Contains(text, live) {
				t.Errorf("%s is live in %q", live, text)
			}
		}
	}
}

// A channel that holds no text and a role that nobody can have are refused, though
// Discord's own choices leave them out: an interaction can be forged.
func TestForgedReferences(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	club := s.club
	club.Channels = append(slices.Clone(club.Channels), discordtest.Channel{Name: "talk", Type: 2})
	s.club = s.double.AddGuild(club)
	cmd, _ := commandNamed("club setup")
	for _, tc := range []struct{ option, value, want string }{
		{"channel", channelReference(s.club.ChannelID("talk")), "is no text channel"},
		{"coaches-channel", channelReference(s.club.ChannelID("talk")), "is no text channel"},
		{"channel", channelReference(s.club.ChannelID("races")), ""},
		{"coach-role", roleReference("1234567890"), "is not of this server"},
		{"coach-role", roleReference(s.club.ID), "everybody's"},
		{"coach-role", roleReference(s.club.RoleID("Coach")), ""},
	} {
		req := desk.Request{Options: map[string]string{tc.option: tc.value}}
		reply := s.app.checkReferences(t.Context(), &cmd, &req, &asked{guildID: s.club.ID})
		if got := reply != nil; got != (tc.want != "") || got && !strings.Contains(reply.Text(), tc.want) {
			t.Errorf("%s %s: %v, want %q", tc.option, tc.value, reply, tc.want)
		}
	}
}

// What is wrong with the coaches' channel and their role is shown with the way out,
// and told once to who can mend it, and once more after it was well.
func TestClubFaultsAreTold(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	setup := func(at string) {
		t.Helper()
		s.shows(s.give(s.in(at), "club setup", "coaches-channel", s.club.ChannelID("coaches"), "coach-role", s.club.RoleID("Coach")), "is set up")
	}
	told := func(who string, want bool) {
		t.Helper()
		s.app.looked.mu.Lock()
		s.app.looked.seen = nil // as ten minutes later
		s.app.looked.mu.Unlock()
		a := s.give(s.in(who), "me show")
		for _, words := range []string{"coaches-channel cannot be written to", "it was deleted", "coach role was deleted", "club setup coach-role"} {
			if strings.Contains(a.Text(), words) != want {
				t.Errorf("%s reads %q: %t\n%s", who, words, !want, a.Text())
			}
		}
	}
	whole := s.club
	breaks := func() {
		t.Helper()
		if err := s.double.DeleteChannel(s.club.ChannelID("coaches")); err != nil {
			t.Fatal(err)
		}
		club := whole
		club.Roles = nil
		club.Members = slices.Clone(club.Members)
		for i := range club.Members {
			club.Members[i].Roles = nil
		}
		club.Channels = slices.DeleteFunc(slices.Clone(club.Channels), func(c discordtest.Channel) bool { return c.Name == "coaches" })
		s.double.AddGuild(club)
	}
	kept := func(want string) {
		t.Helper()
		s.eventually("it is kept what was told", func() bool {
			club, err := s.db.FindClub(t.Context(), clubKey(s.club.ID))
			if err != nil {
				return false
			}
			told, err := s.db.FaultsTold(t.Context(), club.ID, personKey(s.club.UserID("Admin")))
			return err == nil && strings.Join(told, ",") == want
		})
	}
	setup("Admin")
	told("Admin", false)
	breaks()
	told("Ines", false)
	told("Admin", true)
	kept("coach-role,coaches-channel")
	told("Admin", false)
	s.shows(s.give(s.in("Ines"), "club show"), "coaches-channel cannot be written to", "it was deleted", "club setup", "coach role was deleted")
	s.double.AddGuild(whole)
	told("Admin", false)
	kept("")
	breaks()
	told("Admin", true)
}

// A channel that was deleted is told to each who can mend it: that a coach has read of it
// does not keep it from who runs the server.
func TestFaultsAreToldToEach(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.shows(s.give(s.in("Admin"), "club setup", "coaches-channel", s.club.ChannelID("coaches"), "coach-role", s.club.RoleID("Coach")), "is set up")
	if err := s.double.DeleteChannel(s.club.ChannelID("coaches")); err != nil {
		t.Fatal(err)
	}
	const words = "coaches-channel cannot be written to"
	for _, who := range []struct {
		name string
		told bool
	}{{"Ines", false}, {"Mira", true}, {"Admin", true}, {"Mira", false}, {"Admin", false}} {
		s.app.looked.forget() // as ten minutes later
		a := s.give(s.in(who.name), "me show")
		if strings.Contains(a.Text(), words) != who.told {
			t.Errorf("%s reads of it: %t\n%s", who.name, !who.told, a.Text())
		}
		if who.told {
			s.eventually("it is kept what was told", func() bool {
				club, err := s.db.FindClub(t.Context(), clubKey(s.club.ID))
				if err != nil {
					return false
				}
				told, err := s.db.FaultsTold(t.Context(), club.ID, personKey(s.club.UserID(who.name)))
				return err == nil && slices.Equal(told, []string{"coaches-channel"})
			})
		}
	}
}

// Who was a coach before the role was deleted is not sent to coaches, whom there are none of.
func TestCoachesWithoutARole(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	const way = "so that nobody is one. Who runs the server sets one: "
	s.shows(s.give(s.in("Mira"), "coach roster"), "the club has no coach role, "+way, "club setup")
	s.shows(s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach")), "is set up")
	s.shows(s.give(s.in("Ines"), "coach roster"), "is for the club's coaches. Ask one of them")
	club := s.club
	club.Roles = nil
	club.Members = slices.Clone(club.Members)
	for i := range club.Members {
		club.Members[i].Roles = nil
	}
	s.double.AddGuild(club)
	s.shows(s.give(s.in("Mira"), "coach roster"), "the coach role was deleted, "+way, "club setup")
}

// What is told once is told by one of several answers that are worked out at the same time.
func TestToldByOneOfManyAnswers(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.shows(s.give(s.in("Admin"), "club setup", "coaches-channel", s.club.ChannelID("coaches"), "coach-role", s.club.RoleID("Coach")), "is set up")
	s.tapering("Ines")
	if err := s.double.DeleteChannel(s.club.ChannelID("coaches")); err != nil {
		t.Fatal(err)
	}
	if err := s.db.NoteRefusal(t.Context(), personKey(s.club.UserID("Ines"))); err != nil {
		t.Fatal(err)
	}
	s.app.looked.forget()
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/interactions/*/*/callback", Delay: 300 * time.Millisecond, Times: -1})
	for _, who := range []struct{ name, words string }{{"Ines", "could not write to you"}, {"Admin", "coaches-channel cannot be written to"}} {
		var all []*discordtest.Interaction
		for range 4 {
			all = append(all, s.ask(s.in(who.name), "me show"))
		}
		told := 0
		for _, i := range all {
			told += strings.Count(s.await(i, nil).Text(), who.words)
		}
		if told != 1 {
			t.Errorf("%s reads %q %d times in %d answers, want once", who.name, who.words, told, len(all))
		}
		s.eventually("it is free again", func() bool {
			s.app.telling.mu.Lock()
			defer s.app.telling.mu.Unlock()
			return len(s.app.telling.since) == 0
		})
	}
	if a := s.give(s.in("Ines"), "me show"); strings.Contains(a.Text(), "could not write to you") {
		t.Errorf("told once more: %s", a.Text())
	}
}

// What an answer was to tell and did not is told by the next one; a claim that nobody
// freed ends by itself.
func TestClaims(t *testing.T) {
	var c claims
	now := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	free, claimed := c.claim("x", now)
	if _, again := c.claim("x", now.Add(time.Second)); !claimed || again {
		t.Errorf("claimed %t, again %t", claimed, again)
	}
	late, claimed := c.claim("x", now.Add(time.Hour))
	free() // no more its own
	if _, again := c.claim("x", now.Add(time.Hour+time.Second)); !claimed || again {
		t.Errorf("after an hour claimed %t, again %t", claimed, again)
	}
	late()
	if _, claimed = c.claim("x", now.Add(time.Hour+time.Second)); !claimed {
		t.Error("what was freed stays taken")
	}
}
