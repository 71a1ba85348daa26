package storage

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"musette/planner"
)

func TestEnsureClub(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	db.Now = fixedNow("2026-05-01T10:00:00.123+02:00")
	made := must(db.EnsureClub(ctx, NameKey("home"), "home", "Europe/Lisbon"))
	want := Club{ID: made.ID, Key: NameKey("home"), Name: "home", Setup: DefaultSetup(), Zone: "Europe/Lisbon", Added: time.Date(2026, 5, 1, 8, 0, 0, 123e6, time.UTC)}
	if diff := diff(want, made); diff != "" {
		t.Errorf("club (-want +got):\n%s", diff)
	}
	if _, err := db.writer.Exec(`UPDATE club SET channel = 'races'`); err != nil {
		t.Fatal(err)
	}
	want.Setup.Channel = "races"
	if diff := diff(want, must(db.EnsureClub(ctx, NameKey("home"), "home", "Asia/Tokyo"))); diff != "" {
		t.Errorf("known club (-want +got):\n%s", diff)
	}
	for _, zone := range []string{"", "Local", "Mars/Base", "../etc/passwd"} {
		_, err := db.EnsureClub(ctx, NameKey("new"), "new", zone)
		wantInputError(t, err, "zone")
	}
	for _, name := range []string{"", " ", strings.Repeat("ü", planner.MaxText+1), "a\x00b", "a\xffb", "Ann\u200b", "\u202eAnn", "A\u200dnn", "A\u2060nn", "A\u00adnn", "\u3164"} {
		_, err := db.EnsureClub(ctx, NameKey(name), name, "UTC")
		wantInputError(t, err, "club")
		_, err = db.EnsureAthlete(ctx, made.ID, NameKey(name), name)
		wantInputError(t, err, "rider")
	}
}

func TestEnsureAthlete(t *testing.T) {
	db := newTestDB(t)
	db.Now = fixedNow("2026-05-01T10:00:00Z")
	made := mustAthlete(t, db, "home", "me")
	want := Athlete{
		ID: made.ID, Club: made.Club, Key: NameKey("me"), Name: "me", Zone: "Europe/Lisbon",
		Settings: Settings{Announce: true, Remind: DefaultReminders()}, Added: db.Now(),
	}
	if diff := diff(want, made); diff != "" {
		t.Errorf("rider (-want +got):\n%s", diff)
	}
	if diff := diff(made, mustAthlete(t, db, "home", "me")); diff != "" {
		t.Errorf("known rider (-want +got):\n%s", diff)
	}
	if other := mustAthlete(t, db, "away", "me"); other.ID == made.ID {
		t.Error("the same name in two clubs is one rider")
	}
}

func TestUpdateSettings(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	rider := mustAthlete(t, db, "home", "me")
	bystander := mustAthlete(t, db, "home", "other")
	want := Settings{
		Zone: "America/New_York", Coach: true,
		Taper:  planner.Taper{Days: 28, Cut: 80, Pattern: planner.EveryThirdDay, OpenersD2: true, Told: planner.Told{On: today}},
		Remind: Reminders{Mode: RemindAlways, At: "23:59", By: RemindRide, Pause: day(t, "2026-06-07"), Since: time.UnixMilli(1780000000123).UTC()},
	}
	changed := must(db.UpdateSettings(ctx, rider.ID, today, func(s *Settings) error { *s = want; return nil }))
	if diff := diff(want, changed.Settings); diff != "" || changed.Zone != want.Zone {
		t.Errorf("settings in zone %s (-want +got):\n%s", changed.Zone, diff)
	}

	refusal := errors.New("no")
	for name, change := range map[string]func(*Settings) error{
		"own error": func(s *Settings) error { s.Coach = false; return refusal },
		"zone":      func(s *Settings) error { s.Zone = "Local"; return nil },
		"days":      func(s *Settings) error { s.Taper.Days = 3; return nil },
		"cut":       func(s *Settings) error { s.Taper.Cut = 81; return nil },
	} {
		_, err := db.UpdateSettings(ctx, rider.ID, today, change)
		if name == "own error" {
			wantError(t, err, refusal)
		} else {
			wantInputError(t, err, name)
		}
	}
	if diff := diff(changed, athleteNow(t, db, rider.ID)); diff != "" {
		t.Errorf("a refused change left a trace (-want +got):\n%s", diff)
	}
	if diff := diff(bystander, athleteNow(t, db, bystander.ID)); diff != "" {
		t.Errorf("another rider changed (-want +got):\n%s", diff)
	}

	back := must(db.UpdateSettings(ctx, rider.ID, today, func(s *Settings) error { s.Zone = ""; return nil }))
	if got, want := back.Zone, "Europe/Lisbon"; got != want {
		t.Errorf("got zone %s, want the club's %s", got, want)
	}
}
