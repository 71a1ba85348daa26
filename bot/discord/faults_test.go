package discord

import (
	"context"
	"database/sql"
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/bot/discord/gateway"
)

const (
	callbacks = "/interactions/*/*/callback"
	originals = "/webhooks/*/*/messages/@original"
)

// once fails unless exactly one first answer was accepted.
func (s *stage) once(i *discordtest.Interaction) {
	s.t.Helper()
	if accepted := i.Callbacks() - i.Refused(); accepted != 1 {
		s.t.Errorf("%d first answers accepted, want 1", accepted)
	}
}

func (s *stage) ask(at discordtest.At, name string, pairs ...string) *discordtest.Interaction {
	s.t.Helper()
	i, err := s.double.Command(at, name, options(pairs...))
	if err != nil {
		s.t.Fatal(err)
	}
	return i
}

// Whatever REST does, an answer arrives once.
func TestAnswersSurviveFaults(t *testing.T) {
	for name, rule := range map[string]discordtest.Rule{
		"502":               {Method: "POST", Path: callbacks, Status: 502},
		"500 twice":         {Method: "POST", Path: callbacks, Status: 500, Times: 2},
		"429":               {Method: "POST", Path: callbacks, Status: 429, RetryAfter: 50 * time.Millisecond},
		"429 as a web page": {Method: "POST", Path: callbacks, Status: 429, RetryAfter: time.Second, HTML: true},
		"global 429":        {Method: "POST", Path: callbacks, Status: 429, RetryAfter: 50 * time.Millisecond, Global: true},
		"lost answer":       {Method: "POST", Path: callbacks, DropAfterWork: true},
		"slow":              {Method: "POST", Path: callbacks, Delay: 300 * time.Millisecond},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{})
			failure := s.double.Fail(rule)
			i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
			s.shows(s.await(i, nil), "Hill Loop is in your calendar")
			s.once(i)
			if failure.Hits() == 0 {
				t.Error("the fault did not strike")
			}
		})
	}
}

// An interaction that comes twice is answered once and does its work once.
func TestDuplicateDelivery(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.double.DuplicateNext(1)
	i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.shows(s.await(i, nil), "Hill Loop is in your calendar")
	if err := i.Redeliver(); err != nil {
		t.Fatal(err)
	}
	s.shows(s.give(s.in("Ines"), "race list"), "Hill Loop")
	if i.Callbacks() != 1 {
		t.Errorf("%d answers, want 1", i.Callbacks())
	}
}

// What was asked too long ago, as before a connection broke, is not carried out: its
// rider sees no answer and asks again. A clock that runs ahead stops nothing.
func TestOldInteractionIsNotCarriedOut(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.end()
	s.conf.Now = func() time.Time { return s.now().Add(6 * time.Second) }
	s.run()
	refused := s.double.Fail(discordtest.Rule{Method: "POST", Path: callbacks, Status: 404, Code: 10062, Message: "Unknown interaction"})
	s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.eventually("the answer is refused", func() bool { return refused.Hits() > 0 })
	s.eventually("it is logged", func() bool { return strings.Contains(s.log.String(), "Unknown interaction") })
	s.shows(s.give(s.in("Ines"), "race list"), "No race is to come")
	s.shows(s.give(s.in("Ines"), "race add", "name", "Mill Race", "date", "2026-06-28", "priority", "A"), "Mill Race is in your calendar")
}

// lockDatabase keeps the bot from writing until the returned function is called.
func (s *stage) lockDatabase() (unlock func()) {
	s.t.Helper()
	other, err := sql.Open("sqlite3", "file:"+filepath.Join(s.folder, "musette.db")+"?_txlock=immediate")
	if err != nil {
		s.t.Fatal(err)
	}
	tx, err := other.Begin()
	if err != nil {
		s.t.Fatal(err)
	}
	return func() {
		if err := errors.Join(tx.Rollback(), other.Close()); err != nil {
			s.t.Error(err)
		}
	}
}

// slowly makes the bot wait for Discord longer than a second, once.
func (s *stage) slowly(path string) {
	s.double.Fail(discordtest.Rule{Method: "GET", Path: path, Delay: 1500 * time.Millisecond})
}

// slowMembers makes each look-up of a member take longer than a second: the daily
// one must not take the slow answer for itself.
func (s *stage) slowMembers() *discordtest.Failure {
	return s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Delay: 1500 * time.Millisecond, Times: -1})
}

// Work that takes longer than a second is deferred, as private as its answer.
func TestSlowWorkIsDeferred(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.slowly("/channels/*")
	i := s.ask(s.in("Admin"), "club setup", "channel", s.club.ChannelID("races"))
	a := s.await(i, nil)
	s.shows(a, "is set up")
	if a.Kind != 5 || !a.Ephemeral() {
		t.Errorf("kind %d, private %t", a.Kind, a.Ephemeral())
	}
	s.once(i)
}

// A slow press on a private message is deferred without a new message: what it
// changes takes the message's place, all else stands below it.
func TestSlowPressIsDeferred(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.give(s.in("Ines"), "week share", "week", typicalWeek)
	s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	a := s.give(s.direct("Ines"), "race remove", "race", "Hill Loop")
	ride := s.give(s.direct("Ines"), "ride")
	s.app.riders.forget()
	slow := s.slowMembers()
	i, err := s.double.Press(s.direct("Ines"), ride.Message, "Why")
	if err != nil {
		t.Fatal(err)
	}
	below, err := i.WaitFollowUps(s.within(), 1)
	if err != nil || !strings.Contains(below[0].Text(), "usual week") || !strings.Contains(i.State(), "deferred") {
		t.Errorf("%s, below stands %v, %v", i.State(), below, err)
	}
	slow.Stop()
	s.app.riders.forget()
	s.app.looks.since.Store(nil)
	slow = s.slowMembers()
	gone := s.press(s.direct("Ines"), a, "Remove it")
	slow.Stop()
	s.shows(gone, "out of your calendar")
	if gone.Kind != 6 {
		t.Errorf("kind %d, want 6", gone.Kind)
	}
}

// A form cannot be deferred; a slow one still comes in time.
func TestSlowForm(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.slowly("/guilds/*/members/*")
	if a := s.give(s.direct("Ines"), "week share"); a.Modal == nil {
		t.Errorf("no form but %s", a.Text())
	}
}

// A database that stays locked gives a kind answer with a reference that is in the log.
func TestBrokenWorkNamesAReference(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	unlock := s.lockDatabase()
	defer unlock()
	a := s.give(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.shows(a, "The database is busy", "reference")
	_, rest, _ := strings.Cut(a.Text(), "the reference ")
	ref := strings.Trim(rest, ". \n*")
	if ref == "" {
		t.Fatalf("no reference in %s", a.Text())
	}
	s.eventually("the request and the interaction are logged by it", func() bool { return strings.Count(s.log.String(), " ref="+ref) == 2 })
	if strings.Contains(s.log.String(), "Hill Loop") || strings.Contains(s.log.String(), s.double.Token) {
		t.Errorf("texts or tokens in the log:\n%s", s.log)
	}
}

// The gateway may do what it likes: afterwards commands are answered again, and
// what came while it was away is answered after a RESUME.
func TestGatewayFaults(t *testing.T) {
	for name, strike := range map[string]func(*discordtest.Server){
		"drop":                     func(d *discordtest.Server) { d.Drop() },
		"op 7":                     func(d *discordtest.Server) { d.Reconnect() },
		"op 7 in answer to RESUME": func(d *discordtest.Server) { d.ResumeReconnect(1); d.Drop() },
		"op 9 in answer to RESUME": func(d *discordtest.Server) { d.ResumeInvalid(1, false); d.Drop() },
		"op 9, resumable":          func(d *discordtest.Server) { d.ResumeInvalid(1, true); d.Drop() },
		"op 9 at rest":             func(d *discordtest.Server) { d.InvalidateSessions() },
		"closed 4000":              func(d *discordtest.Server) { d.CloseWith(4000) },
		"closed 4009":              func(d *discordtest.Server) { d.CloseWith(4009) },
		"closed 1001":              func(d *discordtest.Server) { d.CloseWith(1001) },
		"silence":                  func(d *discordtest.Server) { d.Silence() },
		"no HELLO":                 func(d *discordtest.Server) { d.NoHello(1); d.Drop() },
		"no upgrade":               func(d *discordtest.Server) { d.RefuseUpgrade(503, 2); d.Drop() },
	} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{HeartbeatInterval: 500 * time.Millisecond})
			before := s.double.Counters()
			strike(s.double)
			if err := s.double.WaitCounters(s.within(), func(c discordtest.Counters) bool { return c.Connections > before.Connections }); err != nil {
				t.Fatal(err)
			}
			if err := s.double.WaitConnected(s.within()); err != nil {
				t.Fatalf("%v\nlog:\n%s", err, s.log)
			}
			i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
			s.shows(s.await(i, nil), "Hill Loop is in your calendar")
			s.once(i)
		})
	}
}

// Commands are put once and never again while they stay the same.
func TestCommandsArePutOnce(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.eventually("the first start has put", func() bool { return strings.Contains(s.log.String(), "commands are up to date") })
	s.end()
	s.run()
	s.eventually("the second start has compared", func() bool { return strings.Count(s.log.String(), "commands are up to date") == 2 })
	puts := 0
	for _, r := range s.double.Requests() {
		if r.Method == "PUT" {
			puts++
		}
	}
	if puts != 1 {
		t.Errorf("put %d times, want 1", puts)
	}
}

// What has begun when the bot is stopped is answered.
func TestCleanStop(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	unlock := s.lockDatabase()
	i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.eventually("the work has begun", func() bool { return i.Received() || strings.Contains(i.State(), "deferred") })
	s.stop()
	unlock()
	s.shows(s.await(i, nil), "Hill Loop is in your calendar")
	s.end()
}

// A token that Discord does not know ends the bot, with words that say what to do.
func TestWrongToken(t *testing.T) {
	double := discordtest.New(discordtest.Options{})
	defer double.Close()
	s := &stage{t: t, double: double, log: &logBook{}}
	app, err := New(s.config(t, "made-up"))
	if err != nil {
		t.Fatal(err)
	}
	var fatal *gateway.FatalError
	if err := app.Run(s.within()); !errors.As(err, &fatal) || !strings.Contains(err.Error(), "MUSETTE_DISCORD__TOKEN") {
		t.Errorf("got %v", err)
	}
}

// A Discord that is out of reach is waited for, and the wait ends with the signal.
func TestDiscordOutOfReach(t *testing.T) {
	double := discordtest.New(discordtest.Options{})
	url, token := double.URL, double.Token
	double.Close()
	s := &stage{t: t, log: &logBook{}}
	conf := s.config(t, token)
	conf.URL = url
	app, err := New(conf)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 300*time.Millisecond)
	defer cancel()
	if err := app.Run(ctx); err != nil {
		t.Errorf("got %v", err)
	}
}
