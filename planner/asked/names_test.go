package asked_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/asked"
)

// datedNames are names of races that hold days, months, numbers or letters.
var datedNames = []string{"Tuesday Ten", "Sunday Crit", "Three Peaks", "May Day GP", "Spring Classic", "June Jaunt", "Friday Night Lights", "One Tree Hill", "Seven Hills", "Midsummer Ten", "Saturday Sprint",
	"First of May Road Race", "Weekend Warrior", "Winter Warmer", "August Omnium", "March Hare", "Long Sunday", "Rest Day Classic", "Wednesday League", "Easter Monday Handicap", "Night Owl Crit", "Last Chance TT",
	"Next Door Crit", "Monday Mile", "24 Hour Loop", "Route 9 Road Race", "Week One Crit", "Sun and Moon Sportive", "Second City Crit", "Half Moon Hill"}

// A race is found by its name, and the days beside it, whatever day the name holds.
func TestNamesThatHoldDays(t *testing.T) {
	for i, name := range datedNames {
		if i%rounds.Every(3) != 0 {
			continue
		}
		k := sampleKnown(t)
		date := planner.NewDate(2026, 6, 20).AddDays(i % 9)
		k.Today = planner.NewDate(2026, 6, 4)
		k.Races = []planner.Race{{Name: "Fen Ride", Priority: planner.PriorityB, Date: planner.NewDate(2026, 6, 13), Days: 1}, {Name: name, Priority: planner.PriorityA, Date: date, Days: 1}}
		monday := date.AddDays(-int(date.Weekday()))
		tuesday := from(date.AddDays(-7), planner.Tuesday)
		for text, days := range map[string][2]planner.Date{
			"when does my taper for %s start":                           {},
			"what do I ride the day before %s":                          {date - 1, date - 1},
			"what do I ride two days before %s?":                        {date - 2, date - 2},
			"what do I ride on the Tuesday before %s":                   {tuesday, tuesday},
			"show me the week of %s":                                    {monday, monday + 6},
			"may I go hard the day after %s":                            {date + 1, date + 1},
			"can I join the club on the 10th or is it too close to %s?": {planner.NewDate(2026, 6, 10), planner.NewDate(2026, 6, 10)},
		} {
			for _, said := range []string{name, strings.ToLower(name), "the " + name} {
				readsRace(t, k, fmt.Sprintf(text, said), name, days[0], days[1])
			}
		}
	}
}

// readsRace expects a race and a stretch of days in one of the parts of a text; from 0 is none.
func readsRace(t *testing.T, k asked.Known, text, race string, from, to planner.Date) {
	t.Helper()
	parts := asked.Read(text, k).Parts
	if !slices.ContainsFunc(parts, func(p asked.Part) bool { return p.Race != nil && p.Race.Name == race }) {
		t.Errorf("%s: not about %s", text, race)
	}
	if !slices.ContainsFunc(parts, func(p asked.Part) bool {
		a, b, ok := p.Stretch()
		return from == 0 && !ok || ok && a == from && b == to
	}) {
		t.Errorf("%s: the days are not %s to %s: %v", text, from, to, parts[0].Dates)
	}
}

// A new race keeps the day in its name, and is on the day that was told.
func TestNewNamesThatHoldDays(t *testing.T) {
	k := sampleKnown(t)
	k.Today = planner.NewDate(2026, 6, 4)
	for _, name := range []string{"Tuesday Ten", "Sunday Crit", "May Day GP", "June Jaunt", "Friday Night Lights", "Saturday Sprint", "Weekend Warrior", "Easter Monday Handicap", "Next Door Crit", "Three Peaks"} {
		for _, form := range []string{"add %s on 27 June, B", "I've entered %s on 27 June as a B race", "new race: %s, 27/6, B", "got a race on 27 June called %s, it's a B"} {
			for _, said := range []string{name, strings.ToLower(name)} {
				text := fmt.Sprintf(form, said)
				p := asked.Read(text, k).Parts[0]
				if a, b, ok := p.Stretch(); p.Topic != asked.AddRace || !sameName(p.NewRace, name) || !ok || a != b || a != planner.NewDate(2026, 6, 27) {
					t.Errorf("%s: %s %q %v", text, p.Topic, p.NewRace, p.Dates)
				}
			}
		}
	}
}
