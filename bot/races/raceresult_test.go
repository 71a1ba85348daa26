package races_test

import (
	"reflect"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/command"
	"musette/bot/races"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// results are the rider's, by the race's name and date, without their instants.
func results(k *bottest.Talk) map[string]storage.Result {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	races, err := k.DB.Races(k.T.Context(), who.Athlete.ID)
	if err != nil {
		k.T.Fatal(err)
	}
	all, err := k.DB.Results(k.T.Context(), who.Athlete.ID)
	if err != nil {
		k.T.Fatal(err)
	}
	out := map[string]storage.Result{}
	for _, r := range races {
		if result, ok := all[r.ID]; ok {
			out[r.Name+" "+r.Date.String()] = storage.Result{Feeling: result.Feeling, Place: result.Place, Note: result.Note}
		}
	}
	return out
}

func TestRaceResult(t *testing.T) {
	k := bottest.WithRaces(t)
	bottest.Wants(t, k.Refused("/race result hill feeling:8", "race"), "Hill Loop is on Sunday 12 July 2026, still to come")
	k.Who.Now = bottest.At("2026-06-14T18:00:00Z")
	reply := k.OK(`/race result heron feeling:8 result:"12th, 2:01:33" note:"windy: very"`)
	bottest.Wants(t, reply, "Noted: Heron Valley on Sun 14 Jun, legs 8 of 10, 12th, 2:01:33.\nYour note: windy: very\n", `The days after it: /plan show race:"Heron Valley"`)
	if got, want := results(k), (map[string]storage.Result{"Heron Valley 2026-06-14": {Feeling: 8, Place: "12th, 2:01:33", Note: "windy: very"}}); !reflect.DeepEqual(got, want) {
		t.Errorf("stored %+v, want %+v", got, want)
	}
	if reply.Race != "Heron Valley" || reply.Date.String() != "2026-06-14" || !reply.Private {
		t.Errorf("about %s on %s, private %v", reply.Race, reply.Date, reply.Private)
	}
	if got := k.Facts().Results; len(got) != 1 || got[0] != (planner.Result{RaceID: got[0].RaceID, Race: "Heron Valley", Feeling: 8}) {
		t.Errorf("facts hold %+v", got)
	}
	for line, field := range map[string]string{"/race result heron feeling:0": "feeling", "/race result heron feeling:11": "feeling", "/race result heron feeling:7.5": "feeling",
		"/race result heron": "feeling", "/race result zebra feeling:8": "race", "/race result quarry feeling:none": "feeling", "/race result feeling:8": "race"} {
		k.Refused(line, field)
	}
	bottest.NewTalk(t).Refused("/race result hill feeling:8", "race")
	k.As("Tomas")
	k.Refused("/race result heron feeling:8", "race")
	k.As("Ines")
	k.Who.Now = bottest.At("2026-06-20T18:00:00Z")
	if reply := k.OK("/race result heron feeling:7"); strings.Contains(reply.Text(), "The days after it") {
		t.Errorf("no day is left after the race:\n%s", reply.Text())
	}
}

// Undo brings back what was entered before, and undoing the undo works too.
func TestUndoOfResults(t *testing.T) {
	for _, tc := range []struct{ told, again string }{
		{"", "/race result heron feeling:8"}, {"/race result heron feeling:3 result:dnf note:\"cramps; \\\"ouch\\\"\"", "/race result heron feeling:8"},
		{"/race result heron feeling:3 result:dnf note:x", "/race result heron feeling:none"}, {"/race result heron feeling:3", "/race result heron feeling:3 note:x"},
	} {
		k := bottest.WithRaces(t)
		k.Who.Now = bottest.At("2026-06-15T08:00:00Z")
		if tc.told != "" {
			k.OK(tc.told)
		}
		before := results(k)
		reply := k.OK(tc.again)
		after := results(k)
		back := k.Undo(reply)
		if got := results(k); !reflect.DeepEqual(got, before) {
			t.Errorf("%s, %s, undone: %+v\nwant %+v", tc.told, tc.again, got, before)
		}
		k.Undo(back)
		if got := results(k); !reflect.DeepEqual(got, after) {
			t.Errorf("%s, %s, undone twice: %+v\nwant %+v", tc.told, tc.again, got, after)
		}
	}
	k := bottest.WithRaces(t)
	k.Who.Now = bottest.At("2026-06-15T08:00:00Z")
	k.OK("/race result heron feeling:8")
	k.Press(k.OK("/race result heron feeling:8"), say.TakeBack)
	if got := results(k); len(got) != 0 {
		t.Errorf("left are %+v", got)
	}
}

func TestFindOver(t *testing.T) {
	today := planner.NewDate(2026, 6, 15) // a Monday
	race := func(id storage.RaceID, name string, date planner.Date) storage.Race {
		return storage.Race{ID: id, Race: planner.Race{Name: name, Date: date, Days: 1}}
	}
	all := []storage.Race{race(1, "Hill Loop", today.AddDays(-365)), race(2, "Hill Loop", today.AddDays(-8)), race(3, "Quarry Crit", today.AddDays(-3)),
		race(4, "Quarry Lap", today.AddDays(-1)), {ID: 5, Race: planner.Race{Name: "Pellow Tour", Date: today, Days: 3}}, race(6, "Hill Loop", today.AddDays(5)), race(7, "Heron Valley", today.AddDays(6))}
	for text, want := range map[string]storage.RaceID{"hill": 2, "Hill Loop": 2, "Hill Loop 2025-06-15": 1, "2025-06-15": 1, "sunday": 4, "yesterday": 4, "friday": 3, "12 June": 3, "pellow": 5, "today": 5,
		"quarry crit": 3, "quary crit": 3, "next": 5, "Quarry Lap 2026-06-14": 4} {
		if got, err := races.FindOver(all, text, today); err != nil || got.ID != want {
			t.Errorf("%q: race %d, %v; want %d", text, got.ID, err, want)
		}
	}
	for text, want := range map[string]string{"quarry": `Write name and date, for example race:"Quarry Crit 2026-06-12"`, "heron": "still to come", "Hill Loop 2026-06-20": "still to come", "2026-06-21": "still to come",
		"zebra": "none of your races"} {
		if got, err := races.FindOver(all, text, today); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: race %d, %v; want ...%s...", text, got.ID, err, want)
		}
	}
	if _, err := races.FindOver(all[5:], "hil lop", today); err == nil || !strings.Contains(err.Error(), "still to come") {
		t.Errorf("with races to come alone: %v", err)
	}
	if _, err := races.FindOver(nil, "hill", today); err == nil || !strings.Contains(err.Error(), "/race add") {
		t.Errorf("without races: %v", err)
	}
}

// Of races those that have begun are offered, the newest first; of days those up to today.
func TestOfferOfWhatIsOver(t *testing.T) {
	k := bottest.WithRaces(t)
	if got := k.Offers("race result", "race", ""); len(got) != 0 {
		t.Errorf("races to come are offered: %q", got)
	}
	k.Who.Now = bottest.At("2026-06-16T08:00:00Z")
	for _, tc := range []struct{ command, option, typed, want string }{
		{"race result", "race", "", "Heron Valley 2026-06-14|Quarry Crit 2026-06-07"}, {"race result", "race", "quar", "Quarry Crit 2026-06-07"}, {"race result", "race", "hill", ""},
		{"plan show", "race", "", "Hill Loop 2026-07-12"}, {"done", "day", "to", "2026-06-16"}, {"done", "day", "yes", "2026-06-15"}, {"tell missed", "day", "sat", "2026-06-13|2026-06-06"},
		{"done", "day", "3 june", "2026-06-03"}, {"done", "day", "1 may", "2026-05-01"}, {"done", "day", "tomorrow", ""}, {"done", "day", "2026-06-20", ""}, {"done", "day", "2024-01-01", ""},
		{"done", "day", "", "2026-06-16|2026-06-15|2026-06-14|2026-06-13|2026-06-12|2026-06-11|2026-06-10|2026-06-09|2026-06-08|2026-06-07|2026-06-06|2026-06-05|2026-06-04|2026-06-03"},
	} {
		if got := strings.Join(k.Offers(tc.command, tc.option, tc.typed), "|"); got != tc.want {
			t.Errorf("/%s %s:%s offers %q, want %q", tc.command, tc.option, tc.typed, got, tc.want)
		}
	}
	for _, race := range k.Offers("race result", "race", "") {
		if reply := k.Ask("race result", map[string]string{"race": race, "feeling": "7"}, ""); reply.Err != nil || !strings.HasPrefix(race, reply.Race) {
			t.Errorf("%q is offered and means %q: %s", race, reply.Race, reply.Text())
		}
	}
	for _, day := range k.Offers("done", "day", "") {
		if reply := k.Ask("done", map[string]string{"day": day, "minutes": "30"}, ""); reply.Err != nil || reply.Date.String() != day {
			t.Errorf("%q is offered and means %s: %s", day, reply.Date, reply.Text())
		}
	}
	if got := k.Bot.Offer(t.Context(), k.Who, "done", "day", "yesterday"); len(got) != 1 || got[0] != (command.Offer{Label: "Monday 15 June 2026", Value: "2026-06-15"}) {
		t.Errorf("yesterday is offered as %+v", got)
	}
}

// Riders write outcomes and comparisons in their own words.
func TestOutcomesInOwnWords(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Who.Now = bottest.At("2026-06-16T08:00:00Z")
	for want, words := range map[string][]string{
		"did not start": {"not-started", "did not start", "Didn't start", "didn’t start", "DNS", "d.n.s.", "never started", "I did not race", "no-show", "stayed home"},
		"gave up":       {"gave-up", "gave up", "I gave up", "DNF", "d.n.f.", "did not finish", "didn't finish", "pulled out", "Abandoned", "dropped out", "had to stop"},
		"finished":      {"finished", "I finished", "completed", "done"},
	} {
		for _, word := range words {
			bottest.Wants(t, k.OK("/race result race:quarry outcome:"+say.Quote(word)), ", "+want+".")
			k.OK("/race result race:quarry outcome:none feeling:5")
		}
	}
	for word, want := range map[string]string{"worse than expected": "worse than expected", "as expected": "as expected", "Better than I expected": "better than expected"} {
		bottest.Wants(t, k.OK("/race result race:quarry compared:"+say.Quote(word)), ", "+want+".")
	}
	for _, word := range []string{"crashed", "did", "started", "not"} {
		k.Refused("/race result race:quarry outcome:"+word, "outcome")
	}
}
