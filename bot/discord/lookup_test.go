package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/planner"
	"musette/storage"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// leaves takes a member out of the club's server.
func (s *stage) leaves(name string) {
	s.t.Helper()
	club := s.club
	club.Members = slices.DeleteFunc(slices.Clone(club.Members), func(m discordtest.Member) bool { return m.Name == name })
	s.double.AddGuild(club)
	s.app.riders.forget()
}

func (s *stage) returns() { s.double.AddGuild(s.club) }

// Who left is in no list from the next one on, and back with the next thing that they ask.
func TestLeftRidersAreHidden(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.give(s.in("Tomas"), "race add", "name", "Hill Loop", "date", "2026-06-14", "priority", "C")
	s.give(s.in("Admin"), "club setup", "coach-role", s.club.RoleID("Coach"))
	s.shows(s.give(s.in("Mira"), "coach roster"), "Ines")
	s.leaves("Ines")
	for _, a := range []discordtest.Answer{s.give(s.in("Tomas"), "race list"), s.give(s.in("Mira"), "coach roster"), s.give(s.in("Mira"), "coach digest"), s.give(s.in("Mira"), "coach athlete", "athlete", "Ines")} {
		if strings.Contains(strings.ReplaceAll(a.Text(), `called "Ines"`, ""), "Ines") {
			t.Errorf("shows who left:\n%s", a.Text())
		}
	}
	if _, a := s.rider("Ines"); a.Left.IsZero() {
		t.Error("nothing is stored of it")
	}
	s.returns()
	s.shows(s.give(s.in("Ines"), "race list"), "Ines")
	if _, a := s.rider("Ines"); !a.Left.IsZero() {
		t.Errorf("left on %s, though back", a.Left)
	}
}

// A digest that nobody asked for leaves out who left.
func TestDigestLooksFirst(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.tapering("Tomas")
	s.leaves("Ines")
	club, _ := s.rider("Tomas")
	reply, err := lookedUp{s.app}.Digest(t.Context(), club, s.now())
	if err != nil || strings.Contains(reply.Text(), "Ines") || !strings.Contains(reply.Text(), "Tomas") {
		t.Errorf("%v:\n%s", err, reply.Text())
	}
}

// A list does not wait for more look-ups than it may, and stands without any.
func TestLookUpsAreBounded(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Tomas")
	club, _ := s.rider("Tomas")
	s.end() // the daily look-up would count too
	for i := range 3 * lookList {
		if _, err := s.db.EnsureAthlete(t.Context(), club.ID, personKey(fmt.Sprint(900000+i)), "Rider"); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.app.lookUp(t.Context(), &club, lookList, time.Minute); err != nil {
		t.Fatal(err)
	}
	if left := 3*lookList + 1 - len(must(s.db.Athletes(t.Context(), club.ID))); left != lookList {
		t.Errorf("%d riders looked up, want %d", left, lookList)
	}
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Status: 403, Code: 50035, Times: -1})
	if err := s.app.lookUp(t.Context(), &club, lookList, time.Minute); err == nil {
		t.Error("no error where Discord refuses")
	}
	s.run()
	s.shows(s.give(s.in("Tomas"), "race list"), "Tomas")
	if left := 3*lookList + 1 - len(must(s.db.Athletes(t.Context(), club.ID))); left != lookList {
		t.Errorf("%d riders are marked, want %d", left, lookList)
	}
}

// The daily look-up finds who left and who is back. Nobody is erased while Discord does not answer.
func TestErasureOfLeftRiders(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.tapering("Ines")
	s.tapering("Tomas")
	// from here on, so that the bot's own look at them erases nobody either
	fault := s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Status: 503, Times: -1})
	club, ines := s.rider("Ines")
	_, tomas := s.rider("Tomas")
	today := planner.DateOf(s.now())
	for _, a := range []storage.Athlete{ines, tomas} {
		if err := s.db.MarkLeft(t.Context(), a.ID, today.AddDays(-storage.KeepLeft)); err != nil {
			t.Fatal(err)
		}
	}
	s.leaves("Ines") // Tomas is there, whatever was found 30 days ago
	looked := today.AddDays(-1)
	s.app.eraseLeft(t.Context(), today, &looked)
	if n := len(must(s.db.AllAthletes(t.Context(), club.ID))); n != 2 || looked == today {
		t.Errorf("%d riders are left, looked up on %s", n, looked)
	}
	fault.Stop()
	s.app.eraseLeft(t.Context(), today, &looked)
	all := must(s.db.AllAthletes(t.Context(), club.ID))
	if len(all) != 1 || all[0].ID != tomas.ID || !all[0].Left.IsZero() || looked != today {
		t.Errorf("riders %+v, looked up on %s", all, looked)
	}
}
