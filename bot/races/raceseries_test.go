package races_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/planner"
)

// calendarOf are the rider's races in short.
func calendarOf(k *bottest.Talk) (out []string) {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	races, err := k.DB.Races(k.T.Context(), who.Athlete.ID)
	if err != nil {
		k.T.Fatal(err)
	}
	for _, r := range races {
		out = append(out, fmt.Sprintf("%s %s %g %d %s %s", r.Key(), r.Priority, r.Hours, r.Days, r.Status, r.Ended))
	}
	return out
}

func TestSeries(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	reply := k.OK(`/race add name:"Club Crit" date:2026-06-03 priority:C hours:1 repeat:weekly until:24 June`)
	bottest.Wants(t, reply, "Club Crit is in your calendar 4 times, every Wednesday")
	all := calendarOf(k)
	if len(all) != 4 || !strings.HasPrefix(all[3], "Club Crit 2026-06-24") {
		t.Errorf("stored %q", all)
	}
	if len(reply.Sent) != 1 {
		t.Errorf("one line for the club: %+v", reply.Sent)
	}
	back := k.Undo(reply)
	if got := calendarOf(k); len(got) != 0 {
		t.Errorf("undone: %q", got)
	}
	k.Undo(back)
	if got := calendarOf(k); !reflect.DeepEqual(got, all) {
		t.Errorf("undone twice: %q, want %q", got, all)
	}
	for line, field := range map[string]string{
		`/race add name:"Club Crit" date:2026-06-03 priority:C repeat:weekly until:24 June`: "name",
		`/race add name:"X" date:2026-06-03 priority:C repeat:weekly`:                       "until",
		`/race add name:"X" date:2026-06-03 priority:C until:24 June`:                       "repeat",
		`/race add name:"X" date:2026-06-03 priority:C repeat:weekly until:2029-01-01`:      "until",
		`/race add name:"X" date:2026-06-10 priority:C repeat:weekly until:2026-06-03`:      "until",
		`/race add name:"X" date:2026-06-03 priority:C repeat:daily until:24 June`:          "repeat",
		`/race remove race:"Club Crit 2026-06-10" until:2026-06-01`:                         "until",
	} {
		k.Refused(line, field)
	}
}

// Of a weekly race the name alone is enough to take out all up to a day.
func TestRemoveASeriesByItsName(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Club Crit" date:2026-06-03 priority:C hours:1 repeat:weekly until:24 June`)
	out := k.OK(`/race remove race:"Club Crit" until:2026-06-10`)
	bottest.Wants(t, out, "Club Crit is out of your calendar twice, from Wednesday 3 June 2026 to Wednesday 10 June 2026.")
	if got := k.Facts().Races; len(got) != 2 || got[0].Date != planner.NewDate(2026, 6, 17) {
		t.Errorf("races left: %+v", got)
	}
	k.Press(out, out.Buttons[len(out.Buttons)-1].Label)
	if got := k.Facts().Races; len(got) != 4 {
		t.Errorf("after the way back: %+v", got)
	}
}

func TestEndOfAStageRace(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:Tour date:2026-06-12 priority:B end:sunday`)
	if r := k.Facts().Races[0]; r.Days != 3 {
		t.Errorf("%d days, want 3", r.Days)
	}
	k.OK(`/race change race:Tour end:none`)
	if r := k.Facts().Races[0]; r.Days != 1 {
		t.Errorf("%d days, want 1", r.Days)
	}
	k.Refused(`/race add name:X date:2026-06-12 priority:B end:2026-06-10`, "end")
	k.Refused(`/race add name:X date:2026-06-12 priority:B end:2026-09-10`, "end")
	k.Refused(`/race add name:X date:2026-06-12 priority:B days:2 end:2026-06-14`, "end")
}

// A change says which other race it changes, and how.
func TestChangeOfOtherRaces(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Gran One" date:2026-07-12 priority:A hours:5`)
	reply := k.OK(`/race add name:"Gran Two" date:2026-07-05 priority:A hours:5`)
	bottest.Wants(t, reply, "Gran One's taper falls from 9 to ")
	bottest.Wants(t, k.OK(`/race change race:"Gran Two" status:cancelled`), "Gran Two on Sunday 5 July 2026 is cancelled.", "Gran One's taper grows from ", " to 9 days.")
	bottest.Wants(t, k.Say(`/plan show race:"Gran Two"`), "is cancelled")
	bottest.Wants(t, k.OK(`/race list`), "Gran Two: cancelled (Ines, you)")
	bottest.Wants(t, k.OK(`/race change race:"Gran Two" status:planned`), "Gran Two takes place")
	bottest.Wants(t, k.OK(`/race remove race:"Gran Two"`), "Gran One's taper grows from ")
}

// A race inside another one's taper says what its change does to that taper.
func TestChangeInsideATaper(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30`)
	bottest.Wants(t, k.OK(`/race add name:"Mid Cup" date:2026-06-23 priority:B hours:2h`), "days of the taper for Hill Loop change: 7h50 of riding instead of 8h.")
	longer := k.OK(`/race change race:"Mid Cup" hours:4h`)
	bottest.Wants(t, longer, "2 days of the taper for Hill Loop change: 9h45 of riding instead of 7h50.")
	if back := k.Undo(longer); !strings.Contains(back.Text(), "7h50 of riding instead of 9h45") {
		t.Errorf("undone:\n%s", back.Text())
	}
	bottest.Wants(t, k.OK(`/race remove race:"Mid Cup"`), "days of the taper for Hill Loop change: 8h of riding instead of 7h50.")
	if far := k.OK(`/race add name:Far date:2026-08-23 priority:C hours:1h`); strings.Contains(far.Text(), "taper for Hill Loop") {
		t.Errorf("a race far away:\n%s", far.Text())
	}
}

// Whatever is changed can be undone, and that too.
func TestUndoOfChanges(t *testing.T) {
	for _, line := range []string{"status:cancelled", "status:postponed date:2026-07-19", "priority:B", "hours:none", "start:none", "days:3", "name:\"Hill Ring\" taper:auto", "place:\"Old Mill\"", "end:2026-07-14"} {
		k := bottest.WithRaces(t)
		before := calendarOf(k)
		reply := k.OK(`/race change race:"Hill Loop" ` + line)
		after := calendarOf(k)
		back := k.Undo(reply)
		if got := calendarOf(k); !reflect.DeepEqual(got, before) {
			t.Errorf("%s, undone: %q\nwant %q", line, got, before)
		}
		k.Undo(back)
		if got := calendarOf(k); !reflect.DeepEqual(got, after) {
			t.Errorf("%s, undone twice: %q\nwant %q", line, got, after)
		}
	}
	k := bottest.WithRaces(t)
	k.Refused(`/race change race:"Hill Loop" status:postponed`, "date")
	k.Refused(`/race change race:"Hill Loop" status:cancelled date:2026-07-19`, "date")
	k.Refused(`/race change race:h status:cancelled`, "race")
	k.Refused(`/race change race:sunday status:cancelled`, "race")
	k.Press(k.Refused(`/race change race:hi status:cancelled`, "race"), "Hill Loop, Sun 12 Jul")
	if got := k.Facts().Races; len(got) != 2 {
		t.Errorf("a cancelled race counts: %+v", got)
	}
}

func TestJoin(t *testing.T) {
	k := bottest.WithRaces(t)
	k.As("Tomas")
	list := k.OK("/race list")
	ask := k.Press(list, "Join Hill Loop, Sun 12 Jul")
	bottest.Wants(t, ask, "How much does Hill Loop on Sunday 12 July 2026 matter to you?")
	if got := calendarOf(k); len(got) != 0 {
		t.Errorf("asked, and stored: %q", got)
	}
	reply := k.Press(ask, "B race")
	bottest.Wants(t, reply, "Hill Loop is in your calendar too: B race on Sunday 12 July 2026, start 10:30")
	if got := k.Facts().Races; len(got) != 1 || got[0].Priority != planner.PriorityB || got[0].Start != "10:30" || got[0].Hours != 0 {
		t.Errorf("stored %+v", got)
	}
	bottest.Wants(t, k.Refused(`/race join race:"Hill Loop" priority:A`, "race"), "already")
	k.Refused(`/race join race:zebra`, "race")
	k.Refused(`/race join race:q priority:A`, "race")
	k.Undo(reply)
	if got := calendarOf(k); len(got) != 0 {
		t.Errorf("undone: %q", got)
	}
	if got := k.Offers("race join", "race", "her"); !reflect.DeepEqual(got, []string{"Heron Valley 2026-06-14"}) {
		t.Errorf("offers %q", got)
	}
}

// A stage race that was given up ends there, and the days after it begin.
func TestGivenUp(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Pellow Tour" date:2026-06-17 priority:A hours:4 days:5 start:10:30`)
	k.Who.Now = bottest.At("2026-06-19T15:00:00Z")
	reply := k.OK(`/race result race:pellow outcome:gave-up`)
	bottest.Wants(t, reply, "gave up on day 3 of 5", "Sat 20 Jun rest (until now RACE Pellow Tour 4h)")
	bottest.Wants(t, k.OK("/ride"), "You gave up Pellow Tour today.")
	bottest.Wants(t, k.OK("/ride tomorrow"), "You take a day off after Pellow Tour")
	k.OK(`/race result race:pellow feeling:3`)
	bottest.Wants(t, k.OK(`/race result race:pellow compared:worse`), "legs 3 of 10, gave up on day 3 of 5, worse than expected")
	k.Refused(`/race result race:pellow outcome:gave-up day:2026-06-01`, "day")
	k.Refused(`/race result race:pellow feeling:3 day:2026-06-18`, "day")
	k.Refused(`/race result race:pellow outcome:not-started feeling:3`, "feeling")
	bottest.Wants(t, k.OK(`/race result race:pellow outcome:not-started`), "did not start", "Sat 20 Jun long 3h (until now rest)")
}

// Who reads a result is told; what speaks of health is kept from coaches.
func TestWhoReadsAResult(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Who.Now = bottest.At("2026-06-15T08:00:00Z")
	bottest.Wants(t, k.OK(`/race result race:heron feeling:4 result:"12th"`), "Your coaches see legs, result and outcome.")
	bottest.Wants(t, k.OK(`/race result race:heron result:"DNF, fever 39"`), "Your coaches do not see this result")
	k.As("Rui")
	k.Who.Coach = true
	digest := k.OK("/coach digest").Text()
	if strings.Contains(digest, "fever") || !strings.Contains(digest, "Heron Valley (B), legs 4 of 10") {
		t.Errorf("the digest:\n%s", digest)
	}
}
