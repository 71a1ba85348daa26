package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
	"musette/planner/engine"
)

// Heavy legs change nothing by themselves; the easier form is one press away.
func TestTired(t *testing.T) {
	k := withWeek(t)
	before := k.Facts()
	reply := k.OK("/tell tired")
	bottest.Wants(t, reply, "Today, Tue 2 Jun: intervals 1h30, 5x3min hard. Nothing changes unless you say so.", "Easier: recovery 30min. It costs one hard session")
	if !bottest.SameFacts(before, k.Facts()) {
		t.Error("something is stored")
	}
	taken := k.Press(reply, "Take the easier form")
	bottest.Wants(t, taken, "at most 30min")
	bottest.Wants(t, k.OK("/ride"), "Why: You took the easier form of this day, at most 30min.")
	k.Undo(taken)
	bottest.Wants(t, k.OK("/done", "/tell tired"), "Heavy legs on Tue 2 Jun: the day is over")
	bottest.Wants(t, k.OK("/tell tired day:yesterday"), "Heavy legs on Mon 1 Jun")
	k.Refused("/tell tired day:tomorrow", "day")
	k.Say("I have chest pain")
	if held := k.OK("/tell tired"); strings.Contains(held.Text(), "Easier") || len(held.Buttons) != 3 {
		t.Errorf("held:\n%s", held.Text())
	}
}

// Twice within a few days the answer says what that may mean and that the coach
// sees it, and the coach does.
func TestTiredTwice(t *testing.T) {
	k := withWeek(t)
	const told = "Your coach sees these days in the digest."
	digest := func() string {
		return strings.ToLower(k.Say("/coach digest").Text() + k.Say("/coach athlete athlete:Ines").Text())
	}
	first := k.OK("/tell tired")
	bottest.Wants(t, first, "If your legs are heavy again within 5 days, tell me, and your coach sees it too.")
	k.Who.Coach = true
	if again := k.OK("/tell tired"); strings.Contains(again.Text(), told) || strings.Contains(digest(), "heavy legs") {
		t.Errorf("one day counts twice:\n%s", again.Text())
	}
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	second := k.OK("/tell tired")
	bottest.Wants(t, second, "You had heavy legs on Tue 2 Jun and Fri 5 Jun. That may mean too little rest, sleep or food, or an illness on its way.", told, "Easier:")
	if got := digest(); strings.Count(got, "heavy legs on tue 2 jun and fri 5 jun") < 2 {
		t.Errorf("the coach does not see it:\n%s", got)
	}
	k.Undo(second)
	if got := digest(); strings.Contains(got, "heavy legs") {
		t.Errorf("taken back, the coach sees it:\n%s", got)
	}
	k.Refused("/tell tired legs:fine", "legs")
	k.Who.Now = bottest.At("2026-06-07T08:00:00Z") // the first day is six days back
	if third := k.OK("/tell tired"); strings.Contains(third.Text(), told) || strings.Contains(digest(), "heavy legs") {
		t.Errorf("days far apart count together:\n%s", third.Text())
	}
	k.OK("/tell tired day:2026-06-04", "/tell sick symptoms:fever")
	if got := digest(); strings.Contains(got, "heavy legs") || !strings.Contains(got, "not training: health") {
		t.Errorf("an ill rider's legs are told:\n%s", got)
	}
}

// The easier form that was taken is what counts as planned when the day is logged:
// the day was not hard, whatever the plan had in the morning.
func TestEasierFormIsLoggedAsEasy(t *testing.T) {
	k := withWeek(t)
	k.Press(k.OK("/tell tired"), "Take the easier form")
	bottest.Wants(t, k.OK("/done"), "Noted: 30min on Tue 2 Jun, as planned.")
	all := k.Stored().([]any)[4].(planner.Facts)
	day, _ := engine.Derive(planner.NewDate(2026, 6, 2), &all).Day(planner.NewDate(2026, 6, 2))
	if day.IsHard() || day.Sessions[0].Kind != planner.Recovery {
		t.Errorf("logged as %+v", day.Sessions)
	}
	k.Undo(k.OK("/done rpe:9"))
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	bottest.Wants(t, k.OK("/ride yesterday"), "Yesterday, Tue 2 Jun: you rode 30min. Planned: recovery 30min.")
}

// Inside a taper no other day becomes hard for a hard session that is missed or taken
// in its easier form: what is said and what happens are the same.
func TestNothingIsMadeUpInATaper(t *testing.T) {
	const week = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu rest; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"
	for _, early := range []bool{true, false} {
		for left := 3; left <= 13; left++ {
			for _, does := range []string{"/tell missed", "easier", "/done 30 rpe:3"} {
				k := bottest.NewTalk(t)
				race := planner.NewDate(2026, 6, 2).AddDays(left)
				if early {
					k.Who.Now = bottest.At("2026-05-01T08:00:00Z")
				}
				k.Who.Now = k.Who.Now.AddDate(0, 0, 1)
				k.OK(`/week share week:"`+week+`"`, `/race add name:"Hill Loop" date:`+race.String()+` priority:A hours:3.5`)
				k.Who.Now = bottest.At("2026-06-02T08:00:00Z")
				before := hardDays(k, race)
				reply := k.OK("/ride")
				if does == "easier" {
					if reply = k.OK("/tell tired"); len(reply.Buttons) < 2 {
						continue
					}
					reply = k.Press(reply, "Take the easier form")
				} else {
					reply = k.OK(does)
				}
				for day := range hardDays(k, race) {
					if !before[day] {
						t.Errorf("D-%d, early %v, %s: %s becomes hard:\n%s", left, early, does, day, reply.Text())
					}
				}
				if does == "easier" {
					k.Undo(reply)
					if got := hardDays(k, race); len(got) != len(before) {
						t.Errorf("D-%d: undone %v, before %v", left, got, before)
					}
				}
			}
		}
	}
}

// hardDays are the days from today to before a race on which something is hard.
func hardDays(k *bottest.Talk, race planner.Date) map[planner.Date]bool {
	all := k.Stored().([]any)[4].(planner.Facts)
	today := planner.DateOf(k.Who.Now)
	out := map[planner.Date]bool{}
	plan := engine.Derive(today, &all)
	for i := range plan.Days {
		if d := &plan.Days[i]; d.Date < race && d.IsHard() {
			out[d.Date] = true
		}
	}
	return out
}

// An easier form of a day comes back by Undo while training is held back, too, and no session is told with it.
func TestEasierFormComesBackWhileHeld(t *testing.T) {
	k := withWeek(t)
	k.Press(k.OK("/tell tired"), "Take the easier form")
	k.Say("I banged my head")
	before := k.Facts()
	for _, line := range []string{"/tell limit day:today minutes:30", "/tell limit day:today minutes:none"} {
		changed := k.OK(line)
		if bottest.SameFacts(before, k.Facts()) {
			t.Errorf("%s changes nothing", line)
		}
		back := k.Press(changed, "Undo")
		if bottest.Wants(t, back, "! Stop riding and have your head checked"); !bottest.SameFacts(before, k.Facts()) {
			t.Errorf("%s, undone: %+v, was %+v", line, k.Facts().Limits, before.Limits)
		}
		if strings.Contains(back.Text(), "recovery") {
			t.Errorf("a session is told:\n%s", back.Text())
		}
	}
}
