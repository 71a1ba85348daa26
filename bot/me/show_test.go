package me_test

import (
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

// Repetitions of less than a minute keep their seconds, in the week and in a taper.
func TestShortRepetitions(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK(`/week share week:"tue intervals 1h30 10x40s/20s; sat long 3h; sun endurance 2h; thu endurance 1h"`), "intervals 1h30 10x40s/20s")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	bottest.Wants(t, k.OK("/ride day:2026-06-23"), "x40s/20s hard", "x 40 s hard (20 s easy between)")
}
