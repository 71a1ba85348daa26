package plans_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/show"
	"musette/planner"
)

// A day that is over shows what was ridden, else what was told then, whatever was
// told since.
func TestRideOnADayThatIsOver(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/done 50 rpe:3", "/tell limit day:2026-06-03 minutes:45") // Monday
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	k.OK("/tell missed day:yesterday")
	k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
	before := map[string]string{}
	for day, want := range map[string]string{
		"2026-06-01": "Mon 1 Jun: you rode 50min, RPE 3. Planned: recovery 40min.",
		"2026-06-02": "Tue 2 Jun: you did not ride. Planned: intervals 1h30, 5x3min hard.",
		"2026-06-03": "Wed 3 Jun: endurance 45min. Nothing is logged.",
		"2026-06-04": "Thu 4 Jun: rest.",
		"yesterday":  "Yesterday, Sun 7 Jun: RACE Quarry Crit 1h.",
	} {
		reply := k.OK("/ride " + day)
		if before[day] = reply.Text(); !strings.HasPrefix(reply.Text(), want) || len(reply.Buttons) < 2 || !reply.Private {
			t.Errorf("%s:\n%s\nwant\n%s", day, reply.Text(), want)
		}
		for _, not := range []string{"Effort", "! ", "Good luck", "How were"} {
			if strings.Contains(reply.Text(), not) {
				t.Errorf("%s says %q:\n%s", day, not, reply.Text())
			}
		}
	}
	k.OK(`/week share week:"mon endurance 4h; tue rest; wed endurance 4h"`, "/me set pattern:second", `/race add name:"New" date:2026-06-12 priority:A hours:2`)
	for day, want := range before {
		if got := k.OK("/ride " + day).Text(); got != want {
			t.Errorf("%s was\n%s\nand is, after what was told later,\n%s", day, want, got)
		}
	}
	bottest.Wants(t, k.Press(k.OK("/ride 2026-06-03"), "Rode it"), "Noted: 45min on Wed 3 Jun, as planned.")
	bottest.Wants(t, k.OK("/ride 2026-06-03"), "Wed 3 Jun: you rode 45min. Planned: endurance 45min.")
	bottest.Wants(t, k.OK("/done minutes:none day:2026-06-03"), "Forgotten")
	bottest.Wants(t, k.OK("/ride 2026-06-03"), "Wed 3 Jun: endurance 45min. Nothing is logged.")
}

// Why a day was so is told of days that are over, too.
func TestWhyADayWasSo(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/done 50 rpe:3", "/tell limit day:2026-06-03 minutes:45")
	k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
	bottest.Wants(t, k.OK("/plan why 2026-06-01"), "- You rode 50min and logged it.\n  Rule day.logged. Source: your own log.\nUsually it is recovery 40min.")
	reply := k.OK("/plan why 2026-06-03")
	bottest.Wants(t, reply, "- You have 45min on this day.\n  Rule day.limit. Source: your own entry.\nUsually it is endurance 1h45.")
	if len(reply.Buttons) != 0 {
		t.Errorf("tells how to ride a day that is over:\n%s", reply.Text())
	}
}

// What a day would be without the fact that decided it.
func TestWithoutTheCause(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell limit day:2026-06-03 minutes:45", "/tell away from:2026-06-11 to:2026-06-12", "/tell limit day:2026-07-10 minutes:20",
		`/race add name:"Tenner" date:2026-06-25 priority:C hours:1`)
	for day, want := range map[string]string{
		"2026-06-03": "Otherwise you would ride endurance 1h45, as usual.", // a limit on an ordinary day
		"2026-06-12": "Otherwise it would be easy 50min.",                  // away before a B race
		"2026-07-10": "Otherwise it would be easy 40min.",                  // a limit inside a taper
		"2026-07-11": "Otherwise you would ride long 3h, as usual.",        // openers
	} {
		bottest.Wants(t, k.OK("/plan why "+day), "\n"+want)
	}
	race := k.OK("/plan why 2026-06-25")
	if strings.Contains(race.Text(), "Without") || strings.Contains(race.Text(), "Usually") {
		t.Errorf("a race day has no other:\n%s", race.Text())
	}
}

func TestDayNames(t *testing.T) {
	today := planner.NewDate(2026, 6, 1)
	for days, want := range map[int]string{0: "Today, Mon 1 Jun", 1: "Tomorrow, Tue 2 Jun", -1: "Yesterday, Sun 31 May", 5: "Sat 6 Jun", 301: "Monday 29 March 2027", -301: "Monday 4 August 2025"} {
		if got := show.DayName(today.AddDays(days), today); got != want {
			t.Errorf("%d days on is %q, want %q", days, got, want)
		}
	}
}

// A day that was over before a week was known had no plan, and has none when one
// is told or taken back later.
func TestRideOnADayBeforeAnyWeek(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/done 50 rpe:3 day:2026-05-30")
	want := map[string]string{
		"2026-05-30": "Sat 30 May: you rode 50min, RPE 3. There was no plan yet.",
		"2026-05-31": "Yesterday, Sun 31 May: there was no plan yet. I did not know your week then.\nDid you ride? /done minutes:60 day:2026-05-31",
	}
	check := func(after string) {
		for day, text := range want {
			for _, command := range []string{"/ride ", "/plan why "} {
				if got := k.OK(command + day).Text(); got != text {
					t.Errorf("%s%s after %s:\n%s\nwant\n%s", command, day, after, got, text)
				}
			}
		}
	}
	check("nothing")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	check("a week is told")
	bottest.Wants(t, k.OK("/ride"), "Today, Mon 1 Jun: recovery 40min.")
	k.OK("/week withdraw from:2026-06-01")
	check("it is taken back")
	bottest.Wants(t, k.OK("/ride"), "There is no plan yet")
}

// On race day the countdown is a press away until the start, and a race in the recovery days of another says so.
func TestRaceDayHasItsCountdown(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Sat Crit" date:2026-06-27 priority:A hours:1 start:18:00`, `/race add name:"Sun Road" date:2026-06-28 priority:B hours:3 start:09:00`)
	bottest.Wants(t, k.OK("/ride day:2026-06-28"), "! You still recover from Sat Crit. Ride Sun Road easily or leave it out.")
	k.Who.Now = bottest.At("2026-06-28T07:00:00Z")
	bottest.Wants(t, k.Press(k.OK("/ride"), "Race morning"), "Sun Road, Sun 28 Jun: get up ")
	k.Who.Now = bottest.At("2026-06-28T10:00:00Z")
	for _, b := range k.OK("/ride").Buttons {
		if b.Label == "Race morning" {
			t.Error("the race has begun")
		}
	}
}
