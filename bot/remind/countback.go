package remind

import (
	"context"
	"strings"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/raceday"
	"musette/storage"
)

// CountBack finds when to do what on the morning of the race of the next day, by the
// clocks at its start. Without a known start there is nothing to count back from.
func CountBack(ctx context.Context, b *desk.Base, athlete storage.AthleteID, o *Occasion, zone *time.Location) error {
	r := o.Eve
	if r == nil || r.Date != o.Day.Date+1 || o.Day.Phase == planner.Health {
		return nil
	}
	start, ok := raceday.StartIn(r, show.ZoneOf(r, zone))
	if !ok {
		return nil
	}
	told, err := b.DB.RaceDay(ctx, athlete, storage.RaceID(r.ID))
	if err != nil {
		return err
	}
	count := raceday.Count(r, raceday.Way{Minutes: told.Travel, Known: told.Way}, raceday.Early(start))
	var steps []string
	for _, m := range count.Moments {
		if m.Step == raceday.Wake && count.SleepsIn(start) {
			continue
		}
		at := start.Add(-time.Duration(m.Lead) * time.Minute)
		clock := at.Format("15:04")
		if day := planner.DateOf(at); day != planner.DateOf(start) {
			clock = day.Weekday().Short() + " " + clock
		}
		steps = append(steps, stepWords[m.Step]+" "+clock)
	}
	o.clock = say.UpperFirst(strings.Join(steps, ", ")) + "."
	if !told.Way {
		o.clock += " Leave in time to be there."
	}
	return nil
}

var stepWords = [...]string{raceday.Wake: "get up", raceday.Meal: "last meal", raceday.Leave: "leave", raceday.Arrive: "be there",
	raceday.WarmUp: "warm up", raceday.LineUp: "at the line", raceday.Start: "start"}
