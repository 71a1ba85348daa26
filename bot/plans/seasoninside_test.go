package plans_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// What a race inside a taper costs is told wherever the taper's figure is, since that leaves it out.
func TestRaceInsideATaperIsTold(t *testing.T) {
	k := withGoals(t, "Hill Loop")
	k.OK(`/race add name:"Town Race" date:2026-06-23 priority:B hours:4`)
	const cost, why = "Riding Town Race (B) makes you about 1.8 % slower in Hill Loop", ", because it is inside the taper for that race. The figures above do not count that."
	bottest.Wants(t, k.OK("/season check"), cost+why)
	bottest.Wants(t, k.OK("/season check numbers:all"), cost+" (", ")"+why)
	bottest.Wants(t, k.OK(`/plan show race:"Hill Loop"`), "! Town Race is 5 days before Hill Loop and inside its taper. Riding it tires you, so the days around it are easy.")
	bottest.Wants(t, k.OK(`/plan show race:"Hill Loop" days:all`), "Town Race, which is inside this taper, makes you about 1.8 % slower in Hill Loop (")
	bottest.Wants(t, k.OK(`/plan options race:"Hill Loop"`), "Town Race lies inside your taper and counts as riding. It makes you about 1.8 % slower in Hill Loop (")
}

// That a race is not ridden is said where there is no room for what two close races cost each other, too.
func TestUnriddenRaceIsToldInLittleRoom(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Three Valleys of the North" date:2026-06-26 priority:A hours:3 days:3`,
		`/race add name:"Hill Loop in the Evening" date:2026-06-27 priority:B hours:3`, `/race add name:"Lake Circuit of the South" date:2026-07-12 priority:A hours:2`,
		`/race add name:"Night Race" date:2026-08-02 priority:B hours:2`)
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Hill Loop in the Evening is on the same days as Three Valleys of the..., so ride only one of them. These sums are for Three Valleys of the....")
	if strings.Contains(reply.Text(), "Tapers for earlier races cost you") {
		t.Errorf("there is room for all:\n%s", reply.Text())
	}
}

// A taper that is given up helps other races, or it is kept: the model sees in hard minutes before a race
// their fatigue alone.
func TestTaperIsKeptWhereNoOtherRaceGains(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon off; tue intervals 1h30 5x4min; wed 1h; thu intervals 1h30 4x8min; fri off; sat long 4h; sun 2h"`,
		`/race add name:"Night Race" date:2026-07-21 priority:A hours:2`)
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Keep your season as it is: giving up the taper for Night Race would help no other race.\n", " % faster in Night Race.\n")
	if len(reply.Buttons) != 1 || strings.Contains(reply.Text(), "B race") {
		t.Errorf("%v\n%s", reply.Buttons, reply.Text())
	}
	if text := k.OK("/plan options").Text(); strings.Contains(text, "as a B race") {
		t.Errorf("the only race as a B race:\n%s", text)
	}
}

// Of several pairs of close races the one is told that costs most.
func TestDearestPairIsTold(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second")
	k.OK("/race add name:Third date:2026-07-25 priority:A hours:2")
	bottest.Wants(t, k.OK("/season check"), " % in Third, because you train less in a taper. The figures above count that. Keep Second and Third as A races.")
}

// One race is not told of as several.
func TestOneRaceWithoutDaysForATaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-01 priority:A hours:2`)
	bottest.Wants(t, k.OK("/season check"), "\nYour A race has no days for a taper, so there is nothing to weigh.\n")
}

// Why a change helps is said of the races that it helps: here the one inside the taper.
func TestWhyIsOfTheRaceInside(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon off; tue intervals 1h30 5x4min; wed 1h; thu intervals 1h30 4x8min; fri off; sat long 3h30; sun 1h30"`,
		`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`, `/race add name:"Evening Ten" date:2026-06-23 priority:B hours:2`)
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "One change is worth it: make Hill Loop a B race", "takes training away from a race inside it.")
	if strings.Contains(reply.Text(), "the races after it") {
		t.Errorf("no race comes after it:\n%s", reply.Text())
	}
}
