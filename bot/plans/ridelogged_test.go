package plans_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// Once today is logged, /ride says how it stands and what comes next instead of
// instructing.
func TestRideOnceTodayIsLogged(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Who.Now = bottest.At("2026-06-02T20:00:00Z")
	for _, tc := range []struct{ line, want string }{
		{"/done 55 rpe:8", "Today, Tue 2 Jun: you rode 55min, RPE 8. Planned: intervals 1h30, 5x3min hard.\nThat is 35min less than planned. It is not made up.\nTomorrow, Wed 3 Jun: endurance 1h45."},
		{"/done 35", "Today, Tue 2 Jun: you rode 55min and 35min, 1h30 together, RPE 8. Planned: intervals 1h30, 5x3min hard.\nThat is as long as planned.\nTomorrow, Wed 3 Jun: endurance 1h45."},
		{"/done 20", "That is 20min more than planned."},
	} {
		k.OK(tc.line)
		reply := k.OK("/ride")
		bottest.Wants(t, reply, tc.want)
		if strings.Contains(reply.Text(), "How hard") || strings.Contains(reply.Text(), "! ") || reply.Buttons[0].Label != "How to ride tomorrow" {
			t.Errorf("still instructs:\n%s", reply.Text())
		}
	}
	k.Who.Now = bottest.At("2026-06-03T20:00:00Z")
	bottest.Wants(t, k.OK("/ride yesterday"), "Yesterday, Tue 2 Jun: you rode 55min, 35min and 20min, 1h50 together, RPE 8. Planned: intervals 1h30, 5x3min hard.\nThat is 20min more than planned.")
	k.OK("/tell missed")
	bottest.Wants(t, k.OK("/ride"), "Today, Wed 3 Jun: you did not ride. Planned: endurance 1h45.\nTomorrow, Thu 4 Jun: rest.")
}

// What was ridden is said without a week, too.
func TestRideLoggedWithoutAWeek(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/done 50", "/done 30 rpe:4")
	bottest.Wants(t, k.OK("/ride"), "Today, Mon 1 Jun: you rode 50min and 30min, 1h20 together, RPE 4.\nThere is no plan yet, because I do not know your typical week.")
}

// A race is wished well before its start, not in it and not after it.
func TestRideOnRaceDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3 start:10:00`,
		"/race add name:Tour date:2026-07-04 days:2 priority:B hours:2 start:9:30", "/race add name:Crit date:2026-07-12 priority:C hours:1")
	for _, tc := range []struct{ now, has, not string }{
		{"2026-06-14T08:30:00Z", "Good luck, and enjoy it!", "How were your legs"}, // 9:30 in Lisbon
		{"2026-06-14T09:30:00Z", "Hill Loop has been under way since 10:00.\nWhen it is over, tell me how your legs were, from 1 to 10: /race result", "Good luck"},
		{"2026-06-14T19:00:00Z", "How were your legs?\nTell me from 1 to 10: /race result", "Good luck"},
		{"2026-07-05T08:00:00Z", "Good luck", "9:30"},
		{"2026-07-05T18:00:00Z", "How were your legs?", "9:30"},
		{"2026-07-12T08:00:00Z", "Good luck", "How were your legs"},
		{"2026-07-12T17:30:00Z", "How were your legs?", "Good luck"},
	} {
		k.Who.Now = bottest.At(tc.now)
		reply := k.OK("/ride")
		if !strings.Contains(reply.Text(), tc.has) || strings.Contains(reply.Text(), tc.not) {
			t.Errorf("%s:\n%s\nwant %q and not %q", tc.now, reply.Text(), tc.has, tc.not)
		}
	}
	k.OK("/race result race:crit feeling:7")
	if reply := k.OK("/ride"); strings.Contains(reply.Text(), "How were your legs") {
		t.Errorf("asks what it was told:\n%s", reply.Text())
	}
	k.OK("/done 1h")
	bottest.Wants(t, k.OK("/ride"), "Today, Sun 12 Jul: RACE Crit 1h. You rode 1h.\n")
}
