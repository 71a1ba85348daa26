package bot

import (
	"strings"
	"testing"

	"musette/planner"
)

func TestTellAway(t *testing.T) {
	k := withRaces(t)
	reply := k.ok("/tell away from:2026-06-19 to:sun kind:travel")
	want := planner.Absence{From: planner.NewDate(2026, 6, 19), To: planner.NewDate(2026, 6, 21), Travel: true, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.facts().Absences; len(got) != 1 || got[0] != want {
		t.Fatalf("stored %+v, want %+v", got, want)
	}
	wants(t, reply, "travelling", "Fri 19 Jun to Sun 21 Jun", "What changes:", "Sat 20 Jun rest (was long 3h)")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	again := k.ok("/tell away from:2026-06-19 to:2026-06-21 kind:travel")
	wants(t, again, "No planned day changes.")
	if got := k.facts().Absences; len(got) != 1 {
		t.Errorf("the same stretch piles up: %+v", got)
	}
	wants(t, k.ok("/me show"), "Fri 19 Jun to Sun 21 Jun: travelling")
	wants(t, k.ok(undo), "Not away after all", "Sat 20 Jun long 3h (was rest)")
	if got := k.facts().Absences; len(got) != 0 {
		t.Errorf("left after undo: %+v", got)
	}
	k.refused(undo, "from")
	wants(t, k.ok("/tell limit day:2026-06-20 minutes:30", "/tell away from:2026-06-19 to:2026-06-21 kind:travel"), "Fri 19 Jun rest (was endurance 1h15)")
	wants(t, k.ok("/ride 2026-06-20"), "recovery 30min")
	k.ok("/tell away from:2026-06-19 to:2026-06-21 kind:none", "/tell limit day:2026-06-20 minutes:none")
	wants(t, k.ok("/tell away 2026-06-19"), "away, no training, Fri 19 Jun.", "Fri 19 Jun rest (was endurance 1h15)")
	k.refused("/tell away from:2026-06-19 to:2026-06-18", "to")
	k.refused("/tell away from:2026-06-19 to:2028-06-18", "to")
	k.refused("/tell away from:2024-06-19", "from")
	k.refused("/tell away from:2026-06-19 kind:moon", "kind")
}

func TestTellLimit(t *testing.T) {
	k := withRaces(t)
	reply := k.ok("/tell limit day:2026-06-20 minutes:1h")
	wants(t, reply, "at most 1h on Saturday 20 June 2026", "Sat 20 Jun", "(was long 3h)")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	wants(t, k.ok("/tell limit day:2026-06-20 minutes:0"), "no training on Saturday 20 June 2026", "Sat 20 Jun rest")
	if got := k.facts().Limits; len(got) != 1 || got[0].Minutes != 0 {
		t.Errorf("limits of one day pile up: %+v", got)
	}
	wants(t, k.ok(undo), "No limit any more", "Sat 20 Jun long 3h (was rest)")
	k.refused(undo, "day")
	k.refused("/tell limit day:yesterday minutes:30", "day")
	k.refused("/tell limit day:friday minutes:lots", "minutes")
	k.refused("/tell limit day:friday", "minutes")
}

func TestTellBlock(t *testing.T) {
	k := withRaces(t)
	reply := k.ok("/tell block from:2026-06-15 to:2026-06-27")
	wants(t, reply, "a block Mon 15 Jun to Sat 27 Jun with 20 % more than usual", "What changes:")
	_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
	k.ok("/tell block from:2026-06-15 to:2026-06-27 percent:30%")
	if got := k.facts().Blocks; len(got) != 1 || got[0].Percent != 30 {
		t.Errorf("the same block piles up: %+v", got)
	}
	k.refused("/tell block from:2026-06-20 to:2026-07-02", "from")
	k.refused("/tell block from:2026-06-15 to:2026-06-27 percent:0", "percent")
	k.refused("/tell block from:2026-06-15 to:2026-12-27", "to")
	wants(t, k.ok("/me show"), "block, 30 % more")
	wants(t, k.ok(undo), "is taken back")
	k.refused(undo, "from")
	wants(t, k.ok("/tell limit day:2026-06-20 minutes:30", "/tell away from:2026-06-19 to:2026-06-21 kind:travel"), "Fri 19 Jun rest (was endurance 1h15)")
	wants(t, k.ok("/ride 2026-06-20"), "recovery 30min")
	k.ok("/tell away from:2026-06-19 to:2026-06-21 kind:none", "/tell limit day:2026-06-20 minutes:none")
}

func TestMeSet(t *testing.T) {
	k := withRaces(t)
	reply := k.ok("/me set zone:lisbon taper:10 cut:60 pattern:THIRD openers:d-2 announce:off")
	wants(t, reply, "Set: zone Europe/Lisbon, taper 10, cut 60, pattern third, openers D-2, announce off.", "What changes:")
	want := planner.Taper{Days: 10, Cut: 60, Pattern: planner.EveryThirdDay, OpenersD2: true, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.facts().Taper; got != want {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	wants(t, k.ok("/me show"), "zone: Europe/Lisbon", "taper: 10 days", "cut: 60 %", "pattern: hard days every third day", "openers: D-2", "announce: off",
		"10h10 on 6 days", "Races to come: 3")
	k.ok("/me set taper:auto pattern:second openers:D-1")
	want = planner.Taper{Cut: 60, Pattern: planner.EverySecondDay, Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.facts().Taper; got != want {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	k.ok("/me set pattern:usual")
	wants(t, k.ok("/me show"), "pattern: your usual hard days")
	wants(t, k.ok("/me set cut:70"), "! Hill Loop: you asked for a cut of 70 %")
	k.ok("/me set cut:AUTO")
	if reply := k.ok("/me show"); k.facts().Taper.Cut != 0 {
		t.Errorf("cut %d is stored:\n%s", k.facts().Taper.Cut, reply.Text())
	} else {
		wants(t, reply, "\n  cut: auto\n")
	}
	if text := k.ok("/me set cut:auto").Text(); strings.Contains(text, "! ") {
		t.Errorf("an automatic cut is warned of:\n%s", text)
	}
	wants(t, newTalk(t).ok("/me set cut:20"), "! Studies found cuts of 40 to 60 per cent best. Yours is outside.")
	for line, field := range map[string]string{"/me set": "taper", "/me set taper:3": "taper", "/me set taper:29": "taper", "/me set cut:81": "cut",
		"/me set zone:Atlantis": "zone", "/me set pattern:fourth": "pattern", "/me set shape:linear": "shape", "/me set taper:12 cut:19": "cut"} {
		k.refused(line, field)
	}
}

func TestHelpListsWhatIsThere(t *testing.T) {
	k := newTalk(t)
	reply := k.ok("/help")
	if lines := strings.Count(reply.Text(), "\n") + 1; !reply.Private || lines > 25 {
		t.Errorf("private %v, %d lines", reply.Private, lines)
	}
	wants(t, reply, "Do not ride hard", "emergency number")
	for _, c := range Commands() {
		if c.Coach || c.Admin {
			if strings.Contains(reply.Text(), "/"+c.Name) {
				t.Errorf("riders read of /%s", c.Name)
			}
		} else {
			wants(t, reply, "/"+c.Name)
		}
		wants(t, k.ok("/help "+c.Group()), "/"+c.Example, c.Description)
	}
	wants(t, k.press(reply, "Help: race"), "/race add: ")
	k.who.Coach = true
	wants(t, k.ok("/help"), "/coach roster", "/club setup")
	k.who.Coach = false
	for _, later := range []string{"/ask", "/coach note", "remind", "/plan calendar", "/taper history"} {
		if strings.Contains(reply.Text(), later) {
			t.Errorf("help lists %s, which is not there", later)
		}
	}
	k.refused("/help flying", "topic")
}
