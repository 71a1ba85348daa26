package bot_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/planner"
	"musette/storage"
)

func TestOffer(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Hill Loop" date:2026-06-14 priority:A`, `/race add name:"Quarry Crit" date:2026-06-28 priority:C`,
		`/race add name:"Quarry Crit" date:2026-07-05 priority:B`)
	const hill, quarry, later = "Hill Loop 2026-06-14", "Quarry Crit 2026-06-28", "Quarry Crit 2026-07-05"
	for _, tc := range []struct{ command, option, typed, want string }{
		{"plan show", "race", "", hill + "|" + quarry + "|" + later}, {"plan show", "race", "loop", hill}, {"plan show", "race", " HILL ", hill},
		{"plan show", "race", "hil lop", hill}, {"plan show", "race", "hlil loop", hill}, {"plan show", "race", "loop hill", hill},
		{"race remove", "race", "quary", quarry + "|" + later}, {"race change", "race", "quarry crti", quarry + "|" + later}, {"race change", "race", "uarry", quarry + "|" + later},
		{"race priority", "race", "28 jun", quarry}, {"plan show", "race", "28 june", quarry}, {"plan show", "race", "2026-06-28", quarry}, {"plan show", "race", "5 jul", later}, {"plan show", "race", "20", hill + "|" + quarry + "|" + later}, {"plan show", "race", "20 jun", ""}, {"plan show", "race", "2026-07", later},
		{"plan show", "race", "june", hill + "|" + quarry}, {"plan show", "race", "jul", later}, {"plan show", "race", hill, hill}, {"plan show", "race", "quarry b", later},
		{"plan show", "race", "zebra", ""}, {"plan show", "race", "xx", ""}, {"plan show", "race", "\x00", ""},
		{"race add", "priority", "b", "B"}, {"race add", "priority", "", "A|B|C"}, {"club setup", "digest-day", "wendesday", "wednesday"}, {"club setup", "digest-day", "t", "tuesday|thursday|saturday"},
		{"ride", "day", "to", "today|tomorrow"}, {"ride", "day", "2026-06-02", "2026-06-02"}, {"ride", "day", "28 june", "2026-06-28"}, {"ride", "day", "jun 28", "2026-06-28"}, {"ride", "day", "20 june", "2026-06-20"}, {"ride", "day", "2 jun", "2026-06-02|2026-06-12"},
		{"ride", "day", "wed", "2026-06-03|2026-06-10"}, {"ride", "day", "wendesday", "2026-06-03|2026-06-10"}, {"tell away", "from", "fri", "2026-06-05|2026-06-12"},
		{"ride", "day", "", "today|tomorrow|wednesday|thursday|friday|saturday|sunday|2026-06-08|2026-06-09|2026-06-10|2026-06-11|2026-06-12|2026-06-13|2026-06-14"},
		{"me set", "zone", "lisb", "Europe/Lisbon"}, {"club setup", "zone", "lisbom", "Europe/Lisbon"}, {"me set", "zone", "new york", "America/New_York"},
		{"me set", "zone", "new yrok", "America/New_York"}, {"me set", "zone", "europe lisbon", "Europe/Lisbon"}, {"me set", "zone", "buenos", "America/Argentina/Buenos_Aires"},
		{"me set", "colour", "", ""}, {"race fly", "race", "", ""}, {"race add", "name", "H", ""}, {"club setup", "channel", "#", ""},
	} {
		if got := strings.Join(k.Offers(tc.command, tc.option, tc.typed), "|"); got != tc.want {
			t.Errorf("/%s %s:%s offers %q, want %q", tc.command, tc.option, tc.typed, got, tc.want)
		}
	}
	if got := k.Bot.Offer(t.Context(), k.Who, "plan show", "race", "hill"); len(got) != 1 || got[0].Label != "Hill Loop, A, Sun 14 Jun 2026" {
		t.Errorf("a race is shown as %+v", got)
	}
	if got := k.Bot.Offer(t.Context(), k.Who, "ride", "day", "5 june"); len(got) == 0 || got[0] != (command.Offer{Label: "Friday 5 June 2026", Value: "2026-06-05"}) {
		t.Errorf("a typed day is not offered first: %+v", got)
	}
	if got := len(k.Offers("me set", "zone", "")); got != command.MaxOffers {
		t.Errorf("%d zones offered, want %d", got, command.MaxOffers)
	}
	k.As("Tomas")
	if got := k.Offers("plan show", "race", ""); len(got) != 0 {
		t.Errorf("another rider's races are offered: %q", got)
	}
	k.DB.Close()
	if got := k.Offers("plan show", "race", ""); len(got) != 0 {
		t.Errorf("a broken database offers %q", got)
	}
}

// Nobody needs to type accents.
func TestNamesWithoutAccents(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Löwen Øya Łódź" date:2026-06-14 priority:A`)
	for _, typed := range []string{"low", "löw", "lowen oya", "lodz"} {
		if got := k.Offers("plan show", "race", typed); len(got) != 1 {
			t.Errorf("%q offers %q", typed, got)
		}
		k.OK("/race change race:\"" + typed + "\" place:Square")
	}
}

// What is offered is taken, and races that are over are not offered.
func TestOffersAreTaken(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Cup 2026-06-20" date:2026-06-14 priority:A`, `/race add name:Tour date:2026-06-06 priority:C days:3`,
		`/race add name:Done date:2026-06-05 priority:C`, `/race add name:"The \"Old\", B \\ Loop" date:2026-06-20 priority:B`)
	k.Who.Now = bottest.At("2026-06-07T08:00:00Z")
	races := k.Offers("plan show", "race", "")
	if len(races) != 3 || races[0] != "Tour 2026-06-06" {
		t.Errorf("offered are %q, want the tour under way and two to come", races)
	}
	for _, race := range races {
		if reply := k.Ask("plan show", map[string]string{"race": race}, ""); reply.Err != nil || !strings.HasPrefix(race, reply.Race) {
			t.Errorf("%q means %q: %s", race, reply.Race, reply.Text())
		}
	}
	for _, typed := range []string{"", "s", "tue", "31 dec"} {
		for _, day := range k.Offers("ride", "day", typed) {
			if reply := k.Ask("ride", map[string]string{"day": day}, ""); reply.Err != nil {
				t.Errorf("%q is offered and refused: %s", day, reply.Text())
			}
		}
	}
	for _, zone := range k.Offers("me set", "zone", "a") {
		if _, err := desk.FindZone(zone); err != nil {
			t.Errorf("%q is offered and refused: %v", zone, err)
		}
	}
	for i := range 40 {
		k.OK(fmt.Sprintf("/race add name:Loop%d date:2026-09-%02d priority:C", i, 1+i%30))
	}
	if got := len(k.Offers("plan show", "race", "")); got != command.MaxOffers {
		t.Errorf("%d of 43 races offered, want %d", got, command.MaxOffers)
	}
}

// The longest names fit, and the race is found by what is left of its name.
func TestOfferOfLongNames(t *testing.T) {
	k := bottest.NewTalk(t)
	names := []string{strings.Repeat("Überlange Löop ", 13) + "Lauf!", strings.Repeat("x", 200), strings.Repeat("!", 200), strings.Repeat("🚲", 200)}
	for i, name := range names {
		if reply := k.Ask("race add", map[string]string{"name": name, "date": fmt.Sprintf("2026-07-%02d", 10+i), "priority": "A"}, ""); reply.Err != nil {
			t.Fatal(reply.Text())
		}
	}
	got := k.Offers("race change", "race", "")
	if len(got) != len(names) {
		t.Fatalf("%d races offered, want %d", len(got), len(names))
	}
	for i, value := range got {
		if reply := k.Ask("race change", map[string]string{"race": value, "hours": "3"}, ""); reply.Err != nil || reply.Race != names[i] {
			t.Errorf("%q: %s", value, reply.Text())
		}
		if reply := k.Ask("race change", map[string]string{"race": names[i] + fmt.Sprintf(" 2026-07-%02d", 10+i), "hours": "2"}, ""); reply.Err != nil {
			t.Errorf("the whole name with its date: %s", reply.Text())
		}
	}
}

// Of races on days of their own each is found by the value that is offered for it.
func TestOfferedRaceIsFound(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	letters := []rune(`abcdeABC 1234567890   äß李🚲!-.:"'\é`)
	today := planner.NewDate(2026, 6, 1)
	for range max(1, *randomCommands/6) {
		var races []storage.Race
		for i := range 1 + random.IntN(12) {
			name := make([]rune, 1+random.IntN(200))
			for j := range name {
				name[j] = letters[random.IntN(len(letters))]
			}
			text := desk.Tidy(string(name))
			if i > 0 && random.IntN(3) == 0 {
				text = races[i-1].Name // the same race on another day
			}
			if text == "" {
				text = "Loop"
			}
			races = append(races, storage.Race{ID: storage.RaceID(i + 1), Race: planner.Race{Name: text, Date: today.AddDays(i), Days: 1}})
		}
		for i, o := range command.RaceOffers(races) {
			if utf8.RuneCountInString(o.Label) > desk.MaxOfferText || utf8.RuneCountInString(o.Value) > desk.MaxOfferText {
				t.Errorf("%+v is too long", o)
			}
			if got, err := desk.FindRace(races, o.Value, today); err != nil || got.ID != races[i].ID {
				t.Errorf("%q finds race %d, %v; want %q", o.Value, got.ID, err, races[i].Name)
			}
		}
	}
}

// Nothing that is typed breaks the offers.
func FuzzFitting(f *testing.F) {
	for _, typed := range []string{"", "hil lop", "quary", "28 jun", "\xff", "ü", strings.Repeat("a ", 50)} {
		f.Add(typed)
	}
	offers := append(command.Plain(desk.Zones()), command.Offer{Label: "Hill Loop, A, Sun 14 Jun 2026", Value: "Hill Loop 2026-06-14"})
	f.Fuzz(func(t *testing.T, typed string) {
		if got := command.Fitting(offers, typed); len(got) > command.MaxOffers {
			t.Errorf("%d offers", len(got))
		}
		if got := command.DayOffers(planner.NewDate(2026, 6, 1), typed); len(got) > command.MaxOffers {
			t.Errorf("%d days", len(got))
		}
	})
}
