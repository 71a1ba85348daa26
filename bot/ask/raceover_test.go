package ask_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// A race that is over, given up, not started, off or moved is a proposal about the right race, and one press keeps it.
func TestRacesThatAreOver(t *testing.T) {
	talk := func() *bottest.Talk {
		k := bottest.WithRaces(t) // Quarry Crit on Sunday 7 June, Heron Valley on Sunday 14 June, Hill Loop on Sunday 12 July
		k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
		return k
	}
	const crit = "Quarry Crit on Sunday 7 June 2026"
	for _, tc := range []struct{ line, proposed, label, kept string }{
		{"I dnf'd yesterday", "You did not finish " + crit + "?", "I did not finish", "Quarry Crit on Sun 7 Jun, gave up."},
		{"didn't finish sunday", "You did not finish " + crit + "?", "I did not finish", "gave up."},
		{"did not finish", "You did not finish " + crit + "?", "I did not finish", "gave up."},
		{"abandoned the race, mechanical", "You did not finish " + crit + "?", "I did not finish", "gave up."},
		{"pulled out of the crit after a crash", "! You fell? If you hit your head, feel dizzy or sick, or anything hurts in riding: do not ride, and have it looked at today.\nNot saved yet. You did not finish " + crit + "?", "I did not finish", "gave up."},
		{"dns yesterday", "You did not start in " + crit + "?", "I did not start", "did not start."},
		{"race got cancelled", crit + " is cancelled?", "It is cancelled", "Quarry Crit on Sunday 7 June 2026 is cancelled."},
		{"heron valley got cancelled", "Heron Valley on Sunday 14 June 2026 is cancelled?", "It is cancelled", "Heron Valley on Sunday 14 June 2026 is cancelled."},
		{"the race is postponed to 5 july", "Move Quarry Crit from Sunday 7 June 2026 to Sunday 5 July 2026?", "Move Quarry Crit", "Sunday 5 July 2026"},
		{"came 12th, legs were great, 8/10", crit + ": 12th, legs 8 of 10?", "Note this result", "Quarry Crit on Sun 7 Jun, legs 8 of 10, 12th."},
		{"won the crit!!", crit + ": 1st?", "Note this result", "1st."},
		{"legs 7, better than expected", crit + ": legs 7 of 10, better than expected?", "Note this result", "legs 7 of 10, better than expected."},
		{"got dropped in the crit, legs empty 2/10", crit + ": legs 2 of 10?", "Note this result", "legs 2 of 10."},
		{"they cancelled the crit", crit + " is cancelled?", "It is cancelled", "is cancelled."},
		{"bailed on the crit halfway", "You did not finish " + crit + "?", "I did not finish", "gave up."},
		{"crit went great, 3rd!", crit + ": 3rd?", "Note this result", "3rd."},
		{"second place in the crit", crit + ": 2nd?", "Note this result", "2nd."},
		{"the organiser called off heron valley", "Heron Valley on Sunday 14 June 2026 is cancelled?", "It is cancelled", "is cancelled."},
		{"worse than expected", crit + ": worse than expected?", "Note this result", "worse than expected."},
		{"p4", crit + ": 4th?", "Note this result", "4th."},
		{"12th out of 60 in the crit yesterday", crit + ": 12th out of 60?", "Note this result", "12th out of 60."},
	} {
		k := talk()
		reply := asks(k, tc.line, "races")
		bottest.Wants(t, reply, tc.proposed, "Not saved yet.")
		if len(reply.Buttons) == 0 || reply.Buttons[0].Label != tc.label || reply.Race == "" {
			t.Errorf("%q: buttons %v, race %q", tc.line, reply.Buttons, reply.Race)
			continue
		}
		bottest.Wants(t, k.Press(reply, tc.label), tc.kept)
	}
	k := talk()
	bottest.Wants(t, k.Press(asks(k, "pulled out of the crit after a crash", "races"), "I hit my head"), "have your head checked by a doctor today")
	bottest.Wants(t, asks(talk(), "the race has been moved", "races"), "To which day is "+crit+" moved? Not saved yet.")
	bottest.Wants(t, asks(talk(), "race postponed", "races"), "To which day is ", " moved? Not saved yet.")
}

// Of a series the race that is nearest is meant, and a stage race is given up on a day.
func TestSeriesAndStages(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Wed Crit" date:2026-06-03 priority:C hours:1 repeat:weekly until:2026-07-29`, `/race add name:"Tour Days" date:2026-06-25 days:4 priority:A hours:3`)
	k.Who.Now = bottest.At("2026-06-17T08:00:00Z")
	bottest.Wants(t, k.Press(asks(k, "wed crit is cancelled", "races"), "It is cancelled"), "Wed Crit on Wednesday 17 June 2026 is cancelled.")
	k.Who.Now = bottest.At("2026-06-26T18:00:00Z")
	given := asks(k, "pulled out of the tour today", "races")
	bottest.Wants(t, given, "You gave up Tour Days on Friday 26 June 2026, day 2 of 4?")
	bottest.Wants(t, k.Press(given, "I did not finish"), "Tour Days on Thu 25 Jun, gave up on day 2 of 4.")
}

// Questions, other people, rides and races to come are no results of a race that is over.
func TestNoResultOfWhatIsNone(t *testing.T) {
	for _, line := range []string{"what happens if I dnf?", "should I pull out of the crit", "my friend dnf'd yesterday", "I missed the session yesterday", "did 90 min today, rpe 8/10", "pulled out of heron valley",
		"didn't finish my intervals on tuesday", "group ride cancelled", "came home late", "I came 2nd in hill loop", "I won't be riding on the 12th", "they won the crit", "is the race on the 28th"} {
		k := bottest.WithRaces(t)
		k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
		if reply := k.Say(line); strings.Contains(reply.Text(), "Quarry Crit on") {
			t.Errorf("%q: %s", line, reply.Text())
		}
	}
	k := bottest.WithRaces(t) // long after the race
	k.Who.Now = bottest.At("2026-06-13T08:00:00Z")
	if reply := k.Say("legs 7"); strings.Contains(reply.Text(), "Quarry Crit") {
		t.Errorf("six days later: %s", reply.Text())
	}
}
