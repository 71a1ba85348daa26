package discord

import (
	"errors"
	"slices"
	"testing"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/api"
	"musette/bot/discord/discordtest"
	"musette/bot/post"
	"musette/storage"
)

// Who left the club's server gets no reminder of that club any more, even where
// another server is shared, and may still press Stop below the last one.
func TestRiderWhoLeft(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.withHarbour()
	s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	s.lisbon(2, 6, 30)
	got := s.written("Ines")
	if len(got) != 1 {
		t.Fatalf("%d messages, want 1\n%s", len(got), s.log)
	}
	left := s.club
	left.Members = slices.DeleteFunc(slices.Clone(left.Members), func(m discordtest.Member) bool { return m.Name == "Ines" })
	s.double.AddGuild(left)
	s.app.riders.forget()
	s.lisbon(3, 6, 30)
	if n := len(s.written("Ines")); n != 1 {
		t.Errorf("%d messages after leaving", n)
	}
	if got := s.posts(storage.PostReminder); !slices.Equal(got, []string{"sent", "failed no longer in the club's server"}) {
		t.Errorf("posts %q", got)
	}
	s.shows(s.await(s.double.Press(s.direct("Ines"), got[0], "Rode it")), "do not ride any more")
	s.shows(s.await(s.double.Press(s.direct("Ines"), got[0], "Pause reminders for 3 days")), "remind")
	s.shows(s.await(s.double.Press(s.direct("Ines"), got[0], "Stop reminders")), "You get no reminders")
	if _, a := s.rider("Ines"); a.Settings.Remind.Mode != storage.RemindOff || a.Settings.Remind.Pause == 0 {
		t.Errorf("stored %+v", a.Settings.Remind)
	}
}

// What Discord refuses for good is not tried again, what rests waits, and each
// reason is in plain words.
func TestReasonsInPlainWords(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "me set", "taper", "10")
	m := s.reminder("Ines", 0)
	s.app.opening.pace.SetLimit(rate.Inf)
	const write, open, threads = "/channels/*/messages", "/users/@me/channels", "/channels/*/threads"
	for _, tc := range []struct {
		rule  discordtest.Rule
		want  error
		words string
	}{
		{discordtest.Rule{Path: open, Status: 403, Code: api.CodeOpeningTooFast}, post.ErrLater, "Discord lets me open no new direct messages for a while"},
		{discordtest.Rule{Path: write, Status: 403, Code: api.CodeBlocked}, post.ErrNoPlace, "the server's own filter blocked the message"},
		{discordtest.Rule{Path: write, Status: 403, Code: 50035}, post.ErrNoPlace, "Discord refused it"},
		{discordtest.Rule{Path: write, Status: 403}, post.ErrUnsent, "Discord refused it"},
		{discordtest.Rule{Path: write, Status: 401}, post.ErrUnsent, "Discord does not know my token"},
		{discordtest.Rule{Path: write, Status: 503, Times: -1}, nil, "Discord did not answer"},
		{discordtest.Rule{Path: threads, Status: 403, Code: api.CodeThreadsFull}, post.ErrNoPlace, "the server has as many threads as Discord allows. Close some"},
	} {
		if m.Athlete.Settings.Remind.By = storage.RemindDirect; tc.rule.Path == threads {
			s.give(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races"))
			m.Club, _ = s.rider("Ines")
			m.Athlete.Settings.Remind.By = storage.RemindThread
		}
		tc.rule.Method = "POST"
		fault := s.double.Fail(tc.rule)
		err := s.app.Send(t.Context(), m)
		fault.Stop()
		if err == nil || err.Error() != tc.words || tc.want != nil && !errors.Is(err, tc.want) {
			t.Errorf("%+v: got %q, want %q and %v", tc.rule, err, tc.words, tc.want)
		}
		if final := errors.Is(err, post.ErrNoPlace); final != (tc.want == post.ErrNoPlace) {
			t.Errorf("%+v: final %t", tc.rule, final)
		}
	}
	for range refusedInRow {
		s.app.opening.note(&api.Error{Code: api.CodeClosedDM})
	}
	m.Athlete.Settings.Remind.By = storage.RemindDirect
	if err := s.db.KeepChannel(t.Context(), m.Athlete.Key, ""); err != nil {
		t.Fatal(err)
	}
	if err := s.app.Send(t.Context(), m); !errors.Is(err, post.ErrLater) || !errors.Is(err, errOpeningRests) {
		t.Errorf("while opening rests: %v", err)
	}
}

// No channel is stored of which the server is not known.
func TestChannelThatCannotBeLookedUp(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	for _, status := range []int{403, 404} {
		fault := s.double.Fail(discordtest.Rule{Method: "GET", Path: "/channels/*", Status: status, Times: -1})
		s.shows(s.give(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races")), "could not look at that channel", "Try again")
		fault.Stop()
	}
	if clubs, err := s.db.Clubs(t.Context(), platform); err != nil || len(clubs) > 0 && clubs[0].Setup.Channel != "" {
		t.Errorf("stored %+v, %v", clubs, err)
	}
}

// A coaches-channel that everybody reads is refused, and nothing of that command
// is stored; a private one is taken, and the races' channel may be open.
func TestOpenCoachesChannel(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	const refusal = "everybody in the server can read that channel"
	open, closed := s.club.ChannelID("general"), s.club.ChannelID("coaches")
	stored := func() (setup storage.ClubSetup) {
		t.Helper()
		clubs, err := s.db.Clubs(t.Context(), platform)
		if err != nil {
			t.Fatal(err)
		}
		for _, club := range clubs {
			setup = club.Setup
		}
		return setup
	}
	refuses := func(want string) {
		t.Helper()
		a := s.give(s.in("Admin"), "club setup", "coaches-channel", open, "coach-role", s.club.RoleID("Coach"))
		s.shows(a, "did not work", "coaches-channel", refusal)
		if got := stored(); got.Coaches != want || got.CoachRole != "" {
			t.Errorf("stored %+v, want the coaches-channel %q and no role", got, want)
		}
		if n := len(s.double.Sent(open)); n != 0 {
			t.Errorf("%d messages in the refused channel", n)
		}
	}
	refuses("")
	for _, pair := range [][]string{{"coaches-channel", closed}, {"channel", s.club.ChannelID("races")}} {
		s.shows(s.give(s.in("Admin"), "club setup", pair...), "is set up")
	}
	refuses(channelReference(closed))
}

func TestIsOpen(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	open := []api.Overwrite{{ID: "77", Deny: "1024"}, {ID: s.club.ID, Allow: "0", Deny: "2048"}}
	for _, tc := range []struct {
		channel api.Channel
		want    bool
	}{
		{api.Channel{GuildID: s.club.ID}, true},
		{api.Channel{GuildID: s.club.ID, Overwrites: open}, true},
		{api.Channel{GuildID: s.club.ID, Overwrites: []api.Overwrite{{ID: s.club.ID, Deny: "3072"}}}, false},
		{api.Channel{GuildID: s.club.ID, Overwrites: []api.Overwrite{{ID: s.club.ID, Allow: "1024"}}}, true},
		{api.Channel{GuildID: s.club.ID, Type: api.ChannelPrivateThread}, false},
		{api.Channel{GuildID: "1"}, true}, // nothing is known of its roles
	} {
		if got := readByAll(t.Context(), s.app.api, &tc.channel); got != tc.want {
			t.Errorf("%+v: open %t", tc.channel, got)
		}
	}
}

// A reminder is found again behind many later messages.
func TestLookBehindManyMessages(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "me set", "taper", "10")
	m := s.reminder("Ines", 0)
	m.Post.Claimed = s.now()
	if err := s.app.Send(t.Context(), m); err != nil {
		t.Fatal(err)
	}
	for range 120 {
		if _, err := s.double.Say(s.direct("Ines"), "", false); err != nil {
			t.Fatal(err)
		}
	}
	if there, err := s.app.Look(t.Context(), m); !there || err != nil {
		t.Errorf("there %t, %v", there, err)
	}
	m.Post.Claimed = m.Post.Claimed.Add(time.Hour)
	if there, err := s.app.Look(t.Context(), m); there || err != nil {
		t.Errorf("of a later claim: there %t, %v", there, err)
	}
}
