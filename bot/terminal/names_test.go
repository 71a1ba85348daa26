package terminal

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"strings"
	"testing"

	"musette/bot"
	"musette/storage"
	"musette/storage/storagetest"
)

// Riders and clubs are found again in other capitals and in quotes.
func TestNamesAreFoundAgain(t *testing.T) {
	s := newSession(t)
	enter(t, s, `:as "Ann Smith"`)
	enter(t, s, week)
	enter(t, s, ":as Tomas")
	enter(t, s, ":as ann smith")
	if reply := enter(t, s, "/week show"); reply.Err != nil || !strings.Contains(reply.Text(), "7h10") {
		t.Errorf("the week is lost: %s", reply.Text())
	}
}

// A last line with its end is one line, not two.
func TestNothingAfterTheLastLine(t *testing.T) {
	s := newSession(t)
	s.json = true
	var out bytes.Buffer
	if err := s.Run(t.Context(), strings.NewReader("/help\n"), &out); err != nil {
		t.Fatal(err)
	}
	if got := strings.Count(out.String(), "\n"); got != 1 {
		t.Errorf("%d answers, want 1:\n%s", got, out.String())
	}
}

// What breaks behind a control line gets a reference that is in the log, and
// shows neither the fault nor a name.
func TestControlLinesBreakThroughTheSameDoor(t *testing.T) {
	db := storagetest.New(t)
	var log bytes.Buffer
	b := bot.New(bot.Deps{DB: db, Log: slog.New(slog.NewTextHandler(&log, nil))})
	s, err := Open(t.Context(), Config{Bot: b, Club: "Secret Club", Athlete: "Ines", Home: "Europe/Lisbon"})
	if err != nil {
		t.Fatal(err)
	}
	db.Close()
	for _, line := range []string{":as Tomas", ":club Other", ":zone Asia/Tokyo", ":now 2026-06-01"} {
		log.Reset()
		reply := enter(t, s, line)
		_, after, ok := strings.Cut(reply.Text(), "the reference ")
		if reply.Err == nil || !ok || !strings.Contains(log.String(), "ref="+strings.TrimSuffix(after, ".")) {
			t.Errorf("%s: %q, log %s", line, reply.Text(), log.String())
		}
		for _, name := range []string{"database is closed", "Tomas", "Other", "Secret", "Ines"} {
			if strings.Contains(reply.Text(), name) || name != "database is closed" && strings.Contains(log.String(), name) {
				t.Errorf("%s: %q is shown: %s\n%s", line, name, reply.Text(), log.String())
			}
		}
	}
}

// Speaking as somebody stores nothing of them.
func TestTalkingMakesNobody(t *testing.T) {
	db := storagetest.New(t)
	s, err := Open(t.Context(), Config{Bot: bot.New(bot.Deps{DB: db}), Club: "home", Athlete: "Ines", Home: "Europe/Lisbon", Zone: "tokyo", Now: "2026-06-01T08:00"})
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"/race list", ":as Tomas", "/ride", ":club Other", "/help", ":as Ines", ":club home"} {
		enter(t, s, line)
	}
	s.complete(t.Context(), "/plan show race:h")
	if club, err := db.FindClub(t.Context(), storage.NameKey("home")); err == nil {
		t.Fatalf("club %+v was made", club)
	}
	enter(t, s, week)
	club, err := db.FindClub(t.Context(), storage.NameKey("HOME"))
	if err != nil || club.Zone != "Europe/Lisbon" {
		t.Fatalf("club %+v, %v; want zone Europe/Lisbon", club, err)
	}
	if rider, err := db.FindAthlete(t.Context(), club.ID, storage.NameKey("INES")); err != nil || rider.Settings.Zone != "Asia/Tokyo" {
		t.Errorf("rider %+v, %v; want zone Asia/Tokyo", rider, err)
	}
}

// The end of ctx ends a session that waits for input, and finishes the line that has begun.
func TestRunEndsWithItsContext(t *testing.T) {
	s := newSession(t)
	ctx, cancel := context.WithCancel(t.Context())
	in, typing := io.Pipe()
	out := &cancelling{cancel: cancel}
	go io.WriteString(typing, week+"\n/help\n")
	if err := s.Run(ctx, in, out); err != nil {
		t.Errorf("an interrupt is an error: %v", err)
	}
	if !strings.Contains(out.got.String(), "Your week from") || strings.Contains(out.got.String(), "broke") {
		t.Errorf("the line that had begun: %s", out.got.String())
	}
	in.Close()
}

// cancelling ends its context with the first write.
type cancelling struct {
	got    bytes.Buffer
	cancel context.CancelFunc
}

func (c *cancelling) Write(p []byte) (int, error) {
	c.cancel()
	return c.got.Write(p)
}
