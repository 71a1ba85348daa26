package remind_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// While training is held back reminders are silent but for a question after three
// silent days, whose first line tells nothing of health.
func TestHoldSilencesReminders(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:always 06:30")
	who, _ := k.Base.Rider(t.Context(), k.Who)
	start := who.Today
	k.Say("I have chest pain")
	for n := 1; n <= 7; n++ {
		date := start.AddDays(n).String()
		r, due := reminder(k, date)
		if due != (n%3 == 0) {
			t.Errorf("%d days after: due %v\n%s", n, due, r.Text())
		}
		if !due {
			continue
		}
		bottest.Wants(t, r, "Is that still right?", "112", "A doctor has cleared me")
		if first := bottest.FirstLine(r); !strings.HasPrefix(first, "How are you today") || len(r.Buttons) > 5 || strings.Contains(r.Text(), "intervals") {
			t.Errorf("%s", r.Text())
		}
	}
	bottest.Wants(t, k.OK("/me set remind:07:00"), "no sessions while your training is held back")
}

func TestStillIllIsAsked(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:always 06:30", "/tell sick symptoms:fever")
	who, _ := k.Base.Rider(t.Context(), k.Who)
	r, due := reminder(k, who.Today.AddDays(3).String())
	if !due {
		t.Fatal("nothing is asked")
	}
	bottest.Wants(t, r, "How are you today", "Are you still ill, since")
	k.Who.Now = k.Who.Now.AddDate(0, 0, 3)
	bottest.Wants(t, k.Press(r, "Still ill"), "still ill, since")
	bottest.Wants(t, k.Press(r, "I am well"), "well from today")
	if r, _ := reminder(k, who.Today.AddDays(6).String()); strings.Contains(r.Text(), "Still ill") {
		t.Errorf("asked again:\n%s", r.Text())
	}
}

// A question that falls into a pause comes on the first day after it.
func TestQuestionAfterAPause(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:always 06:30")
	who, _ := k.Base.Rider(t.Context(), k.Who)
	k.Say("I have chest pain")
	k.OK("/me set pause:3")
	athlete, _ := k.Base.Rider(t.Context(), k.Who)
	paused := athlete.Athlete.Settings.Remind.Pause
	if n := who.Today.DaysUntil(paused) + 1; n != 4 {
		t.Fatalf("the day after the pause is day %d", n)
	}
	if r, due := reminder(k, (paused + 1).String()); !due {
		t.Error("nothing is asked after the pause")
	} else {
		bottest.Wants(t, r, "Is that still right?")
	}
	if _, due := reminder(k, (paused + 2).String()); due {
		t.Error("asked on both days")
	}
}
