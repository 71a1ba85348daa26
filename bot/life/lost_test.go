package life_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

const threeHardDays = `/week share week:"mon rest; tue intervals 1h30 5x4min; wed endurance 1h30; thu intervals 1h15 8x2min; fri rest; sat intervals 2h 4x8min; sun long 3h30"`

// From the second day on that falls out of a taper replies say which are lost and which
// hard rides stay. The first one's own reason says all of it.
func TestSecondLostDayOfATaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(threeHardDays, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:4`)
	k.Who.Now = bottest.At("2026-06-21T20:00:00Z")
	for _, line := range []string{"/tell missed day:2026-06-20", "/plan why 2026-06-20", "/ride 2026-06-20", "/plan show"} {
		if text := k.OK(line).Text(); strings.Contains(text, "lost") {
			t.Errorf("%s after one missed ride says:\n%s", line, text)
		}
	}
	k.Who.Now = bottest.At("2026-06-23T20:00:00Z")
	const two = "2 days of the taper for Hill Loop are lost: Sat 20 Jun and Tue 23 Jun. Your hard ride on Thu 25 Jun stays, and so do your openers on Sat 27 Jun."
	bottest.Wants(t, k.OK("/tell missed"), "You do not make it up: what you miss in a taper stays missed, and the days after it stay as they are.\nNo planned day changes.\n"+two)
	bottest.Wants(t, k.OK("/plan why"), "A missed session is never made up.", two)
	bottest.Wants(t, k.OK("/plan why 2026-06-20"), two)
	bottest.Wants(t, k.OK("/ride"), "It is not made up.\n"+two)
	bottest.Wants(t, k.OK("/ride 2026-06-20"), "It is not made up.\n"+two)
	bottest.Wants(t, k.OK("/plan show"), "Today is day 5 of 9. "+two)
	if text := k.OK("/plan why 2026-06-25").Text(); strings.Contains(text, "lost") {
		t.Errorf("a day that stays says:\n%s", text)
	}
	k.Who.Now = bottest.At("2026-06-25T20:00:00Z")
	last := k.OK("/tell missed")
	bottest.Wants(t, last, "! The taper for Hill Loop has no hard day left, because what you missed or rode easily is not made up.",
		"3 days of the taper for Hill Loop are lost: Sat 20 Jun, Tue 23 Jun and Thu 25 Jun. Of the hard work only your openers on Sat 27 Jun stay.")
	if strings.Contains(last.Text(), "room for one") {
		t.Errorf("there was room:\n%s", last.Text())
	}
	bottest.Wants(t, k.OK("/tell away 2026-06-27"), "No hard ride and no openers are left in it.")
}

// Days away that lie apart have their reason each, also a hard ride that comes early for
// the second of them, and what is usual is that of the days that are left.
func TestSecondDayAwayInATaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(threeHardDays, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:4`)
	k.Who.Now = bottest.At("2026-06-21T20:00:00Z")
	const lost = "2 days of the taper for Hill Loop are lost: Tue 23 Jun and Thu 25 Jun. Your hard rides on Mon 22 Jun and Wed 24 Jun stay, and so do your openers on Sat 27 Jun."
	k.OK("/tell away 2026-06-23")
	bottest.Wants(t, k.OK("/tell away 2026-06-25"), "Thu 25 Jun rest (until now intervals 45min 4x2min)\n"+lost)
	shown := k.OK("/plan show")
	bottest.Wants(t, shown, "with 25 % less riding than usual.\n", "instead of the usual 9h on the days that you are not away. You ride on 5 of the 9 days. ", lost,
		"  The hard session of Tue 23 Jun comes here", "  The hard session of Thu 25 Jun comes here")
	if n := strings.Count(shown.Text(), "\n  You said that you are away."); n != 2 {
		t.Errorf("%d of 2 days away have their reason:\n%s", n, shown.Text())
	}
	bottest.Wants(t, k.OK("/ride 2026-06-25"), "Why: You said that you are away.\n"+lost)
	bottest.Wants(t, k.OK("/plan why 2026-06-25"), lost)

	k.OK("/tell away from:2026-06-23 to:2026-06-23 kind:none", "/tell away from:2026-06-25 to:2026-06-25 kind:none")
	k.OK("/tell away from:2026-06-23 to:2026-06-25")
	shown = k.OK("/plan show")
	if n := strings.Count(shown.Text(), "\n  You said that you are away."); n != 1 {
		t.Errorf("one stretch away has its reason %d times:\n%s", n, shown.Text())
	}
}
