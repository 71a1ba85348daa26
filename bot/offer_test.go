package bot

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/planner"
	"musette/storage"
)

// offers are the values offered for an option, after a check of all that holds for any.
func (k *talk) offers(name, option, typed string) []string {
	k.t.Helper()
	var values []string
	for _, o := range k.bot.Offer(k.t.Context(), k.who, name, option, typed) {
		for _, text := range []string{o.Label, o.Value} {
			if n := utf8.RuneCountInString(text); n < 1 || n > maxOfferText {
				k.t.Errorf("/%s %s:%.40s offers a text of %d characters: %q", name, option, typed, n, text)
			}
		}
		if slices.Contains(values, o.Value) {
			k.t.Errorf("/%s %s:%.40s offers %q twice", name, option, typed, o.Value)
		}
		values = append(values, o.Value)
	}
	if len(values) > maxOffers {
		k.t.Errorf("/%s %s:%.40s offers %d values", name, option, typed, len(values))
	}
	return values
}

func TestOffer(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:"Hill Loop" date:2026-06-14 priority:A`, `/race add name:"Quarry Crit" date:2026-06-28 priority:C`,
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
		{"ride", "day", "wed", "2026-06-03|2026-06-10"}, {"ride", "day", "wendesday", "wednesday|2026-06-10"}, {"tell away", "from", "fri", "2026-06-05|2026-06-12"},
		{"ride", "day", "", "today|tomorrow|wednesday|thursday|friday|saturday|sunday|2026-06-08|2026-06-09|2026-06-10|2026-06-11|2026-06-12|2026-06-13|2026-06-14"},
		{"me set", "zone", "lisb", "Europe/Lisbon"}, {"club setup", "zone", "lisbom", "Europe/Lisbon"}, {"me set", "zone", "new york", "America/New_York"},
		{"me set", "zone", "new yrok", "America/New_York"}, {"me set", "zone", "europe lisbon", "Europe/Lisbon"}, {"me set", "zone", "buenos", "America/Argentina/Buenos_Aires"},
		{"me set", "colour", "", ""}, {"race fly", "race", "", ""}, {"race add", "name", "H", ""}, {"club setup", "channel", "#", ""},
	} {
		if got := strings.Join(k.offers(tc.command, tc.option, tc.typed), "|"); got != tc.want {
			t.Errorf("/%s %s:%s offers %q, want %q", tc.command, tc.option, tc.typed, got, tc.want)
		}
	}
	if got := k.bot.Offer(t.Context(), k.who, "plan show", "race", "hill"); len(got) != 1 || got[0].Label != "Hill Loop, A, Sun 14 Jun 2026" {
		t.Errorf("a race is shown as %+v", got)
	}
	if got := k.bot.Offer(t.Context(), k.who, "ride", "day", "5 june"); len(got) == 0 || got[0] != (Offer{"Friday 5 June 2026", "2026-06-05"}) {
		t.Errorf("a typed day is not offered first: %+v", got)
	}
	if got := len(k.offers("me set", "zone", "")); got != maxOffers {
		t.Errorf("%d zones offered, want %d", got, maxOffers)
	}
	k.as("Tomas")
	if got := k.offers("plan show", "race", ""); len(got) != 0 {
		t.Errorf("another rider's races are offered: %q", got)
	}
	k.db.Close()
	if got := k.offers("plan show", "race", ""); len(got) != 0 {
		t.Errorf("a broken database offers %q", got)
	}
}

// Nobody needs to type accents.
func TestNamesWithoutAccents(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:"Löwen Øya Łódź" date:2026-06-14 priority:A`)
	for _, typed := range []string{"low", "löw", "lowen oya", "lodz"} {
		if got := k.offers("plan show", "race", typed); len(got) != 1 {
			t.Errorf("%q offers %q", typed, got)
		}
		k.ok("/race change race:\"" + typed + "\" place:Square")
	}
}

// What is offered is taken, and races that are over are not offered.
func TestOffersAreTaken(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", `/race add name:"Cup 2026-06-20" date:2026-06-14 priority:A`, `/race add name:Tour date:2026-06-06 priority:C days:3`,
		`/race add name:Done date:2026-06-05 priority:C`, `/race add name:"The \"Old\", B \\ Loop" date:2026-06-20 priority:B`)
	k.who.Now = at("2026-06-07T08:00:00Z")
	races := k.offers("plan show", "race", "")
	if len(races) != 3 || races[0] != "Tour 2026-06-06" {
		t.Errorf("offered are %q, want the tour under way and two to come", races)
	}
	for _, race := range races {
		if reply := k.ask("plan show", map[string]string{"race": race}, ""); reply.Err != nil || !strings.HasPrefix(race, reply.Race) {
			t.Errorf("%q means %q: %s", race, reply.Race, reply.Text())
		}
	}
	for _, typed := range []string{"", "s", "tue", "31 dec"} {
		for _, day := range k.offers("ride", "day", typed) {
			if reply := k.ask("ride", map[string]string{"day": day}, ""); reply.Err != nil {
				t.Errorf("%q is offered and refused: %s", day, reply.Text())
			}
		}
	}
	for _, zone := range k.offers("me set", "zone", "a") {
		if _, err := FindZone(zone); err != nil {
			t.Errorf("%q is offered and refused: %v", zone, err)
		}
	}
	for i := range 40 {
		k.ok(fmt.Sprintf("/race add name:Loop%d date:2026-09-%02d priority:C", i, 1+i%30))
	}
	if got := len(k.offers("plan show", "race", "")); got != maxOffers {
		t.Errorf("%d of 43 races offered, want %d", got, maxOffers)
	}
}

// The longest names fit, and the race is found by what is left of its name.
func TestOfferOfLongNames(t *testing.T) {
	k := newTalk(t)
	names := []string{strings.Repeat("Überlange Löop ", 13) + "Lauf!", strings.Repeat("x", 200), strings.Repeat("!", 200), strings.Repeat("🚲", 200)}
	for i, name := range names {
		if reply := k.ask("race add", map[string]string{"name": name, "date": fmt.Sprintf("2026-07-%02d", 10+i), "priority": "A"}, ""); reply.Err != nil {
			t.Fatal(reply.Text())
		}
	}
	got := k.offers("race change", "race", "")
	if len(got) != len(names) {
		t.Fatalf("%d races offered, want %d", len(got), len(names))
	}
	for i, value := range got {
		if reply := k.ask("race change", map[string]string{"race": value, "hours": "3"}, ""); reply.Err != nil || reply.Race != names[i] {
			t.Errorf("%q: %s", value, reply.Text())
		}
		if reply := k.ask("race change", map[string]string{"race": names[i] + fmt.Sprintf(" 2026-07-%02d", 10+i), "hours": "2"}, ""); reply.Err != nil {
			t.Errorf("the whole name with its date: %s", reply.Text())
		}
	}
}

// Of races on days of their own each is found by the value that is offered for it.
func TestOfferedRaceIsFound(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	letters := []rune(`abcdeABC 1234567890   äß李🚲!-.:"'\é`)
	today := planner.NewDate(2026, 6, 1)
	for range 300 {
		var races []storage.Race
		for i := range 1 + random.IntN(12) {
			name := make([]rune, 1+random.IntN(200))
			for j := range name {
				name[j] = letters[random.IntN(len(letters))]
			}
			text := tidy(string(name))
			if i > 0 && random.IntN(3) == 0 {
				text = races[i-1].Name // the same race on another day
			}
			if text == "" {
				text = "Loop"
			}
			races = append(races, storage.Race{ID: storage.RaceID(i + 1), Race: planner.Race{Name: text, Date: today.AddDays(i), Days: 1}})
		}
		for i, o := range raceOffers(races) {
			if utf8.RuneCountInString(o.Label) > maxOfferText || utf8.RuneCountInString(o.Value) > maxOfferText {
				t.Errorf("%+v is too long", o)
			}
			if got, err := findRace(races, o.Value, today); err != nil || got.ID != races[i].ID {
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
	offers := append(plain(zones()), Offer{"Hill Loop, A, Sun 14 Jun 2026", "Hill Loop 2026-06-14"})
	f.Fuzz(func(t *testing.T, typed string) {
		if got := fitting(offers, typed); len(got) > maxOffers {
			t.Errorf("%d offers", len(got))
		}
		if got := dayOffers(planner.NewDate(2026, 6, 1), typed); len(got) > maxOffers {
			t.Errorf("%d days", len(got))
		}
	})
}
