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
	const cost = "Riding it makes you about 1.8 % slower there. The figures above do not count that."
	bottest.Wants(t, k.OK("/season check"), "Town Race (B) is inside the taper for Hill Loop. "+cost)
	bottest.Wants(t, k.OK("/season check numbers:all"), "Town Race (B) is inside the taper for Hill Loop. Riding it makes you about 1.8 % slower there (")
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
