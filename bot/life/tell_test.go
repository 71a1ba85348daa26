package life_test

import (
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
)

func TestTellAway(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/tell away from:2026-06-19 to:sun kind:travel")
	want := planner.Absence{From: planner.NewDate(2026, 6, 19), To: planner.NewDate(2026, 6, 21), Travel: true, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.Facts().Absences; len(got) != 1 || got[0] != want {
		t.Fatalf("stored %+v, want %+v", got, want)
	}
	bottest.Wants(t, reply, "travelling", "Fri 19 Jun to Sun 21 Jun", "What changes in your plan:", "Sat 20 Jun rest (until now long 3h)")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	again := k.OK("/tell away from:2026-06-19 to:2026-06-21 kind:travel")
	bottest.Wants(t, again, "No planned day changes.")
	if got := k.Facts().Absences; len(got) != 1 {
		t.Errorf("the same stretch piles up: %+v", got)
	}
	bottest.Wants(t, k.OK("/me show"), "Fri 19 Jun to Sun 21 Jun: travelling")
	bottest.Wants(t, k.OK(undo), "Not away after all", "Sat 20 Jun long 3h (until now rest)")
	if got := k.Facts().Absences; len(got) != 0 {
		t.Errorf("left after undo: %+v", got)
	}
	k.Refused(undo, "from")
	bottest.Wants(t, k.OK("/tell limit day:2026-06-20 minutes:30", "/tell away from:2026-06-19 to:2026-06-21 kind:travel"), "Fri 19 Jun rest (until now endurance 1h15)")
	bottest.Wants(t, k.OK("/ride 2026-06-20"), "recovery 30min")
	k.OK("/tell away from:2026-06-19 to:2026-06-21 kind:none", "/tell limit day:2026-06-20 minutes:none")
	bottest.Wants(t, k.OK("/tell away 2026-06-19"), "Noted for Fri 19 Jun: away, no training.", "Fri 19 Jun rest (until now endurance 1h15)")
	k.Refused("/tell away from:2026-06-19 to:2026-06-18", "to")
	k.Refused("/tell away from:2026-06-19 to:2028-06-18", "to")
	k.Refused("/tell away from:2024-06-19", "from")
	k.Refused("/tell away from:2026-06-19 kind:moon", "kind")
}

func TestTellLimit(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/tell limit day:2026-06-20 minutes:1h")
	bottest.Wants(t, reply, "at most 1h on Saturday 20 June 2026", "Sat 20 Jun", "(until now long 3h)")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	bottest.Wants(t, k.OK("/tell limit day:2026-06-20 minutes:0"), "no training on Saturday 20 June 2026", "Sat 20 Jun rest")
	if got := k.Facts().Limits; len(got) != 1 || got[0].Minutes != 0 {
		t.Errorf("limits of one day pile up: %+v", got)
	}
	bottest.Wants(t, k.OK(undo), "No limit any more", "Sat 20 Jun long 3h (until now rest)")
	k.Refused(undo, "day")
	k.Refused("/tell limit day:yesterday minutes:30", "day")
	k.Refused("/tell limit day:friday minutes:lots", "minutes")
	k.Refused("/tell limit day:friday", "minutes")
}

func TestTellBlock(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/tell block from:2026-06-15 to:2026-06-27")
	bottest.Wants(t, reply, "a block Mon 15 Jun to Sat 27 Jun with 20 % more than usual", "What changes in your plan:")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	k.OK("/tell block from:2026-06-15 to:2026-06-27 percent:30%")
	if got := k.Facts().Blocks; len(got) != 1 || got[0].Percent != 30 {
		t.Errorf("the same block piles up: %+v", got)
	}
	k.Refused("/tell block from:2026-06-20 to:2026-07-02", "from")
	k.Refused("/tell block from:2026-06-15 to:2026-06-27 percent:0", "percent")
	k.Refused("/tell block from:2026-06-15 to:2026-12-27", "to")
	bottest.Wants(t, k.OK("/me show"), "block, 30 % more")
	bottest.Wants(t, k.OK(undo), "is taken back")
	k.Refused(undo, "from")
	bottest.Wants(t, k.OK("/tell limit day:2026-06-20 minutes:30", "/tell away from:2026-06-19 to:2026-06-21 kind:travel"), "Fri 19 Jun rest (until now endurance 1h15)")
	bottest.Wants(t, k.OK("/ride 2026-06-20"), "recovery 30min")
	k.OK("/tell away from:2026-06-19 to:2026-06-21 kind:none", "/tell limit day:2026-06-20 minutes:none")
}

func TestMeSet(t *testing.T) {
	k := bottest.WithRaces(t)
	reply := k.OK("/me set zone:lisbon taper:10 cut:60 pattern:THIRD openers:d-2 announce:off")
	bottest.Wants(t, reply, "Done. Your days begin by the time of Europe/Lisbon.", "takes 10 days", "60 % less", "What changes in your plan:")
	want := planner.Taper{Days: 10, Cut: 60, Pattern: planner.EveryThirdDay, OpenersD2: true, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.Facts().Taper; got != want {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	bottest.Wants(t, k.OK("/me show"), "time of Europe/Lisbon", "takes 10 days", "60 % less", "every third day", "two days before the race", "I do not tell the club's channel",
		"10h10 on 6 days", "Races to come: 3")
	k.OK("/me set taper:auto pattern:second openers:D-1")
	want = planner.Taper{Cut: 60, Pattern: planner.EverySecondDay, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.Facts().Taper; got != want {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	k.OK("/me set pattern:usual")
	bottest.Wants(t, k.OK("/me show"), "weekdays of your usual week")
	bottest.Wants(t, k.OK("/me set cut:70"), "! Hill Loop: you asked for a cut of 70 %")
	k.OK("/me set cut:AUTO")
	if reply := k.OK("/me show"); k.Facts().Taper.Cut != 0 {
		t.Errorf("cut %d is stored:\n%s", k.Facts().Taper.Cut, reply.Text())
	} else {
		bottest.Wants(t, reply, "\n  I work out from your weekly hours how much less you ride in a taper.\n")
	}
	if text := k.OK("/me set cut:auto").Text(); strings.Contains(text, "! ") {
		t.Errorf("an automatic cut is warned of:\n%s", text)
	}
	for line, field := range map[string]string{"/me set": "taper", "/me set taper:3": "taper", "/me set taper:29": "taper", "/me set cut:81": "cut",
		"/me set zone:Atlantis": "zone", "/me set pattern:fourth": "pattern", "/me set shape:linear": "shape", "/me set taper:12 cut:19": "cut"} {
		k.Refused(line, field)
	}
}

func TestHelpListsWhatIsThere(t *testing.T) {
	k := bottest.NewTalk(t)
	reply := k.OK("/help")
	if lines := strings.Count(reply.Text(), "\n") + 1; !reply.Private || lines > 25 {
		t.Errorf("private %v, %d lines", reply.Private, lines)
	}
	bottest.Wants(t, reply, "Do not ride hard", "emergency number")
	for _, c := range bot.Commands() {
		if c.Coach || c.Admin {
			if strings.Contains(reply.Text(), "/"+c.Name) {
				t.Errorf("riders read of /%s", c.Name)
			}
		} else if !strings.Contains(reply.Text(), "/"+c.Name) && c.Name != "help" {
			topic := c.Group()
			if topic == "coach" {
				topic = "plan"
			}
			bottest.Wants(t, k.Press(reply, topic), "/"+c.Name)
		}
		k.Who.Coach = c.Coach || c.Admin
		bottest.Wants(t, k.OK("/help "+c.Group()), "/"+c.Example, c.Description)
		if k.Who.Coach {
			k.Who.Coach = false
			if text := k.OK("/help " + c.Group()).Text(); strings.Contains(text, "/"+c.Name+": ") {
				t.Errorf("riders read how /%s works", c.Name)
			}
		}
	}
	bottest.Wants(t, k.Press(reply, "race"), "/race add: ")
	k.Who.Coach = true
	bottest.Wants(t, k.OK("/help"), "/coach roster")
	k.Who.Coach = false
	for _, later := range []string{"/coach note", "remind"} {
		if strings.Contains(reply.Text(), later) {
			t.Errorf("help lists %s, which is not there", later)
		}
	}
	k.Refused("/help flying", "topic")
}

// Who sets a cut outside of what is advised hears so once: from the plan, where there is one.
func TestCutsOutsideOfStudies(t *testing.T) {
	const outside = "! Studies found cuts of 41 to 60 % best. Yours is outside."
	alone := bottest.NewTalk(t)
	for cut, warned := range map[string]bool{"20": true, "39": true, "40": false, "60": false, "61": true, "80": true} {
		if text := alone.OK("/me set cut:" + cut).Text(); strings.Contains(text, outside) != warned {
			t.Errorf("a cut of %s %%, warned of: %t\n%s", cut, !warned, text)
		}
	}
	alone.OK("/me set cut:80")
	planned := withWeek(t)
	planned.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	for _, reply := range []say.Reply{alone.OK("/me set taper:10"), planned.OK("/me set cut:70")} {
		if strings.Contains(reply.Text(), outside) {
			t.Errorf("warned of once more:\n%s", reply.Text())
		}
	}
}

// A block has its cautions, and one that is far too much a warning of its own.
func TestBlockCautions(t *testing.T) {
	k := withWeek(t)
	much := k.OK("/tell block from:2026-06-03 to:2026-06-13 percent:100")
	bottest.Wants(t, much, "! 100 % more is a great deal.", "\n! A block is much more than usual. Stop it if",
		"Sun 7 Jun  intervals 4h 4x8min (until now intervals 2h 4x8min) ! not if ill")
	for percent, warned := range map[string]bool{"": false, " percent:50": false, " percent:51": true} {
		k.Undo(much)
		much = k.OK("/tell block from:2026-06-03 to:2026-06-13" + percent)
		bottest.Wants(t, much, "\n! A block is much more than usual")
		if strings.Contains(much.Text(), "a great deal") != warned {
			t.Errorf("a block%s, warned of: %t\n%s", percent, !warned, much.Text())
		}
	}
}

// A last day that lies before the first is refused, and not taken for one of the next year.
func TestDaysTheWrongWayRound(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, line := range []string{`/tell away from:"8 june" to:"6 june"`, `/tell block from:"8 june" to:"5 june"`} {
		bottest.Wants(t, k.Refused(line, "to"), "is before Monday 8 June 2026")
	}
	bottest.Wants(t, k.OK(`/tell away from:"30 december" to:"2 january"`), "Wed 30 Dec to Sat 2 Jan 2027")
	bottest.Wants(t, k.OK("/tell away from:thursday to:monday"), "Thu 4 Jun to Mon 8 Jun")
}

// A day of this month that is just over is not taken for one of the next year.
func TestAwaySinceADayThatIsJustOver(t *testing.T) {
	k := withWeek(t) // Tuesday 2 June 2026
	bottest.Wants(t, k.OK(`/tell away from:"30 May" to:"5 June"`), "Sat 30 May to Fri 5 Jun")
	refused := k.Refused(`/tell away from:"30 May"`, "from")
	bottest.Wants(t, refused, "30 May 2026")
	bottest.Wants(t, k.OK(`/tell away from:"30 May 2027" to:"31 May 2027"`), "2027")
	bottest.Wants(t, k.OK(`/tell away from:"3 April" to:"5 April"`), "2027")
}

// A limit on a day away gives it no ride, and says why; of two troubles the one that goes on is named.
func TestWhatGoesOnIsNamed(t *testing.T) {
	k := withWeek(t)
	k.OK("/tell away from:2026-06-05 to:2026-06-06")
	bottest.Wants(t, k.OK("/tell limit day:2026-06-06 minutes:45"), "You said that you are away on that day, so it stays free.", "/tell away from:2026-06-05 kind:travel to:2026-06-06")
	k.OK("/tell away from:2026-06-05 kind:travel to:2026-06-06")
	bottest.Wants(t, k.OK("/ride day:2026-06-06"), "Sat 6 Jun: easy 45min.")
	k.OK("/tell injured what:knee", "/tell sick symptoms:fever")
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	bottest.Wants(t, k.OK("/tell well of:illness"), "You are still injured, since Tue 2 Jun, so every day is rest. When that is over: /tell well")
}
