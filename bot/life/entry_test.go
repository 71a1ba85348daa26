package life_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
)

// Rides of a day add up, the rating weighted by minutes; one press says that it was
// the same ride, one undoes that.
func TestRidesOfADayAddUp(t *testing.T) {
	k := withWeek(t)
	k.OK("/done 55 rpe:8")
	first := k.Stored()
	second := k.OK(`/done 40 rpe:4 note:home`)
	both, days := k.Stored(), rides(k)
	bottest.Wants(t, second, "Today: 55min and 40min, 1h35 together (planned 1h30), RPE 6.3.\nYour note: home\n", "\nTomorrow, Wed 3 Jun: endurance 1h45.\n",
		"It was the same ride: /done day:2026-06-02 entry:1 minutes:none")
	if len(days) != 1 || days[0].Minutes != 95 {
		t.Errorf("the day is %+v", days)
	}
	same := k.Press(second, "It was the same ride")
	bottest.Wants(t, same, "Forgotten: 55min, RPE 8 on Tue 2 Jun. Left: 40min, RPE 4.")
	if again := k.Ask("done", map[string]string{"day": "2026-06-02", "minutes": "none", "entry": "1"}, ""); again.Err == nil || again.Err.Field != "entry" {
		t.Errorf("pressed twice it takes more away:\n%s", again.Text())
	}
	k.Undo(same)
	if got := k.Stored(); !reflect.DeepEqual(got, both) {
		t.Errorf("not two rides as before: %+v\nwant %+v", got, both)
	}
	third := k.OK("/done 30")
	bottest.Wants(t, third, "Today: 55min, 40min and 30min, 2h05 together (planned 1h30), RPE 6.3.")
	k.Press(third, "Undo")
	bottest.Wants(t, k.OK("/done minutes:none"), "Forgotten: 40min, RPE 4 on Tue 2 Jun. Left: 55min, RPE 8.\n")
	if got := k.Stored(); !reflect.DeepEqual(got, first) {
		t.Errorf("the last entry deleted, stored is %+v\nwant %+v", got, first)
	}
	bottest.Wants(t, k.OK("/done minutes:none"), "Forgotten: 55min, RPE 8 on Tue 2 Jun. Nothing else is logged on that day.")
}

// An entry is put right by its number; Undo is exact on a later day, too.
func TestCorrectAnEntry(t *testing.T) {
	k := withWeek(t)
	k.OK("/done 55 rpe:8 note:out day:monday", "/done 40 day:monday")
	k.Who.Now = bottest.At("2026-06-04T08:00:00Z")
	before := k.Stored()
	for line, first := range map[string]string{
		"/done 50 entry:1 day:monday":           "Mon 1 Jun: 50min and 40min, 1h30 together (planned 40min).",
		"/done 45 rpe:6 entry:two day:monday":   "Mon 1 Jun: 55min and 45min, 1h40 together (planned 40min), RPE 7.1.",
		"/done minutes:none entry:1 day:monday": "Forgotten: 55min, RPE 8 on Mon 1 Jun. Left: 40min.",
		"/done rpe:5 day:monday":                "Mon 1 Jun: 55min and 40min, 1h35 together (planned 40min), RPE 6.7.",
	} {
		reply := k.OK(line)
		if bottest.FirstLine(reply) != first {
			t.Errorf("%s:\n%s\nwant %s", line, reply.Text(), first)
		}
		k.Undo(reply)
		if got := k.Stored(); !reflect.DeepEqual(got, before) {
			t.Errorf("%s, undone: %+v\nwant %+v", line, got, before)
		}
	}
	for _, typo := range []string{"0", "21", "first", "1_0", "1e1", "0x1"} {
		k.Refused("/done 50 day:monday entry:"+typo, "entry")
	}
	k.Refused("/done minutes:none entry:3 day:monday", "entry")
	bottest.Wants(t, k.Refused("/tell missed day:monday", "day"), "Monday 1 June 2026 has 2 rides: 55min and 40min, 1h35 together, RPE 8.")
}

// To say that a day was ridden never adds to what is logged of it.
func TestRodeItNeverAdds(t *testing.T) {
	k := withWeek(t)
	k.OK("/done")
	before := k.Stored()
	bottest.Wants(t, k.OK("/done"), "Today is logged already: 1h30, as planned. Nothing is added.\nTo log one more ride: /done minutes:40 day:2026-06-02")
	if got := k.Stored(); !reflect.DeepEqual(got, before) {
		t.Errorf("stored %+v", got)
	}
	bottest.Wants(t, k.OK(`/done note:"heavy legs"`), "Noted: 1h30 on Tue 2 Jun, as planned.", "Your note: heavy legs")
	bottest.Wants(t, k.OK("/done rpe:7"), "Noted: 1h30 on Tue 2 Jun, as planned, RPE 7.\nIt replaces what you logged before: 1h30.\nYour note: heavy legs")
	k.OK("/tell missed")
	bottest.Wants(t, k.OK("/done"), "Noted: 1h30 on Tue 2 Jun, as planned.\nIt replaces what you logged before: missed.")
}

// Two weeks in the log that were a fifth above usual are offered as a block, which
// is counted only when the rider says so.
func TestOverloadInTheLogIsOffered(t *testing.T) {
	const much = "Was that a training block?"
	for percent, offered := range map[int]bool{100: false, 115: false, 130: true} {
		k := bottest.NewTalk(t)
		k.Who.Now = bottest.At("2026-05-31T20:00:00Z")
		k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Hill Loop" date:2026-06-14 priority:A hours:3`)
		from := planner.NewDate(2026, 5, 18)
		reply := k.OK("/ride")
		for i, minutes := range []int{40, 90, 105, 0, 75, 180, 120, 40, 90, 105, 0, 75, 180, 120} {
			if minutes > 0 {
				reply = k.OK(fmt.Sprintf("/done minutes:%d day:%s", minutes*percent/100, from.AddDays(i)))
			}
		}
		if strings.Contains(reply.Text(), much) != offered {
			t.Errorf("%d %%:\n%s", percent, reply.Text())
		}
		if !offered {
			continue
		}
		bottest.Wants(t, reply, "Your log Mon 18 May to Sun 31 May is 30 % above your usual load. "+much,
			"It was a block: /tell block from:2026-05-18 percent:30 to:2026-05-31")
		plan := k.OK("/plan show").Text()
		block := k.Press(reply, "It was a block")
		bottest.Wants(t, block, "Noted: a block Mon 18 May to Sun 31 May with 30 % more than usual.", "After it come easier days, so that your legs recover before you race.", "What changes in your plan:")
		if k.OK("/plan show").Text() == plan {
			t.Error("the block changes no plan")
		}
		if told := k.OK("/done minutes:10"); strings.Contains(told.Text(), much) {
			t.Errorf("asks what it was told:\n%s", told.Text())
		}
	}
}

// A week of twice the usual riding is offered as a block at once, one that is a third above is not.
func TestVeryHardWeekIsOffered(t *testing.T) {
	for minutes, offered := range map[int]bool{130: false, 240: true} {
		k := bottest.NewTalk(t)
		k.Who.Now = bottest.At("2026-06-07T20:00:00Z")
		k.OK(`/week share week:"`+bottest.InesWeek+`"`, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`)
		reply := k.OK("/ride")
		for day := 3; day <= 7; day++ {
			reply = k.OK(fmt.Sprintf("/done minutes:%d rpe:4 day:2026-06-0%d", minutes, day))
		}
		if offer := "It was a block: /tell block from:2026-06-01 "; strings.Contains(reply.Text(), offer) != offered {
			t.Errorf("%d min a day:\n%s", minutes, reply.Text())
		}
	}
}
