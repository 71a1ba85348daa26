package discord

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/discordtest"
	"musette/bot/post"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// reminder is a made-up message to a rider, of a day.
func (s *stage) reminder(name string, day int) post.Message {
	s.t.Helper()
	club, a := s.rider(name)
	of := storage.Post{Kind: storage.PostReminder, Key: a.PostKey(), Day: planner.DateOf(start).AddDays(day), Athlete: a.ID, Club: club.ID}
	return post.Message{Club: club, Athlete: a, Post: of,
		Reply: say.Reply{Lines: []say.Line{say.Linef("Today: rest.")}, Buttons: []say.Button{{Label: "Stop", Command: "me set", Options: map[string]string{"remind": "off"}}}}}
}

// A message is found again by its day, in direct messages and in threads, and
// nobody is fooled by what cannot be read.
func TestLook(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	races := s.club.ChannelID("races")
	s.give(s.in("Admin"), "club setup", "channel", races)
	if err := s.double.SetBotPermissions(races, discordtest.PermLeast|discordtest.PermThreads|discordtest.PermInThreads|discordtest.PermHistory); err != nil {
		t.Fatal(err)
	}
	look := func(m post.Message, want bool, fault error) {
		t.Helper()
		m.Reply = say.Reply{}
		if there, err := s.app.Look(t.Context(), m); there != want || !errors.Is(err, fault) {
			t.Errorf("there %t, %v; want %t, %v", there, err, want, fault)
		}
	}
	s.give(s.in("Ines"), "me set", "taper", "10")
	for i, by := range []storage.RemindBy{storage.RemindDirect, storage.RemindThread} {
		today, tomorrow := s.reminder("Ines", i), s.reminder("Ines", i+1)
		today.Athlete.Settings.Remind.By, tomorrow.Athlete.Settings.Remind.By = by, by
		look(today, false, nil)
		for range 2 {
			if err := s.app.Send(t.Context(), today); err != nil {
				t.Fatal(err)
			}
		}
		look(today, true, nil)
		look(tomorrow, false, nil)
	}
	if n := len(s.written("Ines")); n != 1 {
		t.Errorf("%d direct messages, want 1", n)
	}
	m := s.reminder("Ines", 1)
	m.Athlete.Settings.Remind.By = storage.RemindThread
	if err := s.double.SetBotPermissions(races, discordtest.PermLeast); err != nil {
		t.Fatal(err)
	}
	look(m, false, post.ErrCannotLook)
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/channels/*/messages", Status: 403, Code: 50001})
	look(m, false, post.ErrCannotLook)
	if err := s.double.DeleteChannel(s.double.Threads(races)[0].ID); err != nil {
		t.Fatal(err)
	}
	look(m, false, nil)
	m.Post.Kind = storage.PostDigest
	look(m, false, post.ErrCannotLook)
}

// What Discord refuses is told apart from what may have arrived.
func TestFaultsOfSending(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "me set", "taper", "10")
	m := s.reminder("Ines", 0)
	send := func(want error, unsent bool) {
		t.Helper()
		err := s.app.Send(t.Context(), m)
		if err == nil || want != nil && !errors.Is(err, want) || errors.Is(err, post.ErrUnsent) != unsent {
			t.Errorf("got %v; want %v, unsent %t", err, want, unsent)
		}
	}
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/users/@me/channels", Status: 403, Code: 40003})
	send(nil, true)
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/channels/*/messages", Status: 403, Code: 50035})
	send(nil, true)
	lost := s.double.Fail(discordtest.Rule{Method: "POST", Path: "/channels/*/messages", DropAfterWork: true, Times: -1})
	send(nil, false)
	lost.Stop()
	s.double.CloseDMs(s.club.UserID("Ines"), 50278)
	send(post.ErrRefused, false)
	m.Athlete.Settings.Remind.By = storage.RemindThread
	send(post.ErrNoPlace, true)
	m.Post.Kind = storage.PostDigest
	send(post.ErrNoPlace, false)
	m.Post.Kind, m.Athlete.Key = storage.PostReminder, storage.NameKey("Ines")
	send(post.ErrNoPlace, false)
}

// A digest that may be there already says so.
func TestDigestAgain(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	coaches := s.club.ChannelID("coaches")
	s.give(s.in("Admin"), "club setup", "coaches-channel", coaches)
	s.give(s.in("Ines"), "me set", "taper", "10")
	m := s.reminder("Ines", 0)
	m.Post.Kind, m.Reply.Lines = storage.PostDigest, []say.Line{say.Linef("Marrow Vale Wheelers: 1 rider.")}
	for range 2 {
		if err := s.app.Send(t.Context(), m); err != nil {
			t.Fatal(err)
		}
	}
	m.Again = true
	if err := s.app.Send(t.Context(), m); err != nil {
		t.Fatal(err)
	}
	got := s.double.Sent(coaches)[1:] // behind the line of the set-up
	if len(got) != 2 || strings.Contains(got[0].Text(), "before") || !strings.Contains(got[1].Text(), "may have come before") {
		t.Errorf("got %v", got)
	}
	if len(got[0].Buttons()) != 0 {
		t.Errorf("a rider's button stands in the coaches' channel: %v", got[0].Buttons())
	}
}

// The way of reminders is made when they are asked for; what fails is told.
func TestWayOfRemindersIsTold(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.app.opening.pace.SetLimit(rate.Inf)
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/users/@me/channels", Status: 403, Code: 50007})
	s.shows(s.give(s.in("Ines"), "me set", "remind", "06:30"), "I cannot write to you directly")
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/users/@me/channels", Status: 403, Code: 40003})
	s.shows(s.give(s.in("Ines"), "me set", "remind", "06:45"), "I try again at your first reminder")
	if a := s.give(s.in("Ines"), "me set", "remind", "06:50"); strings.Contains(a.Text(), "try again") {
		t.Errorf("it worked: %s", a.Text())
	}
	before := len(s.double.Requests())
	s.give(s.in("Tomas"), "me set", "remind", "off")
	s.give(s.in("Tomas"), "me set", "remind", "06:30", "remind-by", "ride")
	for _, r := range s.double.Requests()[before:] {
		if r.Path == "/users/@me/channels" {
			t.Error("a channel was opened for one who wants none")
		}
	}
}

// Nothing is sent before the bot knows which servers it is in; then what is owed
// comes by itself, and the bot ends at once when it is told to.
func TestNothingBeforeReady(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	s.end()
	s.clock.Store(time.Date(2026, 6, 2, 8, 0, 0, 0, time.UTC).Unix())
	s.double.RefuseUpgrade(503, 1000)
	app, err := New(s.conf)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- app.Run(ctx) }()
	before := s.double.Counters().Connections
	s.eventually("it tries to connect", func() bool {
		return s.double.Counters().Connections >= before && s.requested("GET", "/gateway/bot") > 1
	})
	if n := len(s.written("Ines")); n != 0 {
		t.Errorf("%d messages before READY", n)
	}
	s.double.RefuseUpgrade(503, 0)
	got, err := s.double.WaitSent(s.within(), s.double.DM(s.club.UserID("Ines")), 1)
	if err != nil || !strings.Contains(got[0].Text(), "Tue 2 Jun") {
		t.Errorf("afterwards %v, %v\n%s", got, err, s.log)
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// Many who ask at once are answered at once; their channels open one by one.
func TestManyAskForReminders(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.app.opening.pace.SetLimit(0) // it is nobody's turn
	s.app.opening.pace.Allow()
	release := make(chan struct{})
	s.app.push(s.app.firsts, job{rest: func(context.Context) { <-release }})
	names := []string{"Ines", "Tomas", "Mira", "Admin"}
	for _, name := range names {
		s.shows(s.give(s.in(name), "me set", "remind", "06:30"), "remind")
	}
	if n := s.requested("POST", "/users/@me/channels"); n != 0 {
		t.Errorf("%d channels opened at once", n)
	}
	s.app.opening.pace.SetLimit(rate.Inf)
	close(release)
	s.eventually("each has a channel", func() bool {
		for _, name := range names {
			if p, err := s.db.FindPerson(t.Context(), personKey(s.club.UserID(name))); err != nil || p.Channel == "" {
				return false
			}
		}
		return true
	})
}

// A thread in which nothing was ever written, as after a crash between its making
// and the first message, hides nothing.
func TestLookIntoAnEmptyThread(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	races := s.club.ChannelID("races")
	if err := s.double.SetBotPermissions(races, ThreadPermissions); err != nil {
		t.Fatal(err)
	}
	s.give(s.in("Admin"), "club setup", "channel", races)
	s.give(s.in("Ines"), "me set", "taper", "10")
	m := s.reminder("Ines", 0)
	m.Athlete.Settings.Remind.By = storage.RemindThread
	thread, err := s.app.api.CreateThread(t.Context(), races, "Reminders for Ines")
	if err == nil {
		err = s.db.KeepThread(t.Context(), m.Athlete.ID, thread)
	}
	if err != nil {
		t.Fatal(err)
	}
	if there, err := s.app.Look(t.Context(), m); there || err != nil {
		t.Errorf("there %t, %v", there, err)
	}
}

// A database that was put back may be older than a rider's direct messages or thread.
// What was sent there since then is found, in the thread of the right rider; and a
// channel that nobody opened is not taken for one that cannot be read.
func TestLookBehindAnOldDatabase(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.app.opening.pace.SetLimit(rate.Inf)
	races := s.club.ChannelID("races")
	if err := s.double.SetBotPermissions(races, ThreadPermissions|discordtest.PermHistory); err != nil {
		t.Fatal(err)
	}
	s.give(s.in("Admin"), "club setup", "channel", races)
	look := func(m post.Message, want bool, fault error) {
		t.Helper()
		m.Reply = say.Reply{}
		if there, err := s.app.Look(t.Context(), m); there != want || !errors.Is(err, fault) {
			t.Errorf("there %t, %v; want %t, %v", there, err, want, fault)
		}
	}
	forget := func(m post.Message) {
		t.Helper()
		if err := errors.Join(s.db.KeepChannel(t.Context(), m.Athlete.Key, ""), s.db.KeepThread(t.Context(), m.Athlete.ID, "")); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"Ines", "Tomas"} {
		s.give(s.in(name), "me set", "taper", "10")
	}
	for day, by := range []storage.RemindBy{storage.RemindDirect, storage.RemindThread} {
		sent, unsent := s.reminder("Ines", day), s.reminder("Tomas", day)
		for _, m := range []*post.Message{&sent, &unsent} {
			m.Athlete.Settings.Remind.By, m.PutBack = by, true
		}
		if err := s.app.Send(t.Context(), sent); err != nil {
			t.Fatal(err)
		}
		forget(sent)
		look(unsent, false, nil)
		sent.PutBack = false
		look(sent, false, nil) // a database that is as it was knows each channel
		sent.PutBack = true
		look(sent, true, nil)
	}
	// Nor does it know of a way that was changed since then: reminder 0 went out by direct message, 1 by thread.
	for day, by := range []storage.RemindBy{storage.RemindThread, storage.RemindDirect} {
		changed, other := s.reminder("Ines", day), s.reminder("Ines", day+2)
		for _, m := range []*post.Message{&changed, &other} {
			m.Athlete.Settings.Remind.By, m.PutBack = by, true
		}
		if by == storage.RemindDirect {
			forget(changed)
		} else if _, err := s.app.openDirect(t.Context(), s.club.UserID("Ines")); err != nil {
			t.Fatal(err)
		}
		look(changed, true, nil)
		look(other, false, nil)
	}
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/threads/active", Status: 403, Code: 50001})
	m := s.reminder("Ines", 3)
	forget(m)
	m.Athlete.Settings.Remind.By, m.PutBack = storage.RemindDirect, true
	look(m, false, nil) // it goes out by direct message, though the threads cannot be seen
	sent := s.reminder("Ines", 1)
	sent.Athlete.Settings.Remind.By, sent.PutBack = storage.RemindThread, true
	look(sent, true, nil)
	m = s.reminder("Ines", 0)
	thread := s.double.Threads(races)[0].ID
	if _, a := s.rider("Ines"); a.Thread != thread {
		t.Errorf("the thread %s that was found is not kept, but %q", thread, a.Thread)
	}
	// Of what cannot be seen nothing is known.
	forget(m)
	m.Athlete.Settings.Remind.By, m.PutBack = storage.RemindThread, true
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/threads/active", Status: 403, Code: 50001})
	look(m, false, post.ErrCannotLook)
	if err := s.double.SetBotPermissions(races, ThreadPermissions); err != nil {
		t.Fatal(err)
	}
	look(m, false, post.ErrCannotLook)
	// Who does not take direct messages any more gets none.
	s.double.Fail(discordtest.Rule{Method: "POST", Path: "/users/@me/channels", Status: 403, Code: 50007})
	m.Athlete.Settings.Remind.By = storage.RemindDirect
	look(m, false, post.ErrRefused)
}
