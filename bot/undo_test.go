package bot_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// Undo brings back what was entered before, not nothing, and undoing the undo works too.
func TestUndoBringsBackWhatWasTold(t *testing.T) {
	for _, tc := range []struct{ told, again string }{
		{"", "/tell limit day:2026-06-20 minutes:60"},
		{"/tell limit day:2026-06-20 minutes:90", "/tell limit day:2026-06-20 minutes:60"},
		{"/tell limit day:2026-06-20 minutes:90", "/tell limit day:2026-06-20 minutes:none"},
		{"", "/tell away from:2026-06-20 to:2026-06-21"},
		{"/tell away from:2026-06-20 to:2026-06-21 kind:travel", "/tell away from:2026-06-20 to:2026-06-21"},
		{"/tell away from:2026-06-20 to:2026-06-21 kind:travel", "/tell away from:2026-06-20 to:2026-06-21 kind:none"},
		{"", "/tell block from:2026-06-08 to:2026-06-14 percent:15"},
		{"/tell block from:2026-06-08 to:2026-06-14 percent:30", "/tell block from:2026-06-08 to:2026-06-14 percent:15"},
		{"/tell block from:2026-06-08 to:2026-06-14 percent:30", "/tell block from:2026-06-08 to:2026-06-14 percent:none"},
	} {
		for _, now := range []string{"2026-06-01T08:00:00Z", "2026-06-02T08:00:00Z"} {
			k := bottest.WithRaces(t)
			if tc.told != "" {
				k.OK(tc.told)
			}
			k.Who.Now = bottest.At(now)
			before := k.Stored()
			reply := k.OK(tc.again)
			after := k.Stored()
			back := k.Undo(reply)
			if got := k.Stored(); !reflect.DeepEqual(got, before) {
				t.Errorf("%s, %s, undone: %+v\nwant %+v", tc.told, tc.again, got, before)
			}
			k.Undo(back)
			if got := k.Stored(); !reflect.DeepEqual(got, after) {
				t.Errorf("%s, %s, undone twice: %+v\nwant %+v", tc.told, tc.again, got, after)
			}
		}
	}
}

// What is undone on the day on which it was done leaves no version behind; what
// stands on later days does.
func TestUndoneOnALaterDay(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell limit day:2026-06-20 minutes:90", "/done day:2026-05-30 minutes:60 note:windy")
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	before := k.Stored()
	for _, line := range []string{"/done day:2026-05-30 minutes:70", "/race remove race:\"Hill Loop\"", "/race change race:\"Hill Loop\" date:2026-07-19", "/race change race:\"Hill Loop\" taper:10", "/plan move from:2026-06-03 to:2026-06-06", "/me set taper:12 pattern:third"} {
		reply := k.OK(line)
		if slices.ContainsFunc(reply.Buttons, func(b say.Button) bool { return b.Label == "Undo" }) {
			k.Press(reply, "Undo")
		} else {
			k.OK(map[string]string{
				"/race change race:\"Hill Loop\" date:2026-07-19": "/race change race:\"Hill Loop\" date:2026-07-12",
				"/race change race:\"Hill Loop\" taper:10":        "/race change race:\"Hill Loop\" taper:14",
				"/me set taper:12 pattern:third":                  "/me set taper:auto pattern:usual",
			}[line])
		}
		if got := k.Stored(); !reflect.DeepEqual(got, before) {
			t.Errorf("%s, undone: %+v\nwant %+v", line, got, before)
		}
	}
	k.OK("/tell limit day:2026-06-20 minutes:60", "/tell limit day:2026-06-21 minutes:30")
	if was, is := k.KnownOn("2026-06-02").Limits, k.KnownOn("2026-06-03").Limits; len(was) != 1 || was[0].Minutes != 90 || len(is) != 2 || is[0].Minutes != 60 {
		t.Errorf("known were %+v, then %+v", was, is)
	}
}

func TestTakingBackListsAllThatTouches(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell away from:2026-12-30 to:2027-01-02", "/tell away from:2027-01-05", "/tell block from:2026-06-08 to:2026-06-09", "/tell block from:2026-06-11 to:2026-06-12")
	bottest.Wants(t, k.Refused("/tell away from:2027-01-01 to:2027-01-05 kind:none", "from"), "Fri 1 Jan 2027 to Tue 5 Jan 2027",
		"Wed 30 Dec to Sat 2 Jan 2027: /tell away from:2026-12-30 to:2027-01-02 kind:none", "Tue 5 Jan 2027: /tell away from:2027-01-05 to:2027-01-05 kind:none")
	bottest.Wants(t, k.Refused("/tell block from:2026-06-09 to:2026-06-11 percent:none", "from"),
		"/tell block from:2026-06-08 to:2026-06-09 percent:none", "/tell block from:2026-06-11 to:2026-06-12 percent:none")
}

// A race that is over is never said to lack days for a taper.
func TestPlanOfARaceThatIsOver(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, tc := range []struct{ now, first, second string }{
		{"2026-07-13", "Hill Loop (A) was yesterday, Sun 12 Jul.", "You recover from Hill Loop until Sun 19 Jul."},
		{"2026-07-19", "Hill Loop (A) was on Sunday 12 July 2026.", "Today is the last day of your recovery after Hill Loop."},
		{"2026-07-20", "Hill Loop on Sunday 12 July 2026 is over and so are the days after it.", "What comes next: /plan show"},
	} {
		k.Who.Now = bottest.At(tc.now + "T08:00:00Z")
		lines := strings.Split(k.OK("/plan show race:hill").Text(), "\n")
		if lines[0] != tc.first || lines[1] != tc.second {
			t.Errorf("%s: got %q", tc.now, lines[:2])
		}
	}
	k.Who.Now = bottest.At("2026-07-13T08:00:00Z")
	if got, want := bottest.FirstLine(k.OK("/plan show")), "You recover from Hill Loop until"; !strings.HasPrefix(got, want) {
		t.Errorf("the day after starts %q, want %q", got, want)
	}
}

// The list of a lesser race reaches the days that it is said to change.
func TestListReachesTheChangedDays(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon recovery 40min; tue intervals 1h30 5x3min; thu endurance 1h; sat long 3h"`, "/race add name:Tour date:2026-06-07 priority:B hours:2")
	reply := k.OK("/plan show race:tour")
	bottest.Wants(t, reply, "Days that change for it: Sat 6 Jun, Tue 9 Jun.", "\nTue 9 Jun ")
}

// A race that lost its first day to another keeps its warning and its days.
func TestPlanOfARaceThatLostADay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Goal date:2026-06-28 priority:A hours:3", "/race add name:Tour date:2026-06-28 days:2 priority:B hours:2")
	bottest.Wants(t, k.OK("/plan show race:tour"), "Tour (B, Sun 28 Jun)", "falls on a race day of Goal", "Mon 29 Jun RACE Tour 2h")
}

// Where all minutes are away there is no share to tell.
func TestTaperWithoutUsualMinutes(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share mon off; tue rest", "/race add name:Goal date:2026-06-28 priority:A hours:3")
	for _, line := range []string{"/plan show", "/race change race:goal hours:2"} {
		if reply := k.OK(line); strings.Contains(reply.Text(), "% less") || strings.Contains(reply.Text(), "NaN") {
			t.Errorf("%s tells a share:\n%s", line, reply.Text())
		}
	}
}

func TestMoreDaysNameTheChangedRace(t *testing.T) {
	k := bottest.WithRaces(t)
	bottest.Wants(t, k.OK("/race priority race:hill priority:C"), `more: /plan show race:"Hill Loop"`)
}

// Only the whole stretch that was entered is taken back.
func TestAwayIsTakenBackExactly(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell away from:2026-06-17 to:2026-06-18", "/tell away from:2026-06-18 to:2026-06-20 kind:travel")
	k.Refused("/tell away from:2026-06-17 kind:none", "from")
	if got := len(k.Facts().Absences); got != 2 {
		t.Fatalf("%d absences left, want both", got)
	}
	k.OK("/tell away from:2026-06-17 to:2026-06-18 kind:none")
	if got := k.Facts().Absences; len(got) != 1 || !got[0].Travel {
		t.Errorf("left are %v, want the travel alone", got)
	}
	k.OK("/tell block from:2026-06-08 to:2026-06-14 percent:15")
	k.Refused("/tell block from:2026-06-08 to:2026-06-10 percent:none", "from")
	k.OK("/tell block from:2026-06-08 to:2026-06-14 percent:none")
	if got := k.Facts().Blocks; len(got) != 0 {
		t.Errorf("left are blocks %v", got)
	}
}

// Naming a swapped pair again undoes it, also when another swap came after it.
func TestAnOlderSwapCanBeUndone(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/plan move from:2026-06-03 to:2026-06-06", "/plan move from:2026-06-10 to:2026-06-13")
	k.OK("/plan move from:2026-06-06 to:2026-06-03")
	if got := k.Facts().Moves; len(got) != 1 || got[0].From.String() != "2026-06-10" {
		t.Errorf("left are the swaps %v, want the second alone", got)
	}
}

// The undo of a second limit brings the first one back; past days are refused.
func TestLimitsAndPastDays(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/tell limit day:2026-06-20 minutes:90")
	bottest.Wants(t, k.OK("/tell limit day:2026-06-20 minutes:60"), "Undo: /tell limit day:2026-06-20 minutes:90")
	k.Refused("/tell away from:2026-05-04 to:2026-05-06", "to")
	if f := k.Facts(); len(f.Absences) != 0 || len(f.Limits) != 1 {
		t.Errorf("stored %v and %v", f.Absences, f.Limits)
	}
}

// A stretch far behind the plan, and one that spans years, is understood clearly.
func TestFarStretch(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	bottest.Wants(t, k.OK("/tell away from:2026-12-30 to:2027-01-03"), "Noted for Wed 30 Dec to Sun 3 Jan 2027: away, no training.", "Your plan ends on Sun 14 Jun for now")
	bottest.Wants(t, k.OK("/me show"), "Wed 30 Dec to Sun 3 Jan 2027")
	bottest.Wants(t, k.Say("/tell away from:2026-12-20 to:2027-01-01 kind:none"), "Wed 30 Dec to Sun 3 Jan 2027: /tell away from:2026-12-30 to:2027-01-03 kind:none")
	bottest.Wants(t, k.Say("/tell away from:2026-06-16 kind:none"), "no days away on Tue 16 Jun.")
}

// An illness that was over and is told again from its first day is over again once that
// is undone. A race that was cancelled is not undone: it would take place.
func TestUndoOfWhatWasOver(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell sick symptoms:fever since:2026-05-28", "/tell injured since:2026-05-30", "/tell well day:2026-05-31 of:illness")
	before := k.Stored()
	for _, line := range []string{"/tell sick since:2026-05-28", "/tell sick symptoms:fever since:2026-05-28"} {
		k.Undo(k.OK(line))
		if got := k.Stored(); !reflect.DeepEqual(got, before) {
			t.Errorf("%s, undone: %+v\nwant %+v", line, got, before)
		}
	}
	k.Refused("/tell sick symptoms:cough since:2026-05-28", "since")
	k.OK(`/race change race:"Hill Loop" status:cancelled`)
	reply := k.OK(`/race remove race:"Hill Loop 2026-07-12"`)
	if slices.ContainsFunc(reply.Buttons, func(b say.Button) bool { return b.Label == "Undo" }) {
		t.Errorf("a cancelled race comes back as planned:\n%s", reply.Text())
	}
	bottest.Wants(t, k.Press(reply, "Add it as planned"), "Hill Loop is back in your calendar")
}
