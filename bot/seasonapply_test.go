package bot

import (
	"context"
	"strings"
	"testing"

	"musette/bot/picture"
)

// undoLine is the line of a reply that takes its change back.
func undoLine(r Reply) string {
	_, line, _ := strings.Cut(r.Text(), "Undo: ")
	return line
}

// A button or a line about a race that is gone changes no other one.
func TestStaleSeasonChangesNoOtherRace(t *testing.T) {
	k := withGoals(t)
	k.ok(`/race add name:"Hill Loop" date:2026-08-16 priority:A`, `/race add name:"Hill Loop Masters" date:2026-08-16 priority:B`)
	applied := k.ok(`/season apply make-b:"Hill Loop 2026-08-16"`)
	again := k.ok(undoLine(applied))
	k.ok(`/race remove race:"Hill Loop 2026-08-16"`)
	wants(t, k.refused(undoLine(applied), "back-to-a"), `back-to-a:"Hill Loop Masters 2026-08-16"`)
	was := k.facts()
	for _, old := range []Reply{applied, again} {
		if reply := k.press(old, "Undo"); reply.Err == nil || !sameFacts(k.facts(), was) {
			t.Errorf("pressed: %s\n%+v", reply.Text(), k.facts())
		}
	}
	k.refused(`/season apply make-b:"Hill Loop 2026-08-16"`, "make-b")
}

// A race whose name ends in a date is told from one of that day.
func TestNamesThatEndInADate(t *testing.T) {
	k := withGoals(t)
	k.ok(`/race add name:"Hill Loop 2026-09-20" date:2026-08-16 priority:A`, `/race add name:"Hill Loop" date:2026-09-20 priority:A`)
	applied := k.ok(`/season apply make-b:"Hill Loop 2026-09-20"`)
	wants(t, applied, "Hill Loop is a B race now.", `Undo: /season apply back-to-a:"Hill Loop 2026-09-20"`)
	for _, r := range k.facts().Races {
		if want := map[string]string{"Hill Loop": "B", "Hill Loop 2026-09-20": "A"}[r.Name]; r.Priority.String() != want {
			t.Errorf("%s is %s, want %s", r.Name, r.Priority, want)
		}
	}
	k.ok(`/race add name:"Hill Loop 2026-09-20" date:2026-09-20 priority:A`, `/season apply make-b:"Hill Loop 2026-09-20 2026-09-20"`)
	wants(t, k.refused(`/season apply make-b:"Hill Loop 2026-09-20"`, "make-b"), "Hill Loop is a B race already")
	k.ok(`/race remove race:"Hill Loop 2026-09-20 2026-09-20"`)
	k.ok(`/season apply make-b:"Hill Loop 2026-09-20 2026-08-16"`, `/race remove race:"Hill Loop"`)
	wants(t, k.refused(undoLine(applied), "back-to-a"), `back-to-a:"Hill Loop 2026-09-20 2026-08-16"`)
	wants(t, k.ok(`/season apply back-to-a:"Hill Loop 2026-09-20 2026-08-16"`), "Hill Loop 2026-09-20 is an A race again.")
}

// Where a date is written the rest is the whole name, as offers write it too.
func TestDatedNamesAreWhole(t *testing.T) {
	long := strings.Repeat("very ", 30)
	k := withGoals(t)
	k.ok(`/race add name:"`+long+`one" date:2026-08-16 priority:A`, `/race add name:"Hill Loop" date:2026-08-30 priority:A`, "/race add name:Quarry date:2026-09-06 priority:C")
	cut := k.offers("season apply", "make-b", "very")[0]
	wants(t, k.ok(`/season apply make-b:"`+cut+`"`), "is a B race now.")
	wants(t, k.ok(`/season apply back-to-a:"`+cut+`; hill"`), "is an A race again; Hill Loop is an A race already.")
	k.ok(`/race add name:"` + long + `two" date:2026-08-16 priority:A`)
	wants(t, k.refused(`/season apply make-b:"`+cut+`"`, "make-b"), "very one", "very two")
	for _, text := range []string{"Hill 2026-08-30", "hill loop 2026-08-31", "Quarry 2026-08-30", "zebra 2026-08-30"} {
		wants(t, k.refused(`/season apply make-b:"`+text+`"`, "make-b"), `for example make-b:"`)
	}
	wants(t, k.refused(`/season apply back-to-a:"Hill 2026-08-30"`, "back-to-a"), "/season check") // no B race is to come
	wants(t, k.ok(`/season apply make-b:"HILL LOOP 2026-08-30"`), "Hill Loop is a B race now.")
}

// What is so already is a refusal, so that the answer before keeps its place and its Undo.
func TestNothingToApply(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	k.ok("/season apply make-b:hill; second taper:10")
	for _, tc := range []struct{ line, field, want string }{
		{"/season apply make-b:hill", "make-b", "Hill Loop is a B race already, so nothing changes. See /season check"},
		{"/season apply make-b:hill; second back-to-a:third", "make-b", "Hill Loop and Second are B races already; Third is an A race already, so nothing changes. See /season check"},
		{"/season apply back-to-a:third taper:10", "back-to-a", "Third is an A race already; tapers take 10 days already, so nothing changes. See /season check"},
		{"/season apply taper:10", "taper", "tapers take 10 days already, so nothing changes. See /season check"},
	} {
		if reply := k.refused(tc.line, tc.field); reply.Err.Message != tc.want || len(reply.Buttons) != 0 {
			t.Errorf("%s: got %q, want %q", tc.line, reply.Err.Message, tc.want)
		}
	}
}

// Undo brings back what can still be brought back.
func TestUndoOnceARaceIsOver(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	applied := k.ok("/season apply make-b:hill; second; third taper:10")
	k.who.Now = at("2026-07-01T08:00:00Z")
	back := k.press(applied, "Undo")
	wants(t, back, "Second and Third are A races again; taper lengths are automatic; Hill Loop is over and stays as it is.")
	if line := undoLine(back); line != `/season apply make-b:"Second 2026-07-12; Third 2026-07-26" taper:10` {
		t.Errorf("undone by %s", line)
	}
	wants(t, k.refused(undoLine(applied), "back-to-a"), "Second and Third are A races already; taper lengths are automatic already; Hill Loop is over and stays as it is, so nothing changes")
	k.who.Now = at("2026-08-01T08:00:00Z")
	wants(t, k.refused(`/season apply make-b:"Second 2026-07-12; Third 2026-07-26"`, "make-b"), "Second and Third are over and stay as they are, so nothing changes. See /season check")
	wants(t, k.ok(undoLine(back)), "Tapers take 10 days; Second and Third are over and stay as they are.")
}

// Races of one name are told apart by their days.
func TestSeasonOfOneName(t *testing.T) {
	k := withGoals(t, "Mill", "Mill", "Mill", "Quarry")
	wants(t, k.ok(`/season apply make-b:"Mill 2026-06-28; Mill 2026-07-12; quarry"`), "Mill (Sun 28 Jun), Mill (Sun 12 Jul) and Quarry are B races now.")
	wants(t, k.refused(`/season apply make-b:"Mill 2026-06-28"`, "make-b"), "Mill (Sun 28 Jun) is a B race already")
	wants(t, k.refused(`/season apply make-b:"Mill 2026-07-26" back-to-a:"Mill 2026-07-26"`, "back-to-a"), "Mill (Sun 26 Jul) stands in make-b too")
	k.ok(`/race priority race:"Mill 2026-07-26" priority:C`)
	wants(t, k.refused(`/season apply make-b:"Mill 2026-07-26"`, "make-b"), "Mill (Sun 26 Jul) is a C race")
}

// A list is completed with every race that does not stand in it yet.
func TestListsKnowWholeNames(t *testing.T) {
	k := withGoals(t)
	k.ok("/race add name:Loop date:2026-07-26 priority:A", `/race add name:"Long Loop" date:2026-07-26 priority:A`, `/race add name:"a; b" date:2026-08-09 priority:A`)
	const long, both = "Long Loop 2026-07-26", "Long Loop 2026-07-26; Loop 2026-07-26"
	for typed, want := range map[string]string{
		long + "; ": both + "|" + long + "; a; b 2026-08-09", long + ";lo": both, strings.ToUpper(long) + "; lo": strings.ToUpper(long) + "; Loop 2026-07-26",
		both + "; ": both + "; a; b 2026-08-09", "a; b 2026-08-09; lo": "a; b 2026-08-09; Long Loop 2026-07-26|a; b 2026-08-09; Loop 2026-07-26", "loop; lo": "loop; Long Loop 2026-07-26",
	} {
		if got := strings.Join(k.offers("season apply", "make-b", typed), "|"); got != want {
			t.Errorf("%s offers %q, want %q", typed, got, want)
		}
	}
}

// Who waits for a picture no longer than for the answer gets the answer alone.
func TestDrawingEndsWithTheRequest(t *testing.T) {
	k := newTalk(t)
	for range cap(easels) {
		easels <- struct{}{}
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan Reply)
	go func() {
		var reply Reply
		k.base.attach(ctx, &reply, "plan.png", func() (picture.Picture, error) { return picture.Picture{}, nil })
		done <- reply
	}()
	cancel()
	if reply := <-done; len(reply.Files) != 0 || !strings.Contains(k.log.String(), "picture left out") {
		t.Errorf("%d files; log:\n%s", len(reply.Files), k.log)
	}
	for range cap(easels) {
		<-easels
	}
	var reply Reply
	if k.base.attach(t.Context(), &reply, "plan.png", nil); len(reply.Files) != 1 {
		t.Errorf("%d files once there is room", len(reply.Files))
	}
}
