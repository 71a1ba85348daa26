package show

import (
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// ShowRace is the command that shows a race's days: by its name, and its date
// too where another race is called the same.
func ShowRace(f *planner.Facts, race *planner.Race) say.Span {
	name := race.Name
	for i := range f.Races {
		if other := &f.Races[i]; SameName(other.Name, race.Name) && other.Date != race.Date {
			name = race.Name + " " + race.Date.String()
		}
	}
	return say.CommandLine("plan show", map[string]string{"race": name})
}

// SameName is the one rule for names in other capitals.
func SameName(a, b string) bool { return storage.Fold(a) == storage.Fold(b) }

func StartOf(race *planner.Race, zone *time.Location, now time.Time) []say.Moment {
	clock, err := time.Parse("15:04", race.Start)
	if err != nil {
		return nil
	}
	year, month, day := race.Date.Civil()
	at := time.Date(year, month, day, clock.Hour(), clock.Minute(), 0, 0, zone)
	if at.Before(now) {
		return nil
	}
	return []say.Moment{{Label: "Start", At: at}}
}

func PlanButton(race *planner.Race) say.Button {
	return say.Button{Label: "Show plan", Command: "plan show", Options: map[string]string{"race": race.Name + " " + race.Date.String()}}
}
