package races_test

import (
	"regexp"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
)

const shareWeek = "/week share week:\"" + bottest.InesWeek + "\""

// wantsMorning checks an answer's first line and what holds for any countdown.
func wantsMorning(t *testing.T, r say.Reply, first string, texts ...string) {
	t.Helper()
	if got := bottest.FirstLine(r); got != first {
		t.Errorf("first line %q, want %q", got, first)
	}
	if n := strings.Count(r.Text(), "\n") + 1; n > 25 {
		t.Errorf("%d lines:\n%s", n, r.Text())
	}
	if regexp.MustCompile(`\d ?(?:mg|ml|mL)\b`).MatchString(r.Text()) {
		t.Errorf("a dose or an amount to drink:\n%s", r.Text())
	}
	bottest.Wants(t, r, texts...)
}

func TestMorning(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/race morning"), "You have no race to come", "/race add")
	k.OK(shareWeek, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30`)
	wantsMorning(t, k.OK("/race morning"), "Hill Loop, Sun 28 Jun: get up 07:00, be there 09:20, start 10:30.", `/race morning race:"Hill Loop 2026-06-28" travel:45min`)
	k.OK("/race morning travel:45min")
	r := k.OK("/race morning hill") // it is kept
	wantsMorning(t, r, "Hill Loop, Sun 28 Jun: get up 07:00, leave 08:35, start 10:30.", "07:30 Last meal: what you eat before long rides", "The published advice is 60 to 240 g of carbohydrate for riders of 60 to 80 kg, about what 1 to 3 bowls of porridge with a banana hold", "is 600 to 960 g of carbohydrate a day for riders of 60 to 80 kg. About 600 g are in 3 plates of pasta (100 g dry each)", "08:35 Leave: 45min on the way", "10:05 Warm up: 10 min",
		"30 to 60 g of carbohydrate an hour (a gel or a banana holds about 25 g), up to 90 g", "Drink when you are thirsty, not more", "none under 18", "Sat 27 Jun: Openers: 40min", " They wake your legs. How hard: the easy part about 3 of 10 by feel, the short efforts about 8", "Kit: ", "Do not race when you are ill", "Sources: ")
	if strings.Contains(r.Text(), "travel:") || r.Race != "Hill Loop" || r.Date != planner.NewDate(2026, 6, 28) || len(r.Moments) != 1 {
		t.Errorf("asks again, or is about %q on %s, %v:\n%s", r.Race, r.Date, r.Moments, r.Text())
	}
	wantsMorning(t, k.OK("/race morning travel:4h"), "Hill Loop, Sun 28 Jun: get up 04:35, leave 05:20, start 10:30.", "Take it with you, and have breakfast before you leave")
	wantsMorning(t, k.OK("/race morning travel:none"), "Hill Loop, Sun 28 Jun: get up 07:00, be there 09:20, start 10:30.", "travel:45min")
	k.Refused("/race morning travel:soon", "travel")
	k.Refused("/race morning zone:Mars/Olympus", "zone")
	k.Refused("/race morning race:zzyzx travel:45min", "race")
}

func TestMorningInAnotherZone(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(shareWeek, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:2 start:10:30`)
	r := k.OK("/race morning zone:madrid travel:0")
	wantsMorning(t, r, "Hill Loop, Sun 28 Jun: get up 07:00, leave 09:15, start 10:30 (Europe/Madrid).", "the start is next door")
	want := bottest.At("2026-06-28T08:30:00Z")
	for _, line := range []string{"/race morning", "/plan show", "/ride 2026-06-27"} {
		if r = k.OK(line); len(r.Moments) != 1 || !r.Moments[0].At.Equal(want) {
			t.Errorf("%s: instants %v, want %s", line, r.Moments, want)
		}
	}
	k.OK(`/race change race:"Hill Loop" start:11:30`) // the zone stays
	if r = k.OK("/plan show"); !r.Moments[0].At.Equal(bottest.At("2026-06-28T09:30:00Z")) {
		t.Errorf("after another start: %v", r.Moments)
	}
	wantsMorning(t, k.OK("/race morning zone:none"), "Hill Loop, Sun 28 Jun: get up 08:00, leave 10:15, start 11:30.")
}

// A weight gives figures for it, and is not kept.
func TestMorningByWeight(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(shareWeek, `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30`)
	for typed, kilos := range map[string][3]string{"62kg": {"62 kg", "60 to 190 g", "620 to 740 g"}, "62,4 KG": {"62 kg", "60 to 190 g", "620 to 740 g"}, "90": {"90 kg", "90 to 270 g", "900 to 1080 g"}} {
		r := k.OK("/race morning weight:" + say.Quote(typed))
		bottest.Wants(t, r, kilos[1]+" of carbohydrate at your "+kilos[0]+", about what 1 to ", kilos[2]+" of carbohydrate a day at your "+kilos[0]+".")
		if strings.Contains(r.Text(), "weight:") {
			t.Errorf("asks again:\n%s", r.Text())
		}
	}
	bottest.Wants(t, k.OK("/race morning"), "for riders of 60 to 80 kg", "For your own weight, for example: /race morning weight:62kg")
	for _, wrong := range []string{"29", "201kg", "heavy", "NaN", "-62"} {
		k.Refused("/race morning weight:"+wrong, "weight")
	}
}

// Nights on which the clocks change, and starts soon after midnight.
func TestMorningAtNight(t *testing.T) {
	for _, tc := range []struct {
		date, start, first string
		texts              []string
	}{
		{"2027-03-28", "07:30", "Hill Loop, Sun 28 Mar: get up 04:25, leave 05:25, start 07:30.", []string{"! The clocks go forward by 1h at 01:00 on Sun 28 Mar", "60 to 160 g"}},
		{"2027-03-28", "03:30", "Hill Loop, Sun 28 Mar: leave 00:25, start 03:30.", []string{"Sat 23:55 Last meal", "starts at night"}},
		{"2026-10-25", "09:00", "Hill Loop, Sun 25 Oct: get up 05:30, leave 06:55, start 09:00.", []string{"! The clocks go back by 1h at 02:00 on Sun 25 Oct"}},
		{"2027-03-28", "01:30", "Hill Loop, Sun 28 Mar: leave Sat 23:25, start 02:30.", []string{"! 01:30 does not exist in that night, as the clocks go forward. These times are for 02:30: ask when it starts."}},
		{"2026-10-25", "01:30", "Hill Loop, Sun 25 Oct: leave Sat 23:25, start 01:30.", []string{"! 01:30 comes twice in that night, as the clocks go back. These times are for the first: ask which one is meant."}},
		{"2026-07-05", "00:20", "Hill Loop, Sun 5 Jul: leave Sat 22:15, start 00:20.", []string{"Sat 21:20 Last meal", "23:05", "sleep an hour or two in the afternoon before"}},
		{"2026-07-05", "18:00", "Hill Loop, Sun 5 Jul: leave 15:55, start 18:00.", []string{"15:00 Last meal"}},
	} {
		k := bottest.NewTalk(t)
		k.OK(shareWeek, `/race add name:"Hill Loop" date:`+tc.date+` priority:A hours:2 start:`+tc.start)
		wantsMorning(t, k.OK("/race morning travel:50min"), tc.first, tc.texts...)
	}
}

func TestMorningWithoutStart(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A`)
	r := k.OK("/race morning")
	wantsMorning(t, r, `Hill Loop, Sun 28 Jun: I do not know the start yet. Tell me, for example: /race change race:"Hill Loop 2026-06-28" start:10:30`,
		"3h30 before  Get up", "counted as 2h, because you gave no length", "/week share")
	_, fix, _ := strings.Cut(bottest.FirstLine(r), "example: ")
	k.OK(fix)
	wantsMorning(t, k.OK("/race morning"), "Hill Loop, Sun 28 Jun: get up 07:00, be there 09:15, start 10:30.")
}

// Races that are over, under way or not ridden have no countdown, or another.
func TestMorningOfOtherRaces(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(shareWeek, `/race add name:"Three Days" date:2026-06-05 priority:A days:3 hours:3 start:10:00`, `/race add name:"Hill Loop" date:2026-06-14 priority:B hours:2 start:10:30`)
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	wantsMorning(t, k.OK("/race morning"), "Three Days, day 1 of 3, Fri 5 Jun: get up 06:30, be there 08:50, start 10:00.")
	k.Who.Now = bottest.At("2026-06-05T15:00:00Z")
	wantsMorning(t, k.OK("/race morning"), "Three Days, day 2 of 3, Sat 6 Jun: count back from the start, which I know only for the first day.", "3h before    Last meal")
	k.Who.Now = bottest.At("2026-06-07T18:00:00Z")
	wantsMorning(t, k.OK("/race morning"), "Three Days, day 3 of 3, Sun 7 Jun: count back from the start, which I know only for the first day.")
	k.Who.Now = bottest.At("2026-06-08T08:00:00Z")
	wantsMorning(t, k.OK("/race morning race:three"), "Three Days on Friday 5 June 2026 is over. What comes next: /plan show")
	k.Who.Now = bottest.At("2026-06-14T11:00:00Z")
	wantsMorning(t, k.OK("/race morning"), `Hill Loop has started. Enjoy it! Afterwards, say how your legs were from 1 to 10: /race result race:"Hill Loop 2026-06-14" feeling:7`)
	told := k.OK(`/race result race:"Hill Loop" feeling:6`)
	wantsMorning(t, k.OK("/race morning"), "Hill Loop is over. Thank you for saying how it went! What comes next: /plan show")
	k.Undo(told)
	wantsMorning(t, k.OK("/race morning"), `Hill Loop has started. Enjoy it! Afterwards, say how your legs were from 1 to 10: /race result race:"Hill Loop 2026-06-14" feeling:7`)
}

// A stage race whose result was told is over on its last day alone.
func TestMorningOfToldStages(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(shareWeek, `/race add name:"Three Days" date:2026-06-05 priority:A days:3 hours:3 start:10:00`)
	k.Who.Now = bottest.At("2026-06-05T15:00:00Z")
	k.OK(`/race result race:"Three Days" feeling:6`)
	wantsMorning(t, k.OK("/race morning"), "Three Days, day 2 of 3, Sat 6 Jun: count back from the start, which I know only for the first day.")
	k.Who.Now = bottest.At("2026-06-07T18:00:00Z")
	wantsMorning(t, k.OK("/race morning"), "Three Days is over. Thank you for saying how it went! What comes next: /plan show")
}

// Who must not train gets no countdown and no figures.
func TestMorningWhileHeld(t *testing.T) {
	for _, week := range []bool{true, false} {
		k := bottest.NewTalk(t)
		k.OK(`/race add name:"Hill Loop" date:2026-06-05 priority:A hours:3 start:10:00`)
		if week {
			k.OK(shareWeek)
		}
		who, err := k.Base.Rider(t.Context(), k.Who)
		if err == nil {
			err = k.DB.AddHold(t.Context(), who.Athlete.ID, k.Who.Now, planner.LevelEmergency)
		}
		if err != nil {
			t.Fatal(err)
		}
		r := k.OK("/race morning")
		wantsMorning(t, r, "No countdown for Hill Loop on Fri 5 Jun: your plan has no training on that day.", "! ", "112")
		if strings.Contains(r.Text(), "carbohydrate") || len(r.Moments) != 0 {
			t.Errorf("week %v:\n%s", week, r.Text())
		}
	}
}
