package plans_test

import (
	"testing"

	"musette/bot/bottest"
)

// What a race inside a taper costs is told wherever the taper's figure is, since that leaves it out.
func TestRaceInsideATaperIsTold(t *testing.T) {
	k := withGoals(t, "Hill Loop")
	k.OK(`/race add name:"Town Race" date:2026-06-23 priority:B hours:4`)
	const cost = "Riding it makes you about 1.8 % slower there. The figure above leaves that out."
	bottest.Wants(t, k.OK("/season check"), "Town Race (B) is inside the taper for Hill Loop. "+cost)
	bottest.Wants(t, k.OK("/season check numbers:all"), "Town Race (B) is inside the taper for Hill Loop. Riding it makes you about 1.8 % slower there (")
	bottest.Wants(t, k.OK(`/plan show race:"Hill Loop"`), "! Town Race is 5 days before Hill Loop and inside its taper. Riding it tires you, so the days around it are easy.")
	bottest.Wants(t, k.OK(`/plan show race:"Hill Loop" days:all`), "Town Race, which is inside this taper, makes you about 1.8 % slower in Hill Loop (")
	bottest.Wants(t, k.OK(`/plan options race:"Hill Loop"`), "Town Race lies inside your taper and counts as riding. It makes you about 1.8 % slower in Hill Loop (")
}
