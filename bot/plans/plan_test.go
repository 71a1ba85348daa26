package plans_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/planner"
)

var dayRow = regexp.MustCompile(`(?m)^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ (Jun|Jul) .*$`)

func TestPlanShowForARace(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK(`/plan show race:"Hill Loop" days:all`)
	if got, want := bottest.FirstLine(reply), "Taper for Hill Loop (A, Sun 12 Jul): 14 days from Sun 28 Jun, with "; !strings.HasPrefix(got, want) || !strings.HasSuffix(got, "% less riding than on the same days of your usual week.") {
		t.Errorf("first line %q, want %q... %% less", got, want)
	}
	bottest.Wants(t, reply, " in these 14 days instead of the usual 20h20. You ride on 12 of the 14 days, as many as usual. You ride the hard parts as hard as usual, but fewer or shorter ones.", "RACE Hill Loop 3h30", "openers", "! Do not ride hard")
	rows := dayRow.FindAllString(reply.Text(), -1)
	if len(rows) < 16 || !strings.HasPrefix(rows[0], "Sun 28 Jun") || !strings.HasPrefix(rows[14], "Sun 12 Jul") {
		t.Errorf("rows are not the days from D-14 to the days after:\n%s", strings.Join(rows, "\n"))
	}
	for _, row := range rows {
		if n := utf8.RuneCountInString(row); n > 60 {
			t.Errorf("%d columns are too wide for a phone: %s", n, row)
		}
	}
	if reply.Race != "Hill Loop" || reply.Date != planner.NewDate(2026, 7, 12) || !reply.Private {
		t.Errorf("understood %q on %s, private %v", reply.Race, reply.Date, reply.Private)
	}
}

func TestPlanShowWithoutARaceIsTheNextOne(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, tc := range []struct{ now, race string }{{"2026-06-01", "Quarry Crit"}, {"2026-06-07", "Quarry Crit"},
		{"2026-06-08", "Heron Valley"}, {"2026-06-15", "Heron Valley"}, {"2026-06-18", "Hill Loop"}, {"2026-08-01", ""}} {
		k.Who.Now = bottest.At(tc.now + "T08:00:00Z")
		if got := k.OK("/plan show"); got.Race != tc.race {
			t.Errorf("%s: race %q, want %q", tc.now, got.Race, tc.race)
		}
	}
	reply := k.OK("/plan show")
	bottest.Wants(t, reply, "No race is to come", "/race add", "Sat 1 Aug  long 3h")
	if n := strings.Count(reply.Text(), " Aug "); n != 7 {
		t.Errorf("%d days shown, want 7:\n%s", n, reply.Text())
	}
	bottest.Wants(t, k.OK(`/plan show race:"Hill Loop 2026-07-12"`), "is over")
}

func TestPlanShowInsideTheTaper(t *testing.T) {
	k := bottest.WithRaces(t)
	before := dayRow.FindAllString(k.OK("/plan show race:Hill days:all").Text(), -1)
	k.Who.Now = bottest.At("2026-07-02T08:00:00Z")
	bottest.Wants(t, k.OK("/plan show"), "Today is day 5 of 14.")
	reply := k.OK("/plan show race:hill days:all")
	after := dayRow.FindAllString(reply.Text(), -1)
	if got, want := strings.Join(after, "\n"), strings.Join(before[4:], "\n"); strings.ReplaceAll(got, " !", "") != strings.ReplaceAll(want, " !", "") {
		t.Errorf("planned days changed as today moved:\n%s\nwere\n%s", got, want)
	}
}

func TestPlanShowForLesserRaces(t *testing.T) {
	k := bottest.WithRaces(t)
	bottest.Wants(t, k.OK("/plan show race:heron"), "Heron Valley (B, Sun 14 Jun). It gets half a week", "change for it: Fri 12 Jun, Sat 13 Jun, Tue 16 Jun.", "You ride nothing hard two days after Heron Valley")
	bottest.Wants(t, k.OK("/plan show race:quarry"), "Quarry Crit (C, Sun 7 Jun). You ride it as training", "Days that change for it: Sat 6 Jun.", "RACE Quarry Crit 1h")
	k.Refused("/plan show race:zebra", "race")
}

// A free day under a stop is not said to be as usual.
func TestPlanWhyUnderAStop(t *testing.T) {
	k := bottest.WithRaces(t)
	free := k.OK("/plan why day:thu")
	bottest.Wants(t, free, "rest.", "Nothing changes it")
	k.Say("I hit my head")
	held := k.OK("/plan why day:thu")
	bottest.Wants(t, held, "rest.", "You do not train until a doctor clears you.")
	if strings.Contains(held.Text(), "Nothing changes it") {
		t.Errorf("as if nothing were held back:\n%s", held.Text())
	}
}

func TestPlanWhy(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/plan why 2026-07-11")
	bottest.Wants(t, reply, "Sat 11 Jul: openers", "Rule taper.openers. Source: common practice.", "Otherwise you would ride long 3h, as usual.")
	if reply.Race != "Hill Loop" || reply.Date != planner.NewDate(2026, 7, 11) {
		t.Errorf("understood %q on %s", reply.Race, reply.Date)
	}
	bottest.Wants(t, k.OK("/plan why"), "Today, Mon 1 Jun: recovery 40min.", "Nothing changes it")
	bottest.Wants(t, k.OK("/plan why day:2027-06-08"), "Tuesday 8 June 2027: intervals 1h30", "Nothing changes")
	for _, day := range []string{"2025-05-30", "2031-01-01", "6/7"} {
		k.Refused("/plan why day:"+day, "day")
	}
}

func TestPlanMove(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell away from:2026-07-09")
	before := k.Facts()
	k.Refused("/plan move from:2026-07-07 to:2026-07-10", "to") // hard on D-2
	k.Refused("/plan move from:2026-07-12 to:2026-07-13", "to") // the race
	k.Refused("/plan move from:2026-07-08 to:2026-07-09", "to") // a day away
	k.Refused("/plan move from:2026-06-05 to:2026-06-05", "to")
	k.Refused("/plan move from:yesterday to:friday", "from")
	k.Refused("/plan move from:friday to:gestern", "to")
	reply := k.OK("/plan move from:2026-06-23 to:2026-06-24")
	bottest.Wants(t, reply, "Swapped: Tue 23 Jun and Wed 24 Jun.", "Wed 24 Jun intervals", "Undo: /plan move from:2026-06-23 to:2026-06-24")
	bottest.Wants(t, k.OK("/ride day:2026-06-24"), "intervals", "You swapped this day with Tue 23 Jun.")
	bottest.Wants(t, k.OK("/plan move from:2026-06-24 to:2026-06-23"), "Swapped back")
	if got := k.Facts(); len(got.Moves) != len(before.Moves) {
		t.Errorf("moves pile up: %+v", got.Moves)
	}
	bottest.Wants(t, k.OK("/ride day:2026-06-24"), "endurance 1h45", "This day is the same as in your usual week.")
}

func TestRide(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/ride tomorrow")
	if got, want := bottest.FirstLine(reply), "Tomorrow, Tue 2 Jun: intervals 1h30, 5x3min hard."; got != want {
		t.Errorf("first line %q, want %q", got, want)
	}
	bottest.Wants(t, reply, "This day is the same as in your usual week.", "How hard: 8 to 9 of 10 by feel (RPE: 10 is all-out).", "! Do not ride hard")
	bottest.Wants(t, k.Press(reply, "Next day"), "Wed 3 Jun: ")
	bottest.Wants(t, k.OK("/ride"), "Today, Mon 1 Jun: recovery 40min.", "How hard: 2 to 3 of 10 by feel (RPE: 10 is all-out).")
	bottest.Wants(t, k.OK("/ride thu"), "Thu 4 Jun: rest.")
	eve := k.OK("/ride day:2026-07-11")
	bottest.Wants(t, eve, "Sat 11 Jul: openers", "Why: You ride openers the day before Hill Loop")
	if eve.Race != "Hill Loop" || eve.Date != planner.NewDate(2026, 7, 11) || !eve.Private {
		t.Errorf("understood %q on %s, private %v", eve.Race, eve.Date, eve.Private)
	}
	bottest.Wants(t, k.OK("/ride 12 July"), "RACE Hill Loop 3h30", "start 10:30")
	k.Refused("/ride 2025-05-30", "day")
	k.Refused("/ride blursday", "day")
}

func TestWithoutAWeekNothingIsPlanned(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	for _, line := range []string{"/ride", "/plan show", "/plan show race:hill", "/plan why", "/week show", "/plan move from:tue to:wed"} {
		bottest.Wants(t, k.OK(line), "do not know your typical week", "/week share week:")
	}
}

func TestButtonsAreCommands(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, line := range []string{"/ride", "/plan show", "/plan show race:heron", "/race priority race:quarry priority:B", `/race remove race:"quarry crit"`,
		"/plan move from:2026-06-16 to:2026-06-17", "/week share week:\"" + bottest.InesWeek + "\""} {
		reply := k.OK(line)
		if len(reply.Buttons) == 0 {
			t.Errorf("%s offers no next step", line)
		}
		for _, button := range reply.Buttons {
			req := k.Who
			req.Command, req.Options = button.Command, button.Options
			if pressed, err := k.Bot.Handle(t.Context(), req); err != nil || pressed.Err != nil {
				t.Errorf("%s, %s: %v %s", line, button.Label, err, pressed.Text())
			}
		}
	}
}

// A swap over a race is carried out, with a word on what it does.
func TestMoveAcrossARace(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Fen Cup" date:2026-06-21 priority:B hours:3`)
	bottest.Wants(t, k.OK("/plan move from:2026-06-20 to:2026-06-24"), "Fen Cup lies between these days")
	k.OK("/plan move from:2026-06-20 to:2026-06-24")
	if reply := k.OK("/plan move from:2026-06-10 to:2026-06-12"); strings.Contains(reply.Text(), "lies between") {
		t.Errorf("%s", reply.Text())
	}
}

// After a head cold that is over no answer says that the rider is ill still.
func TestWellAfterACold(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	k.OK(`/tell sick symptoms:"head cold"`)
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	k.OK("/tell well")
	for _, day := range []string{"", " tomorrow", " friday", " saturday", " sunday"} {
		if text := k.OK("/ride" + day).Text(); strings.Contains(text, "until you are well") {
			t.Errorf("/ride%s:\n%s", day, text)
		}
	}
	bottest.Wants(t, k.OK("/ride"), "You come back")
}

// The way to work is called that, alone and beside the rest of a day's riding.
func TestCommuteIsCalledSo(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"tue commute 40min; intervals 1h 5x4min; wed commute 40min; thu intervals 1h15; sat long 3h"`)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A hours:2h`)
	bottest.Wants(t, k.OK("/plan show"), "Tue 9 Jun  intervals", "(usually commute 40min + intervals 1h 5x4min)", "Wed 10 Jun commute 40min")
	bottest.Wants(t, k.OK("/plan show days:all"), "Wed 10 Jun commute 40min", "Tue 16 Jun commute 40min")
	bottest.Wants(t, k.OK("/ride day:2026-06-02"), "Tue 2 Jun: commute 40min + intervals 1h, 5x4min hard")
	bottest.Wants(t, k.OK("/ride day:2026-06-03"), "commute 40min", "40min easy, to work and back.")
}
