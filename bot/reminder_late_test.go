package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"musette/storage"
)

// After the start nobody is wished luck or told to warm up.
func TestReminderAfterTheStart(t *testing.T) {
	k := withPlan(t)
	k.ok("/me set remind:\"always 20:00\"")
	r, due := k.reminder("2026-07-05")
	if !due || strings.Contains(r.Text(), "Good luck") || strings.Contains(r.Text(), "Warm up") {
		t.Errorf("due %v:\n%s", due, r.Text())
	}
	wants(t, r, "How did it go? /race result race:\"Hill Loop 2026-07-05\" feeling:7")
}

// "none" is no placing and no note.
func TestResultWithoutPlace(t *testing.T) {
	k := withPlan(t)
	k.who.Now = at("2026-07-06T08:00:00Z")
	if r := k.ok("/race result race:\"Hill Loop\" feeling:8 result:none note:none"); strings.Contains(r.Text(), "none") && !strings.Contains(r.Text(), "feeling:none") {
		t.Errorf("got %s", r.Text())
	}
}

// The digest is for coaches: not where all read.
func TestDigestHasAChannelOfItsOwn(t *testing.T) {
	k := newTalk(t)
	k.who.Coach = true
	for _, line := range []string{"/club setup channel:#races coaches-channel:#races", "/club setup coaches-channel:#RACES"} {
		if strings.HasSuffix(line, "#RACES") {
			k.ok("/club setup channel:#races")
		}
		wants(t, k.refused(line, "coaches-channel"), "only coaches read")
	}
}

// A coach with settings of their own is no rider.
func TestCoachIsNoRider(t *testing.T) {
	k := wheelers(t, 2)
	k.ok("/me set zone:Europe/Berlin")
	if r := k.ok("/coach roster"); strings.Contains(r.Text(), "Coach:") || !strings.Contains(r.Text(), "2 riders") {
		t.Errorf("got %s", r.Text())
	}
}

// What was told since the last digest is in the next one, however late that comes.
func TestLateDigestLosesNothing(t *testing.T) {
	k := newTalk(t)
	k.who.Now = at("2026-05-16T08:00:00Z")
	k.ok("/week share week:"+Quote(inesWeek), "/race add name:Big date:2026-05-17 priority:C")
	who, err := k.base.rider(k.t.Context(), k.who)
	if err != nil {
		t.Fatal(err)
	}
	k.db.Now = func() time.Time { return at("2026-05-18T07:00:00Z") }
	claimed, err := k.db.Claim(context.Background(), []storage.Post{{Kind: storage.PostDigest, Key: who.club.Key, Day: day(t, "2026-05-18"), Club: who.club.ID, Due: at("2026-05-18T06:00:00Z"), State: storage.PostSent}})
	if err != nil || len(claimed) != 1 {
		t.Fatalf("%v, %v", claimed, err)
	}
	k.who.Now = at("2026-05-19T08:00:00Z")
	k.ok("/tell missed day:2026-05-19")
	for now, want := range map[string]bool{"2026-05-27T06:00:00Z": true, "2026-05-20T06:00:00Z": true} {
		r, err := k.bot.Digest(t.Context(), who.club, at(now))
		if err != nil || strings.Contains(r.Text(), "missed intervals on Tue 19 May") != want {
			t.Errorf("%s: %v\n%s", now, err, r.Text())
		}
	}
}

// "on" is what it was before, or the days that differ.
func TestRemindOn(t *testing.T) {
	k := withPlan(t)
	k.ok("/me set remind:on")
	if got := k.reminders(); got.Mode != storage.RemindChanged || got.At != "06:30" {
		t.Errorf("got %v at %s", got.Mode, got.At)
	}
	k.ok("/me set remind:\"always, 07:00\"", "/me set remind:on")
	if got := k.reminders(); got.Mode != storage.RemindAlways || got.At != "07:00" {
		t.Errorf("got %v at %s", got.Mode, got.At)
	}
}
