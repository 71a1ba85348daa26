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

// printedCommand is a command in a reply, up to the end of its line or sentence.
var printedCommand = regexp.MustCompile(`(?m)(?:^|[ (])/((?:race|week|plan|ride|tell|me|help)\b(?:"[^"\n]*"|[^"\n])*?)(?:\. |$)`)

// Every command that a reply prints, refusals too, works when it is typed as it
// stands, each in a conversation that has come as far as the reply.
func TestPrintedCommandsWork(t *testing.T) {
	for _, session := range [][]string{
		{"/ride"}, {"/ride tomorrow"}, {"/ride day:2026-07-08"}, {"/plan show"}, {"/plan show race:heron"}, {"/plan show race:hill"}, {"/plan why"},
		{"/plan why tomorrow"}, {"/race list"}, {"/week show"}, {"/me show"}, {"/me set cut:80"}, {"/week share mon: long 2h"},
		{`/race remove race:"quarry crit"`}, {"/race priority race:hill priority:C"}, {"/race change race:quarry kind:criterium"},
		{`/race add name:"Cup:Final" date:2026-08-02 priority:A`}, {`/race add name:"Cup:Final" date:2026-08-02 priority:A`, "/race priority race:cup priority:B"},
		{"/plan move from:2026-06-03 to:2026-06-06"}, {"/plan move from:2026-06-03 to:2026-06-06", "/plan move from:2026-06-06 to:2026-06-03"},
		{"/tell limit day:2026-06-20 minutes:45"}, {"/tell limit day:2026-06-20 minutes:45", "/tell limit day:2026-06-20 minutes:none"}, {"/tell limit day:2026-06-20 minutes:none"},
		{"/tell away from:2026-06-22"}, {"/tell away from:2026-12-30 to:2027-01-02"}, {"/tell away from:2026-06-22 to:2026-06-24", "/tell away from:2026-06-23 kind:none"},
		{"/tell away from:2026-06-22 to:2026-06-24", "/tell away from:2026-06-22 to:2026-06-24 kind:none"}, {"/tell away from:2026-06-22 kind:none"},
		{"/tell block from:2026-06-01 to:2026-06-05"}, {"/tell block from:2026-06-01 to:2026-06-05", "/tell block from:2026-06-03 to:2026-06-09"},
		{"/tell block from:2026-06-01 to:2026-06-05", "/tell block from:2026-06-08 to:2026-06-09", "/tell block from:2026-06-03 to:2026-06-08 percent:none"},
	} {
		var reply Reply
		run := func() *talk {
			k := withRaces(t)
			for _, line := range session {
				reply = k.say(line)
			}
			return k
		}
		run()
		last := session[len(session)-1]
		found := printedCommand.FindAllStringSubmatch(reply.Text, -1)
		if len(found) == 0 && reply.Topic == TopicCommand && last != "/race list" {
			t.Errorf("%s prints no next step:\n%s", last, reply.Text)
		}
		for _, match := range found {
			if again := run().say("/" + match[1]); again.Err != nil {
				t.Errorf("%s prints %q, refused: %s", last, "/"+match[1], again.Text)
			}
		}
	}
}

// Before anything is told the replies print commands that work as well.
func TestFirstCommandsWork(t *testing.T) {
	for _, line := range []string{"/ride", "/plan show", "/plan why", "/week show", "/me show", "/race list", "/race remove race:x"} {
		found := printedCommand.FindAllStringSubmatch(newTalk(t).say(line).Text, -1)
		if len(found) == 0 {
			t.Errorf("%s prints no next step", line)
		}
		for _, match := range found {
			newTalk(t).ok("/" + match[1])
		}
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
