package weeks_test

import (
	"reflect"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
)

// withRace is Ines with her week, told some days ago, and a race that has a taper.
func withRace(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	return k
}

func TestWeekChange(t *testing.T) {
	k := withRace(t)
	reply := k.OK(`/week change day:tue session:"intervals 1h 4x3min"`)
	bottest.Wants(t, reply, "Tuesday from Thursday 4 June 2026: intervals 1h 4x3min (until now intervals 1h30 5x3min).\nYour week is now 9h40 on 6 days, 2 hard days (Tue, Sun).\n",
		"Hill Loop, A race on Sun 28 Jun:\nIts taper takes ", "What changes in your plan:\nTue 9 Jun  intervals 1h 4x3min (until now intervals 1h30 5x3min) ! not if ill\n", "\nUndo: /week withdraw from:2026-06-04")
	if n := strings.Count(reply.Text(), "\n") + 1; n > 25 {
		t.Errorf("%d lines", n)
	}
	bottest.Wants(t, k.OK(`/week change day:tue session:"intervals 1h 4x3min"`), "Your week has that already: Tuesday intervals 1h 4x3min. Nothing changes.")
	bottest.Wants(t, k.OK(`/week change day:sat+sun session:"endurance 2h" from:"in 2 weeks"`), "Sat and Sun from Thursday 18 June 2026: endurance 2h.\n")
	bottest.Wants(t, k.OK(`/week change day:thu session:"gym 30min; spin 40min" from:monday`), "Thursday from Monday 8 June 2026: strength 30min; recovery 40min (until now rest).",
		"From Thu 18 Jun on the week that you shared for then holds: /week show")
	bottest.Wants(t, k.OK("/ride day:2026-06-11"), "strength 30min + recovery 40min")
	bottest.Wants(t, k.OK(`/week change day:mon session:busy`), "Monday from Thursday 4 June 2026: busy (until now recovery 40min).")
	for line, field := range map[string]string{
		"/week change day:tusday2 session:rest": "day", "/week change day:tomorrow session:rest": "day", "/week change day:tue session:flying": "session", "/week change day:tue session:40km": "session",
		"/week change day:tue session:tempo": "session", "/week change day:tue session:rest from:6/7": "from", "/week change day:tue session:rest from:1999-01-01": "from", "/week change day:tue session:25h": "session",
	} {
		k.Refused(line, field)
	}
	bottest.Wants(t, bottest.NewTalk(t).OK("/week change day:tue session:rest"), "I do not know your typical week", "/week share")
}

// Undo of whatever changes a week brings all back, on the same day and for good.
func TestUndoOfWeeks(t *testing.T) {
	full := `week:"mon rest; tue 1h; wed 1h; thu group 2h; fri rest; sat long 3h; sun 1h"`
	for _, line := range []string{"/week share " + full, "/week share " + full + ` from:2026-06-01`, "/week share " + full + ` from:2026-06-15`, "/week share " + full + ` from:2026-06-22`,
		"/week share " + full + ` second:"tue 1h; wed 1h; thu 1h"`, `/week change day:tue session:rest`, `/week change day:tue session:rest from:2026-06-01`, `/week change day:weekend session:1h from:2026-06-15`,
		"/week withdraw from:2026-06-15"} {
		k := withRace(t)
		k.OK(`/week share week:"mon rest; tue long 3h; wed rest; thu rest; fri rest; sat rest; sun rest" second:"mon 1h" from:2026-06-15`)
		k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
		before, plan := k.Stored(), k.OK("/plan show").Text()
		reply := k.OK(line)
		after := k.Stored()
		if reflect.DeepEqual(before, after) {
			t.Errorf("%s changes nothing:\n%s", line, reply.Text())
		}
		undone := k.Press(reply, "Undo")
		if got := k.Stored(); !reflect.DeepEqual(got, before) || k.OK("/plan show").Text() != plan {
			t.Errorf("%s, undone: %+v\nwant %+v", line, got, before)
		}
		k.Press(undone, "Undo")
		if got := k.Stored(); !reflect.DeepEqual(got, after) {
			t.Errorf("%s, undone twice: %+v\nwant %+v", line, got, after)
		}
		for _, r := range []say.Reply{reply, undone} {
			if n := strings.Count(r.Text(), "\n") + 1; n > 25 {
				t.Errorf("%s: %d lines:\n%s", line, n, r.Text())
			}
		}
	}
}

// A week of one or two days asks what the others are; a press decides, and both ways
// can be undone.
func TestAWeekOfFewDaysAsks(t *testing.T) {
	for text, labels := range map[string][2]string{
		"tue group 1h30":         {"Only Tuesday changes", "Tue  group 1h30"},
		"tue rest; sat long 4h":  {"Only Tue and Sat change", "Sat  long 4h"},
		"weekend: endurance 90m": {"Only Sat and Sun change", "Sun  endurance 1h30"},
	} {
		for i, want := range []string{"Wed  endurance 1h45", "Wed  rest"} {
			k := withRace(t)
			before := k.Stored()
			asked := k.Refused("/week share "+text, "week")
			if len(asked.Buttons) != 2 || asked.Buttons[0].Label != labels[0] || asked.Buttons[1].Label != "The other days are rest" {
				t.Fatalf("%s: buttons %+v", text, asked.Buttons)
			}
			reply := k.Press(asked, asked.Buttons[i].Label)
			bottest.Wants(t, reply, want, labels[1], "Undo: /week withdraw from:2026-06-04")
			k.Press(reply, "Undo")
			if got := k.Stored(); !reflect.DeepEqual(got, before) {
				t.Errorf("%s, %d, undone: %+v\nwant %+v", text, i, got, before)
			}
		}
	}
	k := bottest.NewTalk(t)
	k.OK("/week share tue group 1h30", "/week share tue group 2h") // there is nothing that could stay
}

func TestWeekWithdraw(t *testing.T) {
	k := withRace(t)
	bottest.Wants(t, k.Refused("/week withdraw from:monday", "from"), "you shared no week from Monday 8 June 2026, and none for later.")
	k.OK(`/week share week:"mon-sun rest" from:"15 june"`, `/week change day:tue session:1h from:"22 june"`)
	bottest.Wants(t, k.Refused("/week withdraw from:monday", "from"), "Shared for later: /week withdraw from:2026-06-15, /week withdraw from:2026-06-22")
	bottest.Wants(t, k.OK(`/week withdraw from:"15 june"`), "Taken back: your week from Monday 15 June 2026.\nNow this week counts instead: 10h10 on 6 days", "What changes in your plan:", "Undo: /week share")
	bottest.Wants(t, k.OK("/week show"), "Take it back: /week withdraw from:2026-06-22", "Change one day: /week change")
	bottest.Wants(t, k.Refused("/week withdraw from:2026-06-01", "from"), "holds since Monday 1 June 2026")
	k.Who.Now = bottest.At("2026-06-23T08:00:00Z")
	bottest.Wants(t, k.Refused("/week withdraw from:2026-06-22", "from"), "holds since Monday 22 June 2026", `To go back to the one before it: /week share week:"mon recovery 40min`, "from:2026-06-23")
}

// Two weeks take turns, from the calendar week in which they begin.
func TestTwoWeeksInTurn(t *testing.T) {
	k := withRace(t)
	reply := k.OK(`/week share week:"mon 1h; tue intervals 1h 4x3min; wed rest; thu 1h; fri rest; sat long 3h; sun 2h" second:"tue gym 30min; thu 2h; sat group 2h" from:monday`)
	bottest.Wants(t, reply, "Your two weeks in turn, from Monday 8 June 2026: 8h on 5 days", "The other one, from Monday 15 June 2026: 4h on 2 days", "Tue  strength 30min")
	bottest.Wants(t, k.OK("/ride day:2026-06-09"), "intervals 1h, 4x3min hard")
	bottest.Wants(t, k.OK("/plan why day:2026-07-21"), "intervals 1h")
	bottest.Wants(t, k.OK("/plan why day:2026-07-14"), "strength 30min")
	bottest.Wants(t, k.OK("/week show"), "The other one, from Monday 15 June 2026: 4h on 2 days")
	bottest.Wants(t, k.OK(`/week change day:wed session:"spin 30min" from:2026-07-15`), "It counts in both of your weeks in turn. The other one is now 8h30 on 6 days")
	bottest.Wants(t, k.OK("/plan why day:2026-07-21"), "intervals 1h")
	bottest.Wants(t, k.OK("/plan why day:2026-07-22"), "recovery 30min")
	k.Refused(`/week share week:"mon 1h; tue 1h; wed 1h" second:"mon flying"`, "second")
}

// All unknown words are named at once with what is near; kilometres say what to write.
func TestWordsOfAWeek(t *testing.T) {
	k := withRace(t)
	bottest.Wants(t, k.Refused(`/week share week:"mon flyng 40min; tue intervalls2 1h; wed zumba 1h; thu 1h"`, "week"), "Monday", "Wednesday", "zumba")
	bottest.Wants(t, k.Refused(`/week share week:"mon 40min; tue 1h; wed 30km; thu 1h"`, "week"), "Wednesday", "30", "1h")
	for text, want := range map[string]string{"mon club ride 2h; tue commute 30min each way; wed turbo 1h; thu hard 1h 5x3; fri tempo 1h; sat gym 1h; sun spin 1h": "Mon  group 2h\nTue  commute 30min; commute 30min\nWed  indoor 1h\nThu  intervals 1h 5x3min\nFri  endurance 1h\nSat  strength 1h\nSun  recovery 1h"} {
		bottest.Wants(t, k.OK("/week share week:"+say.Quote(text)), want)
	}
}

// What was ridden today is no change that a week makes.
func TestAWeekChangesNoLoggedDay(t *testing.T) {
	k := withRace(t)
	k.Who.Now = bottest.At("2026-06-09T20:00:00Z")
	k.OK("/done 55")
	reply := k.OK("/week change day:tue session:1h")
	if bottest.Wants(t, reply, "Tue 16 Jun endurance 1h (until now intervals 1h30 5x3min)"); strings.Contains(reply.Text(), "Tue 9 Jun ") {
		t.Errorf("changes a logged day:\n%s", reply.Text())
	}
}
