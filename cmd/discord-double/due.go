package main

import (
	"context"
	"fmt"
	"time"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// dueZone is a zone in which it is about noon, so that a drill stays within one
// day of its riders.
func dueZone(now time.Time) (name string, zone *time.Location, err error) {
	ahead := 12 - now.UTC().Hour() // hours ahead of UTC; the names count the other way
	name = fmt.Sprintf("Etc/GMT%+d", -ahead)
	if ahead == 0 {
		name = "Etc/GMT"
	}
	zone, err = time.LoadLocation(name)
	return name, zone, err
}

// typical is a week of seven days with two hard ones.
func typical() (week planner.Week, err error) {
	return typed.Week("mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")
}

// dueRider stores a rider in the middle of a taper who is reminded each day at
// that time of theirs.
func dueRider(ctx context.Context, db *storage.DB, club storage.ClubID, key storage.Key, name, zone string, week planner.Week, at time.Time) error {
	a, err := db.EnsureAthlete(ctx, club, key, name)
	if err != nil {
		return err
	}
	today := planner.DateOf(at)
	if err := db.SetWeek(ctx, a.ID, today.AddDays(-30), planner.DatedWeek{From: today.AddDays(-30), Week: week}); err != nil {
		return err
	}
	race := planner.Race{Name: "Hill Loop", Date: today.AddDays(5), Priority: planner.PriorityA, Hours: 3.5, Days: 1}
	if _, _, err := db.AddRace(ctx, a.ID, today.AddDays(-20), race); err != nil {
		return err
	}
	_, err = db.UpdateSettings(ctx, a.ID, today, func(s *storage.Settings) error {
		s.Zone = zone
		s.Remind = storage.Reminders{Mode: storage.RemindAlways, At: at.Format("15:04"), By: storage.RemindDirect, Since: at.Add(-48 * time.Hour)}
		return nil
	})
	return err
}
