package plans_test

import (
	"strings"
	"testing"
	"unicode/utf16"

	"musette/bot/bottest"
	"musette/bot/say"
)

// withResults is a talk of a rider who has raced three times and told how it went.
func withResults(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-03-02T08:00:00Z")
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Early Loop" date:2026-04-05 priority:A hours:3h taper:6`, `/race add name:"Mill Crit" date:2026-05-03 priority:B hours:1h`,
		`/race add name:"Quarry Tour" date:2026-05-31 priority:A hours:4h taper:13`, `/race add name:"Heron Valley" date:2026-07-19 priority:A hours:3h`)
	k.Who.Now = bottest.At("2026-06-02T08:00:00Z")
	return k
}

func TestTaperHistory(t *testing.T) {
	k := withResults(t)
	empty := k.OK("/taper history")
	bottest.Wants(t, empty, "Nothing is learned yet: no race with a result counts so far. Your taper has the usual length for your hours.", "/race result feeling:8 compared:better")
	k.OK(`/race result race:"Early Loop" feeling:8 compared:better`)
	bottest.Wants(t, k.OK("/taper history"), "After 1 race, hard training seems to stop paying off about ", "So few races say little")
	k.OK(`/race result race:"Mill Crit" feeling:7`, `/race result race:"Quarry Tour" feeling:5 compared:worse`)
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "After 3 races, hard training seems to stop paying off about ", " days before a race for you (most likely ", "The usual length for the hours is ", ", which fits as well, so it stays.",
		"Quarry Tour (A, Sun 31 May): 13 days with ", " less, legs 5 of 10, worse than expected\nMill Crit (B, Sun 3 May): no taper, legs 7 of 10\nEarly Loop (A, Sun 5 Apr): 6 days with ",
		"To learn most, try ", "for Heron Valley (Sun 19 Jul)", "Health comes first.")
	if !reply.Private || reply.Race != "Heron Valley" || len(reply.Buttons) != 2 {
		t.Fatalf("private %v, race %q, buttons %v", reply.Private, reply.Race, reply.Buttons)
	}
	onOneScreen(t, reply)
	before := whole(k)
	bottest.Wants(t, k.Press(reply, reply.Buttons[1].Label), "Good: Heron Valley keeps its planned ", "Nothing is changed.")
	if whole(k) != before {
		t.Error("no changes the plan")
	}
	k.Press(reply, reply.Buttons[0].Label)
	if f := k.Facts(); f.Races[len(f.Races)-1].TaperDays == 0 || whole(k) == before {
		t.Error("yes changes nothing")
	}
	bottest.Wants(t, k.OK("/taper history"), "Next: Heron Valley (Sun 19 Jul), with the ", " that you set.")
	k.Refused("/taper history try:yes", "try")
}

// What was learned stays on a phone's screen however many races there were, and says of health no more than others may read.
func TestTaperHistoryIsShort(t *testing.T) {
	k := withResults(t)
	for _, line := range []string{`/race result race:"Early Loop" feeling:8 note:"slept badly, fever after"`, "/tell sick symptoms:fever since:2026-05-25", "/tell well day:2026-05-27", `/race result race:"Quarry Tour" feeling:5`} {
		k.OK(line)
	}
	reply := k.OK("/taper history")
	bottest.Wants(t, reply, "legs 5 of 10. Not counted: no training for health")
	for _, word := range []string{"fever", "slept", "ill"} {
		if strings.Contains(strings.ReplaceAll(strings.ToLower(reply.Text()), "mill", ""), " "+word) {
			t.Errorf("%s in %s", word, reply.Text())
		}
	}
	onOneScreen(t, reply)
}

// onOneScreen is at most 18 lines and 1,300 characters.
func onOneScreen(t *testing.T, r say.Reply) {
	t.Helper()
	if n, units := len(r.Lines), len(utf16.Encode([]rune(r.Text()))); n > 18 || units > 1300 {
		t.Errorf("%d lines, %d characters:\n%s", n, units, r.Text())
	}
}
