package plans_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/desk"
	"musette/bot/plans"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
)

// Whatever a rider has entered, the first message of a plan fits a phone: 25
// lines at most, the answer first, each hard day with what to mind.
func TestFirstMessagesFitAPhone(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 25))
	shown := 0
	for range rounds.Of(300) {
		today, f := bottest.AnyFacts(t, r)
		known := f.KnownOn(today)
		if !desk.Planned(known) {
			continue
		}
		plan := engine.Derive(today, f)
		for i := range known.Races {
			race := &known.Races[i]
			role := show.RoleOf(plan, known, race)
			s := plans.Scheduled{Plan: plan, Facts: desk.Ledger{Now: known, All: f}, Role: role, Race: race, Days: show.RaceDays(plan, role, race)}
			if race.Last() < today || len(s.Days) == 0 {
				continue
			}
			shown++
			lines := strings.Split(s.Brief().Text(), "\n")
			if len(lines) > plans.MostScreen || !strings.Contains(lines[0], race.Name) {
				t.Errorf("%d lines:\n%s", len(lines), strings.Join(lines, "\n"))
			}
			for k := range min(plans.ScreenDays, len(s.Days)) {
				d := &s.Days[k]
				for _, line := range lines {
					if strings.HasPrefix(line, d.Date.Short()+" ") && d.IsHard() && !strings.Contains(line, " ! ") {
						t.Errorf("a hard day without its caution: %s", line)
					}
				}
			}
		}
	}
	if shown < rounds.Of(200) {
		t.Errorf("only %d plans shown", shown)
	}
}

// A B or C race inside a taper is a day of that taper's plan, not a plan in its place.
func TestPlanShowKeepsTheTaperAroundARace(t *testing.T) {
	for name, inside := range map[string]struct{ race, today string }{
		"Wednesday Crit": {"date:2026-06-24 priority:C", "2026-06-22T08:00:00Z"},
		"Mill Ride":      {"date:2026-06-23 priority:B", "2026-06-21T08:00:00Z"},
	} {
		k := bottest.NewTalk(t)
		k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`,
			fmt.Sprintf(`/race add name:"%s" %s hours:1`, name, inside.race))
		if got := k.OK("/plan show").Race; got != "Hill Loop" {
			t.Errorf("weeks before the taper that %s will be in, the plan is of %q", name, got)
		}
		k.Who.Now = bottest.At(inside.today)
		reply := k.OK("/plan show")
		if reply.Race != "Hill Loop" {
			t.Errorf("inside the taper the plan is of %q", reply.Race)
		}
		bottest.Wants(t, reply, "RACE "+name+" 1h ! not if ill", "Today is day ")
	}
}

// A C race hides neither the days after an A race nor, beside a B race, the taper that holds both.
func TestCRaceHidesNoPlan(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:One date:2026-06-28 priority:A hours:3h taper:14", "/race add name:Bee date:2026-06-20 priority:B hours:2h",
		"/race add name:Midweek date:2026-06-17 priority:C hours:1h", "/race add name:After date:2026-07-01 priority:C hours:1h")
	for _, day := range []string{"2026-06-15", "2026-06-16", "2026-06-17", "2026-06-18", "2026-06-29", "2026-06-30"} {
		k.Who.Now = bottest.At(day + "T06:00:00Z")
		if reply := k.OK("/plan show"); reply.Race != "One" {
			t.Errorf("%s: the plan of %q", day, reply.Race)
		}
	}
}

// Above days that a taper changes nobody reads that none changes.
func TestNoRaceInsideATaperSaysThatNothingChanges(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon recovery 45; tue intervals 1h15 5x4min; wed endurance 1h30; thu intervals 1h15 2x15min; fri off; sat long 3h; sun endurance 2h"`,
		"/race add name:Omega date:2026-06-28 priority:A hours:3h", "/race add name:Hop date:2026-06-21 priority:C hours:1h")
	reply := k.OK("/plan show race:Hop")
	bottest.Wants(t, reply, "The days around it follow the taper for Omega.", "easy 2h20 (usually long 3h)")
	if strings.Contains(reply.Text(), "No other day") {
		t.Errorf("says:\n%s", reply.Text())
	}
}

// The emergency words are on a screen once, and a hard day and a race share a caution.
func TestEmergencyWordsOnce(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Quarry Crit" date:2026-06-04 priority:C hours:1`)
	text := k.OK("/plan show").Text()
	if n := strings.Count(text, "Chest pain, fainting"); n != 1 || !strings.Contains(text, "! Do not ride hard or race when you are ill.") {
		t.Errorf("%d times:\n%s", n, text)
	}
}

// A plan that changes days for a C race never says that none changes.
func TestCRacesNameTheDaysThatTheyChange(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"tue intervals 1h15 5x4min; wed endurance 1h30; thu intervals 1h15 2x15min; sat long 3h"`, `/race add name:"Wednesday Crit" date:2026-06-17 priority:C hours:1`)
	reply := k.OK("/plan show")
	if !strings.Contains(reply.Text(), "Days that change for it: ") || strings.Contains(reply.Text(), "No other day") {
		t.Errorf("says:\n%s", reply.Text())
	}
	for _, button := range reply.Buttons {
		if strings.HasPrefix(button.Label, "Why ") && !strings.HasSuffix(button.Label, "?") {
			t.Errorf("button %q", button.Label)
		}
	}
}

// The days of a swap that is offered have no race between them.
func TestNoSwapAcrossARaceIsOffered(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	offered := 0
	for range rounds.Of(200) {
		today, f := bottest.AnyFacts(t, r)
		plan := engine.Derive(today, f)
		from, to, ok := plans.Swappable(desk.Ledger{Now: f.KnownOn(today), All: f}, today, plan.Days)
		if !ok {
			continue
		}
		offered++
		for day := from; day <= to; day++ {
			if d, there := plan.Day(day); there && d.Phase == planner.RaceDay {
				t.Errorf("a swap of %s and %s goes over a race on %s", from, to, day)
			}
		}
	}
	if offered < rounds.Of(20) {
		t.Errorf("only %d swaps offered", offered)
	}
}

// That no other day changes is said once; and days that a hard session moves to are not called easier.
func TestUnchangedDaysAreSaidOnce(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:One date:2026-06-28 priority:A hours:3h", "/race add name:After date:2026-06-30 priority:C hours:1h",
		"/race add name:Bee date:2026-07-22 priority:B hours:1")
	text := k.OK("/plan show race:After").Text()
	if n := strings.Count(strings.ToLower(text), "other day changes"); n != 1 {
		t.Errorf("said %d times:\n%s", n, text)
	}
	bottest.Wants(t, k.OK("/plan show race:Bee"), "the first of them Sun 19 Jul.", "Days that change for it: Fri 17 Jul")
}

// Days that are easier six days before a B race are not called half a week.
func TestHalfAWeekIsFourDays(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"tue intervals 1h15 5x4min; wed endurance 1h30; thu intervals 1h30 3x10min; sat long 4h; sun endurance 2h30"`)
	bottest.Wants(t, k.OK(`/race add name:"Elm Cup" date:2026-06-20 priority:B hours:3`), "It gets half a week of easier days, the first of them Tue 16 Jun.")
	bottest.Wants(t, k.OK("/race change race:elm emphasis:important"), "It gets easier days, the first of them Sun 14 Jun.", "Sun 14 Jun endurance 1h50 (until now endurance 2h30)")
}
