package races_test

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
)

func TestRaceAddUnderstands(t *testing.T) {
	k := bottest.NewTalk(t)
	reply := k.OK(`/race add name:"Hill Loop" date:"14 June" priority:b hours:3h30 kind:"road race" start:9:05 days:2 emphasis:important place:"Market Square" taper:12`)
	want := planner.Race{Name: "Hill Loop", Date: planner.NewDate(2026, 6, 14), Priority: planner.PriorityB, Hours: 3.5, Kind: "road race",
		Days: 2, Start: "09:05", Emphasis: planner.Important, Place: "Market Square",
		TaperDays: 12, Registered: planner.NewDate(2026, 6, 1), Told: planner.Told{On: planner.NewDate(2026, 6, 1)}, ID: 1}
	if races := k.Facts().Races; len(races) != 1 || races[0] != want {
		t.Errorf("stored %+v, want %+v", races, want)
	}
	bottest.Wants(t, reply, "Sunday 14 June 2026", "B race", "3h30 a day", "start 09:05", "2 days", "important", "Market Square", "with its own taper of 12 days", "/week share")
	if reply.Race != "Hill Loop" || reply.Date != want.Date || !reply.Private {
		t.Errorf("understood %q on %s, private %v", reply.Race, reply.Date, reply.Private)
	}
}

func TestRaceAddAnswersWithTheTaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	reply := k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	if !regexp.MustCompile(`\nIts taper takes \d+ days, \w+ \d+ Jun to Sat 27 Jun, with \d+h\d* of riding in these \d+ days instead of the usual \d+h\d*\.\n`).MatchString(reply.Text()) {
		t.Errorf("no taper is told:\n%s", reply.Text())
	}
	if strings.Contains(reply.Text(), "\n!") {
		t.Errorf("an ordinary race has warnings:\n%s", reply.Text())
	}
	bottest.Wants(t, k.OK(`/race add name:"Late Cup" date:2026-07-12 priority:A hours:3`), "! ", "Hill Loop", "Late Cup")
	bottest.Wants(t, k.OK(`/race add name:"Inner" date:2026-06-24 priority:C hours:1`), "inside the taper for Hill Loop")
	bottest.Wants(t, k.OK(`/race add name:"Half" date:2026-08-30 priority:B hours:2`), "half a week", "the first of them Fri 28 Aug.")
	bottest.Wants(t, k.OK(`/race add name:"Train" date:2026-09-20 priority:C hours:2`), "You ride it as training")
	bottest.Wants(t, k.OK(`/race add name:"Echo" date:2026-06-28 priority:C hours:2`), "! ", "Hill Loop has this day")
}

func TestRaceAddTellsTheClub(t *testing.T) {
	k := bottest.NewTalk(t)
	reply := k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	want := say.Message{To: "#Marrow Vale Wheelers", Kind: "race", Lines: []say.Line{say.Linef("Ines races Hill Loop on Sunday 14 June 2026 (A race).")},
		Buttons: []say.Button{{Label: "Join Hill Loop, Sun 14 Jun", Command: "race join", Anybody: true, Options: map[string]string{"race": "#1"}}}}
	if len(reply.Sent) != 1 || !reflect.DeepEqual(reply.Sent[0], want) {
		t.Errorf("sent %+v, want %+v", reply.Sent, want)
	}
	k.OK("/me set announce:off")
	if reply := k.OK(`/race add name:"Quiet Cup" date:2026-06-21 priority:C`); len(reply.Sent) != 0 {
		t.Errorf("announce is off, sent %+v", reply.Sent)
	}
}

func TestRaceAddRefuses(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	for line, field := range map[string]string{
		`/race add name:"hill loop" date:2026-06-14 priority:C`:        "name",
		`/race add name:"X" date:2026-05-31 priority:C`:                "date",
		`/race add name:"X" date:6/7 priority:C`:                       "date",
		`/race add name:"X" date:2031-06-14 priority:C`:                "date",
		`/race add name:"X" date:2026-06-14 priority:C days:29`:        "days",
		`/race add name:"X" date:2026-06-14 priority:C hours:0`:        "hours",
		`/race add name:"X" date:2026-06-14 priority:C start:24:30`:    "start",
		`/race add name:"X" date:2026-06-14 priority:C emphasis:loose`: "emphasis",
	} {
		k.Refused(line, field)
	}
	bottest.Wants(t, k.Say(`/race add name:"X" date:6/7 priority:C`), "6 July", "7 June")
	if reply := k.OK(`/race add name:"Today Cup" date:today priority:C`); reply.Date != planner.NewDate(2026, 6, 1) {
		t.Errorf("today is %s", reply.Date)
	}
}

func TestRaceList(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/race list"), "No race is to come", "/race add")
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A`, `/race add name:"Far Tour" date:2027-06-14 priority:B`)
	k.As("Tomas")
	k.OK(`/race add name:"hill loop" date:2026-06-14 priority:C`, `/race add name:"Creek" date:2026-06-07 priority:C`)
	reply := k.OK("/race list")
	if reply.Private {
		t.Error("the calendar is private")
	}
	bottest.Wants(t, reply, "Races of Marrow Vale Wheelers: 3 to come, next Creek on Sun 7 Jun.", "Hill Loop: Ines (A), Tomas (C, you)", "Mon 14 Jun 2027  Far Tour: Ines (B)")
	k.Who.Now = bottest.At("2026-06-15T08:00:00Z")
	if reply := k.OK("/race list"); strings.Contains(reply.Text(), "Hill") || !strings.Contains(reply.Text(), "1 to come") {
		t.Errorf("the day after:\n%s", reply.Text())
	}
}

func TestRaceChange(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30 place:"Market Square"`)
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	reply := k.OK(`/race change race:hill name:"Hill Ring" start:none hours:4`)
	got := k.Facts().Races[0]
	if got.Name != "Hill Ring" || got.Start != "" || got.Hours != 4 || got.Place != "Market Square" || got.Registered != planner.NewDate(2026, 6, 1) {
		t.Errorf("stored %+v", got)
	}
	bottest.Wants(t, reply, "Hill Ring is now", "4h")
	reply = k.OK(`/race change race:"Hill Ring" date:2026-07-05`)
	if got := k.Facts().Races[0]; got.Date != planner.NewDate(2026, 7, 5) || got.Registered != planner.NewDate(2026, 6, 1) {
		t.Errorf("moved race is %s, registered %s; want 2026-07-05, 2026-06-01", got.Date, got.Registered)
	}
	bottest.Wants(t, reply, "Sunday 5 July 2026", "What changes in your plan:", "Sat 20 Jun long 3h (until now long ", "more: /plan show")
	bottest.Wants(t, k.OK(`/race change race:"Hill Ring" hours:4`), "stays as it was")
	k.Refused(`/race change race:"Hill Ring"`, "race")
	k.Refused(`/race change race:"Hill Ring" date:2026-05-01`, "date")
	k.OK(`/race add name:"Creek" date:2026-07-05 priority:C`)
	k.Refused(`/race change race:"Creek" name:"hill ring"`, "name")
}

func TestRacePriority(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	asked := k.Refused(`/race priority race:"Hill Lop" priority:c`, "race")
	reply := k.Press(asked, "Hill Loop, Sun 28 Jun")
	bottest.Wants(t, reply, "C race", "You ride it as training", "What changes in your plan:")
	if got := k.Facts().Races[0].Priority; got != planner.PriorityC {
		t.Errorf("priority %s, want C", got)
	}
	k.Who.Now = bottest.At("2026-06-20T08:00:00Z")
	k.OK(`/race priority race:"Hill Loop" priority:A`)
	if got := k.Facts().Races[0]; got.Registered != planner.NewDate(2026, 6, 1) || got.On != planner.NewDate(2026, 6, 20) {
		t.Errorf("raised to A: registered %s, told %s; want it registered on 2026-06-01, told on 2026-06-20", got.Registered, got.On)
	}
	k.Refused(`/race priority race:Hill priority:X`, "priority")
	k.Refused(`/race priority race:Hill`, "priority")
}

func TestRaceRemoveCanBeUndone(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"The \"Old\" Loop" date:2026-06-28 priority:B hours:3.75 days:2 emphasis:important start:10:30 kind:gravel place:"a b"`)
	before := k.Facts()
	for _, loose := range []string{`"Old Lop"`, `"old loop"`, "l", "2026-06-27"} {
		k.Refused("/race remove race:"+loose, "race")
	}
	reply := k.OK(`/race remove race:"the \"old\" loop"`)
	if n := len(k.Facts().Races); n != 0 {
		t.Fatalf("%d races left", n)
	}
	bottest.Wants(t, reply, "is out of your calendar", "What changes in your plan:")
	_, undo, ok := strings.Cut(reply.Text(), "Undo: ")
	if !ok {
		t.Fatalf("no way back:\n%s", reply.Text())
	}
	k.Who.Now = bottest.At("2026-06-20T08:00:00Z") // days later it comes back as it was registered, told anew
	if back := k.OK(undo); len(back.Sent) != 0 {
		t.Errorf("announced again: %v", back.Sent)
	}
	before.Races[0].On = planner.NewDate(2026, 6, 20)
	if after := k.Facts(); after.Races[0] != before.Races[0] {
		t.Errorf("came back as %+v, was %+v", after.Races[0], before.Races[0])
	}
}

func TestRaceListOfALongSeason(t *testing.T) {
	k := bottest.NewTalk(t)
	first := k.OK("/race add name:Tour date:2026-06-06 priority:C days:3")
	if len(first.Buttons) != 0 {
		t.Errorf("without a week a plan is offered: %v", first.Buttons)
	}
	day := planner.NewDate(2026, 6, 10)
	for i := range 42 {
		k.OK(fmt.Sprintf("/race add name:Loop date:%s priority:C", day.AddDays(i)))
	}
	reply := k.OK("/race list")
	bottest.Wants(t, reply, ": 43 to come", "Tour (3 days): Ines (C, you)", "\nand 3 more")
	if got := strings.Count(reply.Text(), "Loop: Ines (C, you)"); got != 39 {
		t.Errorf("%d races listed besides the tour, want 39", got)
	}
}

// Two races of one name are told apart by their dates.
func TestPlanShowOfANamesake(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Loop date:2026-06-14 priority:C")
	reply := k.OK("/race add name:Loop date:2026-06-21 priority:C")
	_, line, _ := strings.Cut(reply.Text(), "The days: ")
	line, _, _ = strings.Cut(line, "\n")
	if got := k.OK(line); got.Date != planner.NewDate(2026, 6, 21) {
		t.Errorf("%s shows the race on %s", line, got.Date)
	}
}

// A misspelt kind is mended and said back, in the command and in a plain line.
func TestMisspeltKind(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	const asRead = "Its kind is criterium, as I read it: you wrote \"critrium\"."
	bottest.Wants(t, k.OK(`/race add name:"Canal Loop" date:2026-06-20 priority:C kind:critrium`), "criterium", asRead, `/race change race:"Canal Loop 2026-06-20" kind:gravel`)
	bottest.Wants(t, k.OK(`/race change race:"Canal Loop" kind:"time trail"`), "time trial, as I read it: you wrote \"time trail\"")
	if text := k.OK(`/race add name:"Fen Ten" date:2026-06-27 priority:C kind:criterium`).Text(); strings.Contains(text, "as I read it") {
		t.Error(text)
	}
	told := k.Say("got a critrium on 5 july called Moor Dash, it's a C")
	bottest.Wants(t, told, "criterium as I read it")
	bottest.Wants(t, k.Press(told, "Add Moor Dash"), "C race on Sunday 5 July 2026, criterium")
}

// The answer names the first day that changes before a race, as the plan has it.
func TestFirstDayThatChanges(t *testing.T) {
	for _, add := range []string{
		`/race add name:"Zig" date:2026-06-10 priority:B hours:2`, `/race add name:"Zig" date:2026-06-17 priority:B hours:2`, `/race add name:"Zig" date:2026-06-12 priority:B hours:2`,
		`/race add name:"Zig" date:2026-06-23 priority:B hours:2`, `/race add name:"Zig" date:2026-06-23 priority:C hours:2`, `/race add name:"Zig" date:2026-06-18 priority:A hours:2`,
	} {
		for _, more := range []string{"", `/race add name:Moor date:2026-06-28 priority:A hours:3`} {
			k := bottest.NewTalk(t)
			k.OK("/week share week:\"" + bottest.InesWeek + "\"")
			if more != "" {
				k.OK(more)
			}
			days := func() []string {
				var out []string
				for d := planner.NewDate(2026, 6, 2); d < planner.NewDate(2026, 6, 23); d++ {
					out = append(out, d.Short()+bottest.FirstLine(k.OK("/ride day:"+d.String())))
				}
				return out
			}
			was := days()
			text := k.OK(add).Text()
			for i, is := range days() {
				d := planner.NewDate(2026, 6, 2).AddDays(i)
				if is != was[i] {
					if !strings.Contains(text, d.Short()) && !strings.Contains(text, "taper takes") {
						t.Errorf("%s %s: %s changes first: %s (until now %s)\n%s", more, add, d.Short(), is, was[i], text)
					}
					break
				}
			}
		}
	}
}
