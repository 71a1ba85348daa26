package discord

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"musette/bot/discord/api"
	"musette/bot/discord/discordtest"
	"musette/bot/say"
)

// withOptions is a club whose rider Ines has races with tapers.
func withOptions(t *testing.T) (s *stage, race string) {
	t.Helper()
	s = newStage(t, discordtest.Options{})
	race = "Hill Loop 2026-07-12"
	s.give(s.in("Ines"), "week share", "week", inesWeek)
	s.give(s.in("Ines"), "race add", "name", strings.TrimSuffix(race, " 2026-07-12"), "date", "2026-07-12", "priority", "A", "hours", "3")
	s.give(s.in("Ines"), "race add", "name", "Quarry", "date", "2026-07-26", "priority", "A", "hours", "3")
	return s, race
}

// held holds up the picture of what is done until that has been deferred.
func (s *stage) held(do func() (*discordtest.Interaction, error)) *discordtest.Interaction {
	s.t.Helper()
	gate := make(chan struct{})
	s.gate.Store(&gate)
	defer func() {
		s.gate.Store(nil)
		close(gate)
	}()
	i, err := do()
	if err != nil {
		s.t.Fatal(err)
	}
	s.eventually("it is deferred", func() bool { return strings.Contains(i.State(), "deferred") })
	return i
}

// A press whose answer takes more than a second is deferred; the picture comes
// below the message, which stays, in a server for one person's eyes.
func TestSlowPictureComesBelow(t *testing.T) {
	s, _ := withOptions(t)
	for name, at := range map[string]discordtest.At{"server": s.in("Ines"), "direct": s.direct("Ines")} {
		check := s.give(at, "season check")
		i := s.held(func() (*discordtest.Interaction, error) { return s.double.Press(at, check.Message, "Show the numbers") })
		a := s.await(i, nil)
		if a.Kind != 6 || a.Message.ID == check.Message.ID || a.Ephemeral() != (at.Guild != "") {
			t.Errorf("%s: kind %d, private %t, in the message's place: %t", name, a.Kind, a.Ephemeral(), a.Message.ID == check.Message.ID)
		}
		s.shows(a, "Your tapers take ")
		s.pictured(a, "season.png")
		s.once(i)
		if below, err := i.WaitFollowUps(s.within(), 1); err != nil || len(below) != 1 {
			t.Errorf("%s: %d messages below, %v", name, len(below), err)
		}
	}
}

// Where Discord does not take the files the words go out without them, once.
func TestRefusedFilesAreLeftOut(t *testing.T) {
	s, race := withOptions(t)
	ines := s.in("Ines")
	check := s.give(ines, "season check")
	command := func() (*discordtest.Interaction, error) {
		return s.double.Command(ines, "plan options", options("race", race))
	}
	for name, tc := range map[string]struct {
		shows string
		rule  discordtest.Rule
		do    func() *discordtest.Interaction
	}{
		"deferred, 413": {"keep the planned 8 days", discordtest.Rule{Method: "PATCH", Path: originals, Status: 413, HTML: true}, func() *discordtest.Interaction { return s.held(command) }},
		"below a press, 413": {"Your tapers take ", discordtest.Rule{Method: "POST", Path: "/webhooks/*/*", Status: 413, HTML: true}, func() *discordtest.Interaction {
			return s.held(func() (*discordtest.Interaction, error) {
				return s.double.Press(ines, check.Message, "Show the numbers")
			})
		}},
	} {
		failure := s.double.Fail(tc.rule)
		a := s.await(tc.do(), nil)
		s.shows(a, tc.shows, "The picture could not be shown")
		if m := a.Message; failure.Hits() != 1 || len(m.Files)+len(m.Attachments) != 0 || m.Embeds[0].Image.URL != "" || len(m.Buttons()) == 0 {
			t.Errorf("%s: struck %d times, %d files, %d attachments, picture %q, buttons %v", name, failure.Hits(), len(m.Files), len(m.Attachments), m.Embeds[0].Image.URL, m.Buttons())
		}
	}
	failure := s.double.Fail(discordtest.Rule{Method: "POST", Path: "/channels/*/messages", Status: 413, HTML: true})
	if m := s.say("Ines", `/plan options race:"`+race+`"`, 1); failure.Hits() != 1 || len(m.Files) != 0 || !strings.Contains(m.Text(), "keep the planned 8 days") {
		t.Errorf("struck %d times, %d files\n%s", failure.Hits(), len(m.Files), m.Text())
	}
	s.pictured(s.give(ines, "plan options", "race", race), "taper-options.png")
}

// Each way in which an answer goes out tries once more without files, and only
// where that may help.
func TestWhichRefusalsLeaveFilesOut(t *testing.T) {
	for status, tries := range map[int]int{http.StatusRequestEntityTooLarge: 2, http.StatusBadRequest: 2, http.StatusForbidden: 1, http.StatusNotFound: 1} {
		var calls, with atomic.Int32
		srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			calls.Add(1)
			if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/") {
				with.Add(1)
				w.WriteHeader(status)
				return
			}
			w.WriteHeader(http.StatusNoContent)
		}))
		client, err := api.New(api.Config{Token: "made-up", Base: srv.URL})
		if err != nil {
			t.Fatal(err)
		}
		c := &conversation{App: &App{api: client, Config: Config{Log: slog.New(slog.DiscardHandler)}},
			i: &interaction{ID: "1", AppID: "2", Token: "made-up"}, began: time.Now().Add(time.Minute)}
		reply := say.Reply{Lines: said("Here."), Files: []say.File{{Name: "plan.png", Type: "image/png", Data: []byte("x")}}}
		out := answer{kind: api.AnswerMessage, messages: renderer{}.messages(reply, nil)}
		for name, send := range map[string]func() error{
			"first":    func() error { return c.first(t.Context(), out) },
			"deferred": func() error { return c.later(t.Context(), api.AnswerDeferred, out) },
			"below":    func() error { return c.later(t.Context(), api.AnswerDeferredUpdate, out) },
		} {
			calls.Store(0)
			with.Store(0)
			if err := send(); (err == nil) != (tries == 2) || int(calls.Load()) != tries || with.Load() != 1 {
				t.Errorf("%d, %s: %d calls, %d with files, want %d and 1: %v", status, name, calls.Load(), with.Load(), tries, err)
			}
		}
		srv.Close()
	}
}

// The line in place of files keeps every limit.
func TestWithoutFilesFits(t *testing.T) {
	photo := say.File{Name: "plan.png", Type: "image/png", Data: []byte("x")}
	for name, reply := range map[string]say.Reply{
		"picture alone": {Lines: said("Here."), Files: []say.File{photo}},
		"full":          {Lines: append(said("Here."), say.Linef("%s", strings.Repeat("word ", maxDescription/5))), Files: []say.File{photo}},
		"too long":      {Lines: append(said("Here."), say.Linef("%s", strings.Repeat("word ", 4*maxDescription/5))), Files: []say.File{photo}},
		"no picture":    {Lines: said("Here."), Files: []say.File{{Name: "a.txt", Type: "text/plain", Data: []byte("x")}}},
	} {
		m := renderer{}.messages(reply, nil)[0]
		bare := withoutFiles(m)
		lints(t, &bare)
		withinLimits(t, &bare)
		if !strings.HasSuffix(bare.Embeds[0].Description, "Discord did not take it.") || bare.Embeds[0].Image != nil || len(bare.Files)+len(bare.Attachments) != 0 {
			t.Errorf("%s: %+v", name, bare.Embeds[0])
		}
		if len(m.Files) == 0 || name == "full" && m.Embeds[0].Image == nil {
			t.Errorf("%s: the message itself was changed", name)
		}
	}
}
