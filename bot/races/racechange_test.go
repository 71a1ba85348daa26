package races_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
)

// Of two races with one name none is removed by the name alone.
func TestRemoveNamesOneRace(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:Mill date:2026-06-10 priority:C`, `/race add name:Mill date:2026-07-10 priority:C`)
	k.Who.Now = bottest.At("2026-06-20T08:00:00Z")
	k.Refused("/race remove race:Mill", "race")
	k.OK(`/race remove race:"Mill 2026-07-10"`)
	k.Refused(`/race remove race:"Mill 2026-07-10"`, "race")
	if got := k.Facts().Races; len(got) != 1 || got[0].Date.String() != "2026-06-10" {
		t.Errorf("left are %v, want the race of June", got)
	}
}

// A removed race comes back after its day too; another race in the past does not.
func TestRemovedRaceComesBackAfterItsDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:Mill date:2026-06-10 priority:A hours:3`)
	k.Who.Now = bottest.At("2026-06-12T08:00:00Z")
	_, undo, _ := strings.Cut(k.OK("/race remove race:Mill").Text(), "Undo: ")
	k.OK(undo)
	if got := k.Facts().Races; len(got) != 1 || got[0].Registered != planner.NewDate(2026, 6, 1) {
		t.Errorf("came back as %v, want it registered on 2026-06-01", got)
	}
	k.Refused(`/race add name:Other date:2026-06-10 priority:A`, "date")
}

// Added again with a higher priority, a removed race is entered again and known as it was until then.
func TestRemovedRaceIsToldAnew(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:Mill date:2026-06-20 priority:C`)
	k.Who.Now = bottest.At("2026-06-16T08:00:00Z")
	k.OK("/race remove race:Mill", `/race add name:Mill date:2026-06-20 priority:A`)
	if got := k.Facts().Races[0]; got.Registered != planner.NewDate(2026, 6, 1) || got.On != planner.NewDate(2026, 6, 16) {
		t.Errorf("registered %s, told %s; want 2026-06-01, 2026-06-16", got.Registered, got.On)
	}
	if was := k.KnownOn("2026-06-15").Races; len(was) != 1 || was[0].Priority != planner.PriorityC {
		t.Errorf("the day before %+v were known, want the C race", was)
	}
}

// A race that was removed comes back days later and after race day, as it was.
func TestRemovedRaceComesBackAfterRaceDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.33 place:"Market Square"`)
	was := k.Facts()
	k.Who.Now = bottest.At("2026-06-20T08:00:00Z")
	_, undo, _ := strings.Cut(k.OK(`/race remove race:"hill loop"`).Text(), "Undo: ")
	bottest.Wants(t, k.OK("/race list"), "No race is to come")
	k.As("Tomas")
	k.Refused(`/race add name:"Hill Loop" date:2026-06-01 priority:A`, "date")
	k.As("Ines")
	k.Who.Now = bottest.At("2026-07-02T08:00:00Z")
	k.Refused(`/race add name:"Another Loop" date:2026-06-28 priority:A`, "date")
	reply := k.OK(undo)
	bottest.Wants(t, reply, "Hill Loop is back in your calendar", "It is over.")
	if len(reply.Sent) != 0 {
		t.Errorf("announced again: %v", reply.Sent)
	}
	was.Races[0].On = planner.NewDate(2026, 7, 2)
	if got := k.Facts(); !bottest.SameFacts(got, was) {
		t.Errorf("came back as %+v, was %+v", got.Races, was.Races)
	}
	if gone := k.KnownOn("2026-07-01").Races; len(gone) != 0 {
		t.Errorf("before it came back %+v were known", gone)
	}
	k.Refused(undo, "name")
	k.Refused(`/race change race:"Hill Loop" date:2026-06-27`, "date")
	k.OK(`/race change race:"Hill Loop" hours:none kind:gravel`)
}

// Less than a whole name or a date removes nothing and offers the whole.
func TestRemovingAsksBack(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK(`/race add name:"Lone Lap" date:2026-06-06 priority:C`)
	for _, text := range []string{"lon", "lone", "Lon Lap", "sat", "saturday", "in 5 days"} {
		reply := k.Refused("/race remove race:"+say.Quote(text), "race")
		if len(reply.Buttons) != 1 || !reply.Buttons[0].Danger || reply.Buttons[0].Options["race"] != show.RaceRef(&k.Facts().Races[0]) || !strings.Contains(reply.Text(), `Did you mean race:"Lone Lap 2026-06-06"?`) {
			t.Errorf("%s: %s %+v", text, reply.Text(), reply.Buttons)
		}
	}
	for i, text := range []string{"LONE LAP", "2026-06-06", "6 June", "Lone Lap 2026-06-06"} {
		if reply := k.OK("/race remove race:" + say.Quote(text)); reply.Race != "Lone Lap" {
			t.Errorf("%s removes %s", text, reply.Race)
		}
		k.OK(`/race add name:"Lone Lap" date:2026-06-06 priority:C`)
		if got := len(k.Facts().Races); got != 4 {
			t.Fatalf("%d: %d races", i, got)
		}
	}
}

func TestNoneForgetsADetail(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Pellow Tour" date:2026-06-20 priority:B days:3 hours:4 kind:gravel start:10:30 place:Pellow taper:10 emphasis:"train through"`,
		`/race change race:pellow emphasis:important`, `/race change race:pellow days:none hours:none kind:none start:NONE place:none emphasis:none taper:auto`)
	want := planner.Race{ID: 1, Name: "Pellow Tour", Date: planner.NewDate(2026, 6, 20), Priority: planner.PriorityB, Days: 1, Registered: planner.NewDate(2026, 6, 1),
		Told: planner.Told{On: planner.NewDate(2026, 6, 1)}}
	if got := k.Facts().Races[0]; got != want {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	bottest.Wants(t, k.OK("/help race"), "none deletes it", "none means one day", "none: as usual for a B race")
	k.Refused(`/race change race:pellow date:none`, "date")
	k.Refused(`/race change race:pellow taper:3`, "taper")
	k.Refused(`/race change race:pellow taper:none`, "taper")
}

// What is cancelled is listed, but not as a race to come.
func TestCancelledIsNotToCome(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`, `/race add name:"Quarry Crit" date:2026-07-12 priority:B hours:1`, `/race change race:"Hill Loop" status:cancelled`)
	bottest.Wants(t, k.OK("/race list"), ": 1 to come, next Quarry Crit on Sun 12 Jul.", "Hill Loop: cancelled")
	k.OK(`/race change race:"Quarry Crit" status:cancelled`)
	bottest.Wants(t, k.OK("/race list"), ": all are cancelled.\n", "Hill Loop: cancelled")
}

// A change of a race's letter or of its own length says how to take it back, another one does not.
func TestWayBackIsSaid(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h`)
	const way = "\nIf you change your mind, press Undo.\nUndo: /race change "
	bottest.Wants(t, k.OK("/race change race:Hill taper:14"), way)
	bottest.Wants(t, k.OK("/race priority race:Hill priority:B"), way)
	if text := k.OK("/race change race:Hill hours:4h").Text(); strings.Contains(text, "change your mind") {
		t.Error(text)
	}
}
