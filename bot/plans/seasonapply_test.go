package plans_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// undoLine is the line of a reply that takes its change back.
func undoLine(r say.Reply) string {
	_, line, _ := strings.Cut(r.Text(), "Undo: ")
	return line
}

// A button or a line about a race that is gone changes no other one.
func TestStaleSeasonChangesNoOtherRace(t *testing.T) {
	k := withGoals(t)
	k.OK(`/race add name:"Hill Loop" date:2026-08-16 priority:A`, `/race add name:"Hill Loop Masters" date:2026-08-16 priority:B`)
	applied := k.OK(`/season apply make-b:"Hill Loop 2026-08-16"`)
	again := k.OK(undoLine(applied))
	k.OK(`/race remove race:"Hill Loop 2026-08-16"`)
	bottest.Wants(t, k.Refused(undoLine(applied), "back-to-a"), `back-to-a:"Hill Loop Masters 2026-08-16"`)
	was := k.Facts()
	for _, old := range []say.Reply{applied, again} {
		if reply := k.Press(old, "Undo"); reply.Err == nil || !bottest.SameFacts(k.Facts(), was) {
			t.Errorf("pressed: %s\n%+v", reply.Text(), k.Facts())
		}
	}
	k.Refused(`/season apply make-b:"Hill Loop 2026-08-16"`, "make-b")
}

// A race whose name ends in a date is told from one of that day.
func TestNamesThatEndInADate(t *testing.T) {
	k := withGoals(t)
	k.OK(`/race add name:"Hill Loop 2026-09-20" date:2026-08-16 priority:A`, `/race add name:"Hill Loop" date:2026-09-20 priority:A`)
	applied := k.OK(`/season apply make-b:"Hill Loop 2026-09-20"`)
	bottest.Wants(t, applied, "Hill Loop is a B race now.", "\nIf you change your mind, press Undo.\n", `Undo: /season apply back-to-a:"Hill Loop 2026-09-20"`)
	for _, r := range k.Facts().Races {
		if want := map[string]string{"Hill Loop": "B", "Hill Loop 2026-09-20": "A"}[r.Name]; r.Priority.String() != want {
			t.Errorf("%s is %s, want %s", r.Name, r.Priority, want)
		}
	}
	k.OK(`/race add name:"Hill Loop 2026-09-20" date:2026-09-20 priority:A`, `/season apply make-b:"Hill Loop 2026-09-20 2026-09-20"`)
	bottest.Wants(t, k.Refused(`/season apply make-b:"Hill Loop 2026-09-20"`, "make-b"), "Hill Loop is a B race already")
	k.OK(`/race remove race:"Hill Loop 2026-09-20 2026-09-20"`)
	k.OK(`/season apply make-b:"Hill Loop 2026-09-20 2026-08-16"`, `/race remove race:"Hill Loop"`)
	bottest.Wants(t, k.Refused(undoLine(applied), "back-to-a"), `back-to-a:"Hill Loop 2026-09-20 2026-08-16"`)
	bottest.Wants(t, k.OK(`/season apply back-to-a:"Hill Loop 2026-09-20 2026-08-16"`), "Hill Loop 2026-09-20 is an A race again.")
}

// Where a date is written the rest is the whole name, as offers write it too.
func TestDatedNamesAreWhole(t *testing.T) {
	long := strings.Repeat("very ", 30)
	k := withGoals(t)
	k.OK(`/race add name:"`+long+`one" date:2026-08-16 priority:A`, `/race add name:"Hill Loop" date:2026-08-30 priority:A`, "/race add name:Quarry date:2026-09-06 priority:C")
	cut := k.Offers("season apply", "make-b", "very")[0]
	bottest.Wants(t, k.OK(`/season apply make-b:"`+cut+`"`), "is a B race now.")
	bottest.Wants(t, k.OK(`/season apply back-to-a:"`+cut+`; hill"`), "is an A race again. Hill Loop is an A race already.")
	k.OK(`/race add name:"` + long + `two" date:2026-08-16 priority:A`)
	bottest.Wants(t, k.Refused(`/season apply make-b:"`+cut+`"`, "make-b"), "very one", "very two")
	for _, text := range []string{"Hill 2026-08-30", "hill loop 2026-08-31", "Quarry 2026-08-30", "zebra 2026-08-30"} {
		bottest.Wants(t, k.Refused(`/season apply make-b:"`+text+`"`, "make-b"), `For example make-b:"`)
	}
	bottest.Wants(t, k.Refused(`/season apply back-to-a:"Hill 2026-08-30"`, "back-to-a"), "/season check") // no B race is to come
	bottest.Wants(t, k.OK(`/season apply make-b:"HILL LOOP 2026-08-30"`), "Hill Loop is a B race now.")
}

// What is so already is a refusal, so that the answer before keeps its place and its Undo.
func TestNothingToApply(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	k.OK("/season apply make-b:hill; second taper:10")
	for _, tc := range []struct{ line, field, want string }{
		{"/season apply make-b:hill", "make-b", "Hill Loop is a B race already, so nothing changes. See /season check"},
		{"/season apply make-b:hill; second back-to-a:third", "make-b", "Hill Loop and Second are B races already and Third is an A race already, so nothing changes. See /season check"},
		{"/season apply back-to-a:third taper:10", "back-to-a", "Third is an A race already and your tapers take 10 days already, so nothing changes. See /season check"},
		{"/season apply taper:10", "taper", "your tapers take 10 days already, so nothing changes. See /season check"},
	} {
		if reply := k.Refused(tc.line, tc.field); reply.Err.Message != tc.want || len(reply.Buttons) != 0 {
			t.Errorf("%s: got %q, want %q", tc.line, reply.Err.Message, tc.want)
		}
	}
}

// Undo brings back what can still be brought back.
func TestUndoOnceARaceIsOver(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	applied := k.OK("/season apply make-b:hill; second; third taper:10")
	k.Who.Now = bottest.At("2026-07-01T08:00:00Z")
	back := k.Press(applied, "Undo")
	bottest.Wants(t, back, "Second and Third are A races again. Your taper lengths are automatic. Hill Loop is over and stays as it is.")
	if line := undoLine(back); line != `/season apply make-b:"Second 2026-07-12; Third 2026-07-26" taper:10` {
		t.Errorf("undone by %s", line)
	}
	bottest.Wants(t, k.Refused(undoLine(applied), "back-to-a"), "Second and Third are A races already, your taper lengths are automatic already and Hill Loop is over and stays as it is, so nothing changes")
	k.Who.Now = bottest.At("2026-08-01T08:00:00Z")
	bottest.Wants(t, k.Refused(`/season apply make-b:"Second 2026-07-12; Third 2026-07-26"`, "make-b"), "Second and Third are over and stay as they are, so nothing changes. See /season check")
	bottest.Wants(t, k.OK(undoLine(back)), "Your tapers take 10 days. Second and Third are over and stay as they are.")
}

// Races of one name are told apart by their days.
func TestSeasonOfOneName(t *testing.T) {
	k := withGoals(t, "Mill", "Mill", "Mill", "Quarry")
	bottest.Wants(t, k.OK(`/season apply make-b:"Mill 2026-06-28; Mill 2026-07-12; quarry"`), "Mill (Sun 28 Jun), Mill (Sun 12 Jul) and Quarry are B races now.")
	bottest.Wants(t, k.Refused(`/season apply make-b:"Mill 2026-06-28"`, "make-b"), "Mill (Sun 28 Jun) is a B race already")
	bottest.Wants(t, k.Refused(`/season apply make-b:"Mill 2026-07-26" back-to-a:"Mill 2026-07-26"`, "back-to-a"), "Mill (Sun 26 Jul) is in make-b too")
	k.OK(`/race priority race:"Mill 2026-07-26" priority:C`)
	bottest.Wants(t, k.Refused(`/season apply make-b:"Mill 2026-07-26"`, "make-b"), "Mill (Sun 26 Jul) is a C race")
}

// A list is completed with every race that does not stand in it yet.
func TestListsKnowWholeNames(t *testing.T) {
	k := withGoals(t)
	k.OK("/race add name:Loop date:2026-07-26 priority:A", `/race add name:"Long Loop" date:2026-07-26 priority:A`, `/race add name:"a; b" date:2026-08-09 priority:A`)
	const long, both = "Long Loop 2026-07-26", "Long Loop 2026-07-26; Loop 2026-07-26"
	for typed, want := range map[string]string{
		long + "; ": both + "|" + long + "; a; b 2026-08-09", long + ";lo": both, strings.ToUpper(long) + "; lo": strings.ToUpper(long) + "; Loop 2026-07-26",
		both + "; ": both + "; a; b 2026-08-09", "a; b 2026-08-09; lo": "a; b 2026-08-09; Long Loop 2026-07-26|a; b 2026-08-09; Loop 2026-07-26", "loop; lo": "loop; Long Loop 2026-07-26",
	} {
		if got := strings.Join(k.Offers("season apply", "make-b", typed), "|"); got != want {
			t.Errorf("%s offers %q, want %q", typed, got, want)
		}
	}
}
