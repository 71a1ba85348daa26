package coach_test

import (
	"testing"

	"musette/bot/bottest"
)

// Several rides of a day are one line for the coach, their rating weighted by minutes.
func TestCoachReadsRidesOfADay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"`+bottest.InesWeek+`"`, "/done 30 rpe:9", "/done 60 rpe:3")
	k.As("Rui")
	k.Who.Coach = true
	bottest.Wants(t, k.OK("/coach athlete athlete:Ines"), "The last 7 days: 2 rides logged, 1h30, missed: 0.")
	bottest.Wants(t, k.OK("/coach athlete athlete:Ines show:all"), "2 rides logged, 1h30, missed: 0.", "Mon 1 Jun  planned recovery 40min, rode 1h30, RPE 5\n")
}
