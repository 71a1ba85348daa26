package main

import (
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// How reminders fare is told from the database, also while Discord is away.
func TestCheckTellsAboutReminders(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	guild := s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	t.Chdir(t.TempDir())
	setUp(t, "musette.db", guild)
	_, out, _ := checkOn(t, s, hiddenToken)
	hasLines(t, out, "note  reminders: none were looked for yet", "note  club Marrow Vale Wheelers: a digest is wanted on monday and has no channel")
	if strings.Contains(out, "failed in the last") {
		t.Errorf("nothing failed:\n%s", out)
	}
	db := storagetest.Open(t, "musette.db")
	defer db.Close()
	club, err := db.FindClub(t.Context(), storage.PlatformKey("discord", guild.ID))
	if err != nil {
		t.Fatal(err)
	}
	today := planner.DateOf(time.Now())
	fail := func(days int, reason string) {
		t.Helper()
		post := storage.Post{Kind: storage.PostReminder, Key: storage.PlatformKey("discord", reason), Day: today.AddDays(-days), Club: club.ID, Due: time.Now(),
			State: storage.PostFailed, Reason: reason}
		db.Now = func() time.Time { return time.Now().AddDate(0, 0, -days) }
		if _, err := db.Claim(t.Context(), []storage.Post{post}); err != nil {
			t.Fatal(err)
		}
	}
	fail(10, "long ago")
	fail(1, "closed")
	if err := db.NoteTick(t.Context(), time.Now()); err != nil {
		t.Fatal(err)
	}
	_, out, _ = checkOn(t, s, hiddenToken)
	hasLines(t, out, "ok    reminders: last looked for ", "note  club Marrow Vale Wheelers: 1 reminder failed in the last 7 days: closed\n")
	fail(2, "closed")
	fail(3, "no place")
	if err := db.NoteTick(t.Context(), time.Now().Add(-time.Hour)); err != nil {
		t.Fatal(err)
	}
	if _, err := db.UpdateClub(t.Context(), club.ID, func(_ *string, setup *storage.ClubSetup) error {
		setup.DigestDay = "off"
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	digest := storage.Post{Kind: storage.PostDigest, Key: club.Key, Day: today.AddDays(-1), Club: club.ID, Due: time.Now(), State: storage.PostFailed, Reason: "it was deleted"}
	open := storage.Post{Kind: storage.PostReminder, Key: club.Key, Day: today, Club: club.ID, Due: time.Now()}
	fresh := storage.Post{Kind: storage.PostReminder, Key: club.Key, Day: today.AddDays(-1), Club: club.ID, Due: time.Now()}
	for p, before := range map[*storage.Post]time.Duration{&digest: 0, &open: 2 * time.Hour, &fresh: 0} {
		db.Now = func() time.Time { return time.Now().Add(-before) }
		if _, err := db.Claim(t.Context(), []storage.Post{*p}); err != nil {
			t.Fatal(err)
		}
	}
	_, out, _ = checkOn(t, s, hiddenToken)
	hasLines(t, out, "note  club Marrow Vale Wheelers: 1 digest failed in the last 7 days: it was deleted\n",
		"note  club Marrow Vale Wheelers: 1 message waits for more than an hour: no reason is kept\n")
	s.Fail(discordtest.Rule{Times: -1, Status: 404})
	_, out, _ = checkOn(t, s, hiddenToken)
	hasLines(t, out, "note  reminders: last looked for on 20", "note  club Marrow Vale Wheelers: 3 reminders failed in the last 7 days, most often: closed\n")
	if strings.Contains(out, "digest is wanted") {
		t.Errorf("no digest is wanted:\n%s", out)
	}
	if err := db.NoteTick(t.Context(), time.Now().Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	_, out, _ = checkOn(t, s, hiddenToken)
	hasLines(t, out, "note  reminders: last looked for on 20")
	if !strings.Contains(out, "a clock was wrong") {
		t.Error(out)
	}
}
