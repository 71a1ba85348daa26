package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
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

// Look-ups of members that hang, break or are refused keep nobody from an answer
// in time: in direct messages, forms and offers, and least of all in the server.
func TestNobodyWaitsForLookUps(t *testing.T) {
	members := discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Times: -1}
	slow, broken, refused := members, members, members
	slow.Delay, broken.Status, refused.Status, refused.RetryAfter = 6*time.Second, 500, 429, 6*time.Second
	for name, rule := range map[string]discordtest.Rule{"6 s": slow, "500": broken, "429": refused} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{})
			riders := s.crowd(48)
			failure := s.double.Fail(rule)
			var all []*discordtest.Interaction
			for n, at := range riders {
				switch n % 4 {
				case 0:
					all = append(all, s.ask(at, "help"))
				case 1:
					all = append(all, s.ask(at, "week share"))
				case 2:
					i, err := s.double.Autocomplete(at, "plan show", options("race", "h"), "race")
					if err != nil {
						t.Fatal(err)
					}
					all = append(all, i)
				default:
					all = append(all, s.ask(at, "ride"))
				}
			}
			all = append(all, s.ask(s.in("Ines"), "ride"), s.ask(s.in("Tomas"), "help"))
			s.answeredInTime(all)
			for _, i := range all {
				if a := s.await(i, nil); i.Name == "week share" && a.Modal == nil {
					t.Errorf("no form but %s", a.Text())
				}
			}
			tried := failure.Hits()
			s.shows(s.give(riders[0], "race list"), "No race to come")
			if again := failure.Hits() - tried; again > 0 {
				t.Errorf("%d look-ups right after those that failed", again)
			}
		})
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
	free := s.fill()
	silent := s.double.Fail(discordtest.Rule{Method: "POST", Path: callbacks, Delay: 4 * time.Second, Times: -1})
	i := s.ask(s.in("Ines"), "ride")
	s.eventually("it has arrived", func() bool { return silent.Hits() > 0 })
	free()
	s.shows(s.await(i, nil), "No plan yet")
	s.once(i)
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
