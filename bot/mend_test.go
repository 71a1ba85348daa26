package bot

import (
	"regexp"
	"strings"
	"testing"

	"musette/planner"
)

// Only the whole stretch that was told is taken back.
func TestAwayIsTakenBackExactly(t *testing.T) {
	k := withRaces(t)
	k.ok("/tell away from:2026-06-17 to:2026-06-18", "/tell away from:2026-06-18 to:2026-06-20 kind:travel")
	k.refused("/tell away from:2026-06-17 kind:none", "from")
	if got := len(k.facts().Absences); got != 2 {
		t.Fatalf("%d absences left, want both", got)
	}
	k.ok("/tell away from:2026-06-17 to:2026-06-18 kind:none")
	if got := k.facts().Absences; len(got) != 1 || !got[0].Travel {
		t.Errorf("left are %v, want the travel alone", got)
	}
	k.ok("/tell block from:2026-06-08 to:2026-06-14 percent:15")
	k.refused("/tell block from:2026-06-08 to:2026-06-10 percent:none", "from")
	k.ok("/tell block from:2026-06-08 to:2026-06-14 percent:none")
	if got := k.facts().Blocks; len(got) != 0 {
		t.Errorf("left are blocks %v", got)
	}
}

// A race whose name is a word of the warnings hides none of them.
func TestRaceNamesHideNoWarnings(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", `/race add name:"doctor" date:2026-06-28 priority:A hours:3`, `/race add name:"days" date:2026-07-12 priority:A`)
	wants(t, k.ok("/plan show race:days"), "has no length", "A races 14 days apart")
}

// Naming a swapped pair again undoes it, also when another swap came after it.
func TestAnOlderSwapCanBeUndone(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", "/plan move from:2026-06-03 to:2026-06-06", "/plan move from:2026-06-10 to:2026-06-13")
	k.ok("/plan move from:2026-06-06 to:2026-06-03")
	if got := k.facts().Moves; len(got) != 1 || got[0].From.String() != "2026-06-10" {
		t.Errorf("left are the swaps %v, want the second alone", got)
	}
}

var printedCommand = regexp.MustCompile(`(?m)(?:^|: )(/[a-z]+(?: [a-z]+)? [^\n]*?)(?:\. |$)`)

// Every command that a reply prints works when it is typed as it stands.
func TestPrintedCommandsWork(t *testing.T) {
	k := withRaces(t)
	tried := 0
	for _, line := range []string{"/ride", "/ride tomorrow", "/plan show", "/plan show race:heron", "/plan why tomorrow", "/race list", "/me show",
		"/tell limit day:2026-06-20 minutes:45", "/tell away from:2026-06-22", "/plan move from:2026-06-03 to:2026-06-06", `/race remove race:"quarry crit"`} {
		for _, found := range printedCommand.FindAllStringSubmatch(k.ok(line).Text, -1) {
			if strings.Contains(found[1], "...") || strings.Contains(found[1], "race add name") && line != `/race remove race:"quarry crit"` {
				continue
			}
			tried++
			if reply := k.say(found[1]); reply.Err != nil {
				t.Errorf("%s prints %q, refused: %s", line, found[1], reply.Text)
			}
		}
	}
	if tried < 8 {
		t.Errorf("only %d printed commands found", tried)
	}
}

// What was warned of before is not news.
func TestOldWarningsAreNoNews(t *testing.T) {
	k := newTalk(t)
	wants(t, k.ok("/week share week:\""+inesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A`), "has no length")
	if reply := k.ok("/tell limit day:2026-06-20 minutes:45"); strings.Contains(reply.Text, "has no length") {
		t.Errorf("told again:\n%s", reply.Text)
	}
}

// The undo of a second limit brings the first one back; past days are refused.
func TestLimitsAndPastDays(t *testing.T) {
	k := newTalk(t)
	k.ok("/tell limit day:2026-06-20 minutes:90")
	wants(t, k.ok("/tell limit day:2026-06-20 minutes:60"), "Undo: /tell limit day:2026-06-20 minutes:90")
	k.refused("/tell away from:2026-05-04 to:2026-05-06", "to")
	if f := k.facts(); len(f.Absences) != 0 || len(f.Limits) != 1 {
		t.Errorf("stored %v and %v", f.Absences, f.Limits)
	}
}

// Of two races with one name none is removed by the name alone.
func TestRemoveNamesOneRace(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:Mill date:2026-06-10 priority:C`, `/race add name:Mill date:2026-07-10 priority:C`)
	k.who.Now = at("2026-06-20T08:00:00Z")
	k.refused("/race remove race:Mill", "race")
	k.ok(`/race remove race:"Mill 2026-07-10"`)
	k.refused(`/race remove race:"Mill 2026-07-10"`, "race")
	if got := k.facts().Races; len(got) != 1 || got[0].Date.String() != "2026-06-10" {
		t.Errorf("left are %v, want the race of June", got)
	}
}

// A removed race comes back after its day too; another race in the past does not.
func TestRemovedRaceComesBackAfterItsDay(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:Mill date:2026-06-10 priority:A hours:3`)
	k.who.Now = at("2026-06-12T08:00:00Z")
	_, undo, _ := strings.Cut(k.ok("/race remove race:Mill").Text, "Undo: ")
	k.ok(undo)
	if got := k.facts().Races; len(got) != 1 || got[0].Registered != planner.NewDate(2026, 6, 1) {
		t.Errorf("came back as %v, want it registered on 2026-06-01", got)
	}
	k.refused(`/race add name:Other date:2026-06-10 priority:A`, "date")
}

// Added again with a higher priority, a removed race counts as registered that day.
func TestRemovedRaceIsNoWayToAnEarlierTaper(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:Mill date:2026-06-20 priority:C`)
	k.who.Now = at("2026-06-16T08:00:00Z")
	k.ok("/race remove race:Mill", `/race add name:Mill date:2026-06-20 priority:A`)
	if got := k.facts().Races[0].Registered; got != planner.NewDate(2026, 6, 16) {
		t.Errorf("registered %s, want 2026-06-16", got)
	}
}
