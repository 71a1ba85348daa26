package bot_test

import (
	"fmt"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/say"
)

// What can mean two things is asked back, with a button for each meaning; of meanings
// that an option cannot take it says nothing.
func TestReadingsAreButtons(t *testing.T) {
	for _, tc := range []struct {
		line, field string
		labels      []string
		press, want string
	}{
		{"/race add name:Crit date:6/7 priority:B hours:1", "date", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Sunday 7 June 2026", "B race on Sunday 7 June 2026"},
		{"/race add name:Crit date:13/6 priority:B hours:45", "hours", []string{"45 minutes", "45h"}, "45 minutes", "B race on Saturday 13 June 2026, 45min"},
		{"/race add name:Crit date:13/6 priority:B hours:1 start:2:30", "start", []string{"02:30", "14:30"}, "14:30", "start 14:30"},
		{"/tell limit day:6/7 minutes:30", "day", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Monday 6 July 2026", "at most 30min on Monday 6 July 2026"},
		{"/tell limit day:fri minutes:1-2h", "minutes", []string{"1h", "1h30", "2h"}, "1h30", "at most 1h30 on Friday 5 June 2026"},
		{"/tell away from:6/7 to:\"8 july\"", "from", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Monday 6 July 2026", "Mon 6 Jul to Wed 8 Jul"},
		{"/ride 6/7", "day", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Sunday 7 June 2026", "Sun 7 Jun: intervals 2h"},
		{"/plan why 6/7", "day", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Sunday 7 June 2026", "Sun 7 Jun: intervals 2h"},
		{`/week share week:"mon 1h; tue 1h; thu 1h" from:6/7`, "from", []string{"Monday 6 July 2026", "Sunday 7 June 2026"}, "Monday 6 July 2026", "Your week from Monday 6 July 2026"},
		{"/done 55 day:5/4", "day", []string{"Sunday 5 April 2026", "Monday 4 May 2026"}, "Monday 4 May 2026", "55min on Mon 4 May"},
		{"/done 50-60min", "minutes", []string{"50min", "55min", "1h"}, "55min", "55min on Mon 1 Jun"},
		{"/done 1-2h", "minutes", []string{"1h", "1h30", "2h"}, "1h30", "1h30 on Mon 1 Jun"},
	} {
		k := bottest.NewTalk(t)
		k.OK(`/week share week:"` + bottest.InesWeek + `"`)
		reply := k.Refused(tc.line, tc.field)
		var labels []string
		for _, b := range reply.Buttons {
			labels = append(labels, b.Label)
		}
		if fmt.Sprint(labels) != fmt.Sprint(tc.labels) {
			t.Errorf("%s: buttons %q, want %q:\n%s", tc.line, labels, tc.labels, reply.Text())
			continue
		}
		if pressed := k.Press(reply, tc.press); pressed.Err != nil || !strings.Contains(pressed.Text(), tc.want) {
			t.Errorf("%s, %s:\n%s\nwant %s", tc.line, tc.press, pressed.Text(), tc.want)
		}
	}
}

// Each option looks in its direction; the answer says which day was understood.
func TestDaysLookInTheirDirection(t *testing.T) {
	for line, want := range map[string]string{
		"/done 55 day:8/7":                             "55min on Wed 8 Jul", // 7 August is to come
		"/done 55 day:thu":                             "55min on Thu 9 Jul",
		"/done 55 day:fri":                             "55min on Fri 10 Jul",
		"/done 55 day:\"28 december\"":                 "is to come",
		"/tell missed day:\"last sat\"":                "did not ride on Sat 4 Jul",
		"/ride fri":                                    "Today, Fri 10 Jul",
		"/tell limit day:fri minutes:30":               "at most 30min on Friday 17 July 2026",
		"/race add name:x date:fri priority:C hours:1": "C race on Friday 17 July 2026",
		"/tell away from:fri to:mon":                   "Fri 17 Jul to Mon 20 Jul",
		"/tell away from:\"next week\"":                "Mon 13 Jul to Sun 19 Jul",
		"/tell away from:weekend":                      "Sat 11 Jul to Sun 12 Jul",
		"/tell block from:\"29 june\" to:\"12 july\"":  "a block Mon 29 Jun to Sun 12 Jul",
		"/tell block from:mon to:\"in 2 weeks\"":       "a block Mon 13 Jul to Fri 24 Jul",
		`/week share week:"mon 1h" from:"1 july"`:      "",
		"/tell limit day:\"1 july\" minutes:30":        "Thursday 1 July 2027",
		"/tell away from:\"1 january\"":                "Fri 1 Jan 2027",
		"/tell block from:\"1 april\" to:\"20 april\"": "a block Wed 1 Apr to Mon 20 Apr",
		"/race add name:x date:\"9 july\" priority:C":  "Friday 9 July 2027",
		"/done 40 day:\"sat 4\"":                       "40min on Sat 4 Jul",
		"/tell limit day:\"in 2 weeks\" minutes:1h":    "Friday 24 July 2026",
		"/race add name:x date:\"sat 18\" priority:C":  "Saturday 18 July 2026",
		"/ride tmw":         "Tomorrow, Sat 11 Jul",
		"/ride \"28 june\"": "Sun 28 Jun: intervals", "/ride \"28 may\"": "Friday 28 May 2027",
		"/race add name:x date:\"19.7.\" priority:C":    "Sunday 19 July 2026",
		"/race add name:x date:19/7 priority:C start:8": "start 08:00",
	} {
		k := bottest.NewTalk(t)
		k.OK(`/week share week:"` + bottest.InesWeek + `"`)
		k.Who.Now = bottest.At("2026-07-10T08:00:00Z") // a Friday
		if reply := k.Say(line); !strings.Contains(reply.Text(), want) {
			t.Errorf("%s:\n%s\nwant %q", line, reply.Text(), want)
		}
	}
}

// Numbers are digits or words as people write them, not those of programs.
func TestNumbersOfProgramsAreRefused(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Who.Now = bottest.At("2026-07-13T20:00:00Z")
	for line, field := range map[string]string{"/done minutes:30 rpe:%s": "rpe", "/done %s": "minutes", "/done 30 entry:%s": "entry", "/tell limit day:tomorrow minutes:%s": "minutes",
		"/tell block from:tomorrow to:\"in 3 weeks\" percent:%s": "percent", "/me set cut:%s": "cut", "/me set taper:%s": "taper", "/me set pause:%s": "pause",
		"/race add name:x date:tomorrow priority:C days:%s": "days", "/race add name:x date:tomorrow priority:C hours:%s": "hours", "/race result race:hill feeling:%s": "feeling"} {
		for i, number := range []string{"1_0", "1e1", "0x1p3", "0x8", "+8", "-8", "8;", "Inf", "NaN", "٨", "1,000,0"} {
			if rounds.Left(i) {
				continue
			}
			if reply := k.Refused(fmt.Sprintf(line, say.Quote(number)), field); reply.Err != nil && len(reply.Buttons) > 0 {
				t.Errorf("%s %s: buttons %v", line, number, reply.Buttons)
			}
		}
	}
}
