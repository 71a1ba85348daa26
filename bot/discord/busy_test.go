package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// crowd adds so many riders to the club and says where each writes directly.
func (s *stage) crowd(n int) []discordtest.At {
	club := s.club
	club.Members = slices.Clone(club.Members)
	for i := range n {
		club.Members = append(club.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", i)})
	}
	s.club = s.double.AddGuild(club)
	var direct []discordtest.At
	for i := range n {
		direct = append(direct, s.direct(fmt.Sprintf("Rider %d", i)))
	}
	return direct
}

// answeredInTime fails unless Discord took a first answer to each, which it does
// for three seconds.
func (s *stage) answeredInTime(all []*discordtest.Interaction) {
	s.t.Helper()
	lost := 0
	for _, i := range all {
		s.eventually("an answer to "+i.Name, func() bool { return i.Callbacks() > 0 })
		if i.Callbacks()-i.Refused() != 1 {
			lost++
		}
	}
	if lost > 0 {
		s.t.Errorf("%d of %d have no answer in time", lost, len(all))
	}
}

// patient are limits that no test reaches: what waits for them waits for ever.
var patient = patience{deferAfter: time.Hour, promptAfter: time.Hour, firstAnswer: time.Hour, tooLate: time.Hour, look: time.Hour}

// givesUp is patient, but for a first answer of which nothing is heard.
var givesUp = patience{deferAfter: time.Hour, promptAfter: time.Hour, firstAnswer: 4 * time.Second, tooLate: time.Hour, look: time.Hour}

// withPatience starts the bot again with other limits.
func (s *stage) withPatience(p patience) {
	s.t.Helper()
	s.end()
	s.conf.patience = p
	s.run()
	s.eventually("the club's name is known", func() bool { return s.app.names.name(s.club.ID) != "" })
}

// askAll lets riders ask for things of all kinds by direct message.
func (s *stage) askAll(riders []discordtest.At) (all []*discordtest.Interaction) {
	s.t.Helper()
	for n, at := range riders {
		switch n % 4 {
		case 0:
			all = append(all, s.ask(at, "help"))
		case 1:
			all = append(all, s.ask(at, "week share"))
		case 2:
			i, err := s.double.Autocomplete(at, "plan show", options("race", "h"), "race")
			if err != nil {
				s.t.Fatal(err)
			}
			all = append(all, i)
		default:
			all = append(all, s.ask(at, "ride"))
		}
	}
	return all
}

// Look-ups of members that hang keep no seat: all are under way at once, and others
// are answered meanwhile.
func TestLookUpsTakeNoSeat(t *testing.T) {
	s := newStage(t, discordtest.Options{AnswerWithin: time.Hour})
	s.withPatience(patient)
	riders := s.crowd(48)
	hanging := s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Delay: time.Hour, Times: -1})
	s.askAll(riders)
	s.eventually("all look-ups are under way", func() bool { return hanging.Hits() == len(riders) })
	s.shows(s.give(s.in("Ines"), "ride"), "There is no plan yet")
	s.shows(s.give(s.in("Tomas"), "help"), "/race add")
	if a := s.give(s.in("Mira"), "week share"); a.Modal == nil {
		t.Errorf("no form but %s", a.Text())
	}
}

// Look-ups of members that hang, break or are refused are given up, and keep nobody
// from an answer in direct messages, forms and offers; the next ones do not try again.
func TestNobodyWaitsForLookUps(t *testing.T) {
	members := discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Times: -1}
	hanging, broken, refused := members, members, members
	hanging.Delay, broken.Status, refused.Status, refused.RetryAfter = time.Hour, 500, 429, time.Hour
	for name, rule := range map[string]discordtest.Rule{"hanging": hanging, "500": broken, "429": refused} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{AnswerWithin: time.Hour})
			bounded := patient
			bounded.look = 100 * time.Millisecond
			s.withPatience(bounded)
			riders := s.crowd(48)
			failure := s.double.Fail(rule)
			for _, i := range s.askAll(riders) {
				if a := s.await(i, nil); i.Name == "week share" && a.Modal == nil {
					t.Errorf("no form but %s", a.Text())
				}
				s.once(i)
			}
			tried := failure.Hits()
			s.shows(s.give(riders[0], "race list"), "No race is to come")
			if again := failure.Hits() - tried; again > 0 {
				t.Errorf("%d look-ups right after those that failed", again)
			}
		})
	}
}

// Forms and offers that get no seat in time are answered with less.
func TestNotReadyInTime(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	hasty := patient
	hasty.promptAfter = 50 * time.Millisecond
	s.withPatience(hasty)
	for range promptSeats {
		s.app.prompt <- struct{}{}
	}
	s.shows(s.give(s.in("Ines"), "week share"), "The form was not ready in time. Try again in a minute.")
	i, err := s.double.Autocomplete(s.in("Ines"), "plan show", options("race", "h"), "race")
	if a := s.await(i, err); a.Kind != 8 || len(a.Choices) != 0 {
		t.Errorf("kind %d with %v", a.Kind, a.Choices)
	}
}

// fill takes all seats for answers until the returned function is called.
func (s *stage) fill() (free func()) {
	for range commandSeats {
		s.app.working <- struct{}{}
	}
	return func() {
		for range commandSeats {
			<-s.app.working
		}
	}
}

// Where too much is worked out already, an answer is deferred before it waits; what
// cannot be deferred has seats of its own.
func TestOverloadDefersFirst(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	free := s.fill()
	i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.eventually("it is deferred", func() bool { return strings.Contains(i.State(), "deferred") })
	if a := s.give(s.in("Ines"), "week share"); a.Modal == nil {
		t.Errorf("no form but %s", a.Text())
	}
	free()
	s.shows(s.await(i, nil), "Hill Loop is in your calendar")
	s.once(i)
}

// A deferral that Discord took without the bot hearing of it is kept to.
func TestDeferralWithoutWord(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.withPatience(givesUp)
	free := s.fill()
	silent := s.double.Fail(discordtest.Rule{Method: "POST", Path: callbacks, Delay: time.Hour, Times: -1})
	i := s.ask(s.in("Ines"), "ride")
	s.eventually("it has arrived", func() bool { return silent.Hits() > 0 })
	free()
	s.shows(s.await(i, nil), "There is no plan yet")
	s.once(i)
}

// What was deferred is worked out when all requests for time are out: they need the
// processor first.
func TestDeferralsGoFirst(t *testing.T) {
	s := newStage(t, discordtest.Options{AnswerWithin: time.Hour})
	s.app.askTime.begin()
	i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
	s.eventually("it is deferred, though there are seats", func() bool { return strings.Contains(i.State(), "deferred") })
	s.app.askTime.end()
	s.shows(s.await(i, nil), "Hill Loop is in your calendar")
	s.once(i)
}

// What Discord gives no time for is not done, whether it says so or takes no notice.
func TestNothingIsDoneUnseen(t *testing.T) {
	for name, rule := range map[string]discordtest.Rule{
		"refused": {Method: "POST", Path: callbacks, Status: 404, Code: 10062, Times: -1},
		"lost":    {Method: "POST", Path: callbacks, Status: 503, Delay: time.Hour, Times: -1},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{})
			s.withPatience(givesUp)
			free := s.fill()
			strange := s.double.Fail(rule)
			s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
			s.eventually("it has arrived", func() bool { return strange.Hits() > 0 })
			s.eventually("it is given up", func() bool { return strings.Contains(s.log.String(), "kind=command") })
			strange.Stop()
			free()
			s.shows(s.give(s.in("Ines"), "race list"), "No race is to come")
		})
	}
}

// Of many things asked at once none is lost.
func TestBurst(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	var all []*discordtest.Interaction
	for n := range 120 {
		name := []string{"ride", "plan show", "help", "week share"}[n%4]
		all = append(all, s.ask(s.in("Ines"), name))
	}
	s.answeredInTime(all)
	for _, i := range all {
		s.await(i, nil)
	}
}

// What a broken session kept for long is not done, since nobody would see the answer:
// also where its token is over by now.
func TestOldInteractionsAreNotDone(t *testing.T) {
	for name, age := range map[string]time.Duration{"seconds": 10 * time.Second, "beyond the token": 20 * time.Minute, "days": 50 * time.Hour} {
		t.Run(name, func(t *testing.T) {
			const within, beat = 50 * time.Millisecond, 300 * time.Millisecond
			s := newStage(t, discordtest.Options{AnswerWithin: within, HeartbeatInterval: beat})
			s.double.Silence() // which the bot notices when its next heartbeat is not answered
			i := s.ask(s.in("Ines"), "race add", "name", "Hill Loop", "date", "2026-06-28", "priority", "A")
			s.clock.Store(start.Add(age).Unix())
			s.eventually("it has come", func() bool { return i.Refused() > 0 })
			s.eventually("it is given up", func() bool { return strings.Contains(s.log.String(), "kind=command") })
			if who, err := s.db.Riders(t.Context(), storage.Whose{Key: personKey(s.club.UserID("Ines"))}); err != nil || len(who) > 0 {
				t.Errorf("it was done all the same: %v, %v", who, err)
			}
		})
	}
}
