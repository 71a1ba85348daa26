package remind

import (
	"context"
	"errors"
	"fmt"
	"time"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// nextDue finds the first day to come that has something to say, as the plan
// stands, and why it is not an earlier one.
func nextDue(ctx context.Context, b *desk.Base, req *desk.Request, a *storage.Athlete, e *desk.Effect, zone *time.Location) ([]say.Line, error) {
	if _, held := desk.Held(e.Facts); held {
		return []say.Line{say.Linef("I send no sessions while your training is held back. After three silent days I ask how you are.")}, nil
	}
	if !desk.Planned(e.Facts) {
		return []say.Line{say.Linef("None comes before you share your typical week, for example"), say.Linef("/week share week:%s", say.Quote(desk.ExampleWeek))}, nil
	}
	r, today := a.Settings.Remind, planner.DateOf(req.Now.In(zone))
	posted, err := b.DB.Posted(ctx, storage.Post{Kind: storage.PostReminder, Key: a.PostKey(), Day: today})
	if err != nil {
		return nil, err
	}
	way := map[storage.RemindBy]string{storage.RemindDirect: "by direct message", storage.RemindThread: "in a private thread"}[r.By]
	var lines []say.Line
	if r.Pause >= today {
		lines = append(lines, say.Linef("To end the pause: /me set pause:0"))
	}
	var late string // why today's does not come
	for i := range e.After.Days {
		day := e.After.Days[i].Date
		due, ok := DueAt(day, r.At, zone)
		o := OccasionOf(e.After, e.Facts, day)
		if day <= r.Pause || !ok || !o.Due(r.Mode) {
			continue
		}
		if day == today && posted {
			late = "Today's has come already: there is one a day."
			continue
		}
		if !due.After(req.Now) {
			late = fmt.Sprintf("It is past %s now, so nothing comes today.", r.At)
			continue
		}
		next := say.Linef("The next one comes %s %s (%s), %s.", remindDay(day, today), due.Format("15:04"), zone, way)
		if lines = append(lines, next); late != "" {
			lines = append(lines, say.Linef("%s", late))
		} else if day > max(today, r.Pause)+1 {
			lines = append(lines, say.Linef("%s", waits(r.Mode)))
		}
		other, err := otherClub(ctx, b, a, day, due, req.Now)
		if err != nil || other == "" {
			return lines, err
		}
		return append(lines, say.Linef("You get one reminder a day, and that day's comes from %s.", other)), nil
	}
	return append(lines, say.Linef("The next one comes at %s (%s) once a race is near, a week before its taper, %s.", r.At, zone, way)), nil
}

// waits says why the first reminder is days away.
func waits(mode storage.Remind) string {
	if mode == storage.RemindAlways {
		return "Before that no race is near. Reminders begin a week before a taper, or before the last days to a B race."
	}
	return "Before that no day near a race differs from your usual week, so none is due."
}

// otherClub is the name of the club that reminds a person on a day instead of the
// rider's, "" where none does: of several the one that they chose, else the earlier.
func otherClub(ctx context.Context, b *desk.Base, a *storage.Athlete, day planner.Date, due, now time.Time) (string, error) {
	if a.PostKey() != a.Key { // a name rides for one club
		return "", nil
	}
	clubs, err := b.DB.ClubsOf(ctx, a.Key)
	if err != nil || len(clubs) < 2 {
		return "", err
	}
	chosen, err := b.DB.FindPerson(ctx, a.Key)
	if err != nil || chosen.Club == a.Club {
		return "", err
	}
	var name string
	for _, club := range clubs {
		if club.ID == a.Club {
			continue
		}
		other, err := b.DB.FindAthlete(ctx, club.ID, a.Key)
		if errors.Is(err, storage.ErrNotFound) || err == nil && !other.Left.IsZero() {
			continue
		}
		if err != nil {
			return "", err
		}
		comes, ok, err := comesFrom(ctx, b, other, day, now)
		switch {
		case err != nil:
			return "", err
		case !ok:
		case club.ID == chosen.Club:
			return club.Name, nil
		case comes.Before(due) || comes.Equal(due) && other.ID < a.ID:
			due, name = comes, club.Name
		}
	}
	return name, nil
}

// comesFrom is when another club reminds a person on a day, ok where it does.
func comesFrom(ctx context.Context, b *desk.Base, a storage.Athlete, day planner.Date, now time.Time) (due time.Time, ok bool, err error) {
	r := a.Settings.Remind
	zone, err := desk.LoadZone(a.Zone)
	if err != nil || r.Pause >= day {
		return due, false, err
	}
	if due, ok = DueAt(day, r.At, zone); !ok || !due.After(now) {
		return due, false, nil
	}
	who, err := b.DB.KnownOf(ctx, day, a.ID)
	if err != nil {
		return due, false, err
	}
	_, ok, err = Reminder(ctx, b, who, day, due)
	return due, ok, err
}

// remindDay is a day in the middle of a sentence.
func remindDay(day, today planner.Date) string {
	switch day {
	case today:
		return "today"
	case today.AddDays(1):
		return "tomorrow"
	}
	return show.Dated(day, today)
}
