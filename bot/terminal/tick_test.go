package terminal

import (
	"slices"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/say"
	"musette/storage"
	"musette/storage/storagetest"
)

func newTicking(t *testing.T) (*Session, *storage.DB) {
	t.Helper()
	db := storagetest.New(t)
	clock := new(Clock)
	db.Now = clock.Now
	s, err := Open(t.Context(), Config{Bot: bot.New(bot.Deps{DB: db}), DB: db, Clock: clock, Club: "Marrow Vale Wheelers", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-06-01T08:00"})
	if err != nil {
		t.Fatal(err)
	}
	return s, db
}

func labels(r say.Reply) (all []string) {
	for _, b := range r.Buttons {
		all = append(all, b.Label)
	}
	return all
}

// What is owed comes once, and its buttons are the rider's.
func TestTick(t *testing.T) {
	s, _ := newTicking(t)
	if r := enter(t, s, ":tick"); r.Text() != "Nothing is due." || len(r.Sent) != 0 {
		t.Errorf("got %+v", r)
	}
	for _, name := range []string{"Tomas", "Ines"} {
		for _, line := range []string{":as " + name, week, `/race add name:"Hill Loop" date:2026-06-14 priority:A`, "/me set remind:always 06:30"} {
			if r := enter(t, s, line); r.Err != nil {
				t.Fatalf("%s: %s", line, r.Text())
			}
		}
	}
	enter(t, s, ":now 2026-06-02T06:29")
	if r := enter(t, s, ":tick"); r.Text() != "Nothing is due." {
		t.Errorf("a minute before: %s, %+v", r.Text(), r.Sent)
	}
	enter(t, s, ":now 2026-06-02T06:30")
	r := enter(t, s, ":tick")
	if r.Text() != "2 messages sent." || len(r.Sent) != 2 {
		t.Fatalf("got %s, %+v", r.Text(), r.Sent)
	}
	for i, name := range []string{"Tomas", "Ines"} {
		if m := r.Sent[i]; m.To != name || m.Kind != "reminder" || !strings.Contains(m.Text(), "Tue 2 Jun") {
			t.Errorf("got %+v", m)
		}
	}
	if !slices.Contains(labels(r), "Rode it") {
		t.Fatalf("buttons %v", labels(r))
	}
	// Ines has the buttons, so that no line of hers says what they do; Tomas has none here.
	const stop = "/me set remind:off"
	if tomas, ines := r.Sent[0].Text(), r.Sent[1].Text(); !strings.Contains(tomas, stop) || strings.Contains(ines, stop) {
		t.Errorf("Tomas reads\n%s\nInes reads\n%s", tomas, ines)
	}
	if r := enter(t, s, ":press Rode it"); r.Err != nil {
		t.Errorf("pressed: %s", r.Text())
	}
	if r := enter(t, s, ":tick"); r.Text() != "Nothing is due." || len(r.Buttons) != 0 {
		t.Errorf("twice: %+v", r)
	}
	enter(t, s, "/me set remind:off")
	enter(t, s, ":now 2026-06-03T12:00")
	if r := enter(t, s, ":tick"); r.Text() != "1 message sent." || len(r.Sent) != 1 || r.Sent[0].To != "Tomas" || len(r.Buttons) != 0 {
		t.Errorf("after one stopped: %+v", r)
	}
}

// The digest goes to the club, its file and buttons are for coaches.
func TestTickDigest(t *testing.T) {
	s, _ := newTicking(t)
	enter(t, s, week)
	enter(t, s, `/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	enter(t, s, ":coach on")
	enter(t, s, "/club setup digest-day:monday digest-time:07:00")
	enter(t, s, ":now 2026-06-08T07:00")
	r := enter(t, s, ":tick")
	if len(r.Sent) != 1 || r.Sent[0].To != "#Marrow Vale Wheelers" || r.Sent[0].Kind != "digest" || !strings.Contains(r.Sent[0].Text(), "Marrow Vale Wheelers") {
		t.Fatalf("got %+v", r)
	}
	if len(r.Files) == 0 {
		t.Error("no file for the coach")
	}
	enter(t, s, ":coach off")
	enter(t, s, ":now 2026-06-15T07:00")
	if r := enter(t, s, ":tick"); len(r.Sent) != 1 || len(r.Files) != 0 {
		t.Errorf("a rider got %+v", r)
	}
}

// A terminal does not swallow what the bot on Discord owes.
func TestTickLeavesDiscordAlone(t *testing.T) {
	s, db := newTicking(t)
	if _, err := db.EnsureClub(t.Context(), storage.PlatformKey("discord", "7"), "Harbour Riders", "UTC"); err != nil {
		t.Fatal(err)
	}
	if r := enter(t, s, ":tick"); r.Err == nil || r.Err.Field != "tick" || !strings.Contains(r.Text(), "musette serve") {
		t.Errorf("got %+v", r)
	}
}

// Heavy legs under a reminder: nothing changes before the press that takes the easier form.
func TestHeavyLegsUnderTheReminder(t *testing.T) {
	s, _ := newTicking(t)
	for _, line := range []string{week, `/race add name:"Hill Loop" date:2026-06-14 priority:A`, `/me set remind:"always 06:30"`, ":coach on"} {
		if r := enter(t, s, line); r.Err != nil {
			t.Fatalf("%s: %s", line, r.Text())
		}
	}
	said := func(line string, texts ...string) {
		t.Helper()
		r := enter(t, s, line)
		for _, text := range texts {
			if r.Err != nil || !strings.Contains(r.Text(), text) {
				t.Errorf("%s lacks %q:\n%s", line, text, r.Text())
			}
		}
	}
	planned := ""
	for _, day := range []string{"2026-06-02", "2026-06-06"} {
		enter(t, s, ":now "+day+"T06:30")
		planned = firstOf(enter(t, s, "/ride"))
		enter(t, s, ":tick")
		said(":press Heavy legs", planned[:len(planned)-1]+". Nothing changes unless you say so.", "Easier: ", "It costs")
		if now := firstOf(enter(t, s, "/ride")); now != planned {
			t.Errorf("heavy legs alone changed %q to %q", planned, now)
		}
		enter(t, s, ":tick")
	}
	said("/tell tired", "Your coach sees these days in the digest.")
	said(":press Take the easier form", "What changes in your plan:")
	if now := firstOf(enter(t, s, "/ride")); now == planned {
		t.Errorf("the easier form was not taken: %q", now)
	}
	said("/coach digest", "Ines: heavy legs on Tue 2 Jun and Sat 6 Jun")
}

// firstOf is the first line of a reply.
func firstOf(r say.Reply) string {
	line, _, _ := strings.Cut(r.Text(), "\n")
	return line
}
