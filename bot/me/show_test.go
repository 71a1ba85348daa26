package me_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// What was entered by hand for single days is shown, each with its day.
func TestShowLimitsAndSwaps(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"` + bottest.InesWeek + `"`)
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	k.OK("/tell limit day:2026-06-05 minutes:45")
	k.OK("/plan move from:2026-06-02 to:2026-06-03")
	bottest.Wants(t, k.OK("/me show"), "Fri 5 Jun: at most 45min", "Tue 2 Jun and Wed 3 Jun: swapped")
}

// A limit is shown up to its day, and a swap up to the later of its days, whichever was named
// first; so are time away and a block up to their last day.
func TestShowUntilTheDayIsOver(t *testing.T) {
	for _, swap := range []string{"from:2026-06-02 to:2026-06-03", "from:2026-06-03 to:2026-06-02"} {
		k := bottest.NewTalk(t)
		k.OK(`/week share week:"` + bottest.InesWeek + `"`)
		k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
		k.OK("/plan move " + swap)
		k.OK("/tell limit day:2026-06-03 minutes:45")
		k.OK("/tell away from:2026-06-01 to:2026-06-03")
		k.OK("/tell block from:2026-06-01 to:2026-06-03 percent:20")
		shown := []string{"at most 45min", ": swapped", "away", "block, 20 % more"}
		for day, want := range map[string]bool{"2026-06-01": true, "2026-06-02": true, "2026-06-03": true, "2026-06-04": false} {
			k.Who.Now = bottest.At(day + "T08:00:00Z")
			text := k.OK("/me show").Text()
			for _, part := range shown {
				if strings.Contains(text, part) != want {
					t.Errorf("%s, on %s: %q is shown: %t\n%s", swap, day, part, !want, text)
				}
			}
		}
	}
}

// Repetitions of less than a minute keep their seconds, in the week and in a taper.
func TestShortRepetitions(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK(`/week share week:"tue intervals 1h30 10x40s/20s; sat long 3h; sun endurance 2h; thu endurance 1h"`), "intervals 1h30 10x40s/20s")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	bottest.Wants(t, k.OK("/ride day:2026-06-23"), "x40s/20s hard", "x 40 s hard (20 s easy between)")
}

// Whose zone changes is told that starts of races move with it, and how to keep one.
func TestZoneMovesStarts(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Hill Loop" date:"28 June" priority:A start:10:00`)
	line := `/race morning race:"Hill Loop 2026-06-28" zone:` + "Europe/Lisbon"
	reply := k.OK("/me set zone:America/New_York")
	bottest.Wants(t, reply, "Starts of races are by that time too, also 10:00 of Hill Loop. If it starts elsewhere: "+line)
	k.OK(line)
	for _, zone := range []string{"Asia/Tokyo", "Asia/Tokyo"} { // the race has its own now, and the second changes nothing
		if text := k.OK("/me set zone:" + zone).Text(); strings.Contains(text, "Starts of races") {
			t.Errorf("told once more: %s", text)
		}
	}
}
