package discord

import (
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/time/rate"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// lisbon sets the bot's clock to a time of June 2026 in Lisbon, and lets it send
// what is owed.
func (s *stage) lisbon(day, hour, minute int) {
	s.t.Helper()
	s.clock.Store(time.Date(2026, 6, day, hour-1, minute, 0, 0, time.UTC).Unix())
	if err := s.app.posts.Tick(s.within(), s.now()); err != nil {
		s.t.Log(err) // an outage ends a tick
	}
}

// tapering are a rider's week and a race that is near.
func (s *stage) tapering(name string) discordtest.Answer {
	s.t.Helper()
	s.give(s.in(name), "week share", "week", typicalWeek)
	return s.give(s.in(name), "race add", "name", "Hill Loop", "date", "2026-06-07", "priority", "A", "hours", "3h30", "start", "10:30")
}

// written are the messages of a rider's direct channel.
func (s *stage) written(name string) []discordtest.Message {
	return s.double.Sent(s.double.DM(s.club.UserID(name)))
}

// rider is a rider of the club as the database has it.
func (s *stage) rider(name string) (storage.Club, storage.Athlete) {
	s.t.Helper()
	club, err := s.db.FindClub(s.t.Context(), clubKey(s.club.ID))
	if err != nil {
		s.t.Fatal(err)
	}
	a, err := s.db.FindAthlete(s.t.Context(), club.ID, personKey(s.club.UserID(name)))
	if err != nil {
		s.t.Fatal(err)
	}
	return club, a
}

// posts are the states and reasons of the posts of a kind.
func (s *stage) posts(kind storage.PostKind) (all []string) {
	s.t.Helper()
	clubs, err := s.db.Clubs(s.t.Context(), platform)
	if err != nil {
		s.t.Fatal(err)
	}
	for _, club := range clubs {
		posts, err := s.db.ClubPosts(s.t.Context(), club.ID, time.Time{})
		if err != nil {
			s.t.Fatal(err)
		}
		for _, p := range posts {
			if p.Kind == kind {
				all = append(all, strings.TrimSpace(string(p.State)+" "+p.Reason))
			}
		}
	}
	return all
}

// requested counts the bot's requests.
func (s *stage) requested(method, path string) (n int) {
	for _, r := range s.double.Requests() {
		if r.Method == method && r.Path == path {
			n++
		}
	}
	return n
}

// From the button under a race to the day that is logged, and to the end of it.
func TestReminder(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	a := s.tapering("Ines")
	if n := s.requested("POST", "/users/@me/channels"); n != 0 {
		t.Errorf("%d channels opened unasked", n)
	}
	on := s.press(s.in("Ines"), a, "Remind me")
	s.shows(on, "The next one comes", "direct message")
	if n := s.requested("POST", "/users/@me/channels"); n != 1 {
		t.Errorf("%d channels opened when asked, want 1", n)
	}
	s.lisbon(2, 6, 28)
	if n := len(s.written("Ines")); n != 0 {
		t.Errorf("%d messages before their time", n)
	}
	s.lisbon(2, 6, 30)
	s.lisbon(2, 6, 31)
	got := s.written("Ines")
	if len(got) != 1 {
		t.Fatalf("%d messages, want 1\n%s", len(got), s.log)
	}
	for _, want := range []string{"Today, Tue 2 Jun", "taper for Hill Loop", "Chest pain", "Marrow Vale Wheelers"} {
		if !strings.Contains(got[0].Text(), want) {
			t.Errorf("the reminder lacks %q:\n%s", want, got[0].Text())
		}
	}
	logged := s.await(s.double.Press(s.direct("Ines"), got[0], "Rode it"))
	s.shows(logged, "Noted", "Tue 2 Jun")
	if logged.Kind != 4 {
		t.Errorf("kind %d: the reminder is gone", logged.Kind)
	}
	_, ines := s.rider("Ines")
	if rides, err := s.db.Rides(t.Context(), ines.ID, 0); err != nil || len(rides) != 1 || rides[0].Minutes == 0 {
		t.Errorf("rides %v, %v", rides, err)
	}
	s.lisbon(3, 6, 30)
	got = s.written("Ines")
	if len(got) != 2 {
		t.Fatalf("%d messages, want 2", len(got))
	}
	s.shows(s.await(s.double.Press(s.direct("Ines"), got[1], "Stop reminders")), "You get no reminders")
	s.lisbon(5, 6, 30)
	if n := len(s.written("Ines")); n != 2 {
		t.Errorf("%d messages after Stop", n)
	}
	if n := s.requested("POST", "/users/@me/channels"); n != 1 {
		t.Errorf("%d channels opened in all, want 1", n)
	}
}

// Closed direct messages are kept with their reason, told at the next command,
// and named to the coaches.
func TestReminderRefused(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	s.double.CloseDMs(s.club.UserID("Ines"), 50007)
	s.lisbon(2, 6, 30)
	s.lisbon(2, 6, 45)
	if got := s.posts(storage.PostReminder); !slices.Equal(got, []string{"failed direct messages are closed"}) {
		t.Errorf("posts %q", got)
	}
	if n := s.requested("POST", "/channels/"+s.double.DM(s.club.UserID("Ines"))+"/messages"); n != 1 {
		t.Errorf("tried %d times", n)
	}
	s.shows(s.give(s.in("Ines"), "me show"), "could not write to you on 2 June")
	s.eventually("it is noted that she was told", func() bool {
		person, err := s.db.FindPerson(t.Context(), personKey(s.club.UserID("Ines")))
		return err == nil && person.Refused.IsZero()
	})
	for _, command := range []string{"me show", "ride"} {
		if a := s.give(s.in("Ines"), command); strings.Contains(a.Text(), "could not write to you") {
			t.Errorf("%s tells it again: %s", command, a.Text())
		}
	}
	s.double.OpenToAll("club")
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"))
	s.shows(s.give(s.in("Mira"), "coach digest"), "Ines", "reminders fail")
	s.double.CloseDMs(s.club.UserID("Ines"), 0)
	s.lisbon(3, 6, 30)
	if got := s.written("Ines"); len(got) != 1 || !strings.Contains(got[0].Text(), "Wed 3 Jun") {
		t.Errorf("the next day's reminder: %v", got)
	}
}

// Who wants no direct messages gets a private thread, made once and anew when it is gone.
func TestReminderInAThread(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	races := s.club.ChannelID("races")
	s.give(s.in("Admin"), "club setup", "channel", races)
	s.tapering("Ines")
	s.shows(s.give(s.in("Ines"), "me set", "remind", "always 06:30", "remind-by", "thread"), "private thread", "Create Private Threads")
	if err := s.double.SetBotPermissions(races, discordtest.PermLeast|discordtest.PermThreads|discordtest.PermInThreads|discordtest.PermHistory); err != nil {
		t.Fatal(err)
	}
	if a := s.give(s.in("Ines"), "me set", "remind-by", "thread"); strings.Contains(a.Text(), "cannot") {
		t.Errorf("with permission: %s", a.Text())
	}
	s.lisbon(2, 6, 30)
	threads := s.double.Threads(races)
	if len(threads) != 1 || threads[0].Name != "Reminders for Ines" || !slices.Equal(threads[0].Members, []string{s.club.UserID("Ines")}) {
		t.Fatalf("threads %+v\n%s", threads, s.log)
	}
	got := s.double.Sent(threads[0].ID)
	if len(got) != 1 || len(s.written("Ines")) != 0 {
		t.Fatalf("%d messages in the thread, %d direct", len(got), len(s.written("Ines")))
	}
	a := s.await(s.double.Press(s.in("Ines"), got[0], "Rode it"))
	s.shows(a, "Noted")
	if !a.Ephemeral() {
		t.Error("the answer stands in the thread")
	}
	if err := s.double.DeleteChannel(threads[0].ID); err != nil {
		t.Fatal(err)
	}
	s.lisbon(3, 6, 30)
	threads = s.double.Threads(races)
	if len(threads) != 1 || len(s.double.Sent(threads[0].ID)) != 1 {
		t.Fatalf("after it was deleted: %+v", threads)
	}
	if err := s.double.SetBotPermissions(races, discordtest.PermLeast); err != nil {
		t.Fatal(err)
	}
	s.lisbon(4, 6, 30)
	if got := s.posts(storage.PostReminder); len(got) != 3 || !strings.Contains(got[2], "failed") || !strings.Contains(got[2], "Create Private Threads and Send Messages in Threads") {
		t.Errorf("posts %q", got)
	}
}

// The digest goes to the coaches' channel without a sound; every coach may press
// its buttons, and nobody else.
func TestDigest(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	coaches := s.club.ChannelID("coaches")
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"), "digest-day", "monday", "digest-time", "07:00")
	s.tapering("Ines")
	s.give(s.in("Ines"), "race add", "name", "Quarry Crit", "date", "2026-06-20", "priority", "A")
	s.lisbon(8, 7, 0)
	if got := s.posts(storage.PostDigest); len(got) != 0 {
		t.Errorf("without a channel: %q", got)
	}
	s.shows(s.give(s.in("Admin"), "club setup", "coaches-channel", coaches), "is set up")
	if lines := s.double.Sent(coaches); len(lines) != 1 || !strings.Contains(lines[0].Text(), "digest goes here") {
		t.Errorf("the channel was told %v", lines)
	}
	s.lisbon(15, 6, 59)
	s.lisbon(15, 7, 0)
	s.lisbon(15, 7, 1)
	got := s.double.Sent(coaches)
	if len(got) != 2 {
		t.Fatalf("%d messages, want 2\n%s", len(got), s.log)
	}
	digest := got[1]
	if digest.Flags&(1<<12) == 0 {
		t.Error("the digest rings")
	}
	if len(digest.Files) != 2 || !strings.Contains(digest.Text(), "Quarry Crit") || !slices.Contains(digest.Buttons(), "Show Ines") {
		t.Fatalf("files %d, buttons %v, %s", len(digest.Files), digest.Buttons(), digest.Text())
	}
	a := s.await(s.double.Press(s.in("Mira"), digest, "Show Ines"))
	s.shows(a, "Ines", "Quarry Crit")
	other := s.await(s.double.Press(s.in("Tomas"), digest, "Show Ines"))
	s.shows(other, "for the club's coaches")
	if !a.Ephemeral() || !other.Ephemeral() || strings.Contains(other.Text(), "Quarry") {
		t.Errorf("everybody sees the answer, or the rider learns something: %s", other.Text())
	}
	if err := s.double.SetBotPermissions(coaches, discordtest.PermView); err != nil {
		t.Fatal(err)
	}
	s.lisbon(22, 7, 0)
	if got := s.posts(storage.PostDigest); len(got) != 2 || !strings.Contains(got[1], "failed") || !strings.Contains(got[1], "I may not write there") {
		t.Errorf("without permission: %q", got)
	}
}

// Discord is away for an hour across the time of the reminders: each comes
// afterwards, once, one that had arrived without an answer included.
func TestOutageAcrossReminders(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.app.opening.pace.SetLimit(rate.Inf)
	names := []string{"Ines", "Tomas", "Mira"}
	for _, name := range names {
		s.tapering(name)
		s.give(s.in(name), "me set", "remind", "always 06:30")
	}
	mira := s.double.DM(s.club.UserID("Mira"))
	lost := s.double.Fail(discordtest.Rule{Method: "POST", Path: "/channels/" + mira + "/messages", Times: -1, DropAfterWork: true})
	outage := s.double.Fail(discordtest.Rule{Times: -1, Status: 503})
	s.double.RefuseUpgrade(503, 1000)
	s.double.Drop()
	s.lisbon(2, 6, 30)
	if got := s.posts(storage.PostReminder); len(got) != 3 || slices.ContainsFunc(got, func(p string) bool { return !strings.HasPrefix(p, "claimed") }) {
		t.Errorf("during the outage: %q", got)
	}
	if outage.Hits() == 0 || lost.Hits() == 0 {
		t.Error("the faults did not strike")
	}
	outage.Stop()
	lost.Stop()
	s.double.RefuseUpgrade(503, 0)
	if err := s.double.WaitConnected(s.within()); err != nil {
		t.Fatal(err)
	}
	for minute := range 3 {
		s.lisbon(2, 7, 30+minute)
	}
	for _, name := range names {
		if got := s.written(name); len(got) != 1 || !strings.Contains(got[0].Text(), "Tue 2 Jun") {
			t.Errorf("%s got %d messages\n%s", name, len(got), s.log)
		}
	}
	if got := s.posts(storage.PostReminder); !slices.Equal(got, []string{"sent", "sent", "sent"}) {
		t.Errorf("afterwards: %q", got)
	}
}

// Heavy legs by the button under the reminder: the easier form is one press away, and
// of two days the coaches' digest tells.
func TestHeavyLegs(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	ride := func() string {
		line, _, _ := strings.Cut(s.give(s.in("Ines"), "ride").Message.Text(), "\n")
		return line
	}
	s.lisbon(2, 6, 30)
	s.lisbon(2, 6, 45)
	planned := ride()
	first := s.await(s.double.Press(s.direct("Ines"), s.written("Ines")[0], "Heavy legs"))
	s.shows(first, "Nothing changes unless you say so", "Easier:", "It costs", "heavy again within 5 days")
	if now := ride(); now != planned {
		t.Errorf("heavy legs alone changed %q to %q", planned, now)
	}
	s.shows(s.press(s.direct("Ines"), first, "Take the easier form"), "What changes")
	if now := ride(); now == planned {
		t.Errorf("the easier form was not taken: %q", now)
	}
	s.lisbon(3, 6, 30)
	s.lisbon(3, 6, 45)
	s.shows(s.await(s.double.Press(s.direct("Ines"), s.written("Ines")[1], "Heavy legs")), "Tue 2 Jun and", "Your coach sees these days")
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"))
	s.shows(s.give(s.in("Mira"), "coach digest"), "heavy legs on Tue 2 Jun and Wed 3 Jun")
}
