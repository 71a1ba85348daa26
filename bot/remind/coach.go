package remind

import (
	"context"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

// How far a reminder looks for what a coach set or wrote: ahead, and back where it
// is the first one.
const (
	coachAhead = 28
	coachBack  = 14
)

// byCoach is what a rider's coach set and wrote: notes of the day, and news of later
// days since the last reminder.
type byCoach struct {
	notes []storage.CoachNote
	news  []say.Line
}

// byCoachOn finds what a reminder of a day has to say of the coach. What was told on
// the day itself or the day before it is known to the rider already.
func byCoachOn(ctx context.Context, b *desk.Base, who *storage.Known, f *planner.Facts, day planner.Date) (c byCoach, err error) {
	all := slices.DeleteFunc(slices.Clone(who.Notes), func(n storage.CoachNote) bool { return n.Date < day || n.Date > day.AddDays(coachAhead) })
	if len(all) == 0 && !slices.ContainsFunc(f.Pins, func(p planner.Pin) bool { return p.Date >= day }) {
		return c, nil
	}
	since, err := b.DB.LastReminder(ctx, who.Athlete.ID, day)
	if err != nil {
		return c, err
	}
	since = max(since, day.AddDays(-coachBack))
	fresh := func(told, about planner.Date) bool { return told >= since && about > day && about > told+1 }
	for _, p := range f.Pins {
		if fresh(p.On, p.Date) {
			c.news = append(c.news, say.Linef("Your coach set %s: %s.", p.Date.Short(), show.CarefulSession(p.Session)))
		}
	}
	for _, n := range all {
		if n.Date == day {
			c.notes = append(c.notes, n)
		} else if fresh(planner.DateOf(n.Added), n.Date) {
			c.news = append(c.news, say.Linef("Your coach, for %s: %s", n.Date.Short(), n.Text))
		}
	}
	return c, nil
}

// Pinned reports a day that is as the coach set it.
func Pinned(d *engine.Day) bool {
	return slices.ContainsFunc(d.Causes, func(c engine.Cause) bool { return c.Code == engine.WhyPinned })
}

// LetGo lets a rider go of what the coach set for a day.
func LetGo(rider string, day planner.Date) say.Button {
	return say.Button{Label: "Let go of it", Command: "coach release", Options: map[string]string{"athlete": rider, "day": day.String()}}
}

// lines are the notes of the day, then the news of later ones.
func (c *byCoach) lines(day planner.Date) []say.Line {
	const most = 5
	news := c.news
	if n := len(news); n > most {
		news = append(slices.Clone(news[:most]), say.Linef("and %d more: /plan show", n-most))
	}
	return append(show.NoteLines(c.notes, day), news...)
}
