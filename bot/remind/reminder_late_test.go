package remind_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/storage"
)

// After the start nobody is wished luck or told to warm up.
func TestReminderAfterTheStart(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:\"always 20:00\"")
	r, due := reminder(k, "2026-07-05")
	if !due || strings.Contains(r.Text(), "Good luck") || strings.Contains(r.Text(), "Warm up") {
		t.Errorf("due %v:\n%s", due, r.Text())
	}
	bottest.Wants(t, r, "How were your legs?\nTell me from 1 to 10: /race result race:\"Hill Loop 2026-07-05\" feeling:7")
}

// "none" is no placing and no note.
func TestResultWithoutPlace(t *testing.T) {
	k := withPlan(t)
	k.Who.Now = bottest.At("2026-07-06T08:00:00Z")
	if r := k.OK("/race result race:\"Hill Loop\" feeling:8 result:none note:none"); strings.Contains(r.Text(), "none") && !strings.Contains(r.Text(), "feeling:none") {
		t.Errorf("got %s", r.Text())
	}
}

// The digest is for coaches: not where all read.
func TestDigestHasAChannelOfItsOwn(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Coach = true
	for _, line := range []string{"/club setup channel:#races coaches-channel:#races", "/club setup coaches-channel:#RACES"} {
		if strings.HasSuffix(line, "#RACES") {
			k.OK("/club setup channel:#races")
		}
		bottest.Wants(t, k.Refused(line, "coaches-channel"), "only coaches read")
	}
}

// A coach with settings of their own is no rider.
func TestCoachIsNoRider(t *testing.T) {
	k := bottest.Wheelers(t, 2)
	k.OK("/me set zone:Europe/Berlin")
	if r := k.OK("/coach roster"); strings.Contains(r.Text(), "Coach:") || !strings.Contains(r.Text(), "2 riders") {
		t.Errorf("got %s", r.Text())
	}
}

// What was told since the last digest is in the next one, however late that comes.
func TestLateDigestLosesNothing(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-05-16T08:00:00Z")
	k.OK("/week share week:"+say.Quote(bottest.InesWeek), "/race add name:Big date:2026-05-17 priority:C")
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	k.DB.Now = func() time.Time { return bottest.At("2026-05-18T07:00:00Z") }
	claimed, err := k.DB.Claim(context.Background(), []storage.Post{{Kind: storage.PostDigest, Key: who.Club.Key, Day: day(t, "2026-05-18"), Club: who.Club.ID, Due: bottest.At("2026-05-18T06:00:00Z"), State: storage.PostSent}})
	if err != nil || len(claimed) != 1 {
		t.Fatalf("%v, %v", claimed, err)
	}
	k.Who.Now = bottest.At("2026-05-19T08:00:00Z")
	k.OK("/tell missed day:2026-05-19")
	for now, want := range map[string]bool{"2026-05-27T06:00:00Z": true, "2026-05-20T06:00:00Z": true} {
		r, err := k.Bot.Digest(t.Context(), who.Club, bottest.At(now))
		if err != nil || strings.Contains(r.Text(), "missed intervals on Tue 19 May") != want {
			t.Errorf("%s: %v\n%s", now, err, r.Text())
		}
	}
}

// "on" is what it was before, or the days that differ.
func TestRemindOn(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:on")
	if got := reminders(k); got.Mode != storage.RemindChanged || got.At != "06:30" {
		t.Errorf("got %v at %s", got.Mode, got.At)
	}
	k.OK("/me set remind:\"always, 07:00\"", "/me set remind:on")
	if got := reminders(k); got.Mode != storage.RemindAlways || got.At != "07:00" {
		t.Errorf("got %v at %s", got.Mode, got.At)
	}
}
